// @ts-check
/** The title strip: job, room, scheme, scale, revision, and what was said last. */
import { html, nothing } from "./lib/html.js";
import { go, outbox, redraw, state, turnBack } from "./state.js";

/** Set by a view that draws to scale: the bar's length in px and what it stands for. @type {{px: number, text: string} | null} */
let bar = null;

/** @param {{px: number, text: string} | null} next */
export function scaleBar(next) {
  if (JSON.stringify(next) === JSON.stringify(bar)) return;
  bar = next;
  redraw();
}

function ink() {
  const now = document.documentElement.dataset.ground || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
  const next = now === "dark" ? "light" : "dark";
  document.documentElement.dataset.ground = state.ink = next;
  localStorage.setItem("halfdrop-ink", next);
  redraw("ink");
}

function kept() {
  if (!state.online) {
    const n = outbox.kept(state.job?.id);
    return html`<span class="line cut">No connection. ${n ? `${n} ${n === 1 ? "entry is" : "entries are"} kept on this device and sent when it is back.` : "What you enter is kept on this device."}</span>`;
  }
  const waiting = state.job ? outbox.of(state.job.id).length : 0;
  if (waiting) return html`<span class="line">sending ${waiting}…</span>`;
  return html`<span class="line">${state.said?.message || nothing}</span>`;
}

/** @param {string} label @param {unknown} value @param {string} [name] */
const cell = (label, value, name = "") => html`<div class="cell ${name}"><span class="label">${label}</span><span class="value">${value}</span></div>`;

export function strip() {
  const job = state.job;
  if (!job) return html`<footer class="strip bare">${cell("Workbench", "halfdrop")}${cell("", kept(), "said")}${inkButton()}</footer>`;
  const rooms = Object.entries(job.document.rooms || {});
  const schemes = Object.entries(job.document.schemes || {});
  return html`<footer class="strip" aria-label="Title strip">
    ${cell("Job", job.document.job.name, "job")}
    <div class="cell room"><label class="label" for="strip-room">Room</label>
      <select id="strip-room" class="value" @change=${(/** @type {any} */ e) => go({ room: e.target.value })}>
        ${rooms.map(([id, room]) => html`<option value=${id} ?selected=${id === state.place.room} .selected=${id === state.place.room}>${/** @type {any} */ (room).name}</option>`)}
      </select></div>
    <div class="cell scheme"><label class="label" for="strip-scheme">State</label>
      <select id="strip-scheme" class="value" @change=${(/** @type {any} */ e) => go({ scheme: e.target.value || null })}>
        <option value="" .selected=${!state.place.scheme}>As found</option>
        ${schemes.map(([id, scheme]) => html`<option value=${id} .selected=${id === state.place.scheme}>${/** @type {any} */ (scheme).name || id}</option>`)}
      </select></div>
    ${bar ? html`<div class="cell scale"><span class="label">Scale</span><svg class="bar" width=${Math.round(bar.px) + 2} height="7" aria-hidden="true"><path d="M1 1h${bar.px / 2}v5H1z" class="f-graphite"/><path d="M1 1h${bar.px}v5H1z" class="s-graphite"/></svg><span class="value small">${bar.text}</span></div>` : nothing}
    <div class="cell said"><span class="label">&#8203;</span>${kept()}</div>
    <div class="cell back"><span class="label">Revision ${job.revision}</span>
      <span class="pair"><button class="word" title="Ctrl Z" aria-keyshortcuts="Control+Z" @click=${() => turnBack("undo")}>Undo</button><button class="word" title="Ctrl Shift Z" aria-keyshortcuts="Control+Shift+Z" @click=${() => turnBack("redo")}>Redo</button></span></div>
    ${inkButton()}
  </footer>`;
}

const inkButton = () => html`<div class="cell ink"><span class="label">Paper</span><button class="word" @click=${ink}><span class="when-light">dark</span><span class="when-dark">light</span></button></div>`;
