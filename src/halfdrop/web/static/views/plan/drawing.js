// @ts-check
/** The server's drawing on the page: where metres stand, what lies under a point, and its ink moved by hand. */
import { parseSvg } from "../../lib/html.js";

/** @typedef {[number, number]} XY */

/** Layers of the sheet that the page sets in type of its own. */
const OURS = ["G-ANNO-TTLB", "G-ANNO-NOTE"];

export class Drawing {
  constructor() {
    /** @type {SVGSVGElement | null} */
    this.svg = null;
    /** @type {string[][]} number and name of things that found no room for their names */
    this.key = [];
    /** @type {any} what the server sent with it */
    this.data = null;
    /** @type {Map<string, {center: XY, angle: number, rod: XY[] | null}>} where each thing stands in the ink as sent */
    this.base = new Map();
    /** @type {Map<string, SVGGElement[]>} */
    this.groups = new Map();
    /** @type {{x: number, y: number, w: number, h: number} | null} the sheet without its margins [mm] */
    this.crop = null;
  }

  /**
   * Put a drawing in its place.
   * @param {Element} host @param {any} data @param {string[]} [without] layers left out
   */
  show(host, data, without = []) {
    const svg = parseSvg(data.svg);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    svg.setAttribute("role", "group");
    svg.setAttribute("aria-label", svg.querySelector("title")?.textContent || "Plan");
    svg.querySelector("title")?.remove();
    svg.querySelector(":scope > rect.f-paper")?.remove();
    for (const group of svg.querySelectorAll(":scope > g[data-layer]")) {
      if ([...OURS, ...without].includes(/** @type {SVGGElement} */ (group).dataset.layer || "")) group.remove();
    }
    this.key = [...svg.querySelectorAll(':scope > g[data-layer="A-ANNO-TEXT"]:not([data-path])')].flatMap(keyOf);
    host.replaceChildren(svg);
    this.svg = svg;
    this.data = data;
    this.frame = data.frame;
    this.#crop();
    this.groups.clear();
    this.base.clear();
    for (const thing of data.things) {
      this.base.set(thing.path, { center: thing.center, angle: thing.angle || 0, rod: thing.rod || null });
      const groups = /** @type {SVGGElement[]} */ ([...svg.querySelectorAll(`g[data-path="${CSS.escape(thing.path)}"]`)]).filter((g) => !g.dataset.layer?.endsWith("-M"));
      this.groups.set(thing.path, groups);
    }
    this.#name();
  }

  /** The sheet without its margins. */
  #crop() {
    const svg = /** @type {SVGSVGElement} */ (this.svg);
    let box = null;
    for (const group of svg.querySelectorAll(":scope > g")) {
      const b = /** @type {SVGGElement} */ (group).getBBox();
      if (!b.width && !b.height) continue;
      if (!box) box = { x0: b.x, y0: b.y, x1: b.x + b.width, y1: b.y + b.height };
      else box = { x0: Math.min(box.x0, b.x), y0: Math.min(box.y0, b.y), x1: Math.max(box.x1, b.x + b.width), y1: Math.max(box.y1, b.y + b.height) };
    }
    if (!box) return;
    const pad = 3;
    this.crop = { x: box.x0 - pad, y: box.y0 - pad, w: box.x1 - box.x0 + 2 * pad, h: box.y1 - box.y0 + 2 * pad };
    svg.setAttribute("viewBox", Object.values(this.crop).map((v) => v.toFixed(2)).join(" "));
  }

  /** Make each thing a stop of the keyboard, with its name and size. */
  #name() {
    for (const thing of this.data.things) {
      const group = (this.groups.get(thing.path) || [])[0];
      if (!group) continue;
      group.setAttribute("tabindex", "0");
      group.setAttribute("role", "button");
      group.setAttribute("aria-label", `${thing.name || thing.type}, ${thing.size_text || ""}`);
      group.classList.add("thing");
    }
  }

  /** @param {string} path */
  focus(path) {
    /** @type {any} */ ((this.groups.get(path) || [])[0])?.focus?.({ preventScroll: true });
  }

  /** Plan metres to sheet millimetres. @param {number} x @param {number} y @returns {XY} */
  toSheet(x, y) {
    const { left, top, mm_per_m: k, angle = 0 } = this.frame;
    const c = Math.cos(angle) * k, s = Math.sin(angle) * k;
    return [left + c * x - s * y, top - (s * x + c * y)];
  }

  /** Plan metres to px of the window. @param {XY} p @returns {XY} */
  toScreen(p) {
    const m = /** @type {DOMMatrix} */ (/** @type {SVGSVGElement} */ (this.svg).getScreenCTM());
    const [x, y] = this.toSheet(p[0], p[1]);
    return [m.a * x + m.e, m.d * y + m.f];
  }

  /** Px of the window to plan metres. @param {number} px @param {number} py @returns {XY} */
  toPlan(px, py) {
    const m = /** @type {DOMMatrix} */ (/** @type {SVGSVGElement} */ (this.svg).getScreenCTM());
    return this.fromSheet((px - m.e) / m.a, (py - m.f) / m.d);
  }

  /** Sheet millimetres to plan metres. @param {number} u @param {number} v @returns {XY} */
  fromSheet(u, v) {
    const { left, top, mm_per_m: k, angle = 0 } = this.frame;
    const x = (u - left) / k, y = (top - v) / k;
    const c = Math.cos(angle), s = Math.sin(angle);
    return [c * x + s * y, c * y - s * x];
  }

  /** Px of the window to a metre of the plan. */
  get pxPerMetre() {
    const m = this.svg?.getScreenCTM();
    return m ? m.a * this.frame.mm_per_m : 0;
  }

  /**
   * What lies under a point, the smallest on top; with a finger's width of grace for what is thin.
   * @param {XY} at @param {any[]} things
   */
  under(at, things) {
    const grace = 9 / this.pxPerMetre;
    let best = null, rank = Infinity;
    for (const thing of things) {
      const rings = thing.parts || (thing.footprint ? [thing.footprint] : []);
      const away = rings.length ? Math.min(...rings.map((/** @type {XY[]} */ ring) => toRing(at, ring))) : Math.max(0, toSegment(at, thing.start, thing.end) - 0.07);
      if (away > grace) continue;
      const area = rings.length ? (thing.parts ? 0.02 : (thing.width || 0.01) * (thing.depth || 0.01)) : 0.01;
      const order = { piece: 0, fitting: 0, opening: 0, rug: 100 }[/** @type {string} */ (thing.kind)] || 0;
      const score = order + area + (away > 0 ? 20 + away : 0);
      if (score < rank) [best, rank] = [thing, score];
    }
    return best;
  }

  /**
   * Move a thing's ink from where it was drawn; letters move along and do not turn.
   * @param {string} path @param {XY} by [m] @param {number} turn [rad]
   */
  shift(path, by, turn) {
    const from = this.base.get(path);
    if (!from) return;
    const [x0, y0] = this.toSheet(0, 0), [x1, y1] = this.toSheet(by[0], by[1]);
    const [cx, cy] = this.toSheet(from.center[0], from.center[1]);
    const move = `translate(${(x1 - x0).toFixed(3)} ${(y1 - y0).toFixed(3)})`;
    for (const group of this.groups.get(path) || []) {
      const letters = group.dataset.layer === "A-ANNO-TEXT";
      group.setAttribute("transform", letters || !turn ? move : `${move} rotate(${((-turn * 180) / Math.PI).toFixed(3)} ${cx.toFixed(3)} ${cy.toFixed(3)})`);
    }
  }

  /** Draw each thing where the server has it now. @param {any[]} things @param {string} [but] */
  follow(things, but) {
    for (const thing of things) {
      const from = this.base.get(thing.path);
      if (!from || thing.path === but || !thing.center) continue;
      const by = /** @type {XY} */ ([thing.center[0] - from.center[0], thing.center[1] - from.center[1]]);
      const turn = (thing.angle || 0) - from.angle;
      if (Math.abs(by[0]) + Math.abs(by[1]) + Math.abs(turn) > 1e-6) this.shift(thing.path, by, turn);
      else this.rest(thing.path);
    }
  }

  /** @param {string} path */
  rest(path) {
    for (const group of this.groups.get(path) || []) group.removeAttribute("transform");
  }

  restAll() {
    for (const path of this.groups.keys()) this.rest(path);
  }

  /** Set one thing apart in slate. @param {string[]} paths */
  light(paths) {
    for (const [path, groups] of this.groups) for (const group of groups) group.classList.toggle("lit", paths.includes(path));
  }
}

/** The sheet's key of names that found no room, taken out of the ink to be set beside it. @param {Element} group */
function keyOf(group) {
  const texts = [...group.querySelectorAll("text")].map((t) => t.textContent || "");
  if (texts[0] !== "Key") return [];
  group.remove();
  return texts.slice(1).reduce((/** @type {string[][]} */ rows, text, i) => (i % 2 ? (rows[rows.length - 1].push(text), rows) : [...rows, [text]]), []);
}

/** @param {XY} p @param {XY[]} ring */
function inside(p, ring) {
  let within = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    const [ax, ay] = ring[i], [bx, by] = ring[j];
    if (ay > p[1] !== by > p[1] && p[0] < ((bx - ax) * (p[1] - ay)) / (by - ay) + ax) within = !within;
  }
  return within;
}

/** How far a point lies outside a ring. @param {XY} at @param {XY[]} ring */
function toRing(at, ring) {
  return inside(at, ring) ? 0 : Math.min(...ring.map((p, i) => toSegment(at, p, ring[(i + 1) % ring.length])));
}

/** @param {XY} p @param {XY} a @param {XY} b */
function toSegment(p, a, b) {
  const dx = b[0] - a[0], dy = b[1] - a[1];
  const t = Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
