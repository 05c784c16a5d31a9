// @ts-check
/** Moving by hand: a drag, arrow keys, a turn. Ink moves at once; findings and gaps follow as the server answers. */
import { faulted, redraw, say, state } from "../../state.js";
import { drawing, keep, load, looking, onSettled, pickThing, sheet, thingNow, tried, whileHeld } from "./sheet.js";

/** @typedef {[number, number]} XY */

/** @typedef {{path: string, by: XY, turn: number, start: XY | null, pointer: number | null, moved: boolean, from: XY, at: XY, free: boolean, handle: Handle}} Held */
/** @typedef {"left" | "right" | "both" | null} Handle which end of a rod is held; without one the whole thing */

/** @type {Held | null} */
let held = null;
let asking = false;
let again = false;
/** @type {any} */
let last = null;
let idle = 0;

/** Keys pressed while a move is being set down. @type {{by: XY, turn: number, handle: Handle}[]} */
let waiting = [];
onSettled(() => {
  const next = waiting;
  waiting = [];
  if (next.length) setTimeout(() => next.forEach((one) => nudge(one.by, one.turn, one.handle)), 0);
});
whileHeld(() => held !== null && (held.moved || held.pointer !== null));

/** A hand's step: 1/2 in or 1 cm, and with Shift 6 in or 10 cm [m]. @param {boolean} wide */
export function step(wide) {
  const metric = state.job?.document.job.units === "metric";
  return metric ? (wide ? 0.1 : 0.01) : wide ? 0.1524 : 0.0127;
}

/** @param {PointerEvent} event @returns {boolean} whether a thing lies under it */
export function down(event) {
  if (event.button !== 0 || !drawing.svg || sheet.preview || sheet.settling) return false;
  const at = drawing.toPlan(event.clientX, event.clientY);
  const thing = drawing.under(at, sheet.things);
  if (!thing) return false;
  finish();
  pickThing(thing.path);
  held = { path: thing.path, by: [0, 0], turn: 0, start: at, pointer: event.pointerId, moved: false, from: [event.clientX, event.clientY], at: [0, 0], free: false, handle: endAt(thing, at) };
  /** @type {Element} */ (event.currentTarget).setPointerCapture(event.pointerId);
  event.preventDefault();
  drawing.focus(thing.path);
  return true;
}

/** The end of a rod under the hand. @param {any} thing @param {XY} at @returns {Handle} */
function endAt(thing, at) {
  if (!thing.rod) return null;
  const reach = 16 / drawing.pxPerMetre;
  const off = thing.rod.map((/** @type {XY} */ p) => Math.hypot(p[0] - at[0], p[1] - at[1]));
  return Math.min(...off) > reach ? null : off[0] <= off[1] ? "left" : "right";
}

/** What the server is asked of a move. @param {Held} of */
const asked = (of) => ({ path: of.path, dx: of.by[0], dy: of.by[1], turn: of.turn, exact: false, handle: of.handle });

/** How far a thing has gone from where it was drawn, at its middle or at the end that is held. @param {any} now @param {Handle} handle @returns {XY | null} */
function gone(now, handle) {
  const base = now && drawing.base.get(now.path);
  if (!base || !now.center) return null;
  const end = handle === "left" ? 0 : 1;
  const [p, q] = handle && base.rod && now.rod ? [now.rod[end], base.rod[end]] : [now.center, base.center];
  return [p[0] - q[0], p[1] - q[1]];
}

/** @param {PointerEvent} event */
export function move(event) {
  if (!held || held.pointer !== event.pointerId || !held.start) return;
  if (!held.moved && Math.hypot(event.clientX - held.from[0], event.clientY - held.from[1]) < 4) return;
  held.moved = true;
  held.free = event.altKey;
  const at = drawing.toPlan(event.clientX, event.clientY);
  const whole = /** @type {XY} */ ([at[0] - held.start[0], at[1] - held.start[1]]);
  const rod = drawing.base.get(held.path)?.rod;
  held.by = !rod ? whole : held.handle ? [whole[0], 0] : [0, whole[1]];
  ink();
  ask();
}

/** @param {PointerEvent} event */
export function up(event) {
  if (!held || held.pointer !== event.pointerId) return;
  const was = held;
  was.pointer = null;
  if (!was.moved) {
    held = null;
    redraw();
    return;
  }
  settle(was);
}

export function cancel() {
  if (!held) return;
  clearTimeout(idle);
  cancelled();
}

/** The ink under the hand, drawn towards what it nearly does. */
function ink() {
  if (!held) return;
  const snap = nearly();
  const by = /** @type {XY} */ (snap ? snap.to : held.by);
  if (held.handle) {
    sheet.live = { ...(sheet.live || {}), hand: null, snap: snap?.snap || null };
    redraw("hand");
    return;
  }
  drawing.shift(held.path, by, held.turn);
  const drawn = sheet.things.find((t) => t.path === held?.path);
  const base = drawing.base.get(held.path);
  if (drawn?.center && base) {
    const hand = /** @type {XY} */ ([base.center[0] + by[0] - drawn.center[0], base.center[1] + by[1] - drawn.center[1]]);
    sheet.live = { ...(sheet.live || {}), hand, snap: snap?.snap || null };
  }
  redraw("hand");
}

/** The first snap within reach of the hand: 8 px. */
function nearly() {
  if (!held || !last || held.free || held.turn) return null;
  const reach = 8 / drawing.pxPerMetre;
  for (const snap of last.out.snaps || []) {
    if (snap.path !== held.path || snap.turn) continue;
    const to = /** @type {XY} */ ([last.stands[0] + snap.by[0], last.stands[1] + snap.by[1]]);
    if (Math.hypot(to[0] - held.by[0], to[1] - held.by[1]) <= reach) return { snap, to };
  }
  return null;
}

/** Ask what the move makes of the room; while an answer is under way only the latest question waits. */
async function ask() {
  if (asking) {
    again = true;
    return;
  }
  asking = true;
  try {
    do {
      again = false;
      if (!held) break;
      const { path, by, turn, handle } = held;
      const out = await tried({ move: asked(held), live: true });
      if (!held || held.path !== path) break;
      const stands = gone(out.things.find((/** @type {any} */ t) => t.path === path), handle) || by;
      last = { out, by, turn, stands };
      sheet.things = out.things;
      sheet.findings = out.findings;
      sheet.live = { clearances: out.clearances, snap: null };
      drawing.follow(out.things, path);
      ink();
    } while (again);
  } catch (error) {
    if (/** @type {any} */ (error).status === 422) say(/** @type {any} */ (error).message);
    else faulted(error);
  } finally {
    asking = false;
  }
}

/** Set the thing down: what it nearly does, or the hand's place rounded to the tape. @param {Held} was */
async function settle(was) {
  const snap = nearly();
  sheet.settling = true;
  try {
    let patch = snap?.snap.patch;
    if (!patch) {
      const out = last && last.by[0] === was.by[0] && last.by[1] === was.by[1] && last.turn === was.turn ? last.out
        : await tried({ move: asked(was), live: true });
      patch = out.patch;
      if (held === was) {
        sheet.things = out.things;
        sheet.findings = out.findings;
        drawing.follow(out.things, was.handle ? was.path : undefined);
      }
    }
    const thing = sheet.things.find((t) => t.path === was.path);
    if (held === was) held = null;
    last = null;
    if (sheet.live) sheet.live = { clearances: sheet.live.clearances, snap: null };
    if (!patch.length) return cancelled();
    await keep(patch, { message: `${thing?.name || "thing"} ${was.turn ? "turned" : was.handle ? "lengthened or shortened" : thing?.rod ? "raised or lowered" : "moved"}${snap ? `, ${snap.snap.text}` : ""}` });
  } catch (error) {
    cancelled();
    faulted(error);
  }
  redraw();
}

function cancelled() {
  sheet.settling = false;
  waiting = [];
  if (sheet.stale) load();
  held = null;
  last = null;
  drawing.restAll();
  sheet.things = sheet.view?.things || [];
  sheet.findings = sheet.view?.findings || [];
  sheet.live = null;
  redraw();
}

/** Set down at once what keys have moved. */
export function finish() {
  if (!held || held.pointer !== null) return;
  clearTimeout(idle);
  settle(held);
}

/** Move or turn what is picked by keys; it is kept when they rest. @param {XY} by @param {number} turn @param {Handle} [handle] */
export function nudge(by, turn, handle = null) {
  const thing = thingNow();
  if (!thing || sheet.preview) return;
  if (held && held.path === thing.path && held.handle !== handle) finish();
  if (sheet.settling) {
    const last = waiting[waiting.length - 1];
    if (last?.handle === handle) [last.by, last.turn] = [[last.by[0] + by[0], last.by[1] + by[1]], last.turn + turn];
    else waiting.push({ by, turn, handle });
    return;
  }
  if (!held || held.path !== thing.path) held = { path: thing.path, by: [0, 0], turn: 0, start: null, pointer: null, moved: true, from: [0, 0], at: [0, 0], free: true, handle };
  if (held.pointer !== null) return;
  held.by = [held.by[0] + by[0], held.by[1] + by[1]];
  held.turn += turn;
  ink();
  ask();
  clearTimeout(idle);
  idle = window.setTimeout(finish, 600);
}

/** @param {KeyboardEvent} event @returns {boolean} whether it was taken */
export function key(event) {
  if (event.key === "Escape") {
    if (held) cancel();
    else if (sheet.preview) return false;
    else pickThing(null);
    return true;
  }
  if (!sheet.thing) return false;
  const s = step(event.shiftKey);
  const ways = /** @type {Record<string, XY>} */ ({ ArrowLeft: [-s, 0], ArrowRight: [s, 0], ArrowUp: [0, s], ArrowDown: [0, -s] });
  if (ways[event.key]) {
    event.preventDefault();
    nudge(onSheet(ways[event.key]), 0, thingNow()?.rod && ways[event.key][0] ? "both" : null);
    return true;
  }
  if (event.key.toLowerCase() === "r" && !event.altKey && looking.view === "plan") {
    nudge([0, 0], event.shiftKey ? Math.PI / 2 : Math.PI / 12);
    return true;
  }
  return false;
}

/** A step along the sheet's own axes, as plan metres. @param {XY} by @returns {XY} */
function onSheet(by) {
  const a = -(drawing.frame?.angle || 0);
  return [by[0] * Math.cos(a) - by[1] * Math.sin(a), by[0] * Math.sin(a) + by[1] * Math.cos(a)];
}
