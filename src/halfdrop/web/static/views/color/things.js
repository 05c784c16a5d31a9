// @ts-check
/** What wears what: a row for each surface and piece; a swatch is given by a press, by the list, or by dragging it there. */
import { html, nothing, sentence } from "../../lib/html.js";
import { redraw, say, state } from "../../state.js";
import { chip } from "./library.js";
import { give, room, swatch, take } from "./room.js";

/** @type {{id: string, x: number, y: number, from: [number, number], over: string | null} | null} a swatch under the finger */
let held = null;

/** @param {number} x @param {number} y */
function thingAt(x, y) {
  const at = document.elementFromPoint(x, y);
  const part = /** @type {any} */ (at)?.dataset?.part;
  const group = at?.closest("[data-thing], g[data-path]");
  const path = /** @type {any} */ (group)?.dataset.thing || /** @type {any} */ (group)?.dataset.path;
  const all = room.colors?.things || [];
  return all.find((/** @type {any} */ t) => t.write && (part ? t.role === part : t.paths.includes(path))) || null;
}

/** @param {PointerEvent} event @param {string} id */
function down(event, id) {
  if (event.button !== 0) return;
  held = { id, x: event.clientX, y: event.clientY, from: [event.clientX, event.clientY], over: null };
  /** @type {HTMLElement} */ (event.currentTarget).setPointerCapture(event.pointerId);
}

/** @param {PointerEvent} event */
function move(event) {
  if (!held) return;
  Object.assign(held, { x: event.clientX, y: event.clientY });
  if (!away()) return;
  held.over = thingAt(event.clientX, event.clientY)?.path || null;
  redraw();
}

const away = () => held && Math.hypot(held.x - held.from[0], held.y - held.from[1]) > 6;

/** @param {PointerEvent} event */
function up(event) {
  if (!held) return;
  const { id } = held;
  const dragged = away();
  held = null;
  if (!dragged) return;
  const thing = thingAt(event.clientX, event.clientY);
  if (thing) give(thing, id);
  else say("no thing lies there that can be given a color");
  justDragged = true;
  setTimeout(() => (justDragged = false));
  redraw();
}

let justDragged = false;

function cancel() {
  held = null;
  redraw();
}

/** The job's own swatches, to be taken in hand. */
export function swatches() {
  const all = room.colors?.library || [];
  if (!all.length) return html`<p class="quiet">No swatches yet. Lift them from a picture, or take them from a library.</p>`;
  return html`<ul class="swatches">${all.map((/** @type {any} */ s) => html`<li><button class=${`swatch ${room.hand === s.id ? "in-hand" : ""}`} aria-pressed=${room.hand === s.id ? "true" : "false"} @pointerdown=${(/** @type {PointerEvent} */ e) => down(e, s.id)} @pointermove=${move} @pointerup=${up} @pointercancel=${cancel} @click=${() => !justDragged && take(s.id)}>
      <svg class="patch" viewBox="0 0 56 34" width="56" height="34" preserveAspectRatio="none" aria-hidden="true"><rect x="0.5" y="0.5" width="28" height="33" fill=${s.hex}></rect><rect x="28" y="0.5" width="27.5" height="33" fill=${s.evening}></rect></svg>
      <span class="name">${s.name}${s.code ? html` <span class="quiet">${s.code}</span>` : nothing}</span></button></li>`)}</ul>
    <p class="small quiet">Left by day, right of an evening. Take one in hand and press a thing, or drag it there; Esc puts it down.</p>`;
}

/** @param {any} thing */
function row(thing) {
  const one = room.hand ? swatch(room.hand) : null;
  const now = thing.colors[0];
  const several = thing.colors.length > 1;
  return html`<li class=${`wears ${held?.over === thing.path ? "under" : ""}`} data-thing=${thing.path}>
    <span class="name">${sentence(thing.name)}${thing.keep ? html` <span class="small quiet">stays with the client</span>` : nothing}</span>
    <span class="num quiet area">${thing.area_text || ""}</span>
    <span class="chips">${thing.colors.map((/** @type {any} */ c) => chip(c.hex))}</span>
    ${thing.write
      ? html`<select class="blank" aria-label=${`Color of ${thing.name}`} @change=${(/** @type {any} */ e) => e.target.value && give(thing, e.target.value)}>
          ${!now || several ? html`<option value="" ?selected=${true}>${several ? thing.colors.map((/** @type {any} */ c) => `${c.name} ${Math.round(c.share * 100)}%`).join(", ") : "not recorded"}</option>` : nothing}
          ${room.colors.library.map((/** @type {any} */ s) => html`<option value=${s.id} ?selected=${!several && now?.swatch === s.id}>${s.name}</option>`)}</select>`
      : html`<span class="small quiet">${thing.why || ""}</span>`}
    ${one && thing.write ? html`<button class="word" aria-label=${`Give it ${one.name}: ${thing.name}`} @click=${() => give(thing, one.id)}>Give it ${one.name}</button>` : html`<span></span>`}
  </li>`;
}

/** Every surface and piece of the room with its color. */
export function things() {
  return html`<ul class="things" aria-label=${`Colors of ${state.job.document.rooms[state.place.room || ""]?.name || "the room"}`}>${room.colors.things.map(row)}</ul>`;
}

/** The swatch under the finger. */
export function ghost() {
  const one = held && away() ? swatch(held.id) : null;
  return one ? html`<div class="ghost" id="ghost" aria-hidden="true">${chip(one.hex)}</div>` : nothing;
}

export function placeGhost() {
  const node = document.getElementById("ghost");
  if (!node || !held) return;
  node.style.left = `${held.x}px`;
  node.style.top = `${held.y}px`;
}

/** @param {KeyboardEvent} event */
export function key(event) {
  if (event.key !== "Escape" || (!room.hand && !held)) return false;
  held = null;
  if (room.hand) take(room.hand);
  redraw();
  return true;
}
