// @ts-check
/** Put something in: a list of types, each with the size it usually has, or a size of one's own. */
import { html, nothing, sentence } from "../../lib/html.js";
import { say, state } from "../../state.js";
import { sheet } from "./sheet.js";
import { TypesDialog, sizeOf } from "./types.js";

const dialog = new TypesDialog("put-in");
export const openPutIn = () => dialog.show();

/** A free place near the room's middle, as text a tape could read. */
function middle() {
  const ring = sheet.view.outline;
  const metric = state.job.document.job.units === "metric";
  const text = (/** @type {number} */ m) => (metric ? `${Math.round(m * 100)} cm` : `${Math.round(m / 0.0254)} in`);
  const mean = (/** @type {number} */ k) => ring.reduce((/** @type {number} */ sum, /** @type {number[]} */ p) => sum + p[k], 0) / ring.length;
  return { x: text(mean(0)), y: text(mean(1)) };
}

/** @param {string} collection @param {string} words @param {any} value */
async function put(collection, words, value) {
  if (await dialog.put(collection, words, value)) say(`${sentence(words)} is in the room; drag it to its place`);
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

export function putIn() {
  const { types } = dialog;
  if (!dialog.open || !types) return nothing;
  const metric = state.job.document.job.units === "metric";
  const pieces = types.pieces || [], rugs = types.rugs || [];
  return html`<dialog id="put-in" class="put-in" aria-labelledby="put-in-head" @close=${() => dialog.closed()}>
    <h2 id="put-in-head">Put something in</h2>
    <p class="quiet">Sizes are what such a thing usually has; change them on its slip once it stands.</p>
    ${dialog.fault ? html`<p class="put-fault" role="alert">${dialog.fault}</p>` : nothing}
    <h3>Pieces</h3>
    <ul class="types">${pieces.map((/** @type {any} */ t) => html`<li><button @click=${() => put("pieces", t.type, { ...t.document, at: middle() })}><span>${t.type}</span><span class="num quiet">${sizeOf(t)}</span></button></li>`)}</ul>
    ${rugs.length ? html`<h3>Rugs</h3><ul class="types">${rugs.map((/** @type {any} */ t) => html`<li><button @click=${() => put("rugs", "rug", { ...t.document, at: middle() })}><span>rug</span><span class="num quiet">${sizeOf(t)}</span></button></li>`)}</ul>` : nothing}
    <form class="own" @submit=${own}>
      <h3>One of your own</h3>
      <p>A <select class="blank" name="kind" aria-label="type"><option>rug</option>${pieces.map((/** @type {any} */ t) => html`<option .selected=${t.type === "other"}>${t.type}</option>`)}</select>
      called <input class="blank" name="name" size="16" aria-label="name" autocomplete="off">, <input class="blank num" name="width" size="6" required aria-label="width" placeholder=${metric ? "80 cm" : "33 in"} autocomplete="off"> wide,
      <input class="blank num" name="depth" size="6" required aria-label="depth or length" placeholder=${metric ? "85 cm" : "34 in"} autocomplete="off"> deep or long, <input class="blank num" name="height" size="6" aria-label="height" placeholder=${metric ? "75 cm" : "30 in"} autocomplete="off"> high. <button class="deed">Put it in</button></p>
    </form>
    ${dialog.inWall(sheet.view.walls.map((/** @type {any} */ w) => w.name))}
    <p class="ways"><button class="word" @click=${() => dialog.shut()}>Put nothing in</button></p>
  </dialog>`;
}
