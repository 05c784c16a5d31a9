// @ts-check
/** A job file that was edited elsewhere comes back: what it changes is shown, then taken in as one revision. */
import { post, seg } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { redraw, say, signature } from "../../state.js";

/** @type {{job: any, name: string, text: string, told: any, fault: string, hint: string, theirs: any[]} | null} */
let back = null;
/** Most changes listed. */
const LISTED = 24;

/** @param {any} job @param {any} event */
async function read(job, event) {
  const file = event.target.files[0];
  event.target.value = "";
  if (!file) return;
  back = { job, name: file.name, text: await file.text(), told: null, fault: "", hint: "", theirs: [] };
  await ask(false);
}

/** @param {boolean} take @param {boolean} [over] */
async function ask(take, over = false) {
  if (!back) return null;
  const { job, name, text, told } = back;
  try {
    back.told = await post(`/api/jobs/${seg(job.id)}/file`, { name, text, take, over, ...(told ? { base: told.base } : {}) }, undefined, { "Halfdrop-Author": encodeURIComponent(signature()) });
    back.fault = "";
  } catch (error) {
    const refused = /** @type {any} */ (error);
    back.fault = refused.message;
    back.hint = refused.hint || "";
    back.theirs = refused.body?.revisions || [];
  }
  redraw();
  return back.fault ? null : back.told;
}

/** @param {() => Promise<void>} then @param {boolean} [over] */
async function take(then, over = false) {
  const done = await ask(true, over);
  if (!done || !back) return;
  say(done.revision ? `${back.name} is taken in as revision ${done.revision}` : `${back.name} says what the job says`);
  back = null;
  await then();
}

function leave() {
  back = null;
  redraw();
}

/** The way to bring a file back, for a job's line. @param {any} job */
export const bring = (job) => html`<label class="word small file">bring an edited file back<input class="unseen" type="file" accept=".yaml,.yml,.json" aria-label=${`Bring an edited file of ${job.name} back`} @change=${(/** @type {any} */ e) => read(job, e)}></label>`;

/** What a file that came back would change. @param {any} job @param {() => Promise<void>} then */
export function comesBack(job, then) {
  if (back?.job.id !== job.id) return nothing;
  const { told, fault, hint, name, theirs } = /** @type {NonNullable<typeof back>} */ (back);
  if (fault) {
    return html`<section class="back" role="alert" aria-label=${`${name} comes back`}>
      <p>${name} is not taken in: ${fault}.</p>${theirs.length ? html`<ul class="lines">${theirs.map((r) => html`<li>Revision ${r.revision}, ${r.author}: ${r.message}</li>`)}</ul>` : hint ? html`<p class="quiet">${hint}</p>` : nothing}
      <p class="ways">${theirs.length ? html`<button class="word" @click=${() => take(then, true)}>Take it in all the same</button><button class="word" @click=${leave}>Leave theirs</button>` : html`<button class="word" @click=${leave}>Put away</button>`}</p></section>`;
  }
  if (!told) return html`<section class="back"><p class="quiet">Reading ${name}…</p></section>`;
  const n = told.changes.length;
  return html`<section class="back" aria-label=${`${name} comes back`}>
    <p>${n ? html`${name} was taken out at revision ${told.base}; since then ${n === 1 ? "one thing was" : `${n} things were`} edited in it.${told.latest > told.base ? ` The job is at revision ${told.latest} now: what changed meanwhile stays.` : ""}` : html`${name} says what the job says. Its comments can be kept.`}</p>
    ${n ? html`<table class="num"><thead><tr><th scope="col">What</th><th scope="col">was</th><th scope="col">is now</th></tr></thead><tbody>
      ${told.changes.slice(0, LISTED).map((/** @type {any} */ c) => html`<tr><th scope="row">${c.path.replace(/^rooms\//, "").replaceAll("/", " · ")}</th><td>${c.was ?? "nothing"}</td><td>${c.now ?? "nothing"}</td></tr>`)}</tbody></table>
      ${n > LISTED ? html`<p class="quiet">and ${n - LISTED} more</p>` : nothing}` : nothing}
    <p class="ways"><button class="deed" @click=${() => take(then)}>${n ? "Take this file in as a revision" : "Keep its comments"}</button><button class="word" @click=${leave}>Leave it</button></p>
  </section>`;
}
