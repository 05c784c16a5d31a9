// @ts-check
/** From the plan to a wall face on: which wall a thing is on, and the ways to its elevation. */
import { html, nothing } from "../../lib/html.js";
import { documentNow, hashOf, redraw, state } from "../../state.js";
import { face, leaveAt, sheet } from "./sheet.js";

/** @param {string} path @returns {string | null} the wall that a thing is in, on, against or hung at */
function wallOf(path) {
  const [, room, kind, id] = path.split("/");
  const thing = sheet.things.find((t) => t.path === path)?.document || documentNow()?.rooms?.[room]?.[kind]?.[id];
  const first = thing?.openings && String(Array.isArray(thing.openings) ? thing.openings[0] : thing.openings).split(/\s+/)[0];
  if (first) return wallOf(`rooms/${room}/openings/${first}`);
  const wall = thing?.wall || thing?.at?.wall;
  return wall ? named(wall) : null;
}

/** A wall as the plan names it, from whichever corner it was written. @param {string} wall */
function named(wall) {
  const back = (wall.match(/[A-Z][0-9]{0,2}/g) || []).reverse().join("");
  return sheet.view?.walls?.find((/** @type {any} */ w) => w.name === wall || w.name === back)?.name || null;
}

/** The way from what is picked to its wall. @param {string} wall @param {{note?: string, thing?: string}} what */
function way(wall, what) {
  return html`<a class="word" href=${hashOf({ view: "elevation" })} @click=${(/** @type {MouseEvent} */ e) => turn(e, wall, what)}>See wall ${wall} face on</a>`;
}

/** @param {MouseEvent} event @param {string} wall @param {{note?: string, thing?: string}} [what] */
function turn(event, wall, what) {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return leaveAt(wall);
  event.preventDefault();
  sheet.face = null;
  face(wall, what);
}

/** Of a thing on the plan. @param {any} thing */
export function faceOfThing(thing) {
  const wall = sheet.view?.view === "plan" ? wallOf(thing.path) : null;
  return wall ? way(wall, { thing: thing.path }) : nothing;
}

/** Of a note on the plan: where a hanging, a work, an opening or a fitting is what it is about. @param {any} finding */
export function faceOfNote(finding) {
  if (sheet.view?.view !== "plan") return nothing;
  const upright = finding.subjects.find((/** @type {string} */ path) => /\/(treatments|art|openings|fittings)\//.test(path));
  const wall = upright ? wallOf(upright) : null;
  return wall ? html`<p class="ways">${way(wall, { note: finding.id })}</p>` : nothing;
}

/** The walls of the plan, each a way to its elevation; the wall meant is marked on the drawing. */
export function faces() {
  const walls = sheet.view?.view === "plan" ? sheet.view.walls || [] : [];
  if (!walls.length) return nothing;
  const mark = (/** @type {any} */ wall) => () => {
    if (sheet.preview || sheet.face === wall) return;
    sheet.face = wall;
    redraw();
  };
  return html`<nav class="faces small" aria-label="Walls face on"><span class="quiet">Face on</span>${walls.map((/** @type {any} */ w) => html`<a class="word" href=${hashOf({ view: "elevation" })} aria-label=${`Wall ${w.name} of the ${state.job.document.rooms[state.place.room || ""]?.name}`} @mouseenter=${mark(w)} @mouseleave=${mark(null)} @focus=${mark(w)} @blur=${mark(null)} @click=${(/** @type {MouseEvent} */ e) => turn(e, w.name)}>${w.name}</a>`)}</nav>`;
}
