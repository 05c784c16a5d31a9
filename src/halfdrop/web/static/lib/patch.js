// @ts-check
/** JSON Patch on what the page holds, so that what was typed shows before the server has it. The server's word counts. */

/** @param {string} step */
const unescape = (step) => step.replaceAll("~1", "/").replaceAll("~0", "~");

/** What stands at a pointer. @param {any} document @param {string} pointer */
function standing(document, pointer) {
  return pointer.split("/").slice(1).reduce((value, step) => (value === null || value === undefined ? undefined : value[unescape(step)]), document);
}

/**
 * A copy of `document` behind `patch`; an operation that cannot be done here is left to the server.
 * @param {any} document
 * @param {Array<{op: string, path: string, from?: string, value?: any}>} patch
 */
export function applied(document, patch) {
  const out = structuredClone(document);
  const plain = patch.flatMap((op) => (op.op === "move" && op.from ? [{ op: "remove", path: op.from }, { op: "add", path: op.path, of: op.from }] : [op]));
  /** @type {Map<string, any>} */
  const moving = new Map();
  for (const op of /** @type {any[]} */ (plain)) {
    if (op.of !== undefined) op.value = moving.get(op.of);
    if (op.op === "remove") moving.set(op.path, standing(out, op.path));
    const steps = op.path.split("/").slice(1).map(unescape);
    const last = steps.pop();
    if (last === undefined) continue;
    let at = out;
    for (const step of steps) at = at === null || at === undefined ? undefined : at[step];
    if (at === null || typeof at !== "object") continue;
    if (op.op === "remove") {
      if (Array.isArray(at)) at.splice(Number(last), 1);
      else delete at[last];
    } else if (op.op === "add" || op.op === "replace") {
      if (Array.isArray(at) && op.op === "add") at.splice(last === "-" ? at.length : Number(last), 0, op.value);
      else at[last] = op.value;
    }
  }
  return out;
}

/**
 * Set one value: `replace` where there is one, else `add`.
 * @param {any} document @param {string} path without its leading slash @param {any} value
 */
export function set(document, path, value) {
  let at = document;
  for (const step of path.split("/")) at = at === null || at === undefined ? undefined : at[unescape(step)];
  return { op: at === undefined ? "add" : "replace", path: `/${path}`, value };
}
