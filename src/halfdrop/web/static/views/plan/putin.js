// @ts-check
/** Put something in: a list of types, each with the size it usually has, or a size of one's own. */
import { get, query } from "../../api.js";
import { freeId, html, nothing, sentence } from "../../lib/html.js";
import { faulted, redraw, say, state } from "../../state.js";
import { keep, pickThing, sheet, tried } from "./sheet.js";

/** @type {any} */
let types = null;
let open = false;
let fault = "";

export async function openPutIn() {
  open = true;
  fault = "";
  redraw();
  try {
    types = await get(`/api/types${query({ units: state.job.document.job.units })}`);
  } catch (error) {
    open = false;
    faulted(error);
  }
  redraw();
  requestAnimationFrame(() => {
    const box = /** @type {HTMLDialogElement | null} */ (document.getElementById("put-in"));
    if (box && !box.open) box.showModal();
  });
}

function shut() {
  open = false;
  /** @type {any} */ (document.getElementById("put-in"))?.close();
  redraw();
}

/** A free place near the room's middle, as text a tape could read. */
function middle() {
  const ring = sheet.view.outline;
  const metric = state.job.document.job.units === "metric";
  const text = (/** @type {number} */ m) => (metric ? `${Math.round(m * 100)} cm` : `${Math.round(m / 0.0254)} in`);
  const mean = (/** @type {number} */ k) => ring.reduce((/** @type {number} */ sum, /** @type {number[]} */ p) => sum + p[k], 0) / ring.length;
  return { x: text(mean(0)), y: text(mean(1)) };
}

/** Put a thing into a collection of the room; the answer is what stands in the way, or nothing. @param {string} collection @param {string} words @param {any} value @param {() => void} done */
export async function putThing(collection, words, value, done) {
  const room = /** @type {string} */ (state.place.room);
  const holder = state.job.document.rooms[room][collection];
  const taken = [...Object.keys(holder || {}), ...sheet.things.filter((t) => t.path.startsWith(`rooms/${room}/${collection}/`)).map((t) => t.id)];
  const id = freeId(words, taken);
  const path = `rooms/${room}/${collection}/${id}`;
  const patch = [...(holder || taken.length ? [] : [{ op: "add", path: `/rooms/${room}/${collection}`, value: {} }]), { op: "add", path: `/${path}`, value }];
  try {
    await tried({ patch, live: true });
    done();
    await keep(patch, { message: `${words} put in` });
    sheet.thing = path;
    setTimeout(() => pickThing(path), 0);
    return "";
  } catch (error) {
    return [/** @type {any} */ (error).message, /** @type {any} */ (error).hint].filter(Boolean).join("; ");
  }
}

/** @param {string} collection @param {string} words @param {any} value */
async function put(collection, words, value) {
  fault = await putThing(collection, words, value, shut);
  if (!fault) say(`${sentence(words)} is in the room; drag it to its place`);
  redraw();
}

/** @param {any} type */
export function sizeOf({ document: d }) {
  return [d.width, d.depth || d.length, d.height].filter(Boolean).join(" × ").replace(/ (in|mm|cm|m)(?= ×)/g, "");
}

/** @param {SubmitEvent} event */
function own(event) {
  event.preventDefault();
  const form = new FormData(/** @type {HTMLFormElement} */ (event.target));
  const text = (/** @type {string} */ key) => String(form.get(key) || "").trim();
  const kind = text("kind");
  if (kind === "rug") return put("rugs", text("name") || "rug", { ...(text("name") ? { name: text("name") } : {}), width: text("width"), length: text("depth"), at: middle() });
  return put("pieces", text("name") || kind, { type: kind, ...(text("name") ? { name: text("name") } : {}), width: text("width"), depth: text("depth"), height: text("height"), at: middle() });
}

/** @param {string} collection @param {any} kind */
function putAtWall(collection, kind) {
  const wall = /** @type {HTMLSelectElement} */ (document.getElementById("put-wall")).value;
  const value = { ...kind.document, wall, along: /** @type {HTMLInputElement} */ (document.getElementById("put-along")).value };
  if (kind.kind === "door") value.hinge = wall.match(/[A-Z][0-9]{0,2}/)?.[0];
  put(collection, kind.kind, value);
}

export function putIn() {
  if (!open || !types) return nothing;
  const metric = state.job.document.job.units === "metric";
  const pieces = types.pieces || [], openings = types.openings || [], fittings = types.fittings || [], rugs = types.rugs || [];
  return html`<dialog id="put-in" class="put-in" aria-labelledby="put-in-head" @close=${() => { open = false; redraw(); }}>
    <h2 id="put-in-head">Put something in</h2>
    <p class="quiet">Sizes are what such a thing usually has; change them on its slip once it stands.</p>
    ${fault ? html`<p class="put-fault" role="alert">${fault}</p>` : nothing}
    <h3>Pieces</h3>
    <ul class="types">${pieces.map((/** @type {any} */ t) => html`<li><button @click=${() => put("pieces", t.type, { ...t.document, at: middle() })}><span>${t.type}</span><span class="num quiet">${sizeOf(t)}</span></button></li>`)}</ul>
    ${rugs.length ? html`<h3>Rugs</h3><ul class="types">${rugs.map((/** @type {any} */ t) => html`<li><button @click=${() => put("rugs", "rug", { ...t.document, at: middle() })}><span>rug</span><span class="num quiet">${sizeOf(t)}</span></button></li>`)}</ul>` : nothing}
    <form class="own" @submit=${own}>
      <h3>One of your own</h3>
      <p>A <select class="blank" name="kind" aria-label="type"><option>rug</option>${pieces.map((/** @type {any} */ t) => html`<option .selected=${t.type === "other"}>${t.type}</option>`)}</select>
      called <input class="blank" name="name" size="16" aria-label="name" autocomplete="off">, <input class="blank num" name="width" size="6" required aria-label="width" placeholder=${metric ? "80 cm" : "33 in"} autocomplete="off"> wide,
      <input class="blank num" name="depth" size="6" required aria-label="depth or length" placeholder=${metric ? "85 cm" : "34 in"} autocomplete="off"> deep or long, <input class="blank num" name="height" size="6" aria-label="height" placeholder=${metric ? "75 cm" : "30 in"} autocomplete="off"> high. <button class="deed">Put it in</button></p>
    </form>
    <h3>In a wall</h3>
    <p>In wall <select class="blank" id="put-wall" aria-label="wall">${sheet.view.walls.map((/** @type {any} */ w) => html`<option>${w.name}</option>`)}</select>, <input id="put-along" class="blank num" size="6" value=${metric ? "50 cm" : "20 in"} aria-label="along the wall" autocomplete="off"> from its first corner:</p>
    <ul class="types">
      ${openings.map((/** @type {any} */ k) => html`<li><button @click=${() => putAtWall("openings", k)}><span>${k.kind}</span><span class="num quiet">${sizeOf(k)}</span></button></li>`)}
      ${fittings.map((/** @type {any} */ k) => html`<li><button @click=${() => putAtWall("fittings", k)}><span>${k.kind}</span><span class="num quiet">${sizeOf(k)}</span></button></li>`)}
    </ul>
    <p class="ways"><button class="word" @click=${shut}>Put nothing in</button></p>
  </dialog>`;
}
