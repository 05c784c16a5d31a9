// @ts-check
/** What the judge notes of the room's colors: weighed with its working, and put right by a remedy that was tried. */
import { finished, post } from "../../api.js";
import { freeId, html, nothing, sentence } from "../../lib/html.js";
import { priced } from "../../lib/money.js";
import { edit, faulted, go, hashOf, redraw, say, state } from "../../state.js";
import { preview, room, roomPath } from "./room.js";

/** @typedef {{state: "asked" | "done", working: any[], remedies: any[]}} Weighed */

/** By revision, scheme and finding. @type {Map<string, Weighed>} */
const weighed = new Map();
/** @type {{finding: any, remedy: any} | null} a remedy that waits for a scheme's name */
let naming = null;

/** @param {any} finding */
const keyOf = (finding) => [state.place.job, state.place.scheme, room.colors?.revision, finding.id].join(" ");

/** @param {any} finding */
async function weigh(finding) {
  const key = keyOf(finding);
  if (weighed.has(key)) return;
  weighed.set(key, { state: "asked", working: [], remedies: [] });
  redraw();
  try {
    const { task } = await post(`${roomPath()}/remedies`, { scheme: state.place.scheme, finding: finding.id });
    const out = await finished(task, () => {});
    const found = out.result.findings.find((/** @type {any} */ f) => f.id === finding.id) || {};
    weighed.set(key, { state: "done", working: found.working || [], remedies: found.remedies || [] });
    say(`weighed: ${found.remedies?.length || "no"} ${found.remedies?.length === 1 ? "remedy" : "remedies"}`);
  } catch (error) {
    weighed.delete(key);
    faulted(error);
  }
  redraw();
}

/** @param {any} finding @param {any} remedy */
function take(finding, remedy) {
  if (state.place.scheme) return keep(finding, remedy, state.place.scheme, null);
  naming = { finding, remedy };
  redraw();
  requestAnimationFrame(() => /** @type {any} */ (document.getElementById("color-scheme-name"))?.select());
}

/** @param {any} finding @param {any} remedy @param {string} scheme @param {string | null} name */
async function keep(finding, remedy, scheme, name) {
  naming = null;
  const { sent } = await edit({ patch: remedy.patch, scheme, schemeName: name, kind: "remedy", finding: finding.id, cost: remedy.cost, message: remedy.title });
  if (state.place.scheme === scheme) return;
  await sent;
  go({ scheme });
}

/** @param {Event} event */
function named(event) {
  event.preventDefault();
  const name = /** @type {HTMLInputElement} */ (document.getElementById("color-scheme-name")).value.trim();
  if (!naming || !name) return;
  keep(naming.finding, naming.remedy, freeId(name, Object.keys(state.job.document.schemes || {})), name);
}

/** A working, step by step. @param {any} one */
export function working(one) {
  return html`<table class="working"><caption>${one.title}</caption><tbody>${one.steps.map((/** @type {any} */ s) => html`<tr><th scope="row">${sentence(s.what)}<span class="small quiet why">${s.formula}</span></th><td>${s.values}${s.source ? html`<span class="small quiet why">${s.source}</span>` : nothing}</td><td class="num">${s.result}</td></tr>`)}</tbody></table>`;
}

/** @param {any} finding @param {any} remedy */
function remedyOf(finding, remedy) {
  const cost = remedy.cost ? priced(remedy.cost) : remedy.unpriced?.length ? `price of ${remedy.unpriced.join(", ")} not known` : "";
  return html`<li class="remedy"><p class="what">${remedy.title}</p>${cost ? html`<p class="small quiet">${cost}</p>` : nothing}
    ${naming?.remedy === remedy
      ? html`<form class="naming" @submit=${named}><label for="color-scheme-name">The room as found stays as it is; a remedy goes into a scheme. Call this scheme</label><span class="row"><input id="color-scheme-name" class="blank" maxlength="80" required value="First scheme"><button class="deed">Begin it</button></span></form>`
      : html`<p class="ways"><button class="word" aria-pressed=${room.preview?.id === `${finding.id} ${remedy.id}` ? "true" : "false"} aria-label=${`Draw it: ${remedy.title}`} @click=${() => preview(`${finding.id} ${remedy.id}`, remedy.patch)}>Draw it</button><button class="word" aria-label=${`Take it: ${remedy.title}`} @click=${() => take(finding, remedy)}>Take it</button></p>`}</li>`;
}

/** @param {any} f */
function note(f) {
  const found = weighed.get(keyOf(f));
  return html`<li data-note=${f.id}><p class="says">${f.grade === "taste" ? nothing : html`<strong>${sentence(f.grade)}.</strong> `}${f.message}</p>
    ${!found ? html`<p class="ways"><button class="word" aria-label=${`Weigh it: ${f.message}`} @click=${() => weigh(f)}>Weigh it</button></p>` : nothing}
    ${found?.state === "asked" ? html`<p class="quiet" role="status">Weighing, and trying what would help…</p>` : nothing}
    ${found?.state === "done" ? html`${found.working.map(working)}${found.remedies.length ? html`<ol class="remedies">${found.remedies.map((r) => remedyOf(f, r))}</ol>` : html`<p class="small quiet">Nothing halfdrop can try settles this; it is for you to decide.</p>`}` : nothing}</li>`;
}

/** The notes on color of this room. */
export function notes() {
  const found = room.colors.findings;
  return html`<section class="noted" aria-labelledby="color-notes"><h2 id="color-notes">What the judge notes</h2>
    ${found.length ? html`<ul class="color-notes">${found.map(note)}</ul>` : html`<p class="quiet">Nothing about its colors.</p>`}
    <p class="small"><a class="word" href=${hashOf({ view: "plan" })}>All notes, on the plan</a></p></section>`;
}
