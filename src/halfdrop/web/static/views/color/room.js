// @ts-check
/** The room's colors as the server measures them, the swatch in hand, and what a hand gives to a thing. */
import { get, post, query, seg } from "../../api.js";
import { freeId } from "../../lib/html.js";
import { documentNow, edit, faulted, redraw, say, state } from "../../state.js";

export const room = {
  /** @type {any} colors, things and measures of the room under the scheme that is open */
  colors: null,
  /** @type {any} its plan, or a wall's elevation, to be tinted */
  plan: null,
  /** @type {string} the wall that is drawn; the plan where it is empty */
  wall: "",
  /** @type {string | null} the swatch in hand */
  hand: null,
  why: "",
  /** @type {{id: string, board: any[], colors: Record<string, string>} | null} a remedy drawn before it is taken */
  preview: null,
};

let turn = 0;
let shown = "";

export const roomPath = () => `/api/jobs/${seg(state.place.job || "")}/rooms/${seg(state.place.room || "")}`;

export async function load() {
  const mine = ++turn;
  const { job, room: id, scheme } = state.place;
  if (!job || !id) return;
  const key = `${job} ${id} ${scheme}`;
  if (key !== shown) Object.assign(room, { colors: null, plan: null, wall: shown.startsWith(`${job} ${id} `) ? room.wall : "" });
  shown = key;
  try {
    const paper = state.job?.document.job.units === "metric" ? "a4 landscape" : "letter landscape";
    const [colors, plan] = await Promise.all([
      get(`${roomPath()}/colors${query({ scheme })}`),
      get(`${roomPath()}/view${query({ view: room.wall ? "elevation" : "plan", wall: room.wall, scheme, notes: 0, paper })}`),
    ]);
    if (mine !== turn) return;
    Object.assign(room, { colors, plan, why: "", preview: null });
    if (room.hand && !swatch(room.hand)) room.hand = null;
  } catch (error) {
    if (mine !== turn) return;
    if (/** @type {any} */ (error).status === 422) room.why = /** @type {any} */ (error).message;
    else faulted(error);
  }
  redraw();
}

/** Tint the drawing as a patch would make it; the same again takes that away. @param {string} id @param {any[]} patch */
export async function preview(id, patch) {
  if (room.preview?.id === id) room.preview = null;
  else
    try {
      room.preview = { id, ...(await post(`${roomPath()}/colors/try`, { scheme: state.place.scheme, patch })) };
      say("drawn with this remedy; nothing is taken yet");
    } catch (error) {
      if (/** @type {any} */ (error).status === 422) say(/** @type {any} */ (error).message);
      else faulted(error);
    }
  redraw();
}

/** Draw the plan, or a wall. @param {string} wall */
export function drawWall(wall) {
  room.wall = wall;
  load();
}

/** A swatch of the job, under the scheme that is open too. @param {string} id */
export const swatch = (id) => room.colors?.library.find((/** @type {any} */ s) => s.id === id) || null;

/** Take a swatch in hand, or put it down. @param {string | null} id */
export function take(id) {
  room.hand = room.hand === id ? null : id;
  const one = room.hand ? swatch(room.hand) : null;
  say(one ? `${one.name} in hand: press a thing to give it` : "nothing in hand");
}

/** Give a thing a color: the server says what that changes. @param {any} thing @param {string} id */
export async function give(thing, id) {
  if (!thing.write) return say(thing.why || "its color is not recorded here");
  try {
    const { scheme } = state.place;
    const out = await post(`${roomPath()}/colors/give`, { path: thing.path, swatch: id, scheme });
    await edit({ patch: out.patch, scheme, message: out.title });
  } catch (error) {
    if (/** @type {any} */ (error).status === 422) say(/** @type {any} */ (error).message);
    else faulted(error);
  }
}

/**
 * Put colors into the job's own swatches; the ids they have there.
 * @param {{name: string, code?: string, hex: string, lab?: number[], price?: string | null}[]} colors @param {string} message
 */
export async function keep(colors, message) {
  const now = documentNow();
  const known = now.swatches || {};
  const ids = [...Object.keys(known)];
  /** @type {any[]} */
  const patch = now.swatches ? [] : [{ op: "add", path: "/swatches", value: {} }];
  const made = colors.map((color) => {
    const same = Object.entries(known).find(([, s]) => s.name === color.name && s.color === color.hex);
    if (same) return same[0];
    const id = freeId(color.name, ids);
    ids.push(id);
    patch.push({ op: "add", path: `/swatches/${id}`, value: { name: color.name, ...(color.code ? { code: color.code } : {}), color: color.hex, ...(color.price ? { price: color.price } : {}) } });
    return id;
  });
  if (patch.some((op) => op.path !== "/swatches")) {
    const { sent } = await edit({ patch, message });
    await sent;
  }
  return made;
}
