// @ts-check
/** The walk round a room: what is measured in which order, and the patches that enter it. */
import { set } from "../../lib/patch.js";
import { documentNow, edit, outbox, redraw, state } from "../../state.js";

/** @typedef {{path: string, what: string, from: string, to: string, pair: string, kind: "walls" | "ties" | "heights"}} Row */

/** What was typed and could not be taken, by path. @type {Map<string, {text: string, fault: string}>} */
export const drafts = new Map();

export function surveyNow() {
  const room = documentNow()?.rooms?.[state.place.room || ""];
  return room?.survey || { corners: ["A", "B", "C", "D"], walls: {} };
}

/** @param {any} survey @returns {string[]} */
export function cornersOf(survey) {
  return typeof survey.corners === "string" ? survey.corners.split(/\s+/) : survey.corners || [];
}

/** @param {string} pair */
export const ends = (pair) => /** @type {string[]} */ (pair.match(/[A-Z][0-9]{0,2}/g) || []);

export const base = () => `rooms/${state.place.room}/survey`;

/** @param {any} survey @returns {Row[]} */
export function wallRows(survey) {
  const corners = cornersOf(survey);
  return corners.map((from, i) => {
    const to = corners[(i + 1) % corners.length];
    const pair = to + from in (survey.walls || {}) ? to + from : from + to;
    return row("walls", pair, from, to);
  });
}

/** The ties taped, and for four corners the two diagonals. @param {any} survey @param {string[]} more pairs asked for @returns {Row[]} */
export function tieRows(survey, more = []) {
  const corners = cornersOf(survey);
  const pairs = Object.keys(survey.ties || {});
  const wanted = corners.length === 4 ? [corners[0] + corners[2], corners[1] + corners[3]] : [];
  for (const pair of [...wanted, ...more]) {
    const [a, b] = ends(pair);
    if (a && b && !pairs.includes(a + b) && !pairs.includes(b + a)) pairs.push(pair);
  }
  return pairs.map((pair) => {
    const [a, b] = ends(pair);
    return row("ties", pair, a, b);
  });
}

/** @param {any} survey @returns {Row[]} */
export function heightRows(survey) {
  const places = Object.keys(survey.heights || {});
  if (!places.includes("center")) places.push("center");
  return places.map((place) => ({ path: `${base()}/heights/${place}`, what: place === "center" ? "Ceiling, in the middle" : `Ceiling, at ${place}`, from: place, to: "", pair: place, kind: /** @type {const} */ ("heights") }));
}

/** @param {"walls" | "ties"} kind @param {string} pair @param {string} from @param {string} to @returns {Row} */
function row(kind, pair, from, to) {
  return { path: `${base()}/${kind}/${pair}`, what: `${from} to ${to}`, from, to, pair, kind };
}

/** What stands in the document for a row, as typed. @param {any} survey @param {Row} row */
export function typed(survey, row) {
  const value = (survey[row.kind] || {})[row.pair];
  if (value === undefined || value === null) return "";
  return typeof value === "object" ? String(value.length ?? "") : String(value);
}

/** Whether a row waits on this device. @param {Row} row */
export function waits(row) {
  return outbox.of(state.job?.id || "").some((entry) => (entry.patch || []).some((op) => op.path === `/${row.path}` || op.path === `/${row.path}/length`));
}

/** Enter a measure: kept on the device at once, sent when it can be. @param {Row} row @param {string} text */
export async function enter(row, text) {
  const survey = surveyNow(), document = documentNow();
  const now = (survey[row.kind] || {})[row.pair];
  const patch = [];
  if (!survey[row.kind]) patch.push({ op: "add", path: `/${base()}/${row.kind}`, value: {} });
  if (text === "") {
    if (now === undefined) return void drafts.delete(row.path);
    patch.push({ op: "remove", path: `/${row.path}` });
  } else patch.push(set(document, now !== null && typeof now === "object" ? `${row.path}/length` : row.path, text));
  await send(row.path, patch, `${row.what}: ${text || "left out"}`, text);
}

/** @param {string} path @param {any[]} patch @param {string} message @param {string} text */
async function send(path, patch, message, text) {
  drafts.delete(path);
  const { sent } = await edit({ patch, message });
  redraw();
  sent.catch((error) => {
    drafts.set(path, { text, fault: [error.message, error.hint].filter(Boolean).join("; ") });
    redraw();
  });
}

/** The last wall typed led to a corner that is not the first: a corner more. */
export async function anotherCorner() {
  const survey = surveyNow(), corners = cornersOf(survey);
  const next = nextLetter(corners);
  const [first, last] = [corners[0], corners[corners.length - 1]];
  const closing = last + first in survey.walls ? last + first : first + last in survey.walls ? first + last : null;
  /** @type {any[]} */
  const patch = [{ op: "replace", path: `/${base()}/corners`, value: [...corners, next] }];
  if (closing) patch.push({ op: "remove", path: `/${base()}/walls/${closing}` }, { op: "add", path: `/${base()}/walls/${last}${next}`, value: survey.walls[closing] });
  await send(`${base()}/corners`, patch, `corner ${next} added`, "");
}

/** @param {string[]} corners */
function nextLetter(corners) {
  for (let i = 0; i < 26; i += 1) {
    const letter = String.fromCharCode(65 + i);
    if (!corners.includes(letter)) return letter;
  }
  return `A${corners.length}`;
}

/** The last corner was none. */
export async function oneCornerLess() {
  const survey = surveyNow(), corners = cornersOf(survey);
  const gone = corners[corners.length - 1];
  /** @type {any[]} */
  const patch = [{ op: "replace", path: `/${base()}/corners`, value: corners.slice(0, -1) }];
  for (const kind of ["walls", "ties"]) for (const pair of Object.keys(survey[kind] || {})) if (ends(pair).includes(gone)) patch.push({ op: "remove", path: `/${base()}/${kind}/${pair}` });
  for (const kind of ["square", "angles", "heights"]) if (survey[kind]?.[gone] !== undefined) patch.push({ op: "remove", path: `/${base()}/${kind}/${gone}` });
  await send(`${base()}/corners`, patch, `corner ${gone} taken out`, "");
}

/** @param {string} corner @param {boolean} square */
export async function setSquare(corner, square) {
  const survey = surveyNow();
  const path = `${base()}/square/${corner}`;
  /** @type {any[]} */
  const patch = survey.square ? [] : [{ op: "add", path: `/${base()}/square`, value: {} }];
  if (square) patch.push({ op: "add", path: `/${path}`, value: true });
  else if (survey.square?.[corner] !== undefined) patch.push({ op: "remove", path: `/${path}` });
  if (patch.length) await send(path, patch, `corner ${corner} ${square ? "is square" : "is not known to be square"}`, "");
}

/** Begin again: the corners stay, the measures go. */
export async function anew() {
  await send(`${base()}/walls`, [{ op: "replace", path: `/${base()}`, value: { corners: ["A", "B", "C", "D"], walls: {} } }], "survey begun anew", "");
}
