// @ts-check
/** A finding's remedies: proven by the server, drawn in slate before they are taken. */
import { call, finished, post, seg } from "../../api.js";
import { freeId, html, nothing } from "../../lib/html.js";
import { priced } from "../../lib/money.js";
import { faulted, go, redraw, state } from "../../state.js";
import { dropPreview, keep, preview, roomPath, sheet } from "./sheet.js";

/** @typedef {{state: "asked" | "done" | "failed", remedies: any[], done: number, total: number, task: string, stop: AbortController}} Proof */

/** By revision, scheme and finding. @type {Map<string, Proof>} */
const proofs = new Map();
/** @type {{finding: any, remedy: any, fault: string} | null} a remedy that waits for a scheme's name */
let naming = null;

/** @param {any} finding */
const keyOf = (finding) => [state.place.job, state.place.room, state.place.scheme, sheet.view?.revision, finding.id].join(" ");

/** Stop what is under way; its worker is free at once. @param {Proof} proof */
function stop(proof) {
  proof.stop.abort();
  if (proof.task) call("DELETE", `/api/tasks/${seg(proof.task)}`).catch(() => {});
}

/** Seek what would put a finding right; what was sought for another note is stopped, for nobody looks at it. @param {any} finding */
export async function prove(finding) {
  const key = keyOf(finding);
  for (const [other, proof] of proofs) if (other !== key && proof.state === "asked") stop(proof);
  if (proofs.has(key)) return;
  /** @type {Proof} */
  const proof = { state: "asked", remedies: [], done: 0, total: 0, task: "", stop: new AbortController() };
  proofs.set(key, proof);
  redraw();
  try {
    const { task } = await post(`${roomPath()}/remedies`, { scheme: state.place.scheme, finding: finding.id });
    proof.task = task;
    if (proof.stop.signal.aborted) stop(proof);
    const out = await finished(task, (now) => {
      proof.done = now.done ?? 0;
      proof.total = now.total ?? 0;
      redraw();
    }, proof.stop.signal);
    proof.remedies = out.result.findings.find((/** @type {any} */ f) => f.id === finding.id)?.remedies || [];
    proof.state = "done";
  } catch (error) {
    proof.state = "failed";
    proofs.delete(key);
    faulted(error);
  }
  redraw();
}

/** @param {any} finding @param {any} remedy */
async function takeIt(finding, remedy) {
  if (!state.place.scheme) {
    naming = { finding, remedy, fault: "" };
    redraw();
    requestAnimationFrame(() => /** @type {any} */ (document.getElementById("scheme-name"))?.select());
    return;
  }
  await take(finding, remedy, state.place.scheme, null);
}

/** @param {any} finding @param {any} remedy @param {string} scheme @param {string | null} name */
async function take(finding, remedy, scheme, name) {
  naming = null;
  try {
    sheet.note = null;
    await keep(remedy.patch, { scheme, schemeName: name, kind: "remedy", finding: finding.id, cost: remedy.cost, message: remedy.title });
    dropPreview();
    if (state.place.scheme !== scheme) go({ scheme });
  } catch {
    /* said by the outbox */
  }
  redraw();
}

/** @param {Event} event */
function named(event) {
  event.preventDefault();
  if (!naming) return;
  const name = /** @type {HTMLInputElement} */ (document.getElementById("scheme-name")).value.trim();
  if (!name) return;
  const id = freeId(name, Object.keys(state.job.document.schemes || {}));
  take(naming.finding, naming.remedy, id, name);
}

/** @param {any} finding @param {any} remedy */
function one(finding, remedy) {
  const shown = sheet.preview?.id === remedy.id;
  const cost = remedy.cost ? priced(remedy.cost) : (remedy.unpriced?.length ? `price of ${remedy.unpriced.join(", ")} not known` : "");
  const others = remedy.proof.cleared.length - 1;
  return html`<li class=${shown ? "remedy shown" : "remedy"}>
    <p class="what">${remedy.title}</p>
    <p class="small quiet">${[others > 0 ? `clears ${others} more ${others === 1 ? "note" : "notes"}` : "", remedy.proof.lesser.length ? `brings ${remedy.proof.lesser.length} lesser` : "", cost].filter(Boolean).join(" · ")}</p>
    <p class="ways">
      ${shown
        ? html`<button class="deed" @click=${() => takeIt(finding, remedy)}>Take it</button><button class="word" @click=${dropPreview}>Leave it</button>`
        : html`<button class="word" @click=${() => preview(remedy.id, remedy.patch)} aria-label=${`Draw it: ${remedy.title}`}>Draw it</button>`}
    </p>
    ${shown && naming ? html`<form class="naming" @submit=${named}>
      <label for="scheme-name">The room as found stays as it is; a remedy goes into a scheme. Call this scheme</label>
      <span class="row"><input id="scheme-name" class="blank" maxlength="80" required value="First scheme"><button class="deed">Begin it</button></span></form>` : nothing}
  </li>`;
}

/** @param {any} finding */
export function remedies(finding) {
  const proof = proofs.get(keyOf(finding));
  if (!proof) return html`<p class="ways"><button class="word" @click=${() => prove(finding)}>What would put it right</button></p>`;
  if (proof.state === "asked") return html`<p class="ways"><span class="quiet" role="status">Trying remedies${proof.total > 1 ? ` (${proof.done} of ${proof.total})` : ""}…</span><button class="word small" @click=${() => stop(proof)}>Stop</button></p>`;
  if (!proof.remedies.length) return html`<p class="quiet">No remedy that halfdrop knows clears this without a new fault of the same grade. It may take two changes together.</p>`;
  return html`<h2 class="small-head">${proof.remedies.length === 1 ? "One remedy, tried on this room" : `${proof.remedies.length} remedies, each tried on this room`}</h2><ol class="remedies">${proof.remedies.map((r) => one(finding, r))}</ol>`;
}
