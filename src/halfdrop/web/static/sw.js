// @ts-check
/**
 * The page without its server: the page's own files, and the last answers it had, kept on the device.
 *
 * What the server answers always counts; only where it cannot be reached does what is kept take its place, marked so that
 * the page says that the line is cut. Nothing that changes a job passes here: that waits in the outbox.
 */

/** Put in by the server: the page's files, and a mark of their contents. @type {{mark: string, files: string[]}} */
const SHELL = /** @type {any} */ (self).SHELL;
const FILES = `halfdrop-page-${SHELL.mark}`;
const ANSWERS = "halfdrop-answers";
/** Most answers kept, and how long the server has before what is kept is shown [ms]. */
const MOST = 160, PATIENCE = 5000;
/** The answers kept: jobs, surveys, drawings, pictures, types and values. */
const KEPT = /^\/api\/(jobs|types|practice|jobs\/[^/]+(\/files|\/survey\/[^/]+|\/rooms\/[^/]+\/view)?|files\/[0-9a-f]{64})$/;

const worker = /** @type {any} the worker's own scope, which the page's types do not have */ (self);

worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil(install()));
worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(activate()));
worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (KEPT.test(url.pathname)) event.respondWith(answered(request));
  else if (request.mode === "navigate" ? url.pathname === "/" : SHELL.files.includes(url.pathname)) event.respondWith(shown(request, url));
});

async function install() {
  const cache = await caches.open(FILES);
  await cache.addAll(SHELL.files);
  await worker.skipWaiting();
}

async function activate() {
  for (const name of await caches.keys()) if (name.startsWith("halfdrop-page-") && name !== FILES) await caches.delete(name);
  await worker.clients.claim();
}

/** The server's answer, if it comes in time. @param {Request} request @returns {Promise<Response>} */
function asked(request) {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error("late")), PATIENCE);
    fetch(request).then(resolve, reject).finally(() => clearTimeout(late));
  });
}

/** A file of the page. @param {Request} request @param {URL} url */
async function shown(request, url) {
  try {
    return await asked(request);
  } catch {
    return (await caches.match(url.pathname, { cacheName: FILES })) || Response.error();
  }
}

/** An answer of the server's, or the last one it gave to the same question. @param {Request} request */
async function answered(request) {
  const cache = await caches.open(ANSWERS);
  try {
    const answer = await asked(request);
    if (answer.ok) await keep(cache, request.url, answer.clone());
    else if (answer.status === 404) await cache.delete(request.url);
    return answer;
  } catch (fault) {
    if (request.signal.aborted) throw fault;
    const last = await cache.match(request.url);
    if (!last) return Response.error();
    const headers = new Headers(last.headers);
    headers.set("Halfdrop-Kept", "1");
    return new Response(last.body, { status: last.status, headers });
  }
}

/** @param {Cache} cache @param {string} url @param {Response} answer */
async function keep(cache, url, answer) {
  try {
    await cache.delete(url);
    await cache.put(url, answer);
    const keys = await cache.keys();
    for (const old of keys.slice(0, Math.max(0, keys.length - MOST))) await cache.delete(old);
  } catch {
    /* a full device keeps less; the page goes on */
  }
}
