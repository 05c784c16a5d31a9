// @ts-check
/** The plan as it is open: the server's drawing and findings, what is picked, what is tried. */
import { get, post, query, seg } from "../../api.js";
import { edit, faulted, go, redraw, say, state } from "../../state.js";
import { Drawing } from "./drawing.js";

export const drawing = new Drawing();

/** What is on the sheet now. */
export const sheet = {
  /** @type {any} the server's view of the room */
  view: null,
  /** @type {any[]} findings as they stand, a drag's included */
  findings: [],
  /** @type {any[]} things as they stand */
  things: [],
  /** @type {string | null} a finding's id */
  note: null,
  /** @type {string | null} a thing's path */
  thing: null,
  /** @type {boolean} a work takes its whole group with it */
  whole: true,
  /** @type {any} a hand's move under way */
  live: null,
  /** @type {any} a remedy drawn before it is taken */
  preview: null,
  /** @type {{start: [number, number], end: [number, number]} | null} a wall that is pointed at by name */
  face: null,
  loading: false,
  /** @type {boolean} a move is set down, and its drawing not here yet */
  settling: false,
  /** @type {boolean} a newer drawing waits until the hand lets go */
  stale: false,
  /** @type {string} why there is no drawing */
  refusal: "",
  refusalHint: "",
};

let turn = 0;
let shown = "";

/** Which drawing of the room is on the sheet: its plan, or the elevation of a wall (the server names the first where none is named). @type {{view: "plan" | "elevation", wall: string | null, shut: boolean}} */
export const looking = { view: "plan", wall: null, shut: false };

/** Turn to another drawing of the room; `load` brings it. @param {"plan" | "elevation"} view @param {string | null} [wall] */
export function look(view, wall = null) {
  looking.view = view;
  looking.wall = wall;
}

/** The wall each room was left at. @type {Map<string, string>} */
const left = new Map();
/** What is picked when the drawing that was turned to is here. @type {{note?: string | null, thing?: string | null} | null} */
let carried = null;
const roomKey = () => `${state.place.job} ${state.place.room}`;
export const leftAt = () => left.get(roomKey()) || null;
/** @param {string} wall */
export const leaveAt = (wall) => left.set(roomKey(), wall);

/** Face a wall on its elevation, with what is picked here picked there. @param {string} wall @param {{note?: string | null, thing?: string | null}} [what] */
export function face(wall, what) {
  leaveAt(wall);
  carried = what || null;
  go({ view: "elevation" });
}

export function roomPath() {
  return `/api/jobs/${seg(state.place.job || "")}/rooms/${seg(state.place.room || "")}`;
}

/** Paper on which letters read well at the width there is. */
export function paper() {
  if (innerWidth < 700) return "phone";
  return innerWidth < 1000 || looking.view === "elevation" ? (state.job?.document.job.units === "metric" ? "a4 landscape" : "letter landscape") : null;
}

/** Load drawing and findings anew. @param {{keep?: boolean}} [how] */
export async function load(how = {}) {
  if (!state.place.room) return;
  const mine = ++turn;
  const key = `${state.place.job} ${state.place.room} ${state.place.scheme} ${looking.view} ${looking.wall}`;
  if (shown !== key) {
    Object.assign(sheet, { view: null, findings: [], things: [], note: null, thing: null, live: null, preview: null });
    drawing.svg = null;
  }
  sheet.loading = !sheet.view;
  redraw();
  try {
    const view = await get(`${roomPath()}/view${query({ view: looking.view, wall: looking.wall, shut: looking.wall && looking.shut ? 1 : null, scheme: state.place.scheme, notes: 0, paper: paper() })}`);
    const judged = view;
    if (mine !== turn) return;
    if (how.keep && hands()) {
      sheet.stale = true;
      return;
    }
    const bay = view.elevations?.includes(view.wall) ? null : view.elevations?.find((/** @type {string} */ name) => name.includes(view.wall));
    if (bay) {
      leaveAt(bay);
      look("elevation", bay);
      return load(how);
    }
    looking.wall = view.wall || null;
    shown = `${state.place.job} ${state.place.room} ${state.place.scheme} ${looking.view} ${looking.wall}`;
    sheet.refusal = "";
    take(judged);
  } catch (error) {
    if (mine !== turn) return;
    const refused = /** @type {any} */ (error);
    sheet.settling = false;
    if (refused.status === 422) {
      Object.assign(sheet, { view: null, findings: [], things: [], refusal: refused.message, refusalHint: refused.hint });
      drawing.svg = null;
    } else faulted(error);
  }
  sheet.loading = false;
  redraw();
}

/** @type {() => void} set by the hand: what it does when the drawing of its move is here */
let settled = () => {};
/** @param {() => void} then */
export function onSettled(then) {
  settled = then;
}

/** @type {() => boolean} set by the hand: whether it holds something */
let hands = () => false;
/** @param {() => boolean} holding */
export function whileHeld(holding) {
  hands = holding;
}

/** @param {any} view */
function take(view) {
  sheet.view = view;
  sheet.findings = view.findings;
  sheet.things = view.things;
  sheet.live = null;
  sheet.preview = null;
  sheet.settling = sheet.stale = false;
  settled();
  if (carried) Object.assign(sheet, { note: carried.note || null, thing: carried.note ? null : carried.thing || null });
  carried = null;
  if (sheet.note && !view.findings.some((/** @type {any} */ f) => f.id === sheet.note)) sheet.note = null;
  if (sheet.thing && !view.things.some((/** @type {any} */ t) => t.path === sheet.thing)) sheet.thing = null;
}

export const thingNow = () => sheet.things.find((t) => t.path === sheet.thing) || null;
export const noteNow = () => sheet.findings.find((f) => f.id === sheet.note) || null;

/** @param {string | null} path */
export function pickThing(path) {
  if (sheet.thing === path && !sheet.note) return;
  sheet.thing = path;
  if (path) sheet.note = null;
  if (!path) sheet.live = null;
  dropPreview();
  redraw();
  if (path) tryLive([]);
}

/** @param {string | null} id */
export function pickNote(id) {
  sheet.note = id;
  sheet.thing = null;
  sheet.live = null;
  dropPreview();
  redraw();
}

/** Ask what the room would be; nothing is kept. @param {any} asked @param {AbortSignal} [signal] */
export function tried(asked, signal) {
  const thing = asked.move && sheet.whole ? sheet.things.find((t) => t.path === asked.move.path) : null;
  const more = thing?.kind === "art" && thing.document.group ? { move: { ...asked.move, handle: "group" } } : {};
  return post(`${roomPath()}/try`, { scheme: state.place.scheme, paper: paper(), wall: looking.wall, shut: looking.shut, ...asked, ...more }, signal);
}

/** The gaps of what is picked, as it stands. @param {any[]} patch */
async function tryLive(patch) {
  const thing = thingNow();
  if (!thing) return;
  try {
    const out = await tried({ move: { path: thing.path, dx: 0, dy: 0, turn: 0, exact: true }, live: true });
    if (sheet.thing === thing.path && !hands()) {
      sheet.live = { clearances: out.clearances, snap: null };
      redraw();
    }
  } catch {
    /* the gaps are a courtesy */
  }
}

/** Draw a change in slate, not taken yet. @param {string} id @param {any[]} patch */
export async function preview(id, patch) {
  try {
    const out = await tried({ patch, live: false });
    const stay = new Set(out.findings.map((/** @type {any} */ f) => f.id));
    sheet.preview = { id, ...out, cleared: new Set(sheet.view.findings.filter((/** @type {any} */ f) => !stay.has(f.id)).map((/** @type {any} */ f) => f.id)) };
    say(lost(out));
    redraw();
  } catch (error) {
    faulted(error);
  }
}

/** @param {any} out */
function lost(out) {
  const before = sheet.view.findings.length, after = out.findings.length;
  return `with this remedy ${after} ${after === 1 ? "note stays" : "notes stay"} of ${before}`;
}

export function dropPreview() {
  if (!sheet.preview) return;
  sheet.preview = null;
  redraw();
}

/** Keep a change of this room under the state that is open. @param {any[]} patch @param {Record<string, any>} [more] */
export async function keep(patch, more = {}) {
  if (!patch.length) return null;
  const { sent } = await edit({ patch, scheme: state.place.scheme, ...more });
  return sent;
}
