// @ts-check
/** What the page draws over the server's ink, in px: number marks, leaders, what was measured, live clearances. */
import { html, nothing, render, svg } from "../../lib/html.js";
import { LEAD, parted } from "./leaders.js";

/** @typedef {[number, number]} XY */

/** A note's number as the drawings set it: double ring, ring, or underlined; dashed within the tape's error. @param {any} finding @param {number} x @param {number} y */
export function numberMark(finding, x, y) {
  const dash = finding.certainty?.within_tape_error ? "2.5 2" : nothing;
  return svg`<g class="mark ${finding.grade}" transform="translate(${x.toFixed(1)} ${y.toFixed(1)})">
    <circle class="ground" r=${finding.grade === "hazard" ? 13 : 11}></circle>
    ${finding.grade === "hazard" ? svg`<circle r="12.5" stroke-dasharray=${dash}></circle>` : nothing}
    ${finding.grade !== "taste" ? svg`<circle r="9.5" stroke-dasharray=${dash}></circle>` : svg`<path d="M-7 8.5h14" stroke-dasharray=${dash}></path>`}
    <text y="4.3">${finding.number}</text></g>`;
}

/** @typedef {{id: string, x: number, y: number, beyond: boolean}} Mark `beyond`: outside the loupe's window, not drawn; its note stands where its edge is */

/**
 * Where each finding's mark stands, in px of the sheet.
 * @param {any} drawing @param {any[]} findings @param {DOMRect} origin @param {DOMRect | null} [lens] the loupe's window
 * @returns {Map<string, Mark>}
 */
export function marksOf(drawing, findings, origin, lens = null) {
  const edge = { left: (lens?.left ?? -1e9) - origin.left, right: (lens?.right ?? 1e9) - origin.left, top: (lens?.top ?? -1e9) - origin.top, bottom: (lens?.bottom ?? 1e9) - origin.top };
  const raw = findings.map((f) => {
    const [px, py] = drawing.toScreen(f.anchor);
    const x = Math.max(edge.left, Math.min(edge.right, px - origin.left)), y = Math.max(edge.top, Math.min(edge.bottom, py - origin.top));
    return { id: f.id, x, y, beyond: x !== px - origin.left || y !== py - origin.top };
  });
  const seen = raw.filter((m) => !m.beyond);
  const letters = [...drawing.svg.querySelectorAll('g[data-layer="A-ANNO-TEXT"] text, g[data-layer="A-ANNO-TEXT"] path')].map((node) => {
    const b = node.getBoundingClientRect();
    return { left: b.left - origin.left, right: b.right - origin.left, top: b.top - origin.top, bottom: b.bottom - origin.top };
  });
  const beyond = raw.filter((m) => m.beyond);
  return new Map([...parted(seen, 25, letters).map((m) => ({ ...m, beyond: false })), ...beyond].map((m) => [m.id, m]));
}

/**
 * @param {SVGSVGElement} host @param {any} drawing @param {{findings: any[], selected: string | null, thing: any, face?: any, focus?: DOMRect | null, live: any, cleared?: Set<string>, marks: Map<string, Mark>, origin: DOMRect, lens?: DOMRect | null, onto?: any, margin: HTMLElement | null, wide: boolean}} what
 */
export function drawOver(host, drawing, what) {
  const { origin } = what;
  const px = (/** @type {XY} */ p) => {
    const [x, y] = drawing.toScreen(p);
    return /** @type {XY} */ ([x - origin.left, y - origin.top]);
  };
  host.setAttribute("width", String(origin.width));
  host.setAttribute("height", String(origin.height));
  const chosen = what.findings.find((f) => f.id === what.selected);
  const over = [];
  if (what.wide && what.margin) over.push(leaders(what, drawing));
  const parts = [];
  if (what.face) parts.push(svg`<path class="faced" d=${`M${px(what.face.start)}L${px(what.face.end)}`}></path>`);
  if (chosen) for (const [p, q] of chosen.marks) parts.push(segment(px(p), px(q), "told"));
  if (what.thing?.footprint) parts.push(svg`<path class="held" d=${ring(what.thing.footprint.map(px), what.live?.hand ? [what.live.hand[0] * drawing.pxPerMetre, -what.live.hand[1] * drawing.pxPerMetre] : [0, 0])}></path>`);
  if (what.thing?.start) parts.push(svg`<path class="held" d=${`M${px(what.thing.start)}L${px(what.thing.end)}`}></path>`);
  if (what.thing?.rod) {
    const by = what.live?.hand ? [what.live.hand[0] * drawing.pxPerMetre, -what.live.hand[1] * drawing.pxPerMetre] : [0, 0];
    const [a, b] = what.thing.rod.map(px);
    parts.push(svg`<path class="rod" d=${`M${a[0] + by[0]} ${a[1] + by[1]}L${b[0] + by[0]} ${b[1] + by[1]}`}></path>`);
    for (const p of [a, b]) parts.push(svg`<circle class="grip" r="6" cx=${p[0] + by[0]} cy=${p[1] + by[1]}></circle>`);
  }
  if (what.thing?.hooks) parts.push(hooks(what.thing.hooks, px, what.live?.hand ? [what.live.hand[0] * drawing.pxPerMetre, -what.live.hand[1] * drawing.pxPerMetre] : [0, 0]));
  if (what.focus) parts.push(svg`<rect class="ring-of-focus" rx="1" x=${what.focus.left - origin.left - 4} y=${what.focus.top - origin.top - 4} width=${what.focus.width + 8} height=${what.focus.height + 8}></rect>`);
  if (what.live) {
    for (const c of what.live.clearances || []) parts.push(clearance(c, px));
    const snap = what.live.snap;
    if (snap) parts.push(svg`<path class="snap" d=${`M${px(snap.line[0])}L${px(snap.line[1])}`}></path>${caption(mid(px(snap.line[0]), px(snap.line[1])), snap.text, "snap")}`);
  }
  if (what.thing?.hooks) parts.push(hookNumbers(what.thing.hooks, px, gapsOf(what.live, px)));
  for (const f of what.findings) {
    const at = what.marks.get(f.id);
    if (at && !at.beyond && (f.id === what.selected || !what.cleared?.has(f.id))) over.push(svg`<g class=${f.id === what.selected ? "picked" : chosen || what.thing ? "aside" : ""} data-note=${f.id}>${numberMark(f, at.x, at.y)}</g>`);
  }
  const { lens } = what;
  const clip = lens ? svg`<clipPath id="lens"><rect x=${lens.left - origin.left} y=${lens.top - origin.top} width=${lens.width} height=${lens.height}></rect></clipPath>` : nothing;
  render(html`${svg`${clip}<g clip-path=${lens ? "url(#lens)" : nothing}>${parts}</g>${over}`}`, /** @type {any} */ (host));
}

/** @param {any} what @param {any} drawing */
function leaders(what, drawing) {
  const { origin, margin } = what;
  const box = margin.getBoundingClientRect();
  const out = [];
  for (const f of what.findings) {
    const note = margin.querySelector(`[data-note="${CSS.escape(f.id)}"]`);
    const mark = what.marks.get(f.id);
    if (!note || !mark || mark.beyond || note.classList.contains("next") || (what.cleared?.has(f.id) && f.id !== what.selected)) continue;
    const at = note.getBoundingClientRect();
    const y = at.top + LEAD - origin.top;
    if (!what.onto && (at.top + LEAD < box.top + 4 || at.top + LEAD > box.bottom - 4)) continue;
    if (!what.onto && f.id !== what.selected && Math.abs(y - mark.y) > 220) continue;
    const x1 = at.left - origin.left - 2;
    const r = f.grade === "hazard" ? 12.5 : 10;
    const level = Math.abs(y - mark.y) < r - 2;
    const path = level ? `M${x1} ${y}H${mark.x + Math.sqrt(r * r - (y - mark.y) ** 2)}` : `M${x1} ${y}H${mark.x}V${mark.y + (y > mark.y ? r : -r)}`;
    out.push(svg`<path class="leader ${f.id === what.selected ? "picked" : what.selected || what.thing ? "aside" : ""}" d=${path}></path>`);
  }
  return out;
}

/** @param {XY} p @param {XY} q @param {string} name */
function segment(p, q, name) {
  const length = Math.hypot(q[0] - p[0], q[1] - p[1]) || 1;
  const n = [(-(q[1] - p[1]) / length) * 5, ((q[0] - p[0]) / length) * 5];
  const tick = (/** @type {XY} */ e) => `M${e[0] - n[0]} ${e[1] - n[1]}L${e[0] + n[0]} ${e[1] + n[1]}`;
  return svg`<path class=${name} d=${`M${p}L${q}${tick(p)}${tick(q)}`}></path>`;
}

/** Hooks as small crosses, each with its two lines: along from the corner, up from the floor. @param {any[]} all @param {(p: XY) => XY} px @param {number[]} by */
function hooks(all, px, by) {
  const cross = (/** @type {XY} */ [x, y]) => `M${x + by[0] - 5} ${y + by[1]}h10M${x + by[0]} ${y + by[1] - 5}v10`;
  return svg`${all.map((h) => svg`<g class="hook">${h.dims.map((/** @type {any} */ d) => segment(px(d.p), px(d.q), "gap"))}<path class="gap" d=${cross(px(h.at))}></path></g>`)}`;
}

/** The two numbers of each hook: over all lines, off each other and off the captions of gaps. @param {any[]} all @param {(p: XY) => XY} px @param {Box[]} taken */
function hookNumbers(all, px, taken) {
  const on = (/** @type {any} */ d, /** @type {number} */ share) => {
    const p = px(d.p), q = px(d.q);
    const at = (/** @type {number} */ s) => /** @type {XY} */ ([p[0] + (q[0] - p[0]) * s, p[1] + (q[1] - p[1]) * s]);
    const free = SHARES.map((step) => share + step).find((s) => s > 0.05 && s < 0.95 && !taken.some((t) => meet(t, boxOf(at(s), d.text))));
    const spot = at(free ?? share);
    taken.push(boxOf(spot, d.text));
    return caption(spot, d.text, "gap");
  };
  return svg`${all.map((h, n) => svg`<g class="hook-numbers">${on(h.dims[0], (n + 1) / (all.length + 1))}${on(h.dims[1], 0.42 + 0.12 * n)}</g>`)}`;
}

/** @typedef {[number, number, number, number]} Box left, top, right, bottom [px] */

/** How far along its line a number may slide from its own place, the nearest first. */
const SHARES = [0, ...Array.from({ length: 20 }, (_, k) => [-(k + 1) / 25, (k + 1) / 25]).flat()];

/** A caption's room about its middle. @param {XY} at @param {string} text @returns {Box} */
const boxOf = ([x, y], text) => [x - text.length * 3.8 - 3, y - 9, x + text.length * 3.8 + 3, y + 9];

/** @param {Box} a @param {Box} b */
const meet = (a, b) => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

/** Where captions of gaps and of a snap stand. @param {any} live @param {(p: XY) => XY} px @returns {Box[]} */
function gapsOf(live, px) {
  const gaps = (live?.clearances || []).map((/** @type {any} */ c) => boxOf(mid(px(c.p), px(c.q)), c.text));
  return live?.snap ? [...gaps, boxOf(mid(px(live.snap.line[0]), px(live.snap.line[1])), live.snap.text)] : gaps;
}

/** @param {any} c @param {(p: XY) => XY} px */
function clearance(c, px) {
  const p = px(c.p), q = px(c.q);
  if (Math.hypot(q[0] - p[0], q[1] - p[1]) < 3) return nothing;
  return svg`${segment(p, q, "gap")}${caption(mid(p, q), c.text, "gap")}`;
}

/** @param {XY} p @param {XY} q @returns {XY} */
const mid = (p, q) => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];

/** @param {XY} at @param {string} text @param {string} name */
const caption = (at, text, name) => svg`<text class="caption ${name}" x=${at[0].toFixed(1)} y=${(at[1] + 4.5).toFixed(1)}>${text}</text>`;

/** @param {XY[]} points @param {number[]} by */
const ring = (points, by) => `M${points.map((p) => `${(p[0] + by[0]).toFixed(1)} ${(p[1] + by[1]).toFixed(1)}`).join("L")}Z`;
