// @ts-check
/** Hang a treatment at an opening of this wall, or put an opening or a fitting in it; each begins with what practice works out. */
import { get, query } from "../../api.js";
import { html, nothing, sentence } from "../../lib/html.js";
import { faulted, redraw, say, state } from "../../state.js";
import { putThing, sizeOf } from "../plan/putin.js";
import { looking, sheet } from "../plan/sheet.js";

/** @type {any} */
let types = null;
let open = false;
let fault = "";

export async function openHang() {
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
    const box = /** @type {HTMLDialogElement | null} */ (document.getElementById("hang"));
    if (box && !box.open) box.showModal();
  });
}

function shut() {
  open = false;
  /** @type {any} */ (document.getElementById("hang"))?.close();
  redraw();
}

/** @param {string} name */
const chosen = (name) => /** @type {HTMLSelectElement | null} */ (document.getElementById(name))?.value || "";

/** @param {any} type */
async function hangUp(type) {
  const openings = chosen("hang-at");
  const fabric = chosen("hang-cloth");
  const value = { ...structuredClone(type.document), openings: [openings], ...(fabric ? { fabric } : {}) };
  fault = await putThing("treatments", type.type.split(",")[0], value, shut);
  if (!fault) say(`${sentence(type.type)}: rod, length and cloth as practice works them out`);
  redraw();
}

/** @param {string} collection @param {any} kind */
async function putIn(collection, kind) {
  const wall = chosen("hang-wall") || looking.wall || "";
  const value = { ...kind.document, wall, along: /** @type {HTMLInputElement} */ (document.getElementById("hang-along")).value };
  if (kind.kind === "door") value.hinge = wall.match(/[A-Z][0-9]{0,2}/)?.[0];
  fault = await putThing(collection, kind.kind, value, shut);
  redraw();
}

/** The walls of this elevation. */
function wallsHere() {
  const corners = (looking.wall || "").match(/[A-Z][0-9]{0,2}/g) || [];
  return corners.slice(1).map((corner, i) => corners[i] + corner);
}

export function hangDialog() {
  if (!open || !types) return nothing;
  const metric = state.job.document.job.units === "metric";
  const openings = sheet.things.filter((t) => t.kind === "opening");
  const fabrics = Object.entries(state.job.document.fabrics || {});
  return html`<dialog id="hang" class="put-in" aria-labelledby="hang-head" @close=${() => { open = false; redraw(); }}>
    <h2 id="hang-head">Hang or put something in</h2>
    <p class="quiet">Rod, lengths and cloth are what practice works out, until you give your own on the slip.</p>
    ${fault ? html`<p class="put-fault" role="alert">${fault}</p>` : nothing}
    ${openings.length
      ? html`<h3>At an opening</h3>
        <p>At the <select class="blank" id="hang-at" aria-label="opening">${openings.map((o) => html`<option value=${o.id}>${o.name}</option>`)}</select>${fabrics.length ? html` in <select class="blank" id="hang-cloth" aria-label="cloth"><option value="">no cloth named</option>${fabrics.map(([id, f]) => html`<option value=${id}>${/** @type {any} */ (f).name}</option>`)}</select>` : nothing}:</p>
        <ul class="types">${(types.treatments || []).map((/** @type {any} */ t) => html`<li><button @click=${() => hangUp(t)}><span>${t.type}</span></button></li>`)}</ul>`
      : html`<p>This wall has no opening to hang anything at.</p>`}
    <h3>In the wall</h3>
    <p>In wall <select class="blank" id="hang-wall" aria-label="wall">${wallsHere().map((w) => html`<option>${w}</option>`)}</select>, <input id="hang-along" class="blank num" size="6" value=${metric ? "50 cm" : "20 in"} aria-label="along the wall" autocomplete="off"> from its first corner:</p>
    <ul class="types">
      ${(types.openings || []).map((/** @type {any} */ k) => html`<li><button @click=${() => putIn("openings", k)}><span>${k.kind}</span><span class="num quiet">${sizeOf(k)}</span></button></li>`)}
      ${(types.fittings || []).map((/** @type {any} */ k) => html`<li><button @click=${() => putIn("fittings", k)}><span>${k.kind}</span><span class="num quiet">${sizeOf(k)}</span></button></li>`)}
    </ul>
    <p class="ways"><button class="word" @click=${shut}>Nothing</button></p>
  </dialog>`;
}
