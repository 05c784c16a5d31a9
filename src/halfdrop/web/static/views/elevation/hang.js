// @ts-check
/** Hang a treatment at an opening of this wall, or put an opening or a fitting in it; each begins with what practice works out. */
import { html, nothing, sentence } from "../../lib/html.js";
import { say, state } from "../../state.js";
import { looking, sheet } from "../plan/sheet.js";
import { TypesDialog } from "../plan/types.js";

const dialog = new TypesDialog("hang");
export const openHang = () => dialog.show();

/** @param {any} type */
async function hangUp(type) {
  const fabric = dialog.chosen("hang-cloth");
  const value = { ...structuredClone(type.document), openings: [dialog.chosen("hang-at")], ...(fabric ? { fabric } : {}) };
  if (await dialog.put("treatments", type.type.split(",")[0], value)) say(`${sentence(type.type)}: rod, length and cloth as practice works them out`);
}

/** The walls of this elevation. */
function wallsHere() {
  const corners = (looking.wall || "").match(/[A-Z][0-9]{0,2}/g) || [];
  return corners.slice(1).map((corner, i) => corners[i] + corner);
}

/** @param {any[]} openings */
function atAnOpening(openings) {
  const fabrics = Object.entries(state.job?.document.fabrics || {});
  return html`<h3>At an opening</h3>
    <p>At the <select class="blank" id="hang-at" aria-label="opening">${openings.map((o) => html`<option value=${o.id}>${o.name}</option>`)}</select>${fabrics.length ? html` in <select class="blank" id="hang-cloth" aria-label="cloth"><option value="">no cloth named</option>${fabrics.map(([id, f]) => html`<option value=${id}>${/** @type {any} */ (f).name}</option>`)}</select>` : nothing}:</p>
    <ul class="types">${(dialog.types.treatments || []).map((/** @type {any} */ t) => html`<li><button @click=${() => hangUp(t)}><span>${t.type}</span></button></li>`)}</ul>`;
}

export function hangDialog() {
  if (!dialog.open || !dialog.types) return nothing;
  const openings = sheet.things.filter((t) => t.kind === "opening");
  return html`<dialog id="hang" class="put-in" aria-labelledby="hang-head" @close=${() => dialog.closed()}>
    <h2 id="hang-head">Hang or put something in</h2>
    <p class="quiet">Rod, lengths and cloth are what practice works out, until you give your own on the slip.</p>
    ${dialog.fault ? html`<p class="put-fault" role="alert">${dialog.fault}</p>` : nothing}
    ${openings.length ? atAnOpening(openings) : html`<p>This wall has no opening to hang anything at.</p>`}
    ${dialog.inWall(wallsHere())}
    <p class="ways"><button class="word" @click=${() => dialog.shut()}>Nothing</button></p>
  </dialog>`;
}
