// @ts-check
/** Talk with the server: one error shape, revisions as preconditions, events. */

/** What the server refused, in its own words. */
export class Refused extends Error {
  /** @param {number} status @param {any} body */
  constructor(status, body) {
    const error = (body && body.error) || { message: `the server answered ${status}` };
    super(named(error.message));
    this.status = status;
    this.hint = error.hint || null;
    this.kind = error.kind || "bug";
    this.at = error.at || null;
    this.errors = error.errors || [];
    this.body = body;
  }
}

/** A message as a person reads it: the room by its name, and the place left to the blank it is said at. @param {string} message */
function named(message) {
  return message.replace(/^`[^`\s]*\/[^`\s]*`: /, "").replace(/^room `([^`]*)`: /, (_, id) => `${id.slice(0, 1).toUpperCase()}${id.slice(1).replaceAll(/[-_]/g, " ")}: `);
}

/** The server cannot be reached. */
export class Offline extends Error {}

/** @param {string} part */
export const seg = (part) => encodeURIComponent(part);

/**
 * @param {string} method @param {string} path
 * @param {{json?: any, body?: BodyInit, headers?: Record<string, string>, signal?: AbortSignal, keepalive?: boolean}} [options]
 */
export async function call(method, path, options = {}) {
  /** @type {Record<string, string>} */
  const headers = { Accept: "application/json", ...options.headers };
  let body = options.body;
  if (options.json !== undefined) {
    body = JSON.stringify(options.json);
    if (!headers["Content-Type"]) headers["Content-Type"] = "application/json";
  }
  let answer;
  try {
    answer = await fetch(path, { method, headers, body, signal: options.signal, keepalive: options.keepalive });
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === "AbortError") throw fault;
    throw new Offline("the workbench cannot be reached");
  }
  if (answer.headers.get("Halfdrop-Kept")) dispatchEvent(new Event("halfdrop-away"));
  const text = await answer.text();
  let out = null;
  try {
    out = text ? JSON.parse(text) : null;
  } catch {
    if (answer.ok) throw new Refused(answer.status, { error: { message: "the answer could not be read" } });
  }
  if (!answer.ok) throw new Refused(answer.status, out);
  return out;
}

/** @param {string} path @param {AbortSignal} [signal] */
export const get = (path, signal) => call("GET", path, { signal });
/** @param {string} path @param {any} json @param {AbortSignal} [signal] @param {Record<string, string>} [headers] */
export const post = (path, json, signal, headers) => call("POST", path, { json, signal, headers });

/** @param {Record<string, string | number | null | undefined>} pairs */
export function query(pairs) {
  const out = new URLSearchParams();
  for (const [key, value] of Object.entries(pairs)) if (value !== null && value !== undefined && value !== "") out.set(key, String(value));
  const text = out.toString();
  return text ? `?${text}` : "";
}

/**
 * Follow a job's events; reconnects by itself.
 * @param {string} job @param {(event: any) => void} told @param {(up: boolean) => void} line
 * @returns {() => void} stops
 */
export function follow(job, told, line) {
  const source = new EventSource(`/api/jobs/${seg(job)}/events`);
  const hear = (/** @type {MessageEvent} */ message) => {
    try {
      told(JSON.parse(message.data));
    } catch {
      /* a comment or a beat */
    }
  };
  source.addEventListener("revision", hear);
  source.addEventListener("removed", hear);
  source.addEventListener("files", () => told({ kind: "photo" }));
  source.onopen = () => line(true);
  source.onerror = () => line(false);
  return () => source.close();
}

/**
 * Wait for a task: progress as it comes, the result at its end.
 * @param {string} id @param {(done: any) => void} progress @param {AbortSignal} [signal]
 */
export async function finished(id, progress, signal) {
  for (let pause = 60; ; pause = Math.min(pause * 1.5, 700)) {
    const task = await get(`/api/tasks/${seg(id)}`, signal);
    progress(task);
    if (task.state === "done") return task;
    if (task.state === "failed" || task.state === "cancelled") {
      throw new Refused(500, task.error ? task : { error: { message: `the work was ${task.state}` } });
    }
    await new Promise((resolve) => setTimeout(resolve, pause));
    if (signal?.aborted) throw new DOMException("stopped", "AbortError");
  }
}

const ANSWERS = "halfdrop-answers";

/** Keep on the device what the server would answer now, for when it cannot be reached. @param {string} path @param {any} value */
export async function remember(path, value) {
  if (!navigator.serviceWorker?.controller) return;
  try {
    const kept = await caches.open(ANSWERS);
    await kept.put(path, new Response(JSON.stringify(value), { headers: { "Content-Type": "application/json" } }));
  } catch {
    /* a full device keeps less; the page goes on */
  }
}

/** Have the page open without its server; only where the browser trusts the line (this machine, or a certificate). */
export function keepPage() {
  if (!("serviceWorker" in navigator)) return;
  navigator.serviceWorker.register("sw.js").catch((fault) => console.warn("this page opens only while its server runs", fault));
}
