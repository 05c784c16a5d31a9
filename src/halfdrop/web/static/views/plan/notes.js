// @ts-check
/** The margin: findings as numbered notes, each as near to its mark as the others let it. */
import { html, nothing, repeat } from "../../lib/html.js";
import { faceOfNote } from "./faces.js";
import { arrange } from "./leaders.js";
import { prove, remedies } from "./remedies.js";
import { pickNote, sheet } from "./sheet.js";

/** @param {any} f */
function number(f) {
  return html`<span class=${`ring ${f.grade}${f.certainty.within_tape_error ? " tape" : ""}`} aria-hidden="true">${f.number}</span>`;
}

/** @param {any} f */
function text(f) {
  return html`${f.grade === "hazard" ? html`<strong>Hazard.</strong> ` : nothing}${f.message}`;
}

/** @param {any} f */
function more(f) {
  const sure = f.certainty.within_tape_error
    ? `The tape alone could be the reason: ${Math.round(f.certainty.probability * 100)} in 100 that it is so.`
    : f.sigma ? "Well past what the tape could be wrong by." : "";
  return html`<div class="more">
    ${f.measured_text !== null && f.wanted_text !== null ? html`<dl class="figures num"><div><dt>measured</dt><dd>${f.measured_text}</dd></div><div><dt>wanted, ${f.sense || ""}</dt><dd>${f.wanted_text}</dd></div></dl>` : nothing}
    ${f.caution ? html`<p class="caution"><strong>Take care.</strong> ${f.caution}</p>` : nothing}
    ${sure ? html`<p class="small">${sure}</p>` : nothing}
    ${f.source?.text ? html`<p class="small quiet">${f.grade === "taste" ? "Taste. " : f.grade === "fault" ? "A fault in the trade. " : ""}Source: ${f.source.text}.</p>` : nothing}
    ${faceOfNote(f)}
    ${remedies(f)}
  </div>`;
}

/** @param {any} f */
function toggle(f) {
  const open = sheet.note === f.id;
  pickNote(open ? null : f.id);
  if (!open && !sheet.preview) prove(f);
}

/** @param {any[]} findings */
export function inReadingOrder(findings) {
  return placed.length ? [...findings].sort((a, b) => rank(a.id) - rank(b.id) || a.number - b.number) : findings;
}
/** @type {string[]} */
let placed = [];
const rank = (/** @type {string} */ id) => {
  const i = placed.indexOf(id);
  return i < 0 ? 999 : i;
};

/** The notes, in the order in which they stand. @param {any[]} findings */
export function notes(findings) {
  return html`<ol class="notes" aria-label="Notes">
    ${repeat(inReadingOrder(findings), (f) => f.id, (f) => html`<li class=${`note ${f.grade}${sheet.note === f.id ? " open" : ""}${sheet.preview?.cleared.has(f.id) ? " cleared" : ""}`} data-note=${f.id}>
      <button class="head" aria-expanded=${sheet.note === f.id ? "true" : "false"} @click=${() => toggle(f)}>${number(f)}<span class="says">${sheet.preview?.cleared.has(f.id) ? html`<em>Cleared.</em> ` : nothing}${text(f)}</span></button>
      ${sheet.note === f.id ? more(f) : nothing}
    </li>`)}
  </ol>`;
}

/**
 * Stand the notes beside their marks. Returns whether their order changed (then they are drawn once more).
 * @param {HTMLElement} list @param {any[]} findings @param {Map<string, {x: number, y: number}>} marks @param {number} top the list's top on the sheet @param {number} room
 * @param {{w: number, h: number, foot: number, left: number, top: number} | null} [onto] paper, and where the list stands on it: what its margin does not hold goes to the next page
 */
export function place(list, findings, marks, top, room, onto = null) {
  const items = [];
  for (const f of findings) {
    const node = /** @type {HTMLElement | null} */ (list.querySelector(`[data-note="${CSS.escape(f.id)}"]`));
    const mark = marks.get(f.id);
    if (node && mark) items.push({ id: f.id, x: mark.x, y: mark.y - top, height: node.offsetHeight });
  }
  const places = arrange(items, room);
  let end = 0;
  const next = onto ? columns(onto) : null;
  for (const { id, top: at } of places) {
    const node = /** @type {HTMLElement} */ (list.querySelector(`[data-note="${CSS.escape(id)}"]`));
    node.classList.toggle("next", Boolean(next && at + node.offsetHeight > room));
    if (next && onto && node.classList.contains("next")) {
      next(node);
      continue;
    }
    node.removeAttribute("style");
    node.style.top = `${Math.round(at)}px`;
    end = Math.max(end, at + node.offsetHeight);
  }
  list.style.height = `${Math.ceil(end)}px`;
  const order = places.map((p) => p.id);
  const changed = order.join() !== placed.join();
  placed = order;
  return changed;
}

/** Three columns of the next page, filled one after the other. @param {{w: number, h: number, foot: number, left: number, top: number}} onto @returns {(node: HTMLElement) => void} */
function columns({ w, h, foot, left, top }) {
  const gap = 28, width = (w - 2 * gap) / 3;
  let column = 0, at = 0;
  return (node) => {
    node.style.width = `${width}px`;
    const tall = node.offsetHeight;
    if (at && at + tall > h - foot) [column, at] = [column + 1, 0];
    const page = 1 + Math.floor(column / 3);
    Object.assign(node.style, { left: `${(column % 3) * (width + gap) - left}px`, right: "auto", top: `${page * h + at - top}px` });
    at += tall + 14;
  };
}
