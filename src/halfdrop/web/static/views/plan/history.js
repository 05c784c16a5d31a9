// @ts-check
/** What was done to the job, newest first, with its time and who did it; any step can be taken back. */
import { get, query, seg } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { faulted, redraw, state, turnBack } from "../../state.js";

/** @type {any[]} */
let revisions = [];
let open = false;

export async function loadHistory() {
  if (!open || !state.job) return;
  try {
    const out = await get(`/api/jobs/${seg(state.job.id)}/revisions${query({ since: Math.max(0, state.job.revision - 200) })}`);
    revisions = [...(out.revisions || out)].sort((a, b) => b.revision - a.revision);
    redraw();
  } catch (error) {
    faulted(error);
  }
}

const clock = new Intl.DateTimeFormat(undefined, { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });

export function history() {
  const undone = new Set(revisions.filter((r) => r.kind === "undo").map((r) => r.undoes));
  return html`<details class="history" ?open=${open} @toggle=${(/** @type {any} */ e) => { open = e.target.open; if (open) e.target.scrollIntoView({ block: "start" }); loadHistory(); }}>
    <summary>History</summary>
    <ol>${revisions.map((r) => html`<li><span class="num small quiet">${r.revision}</span><span>${r.message || r.kind}<span class="small quiet"> · ${clock.format(new Date(r.time))}, ${r.author}</span></span>
      ${r.revision > 1 && r.kind !== "undo" && !undone.has(r.revision) ? html`<button class="word small" aria-label=${`Take back: ${r.message}`} @click=${() => turnBack("undo", r.revision)}>take back</button>` : nothing}</li>`)}</ol>
  </details>`;
}
