// @ts-check
/** What the page knows: where it is, the job as the server has it, and what waits to be sent. */
import { Offline, Refused, call, follow, get, remember, seg } from "./api.js";
import { applied } from "./lib/patch.js";
import { Outbox, mark } from "./outbox.js";

/**
 * @typedef {{view: string, job: string | null, room: string | null, scheme: string | null}} Place
 * @typedef {{message: string, hint?: string | null, kind?: string, again?: (() => void) | null, other?: (() => void) | null}} Said
 */

export const state = {
  /** @type {Place} */
  place: { view: "jobs", job: null, room: null, scheme: null },
  /** @type {any} the job: {id, revision, document, rooms, schemes} */
  job: null,
  online: true,
  /** @type {Said | null} the last thing said, in the strip and to a screen reader */
  said: null,
  /** @type {Said | null} a fault that waits to be read */
  fault: null,
  ink: localStorage.getItem("halfdrop-ink") || "auto",
  /** @type {string | null} who signs; empty where changes are not signed, null until that is asked */
  author: localStorage.getItem("halfdrop-author"),
};

/** What stands in the history beside a change made here. */
export const signature = () => state.author || "unsigned";

/** @type {Set<(why: string) => void>} */
const hearers = new Set();
let asked = false;

/** Draw anew before the next frame. */
export function redraw(why = "redraw") {
  if (asked) return;
  asked = true;
  queueMicrotask(() => {
    asked = false;
    for (const hear of hearers) hear(why);
  });
}

/** @param {(why: string) => void} hear */
export function onRedraw(hear) {
  hearers.add(hear);
}

/** @type {Set<(news: any) => void>} */
const readers = new Set();
/** Hear of changes to the open job, ours and others'. @param {(news: any) => void} hear */
export function onChange(hear) {
  readers.add(hear);
  return () => readers.delete(hear);
}
/** @param {any} news */
function tell(news) {
  for (const hear of readers) hear(news);
}

/** @param {string} message */
export function say(message) {
  state.said = { message };
  redraw();
}

/** @param {unknown} error @param {Partial<Said>} [more] */
export function faulted(error, more = {}) {
  if (error instanceof DOMException && error.name === "AbortError") return;
  if (error instanceof Offline) {
    state.online = false;
    redraw();
    return;
  }
  if (!(error instanceof Refused)) console.error(error);
  const fault = /** @type {any} */ (error);
  state.fault = { message: fault.message || String(error), hint: fault.hint || null, kind: fault.kind, ...more };
  redraw();
}

export const outbox = new Outbox({
  author: () => signature(),
  changed: () => {
    redraw();
    if (!outbox?.sending && missed > (state.job?.revision || 0)) refresh(missed, "others");
  },
  line: (up) => {
    if (state.online === up) return;
    state.online = up;
    redraw();
  },
  acknowledged: (entry, answer) => {
    if (entry.what === "photo") return tell({ kind: "photo", job: entry.job });
    if (entry.job !== state.job?.id) return;
    if (!outbox.of(entry.job).length) say(answer.merged ? `kept as revision ${answer.revision}, together with another's change` : `kept as revision ${answer.revision}`);
    follows(answer);
    refresh(answer.revision, "own");
  },
  refused: (entry, error) => {
    refresh(0, "refused");
    if (entry.inline) return; // the blank itself says so
    if (error.kind === "conflict" || error.status === 409) {
      faulted(error, {
        message: `${entry.message || "This change"} meets a change by another: ${othersOf(error)}`,
        hint: null,
        again: () => edit({ ...entry, base: state.job.revision, patch: entry.patch || [] }),
      });
    } else faulted(error, { message: `${entry.message ? `${entry.message}: ` : ""}${error.message}` });
  },
});

/** Take an acknowledged patch over at once, so that what is typed next stands on it. @param {any} answer */
function follows(answer) {
  const plain = (answer.patch || []).every((/** @type {any} */ op) => ["add", "remove", "replace", "move"].includes(op.op));
  if (!state.job || answer.revision !== state.job.revision + 1 || !plain) return;
  state.job = { ...state.job, revision: answer.revision, document: applied(state.job.document, answer.patch) };
  remember(`/api/jobs/${seg(state.job.id)}`, state.job);
  redraw();
}

/** @param {Refused} error */
function othersOf(error) {
  const theirs = (error.body?.revisions || []).map((/** @type {any} */ r) => `${r.author || "someone"}: ${r.message}`);
  return theirs.join("; ") || error.message;
}

let loading = 0;
let newest = 0;
/** The latest revision that was told of. */
let missed = 0;

/** Load the job anew where the server has a later revision. @param {number} revision @param {string} why */
export async function refresh(revision, why) {
  const id = state.place.job;
  if (!id) return;
  newest = Math.max(newest, revision);
  if (revision && state.job?.id === id && state.job.revision >= revision) return tell({ kind: why, revision });
  const turn = ++loading;
  try {
    const job = await get(`/api/jobs/${seg(id)}`);
    if (turn !== loading || state.place.job !== id) return;
    state.job = job;
    const { scheme } = state.place;
    if (scheme && !job.document.schemes?.[scheme] && !outbox.entries.some((e) => e.scheme === scheme)) return go({ scheme: null });
    tell({ kind: why, revision: job.revision });
    redraw();
  } catch (error) {
    faulted(error);
  }
}

let unfollow = () => {};
let followed = "";

/** Open a job: load it and follow its events. @param {string} id */
export async function openJob(id) {
  if (state.job?.id === id) return;
  state.job = null;
  newest = missed = 0;
  unfollow();
  state.job = await get(`/api/jobs/${seg(id)}`);
  followed = id;
  unfollow = follow(
    id,
    (event) => {
      if (event.kind === "removed") return say("this job was removed");
      if (event.kind === "photo") return tell({ kind: "photo" });
      if (!event.revision || event.revision <= Math.max(newest, state.job?.revision || 0)) return;
      missed = Math.max(missed, event.revision);
      if (outbox.sending) return; // it may be our own, whose answer is on its way: then it would show twice
      say(`${event.author}: ${event.message}`);
      refresh(event.revision, "others");
    },
    (up) => {
      if (up && !state.online) {
        state.online = true;
        refresh(0, "back");
        outbox.send();
      } else if (!up) state.online = false;
      redraw();
    },
  );
}

addEventListener("halfdrop-away", () => {
  if (!state.online) return;
  state.online = false;
  redraw();
});

export function closeJob() {
  unfollow();
  unfollow = () => {};
  followed = "";
  state.job = null;
}

export const following = () => followed;

/** The document with what waits to be sent already in it (edits of the rooms as found). */
export function documentNow() {
  if (!state.job) return null;
  let document = state.job.document;
  for (const entry of outbox.of(state.job.id)) if (entry.patch && !entry.scheme) document = applied(document, entry.patch);
  return document;
}

/** The document under the scheme that is open, with what waits to be sent for it; as found where none is. */
export function documentOpen() {
  const { scheme } = state.place;
  let document = documentNow();
  if (!document || !scheme) return document;
  const steps = document.schemes?.[scheme]?.steps || [];
  const waiting = outbox.of(state.job.id).filter((/** @type {any} */ e) => e.patch && e.scheme === scheme);
  for (const { patch } of [...steps, ...waiting]) document = applied(document, patch);
  return document;
}

/**
 * Keep a change. Resolves when it is on this device; `sent` when the server has it on its disk.
 * @param {{patch: any[], message?: string, scheme?: string | null, schemeName?: string | null, kind?: string, finding?: string | null, cost?: string | null, base?: number, inline?: boolean}} change
 */
export async function edit(change) {
  const { patch, base, ...rest } = change;
  const { sent } = await outbox.put({
    job: state.job.id, what: "patch", base: base ?? state.job.revision, patch,
    message: rest.message, scheme: rest.scheme, schemeName: rest.schemeName, kind: rest.kind, finding: rest.finding, cost: rest.cost, inline: rest.inline,
  });
  return { sent };
}

let turning = Promise.resolve();

/** Take back, or do again: one after the other, after what is being sent. @param {"undo" | "redo"} which @param {number} [revision] */
export function turnBack(which, revision) {
  turning = turning.then(() => turn(which, revision));
  return turning;
}

/** @param {"undo" | "redo"} which @param {number} [revision] */
async function turn(which, revision) {
  if (!state.job) return;
  for (let n = 0; n < 40 && state.online && outbox.of(state.job.id).length; n += 1) await new Promise((done) => setTimeout(done, 50));
  if (outbox.of(state.job.id).length) return say("what was typed is still being sent; then it can be undone");
  try {
    const done = await turned(`/api/jobs/${seg(state.job.id)}/${which}`, { ...(revision ? { revision } : {}), author: signature() });
    const what = done.undid || done.redid || done.message || "";
    say(`${which === "undo" ? "Undone" : "Done again"}: ${what.replace(/^(undo|redo|undone|done again)[: ]+/i, "") || `revision ${done.revision}`}`);
    await refresh(done.revision, which);
  } catch (error) {
    if (error instanceof Refused && error.status !== 409 && error.status < 500) say(error.message);
    else faulted(error);
  }
}

/** Ask once, and where the answer is lost once more under the same mark: it is taken back once. @param {string} path @param {any} json */
async function turned(path, json) {
  const headers = { "Halfdrop-Change": mark() };
  try {
    return await call("POST", path, { json, headers });
  } catch (error) {
    if (!(error instanceof Offline)) throw error;
    await new Promise((done) => setTimeout(done, 700));
    return call("POST", path, { json, headers });
  }
}

/** @param {Partial<Place>} to */
export function hashOf(to) {
  const place = { ...state.place, ...to };
  if (!place.job || place.view === "jobs") return "#/";
  const room = place.room ? `/${seg(place.room)}` : "";
  return `#/${seg(place.job)}/${place.view}${room}${place.scheme ? `?scheme=${seg(place.scheme)}` : ""}`;
}

/** @param {Partial<Place>} to */
export function go(to) {
  location.hash = hashOf(to);
}

/** @returns {Place} */
export function placeOf(/** @type {string} */ hash) {
  const [path, asked] = hash.replace(/^#\/?/, "").split("?");
  const [job, view, room] = path.split("/").map(decodeURIComponent);
  const scheme = new URLSearchParams(asked || "").get("scheme");
  return { job: job || null, view: job ? view || "plan" : "jobs", room: room || null, scheme: scheme || null };
}
