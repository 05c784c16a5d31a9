// @ts-check
/**
 * A loupe over a drawing: nearer, farther, along the sheet. Any view that draws to scale lays one on its `Drawing`.
 *
 * Only the part of the sheet that the ink's window shows is changed (its `viewBox`), so that whatever is placed by
 * `toScreen` goes along: marks, leaders, gaps, the held outline. What stands in the middle is kept in metres, so that a
 * drawing laid out anew under it stays where it was.
 */

import { html } from "./html.js";

/** @typedef {[number, number]} XY */

/**
 * @typedef {{svg: SVGSVGElement | null, crop: {x: number, y: number, w: number, h: number} | null,
 *   toSheet(x: number, y: number): XY, fromSheet(x: number, y: number): XY, toScreen(p: XY): XY}} Drawn
 */

/** The nearest the loupe goes. */
const NEAREST = 16;
const STEP = 1.4;

export class Loupe {
  /** @param {Drawn} drawing @param {() => void} changed */
  constructor(drawing, changed) {
    this.drawing = drawing;
    this.changed = changed;
    /** How many times the whole sheet's size; 1 is the whole sheet. */
    this.zoom = 1;
    /** @type {XY | null} what stands in the middle [m] */
    this.at = null;
    /** @type {Map<number, XY>} fingers on the sheet, and a hand that moves the sheet */
    this.fingers = new Map();
    /** @type {number | null} */
    this.hand = null;
  }

  /** Whether the sheet is larger than its window. */
  get near() {
    return this.zoom > 1.001;
  }

  /** The sheet's window [px], what a millimetre of the sheet is on it [px], and what stands in its middle [mm]. */
  #now() {
    const { svg, crop } = this.drawing;
    if (!svg || !crop) return null;
    const box = svg.getBoundingClientRect();
    if (!box.width || !box.height) return null;
    const scale = Math.min(box.width / crop.w, box.height / crop.h) * this.zoom;
    const half = /** @type {XY} */ ([box.width / scale / 2, box.height / scale / 2]);
    const want = this.at ? this.drawing.toSheet(this.at[0], this.at[1]) : /** @type {XY} */ ([crop.x + crop.w / 2, crop.y + crop.h / 2]);
    const center = /** @type {XY} */ ([held(want[0], crop.x, crop.w, half[0]), held(want[1], crop.y, crop.h, half[1])]);
    return { svg, box, scale, half, center };
  }

  /** Lay the loupe on the ink as it is; called whenever that was drawn anew or its window changed. */
  apply() {
    const now = this.#now();
    if (!now) return;
    const { svg, half, center } = now;
    const { crop } = this.drawing;
    const view = this.near || !crop ? [center[0] - half[0], center[1] - half[1], 2 * half[0], 2 * half[1]] : [crop.x, crop.y, crop.w, crop.h];
    const text = view.map((v) => v.toFixed(2)).join(" ");
    if (svg.getAttribute("viewBox") !== text) svg.setAttribute("viewBox", text);
    svg.parentElement?.classList.toggle("near", this.near);
  }

  /** The window [px of the page], for what must not be drawn beyond it; null where the whole sheet shows. */
  get window() {
    return this.near ? this.drawing.svg?.getBoundingClientRect() || null : null;
  }

  /** Nearer or farther by a factor, about a point that stays under the finger. @param {number} factor @param {XY} [about] px of the page */
  by(factor, about) {
    const now = this.#now();
    if (!now) return;
    const next = Math.min(NEAREST, Math.max(1, this.zoom * factor));
    if (next === this.zoom) return;
    const off = about ? [about[0] - now.box.left - now.box.width / 2, about[1] - now.box.top - now.box.height / 2] : [0, 0];
    const scale = (now.scale / this.zoom) * next;
    this.#to([now.center[0] + off[0] / now.scale - off[0] / scale, now.center[1] + off[1] / now.scale - off[1] / scale], next);
  }

  /** Along the sheet, as a hand pushes the paper. @param {number} dx px @param {number} dy px */
  push(dx, dy) {
    const now = this.#now();
    if (now && this.near) this.#to([now.center[0] - dx / now.scale, now.center[1] - dy / now.scale], this.zoom);
  }

  /** The whole sheet again. */
  whole() {
    this.zoom = 1;
    this.at = null;
    this.apply();
    this.changed();
  }

  /** @param {XY} center mm of the sheet @param {number} zoom */
  #to(center, zoom) {
    this.zoom = zoom < 1.02 ? 1 : zoom;
    this.at = this.near ? this.drawing.fromSheet(center[0], center[1]) : null;
    const now = this.#now();
    if (now && this.near) this.at = this.drawing.fromSheet(now.center[0], now.center[1]);
    this.apply();
    this.changed();
  }

  /** Bring a place of the room into the window, where it is not in it. @param {XY} p [m] */
  reveal(p) {
    const box = this.window;
    if (!box) return;
    const [x, y] = this.drawing.toScreen(p), edge = 30;
    const beyond = (/** @type {number} */ v, /** @type {number} */ low, /** @type {number} */ high) => v < low + edge || v > high - edge;
    if (!beyond(x, box.left, box.right) && !beyond(y, box.top, box.bottom)) return;
    this.at = p;
    this.apply();
    this.changed();
  }

  /** @param {WheelEvent} event */
  wheel(event) {
    const away = event.deltaY > 0 && !this.near;
    if (!this.drawing.svg || (away && !event.ctrlKey)) return;
    event.preventDefault();
    const px = event.deltaMode === 1 ? 16 : event.deltaMode === 2 ? 400 : 1;
    if (event.shiftKey && !event.ctrlKey) return this.push(-(event.deltaX || event.deltaY) * px, 0);
    const step = Math.max(-120, Math.min(120, event.deltaY * px));
    this.by(Math.exp(-step * (event.ctrlKey ? 0.01 : 0.0022)), [event.clientX, event.clientY]);
  }

  /**
   * + and −, 0 for the whole sheet, arrows with Ctrl (or Cmd) along it; without where nothing is picked.
   * @param {KeyboardEvent} event @param {boolean} [free] nothing is picked, so that arrows are the loupe's @returns {boolean} whether it was taken
   */
  key(event, free = false) {
    const command = event.ctrlKey || event.metaKey;
    const far = { ArrowLeft: [90, 0], ArrowRight: [-90, 0], ArrowUp: [0, 90], ArrowDown: [0, -90] }[event.key];
    if (far) {
      if (!this.near || !(command || free)) return false;
      event.preventDefault();
      this.push(far[0], far[1]);
      return true;
    }
    if (command || event.altKey) return false;
    if (event.key === "+" || event.key === "=") this.by(STEP);
    else if (event.key === "-" || event.key === "_" || event.key === "−") this.by(1 / STEP);
    else if (event.key === "0") this.whole();
    else return false;
    event.preventDefault();
    return true;
  }

  nearer() {
    this.by(STEP);
  }

  farther() {
    this.by(1 / STEP);
  }

  /** A finger or a hand comes down. @param {PointerEvent} event @returns {boolean} whether it is the loupe's: two fingers, or the middle button */
  down(event) {
    if (event.pointerType === "touch") {
      this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
      if (this.fingers.size >= 2) {
        this.hand = null;
        return true;
      }
    }
    if (event.button === 1 && this.near) {
      event.preventDefault();
      this.grab(event);
      return true;
    }
    return false;
  }

  /** Take hold of the paper itself, where nothing lies under the hand. @param {PointerEvent} event */
  grab(event) {
    if (!this.near || this.fingers.size > 1) return;
    this.hand = event.pointerId;
    this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
    /** @type {Element} */ (event.currentTarget).setPointerCapture(event.pointerId);
  }

  /** @param {PointerEvent} event @returns {boolean} whether it was taken */
  move(event) {
    const was = this.fingers.get(event.pointerId);
    if (!was) return false;
    const now = /** @type {XY} */ ([event.clientX, event.clientY]);
    const other = [...this.fingers].find(([id]) => id !== event.pointerId)?.[1];
    this.fingers.set(event.pointerId, now);
    if (other && this.hand === null) {
      const spread = Math.hypot(now[0] - other[0], now[1] - other[1]) / Math.max(1, Math.hypot(was[0] - other[0], was[1] - other[1]));
      this.by(spread, [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
      this.push((now[0] - was[0]) / 2, (now[1] - was[1]) / 2);
      return true;
    }
    if (this.hand !== event.pointerId) return false;
    this.push(now[0] - was[0], now[1] - was[1]);
    return true;
  }

  /** @param {PointerEvent} event @returns {boolean} whether it was the loupe's */
  up(event) {
    const mine = this.hand === event.pointerId || this.fingers.size >= 2;
    this.fingers.delete(event.pointerId);
    if (this.hand === event.pointerId) this.hand = null;
    return mine;
  }
}

/** The middle of a window that stays on the sheet. @param {number} want @param {number} start @param {number} length @param {number} half */
function held(want, start, length, half) {
  return 2 * half >= length ? start + length / 2 : Math.max(start + half, Math.min(start + length - half, want));
}

/** The loupe's own words, to stand under a drawing. @param {Loupe} loupe */
export function nearness(loupe) {
  return html`<p class="ways nearness small" role="group" aria-label="How near the drawing is">
    <button class="word" aria-keyshortcuts="+" title="+, or the wheel" ?disabled=${loupe.zoom >= NEAREST} @click=${() => loupe.nearer()}>Nearer</button>
    <button class="word" aria-keyshortcuts="-" title="−" ?disabled=${!loupe.near} @click=${() => loupe.farther()}>Farther</button>
    <button class="word" aria-keyshortcuts="0" title="0" ?disabled=${!loupe.near} @click=${() => loupe.whole()}>Whole sheet</button>
    <span class="num quiet" aria-live="polite">${loupe.near ? `× ${loupe.zoom.toFixed(1)}` : ""}</span>
  </p>`;
}
