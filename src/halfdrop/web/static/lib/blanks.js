// @ts-check
/**
 * Blanks of the document itself: each shows one place of it, takes what is typed as a patch, and says beside itself why
 * that was refused; what was typed stays in it to be mended.
 */
import { documentNow, edit, redraw, say } from "../state.js";
import { html, nothing } from "./html.js";

/** @param {any} document @param {string} path @returns {any} what stands at a place such as `job/name` */
export function at(document, path) {
  let value = document;
  for (const step of path.split("/")) value = value === null || value === undefined ? undefined : value[step];
  return value;
}

/** The operation that sets one place, with whatever is missing above it; `undefined` takes it out. @param {any} document @param {string} path @param {any} value @returns {any[]} */
export function setting(document, path, value) {
  if (value === undefined) return at(document, path) === undefined ? [] : [{ op: "remove", path: `/${path}` }];
  const steps = path.split("/");
  let n = steps.length, whole = value;
  while (n > 1 && at(document, steps.slice(0, n - 1).join("/")) === undefined) {
    n -= 1;
    whole = { [steps[n]]: whole };
  }
  const place = steps.slice(0, n).join("/");
  return [{ op: at(document, place) === undefined ? "add" : "replace", path: `/${place}`, value: whole }];
}

/** What was typed and refused, by place. @type {Map<string, {text: string, fault: string}>} */
const refused = new Map();

/** Forget what was refused, when a sheet is left. */
export function forget() {
  refused.clear();
}

/**
 * Keep a change of the job; where the server refuses it, the place says so.
 * @param {string} place @param {any[]} patch @param {string} message @param {string} [text] what was typed
 * @param {string | null} [scheme] the scheme it is a step of; the rooms as found without it
 */
export async function keepAt(place, patch, message, text = "", scheme = null) {
  if (!patch.length) return;
  refused.delete(place);
  const { sent } = await edit({ patch, message, inline: true, ...(scheme ? { scheme } : {}) });
  sent.then(
    () => {},
    (error) => {
      refused.set(place, { text, fault: [error.message, error.hint].filter(Boolean).join("; ") });
      say(`${message}: ${error.message}`);
      redraw();
    },
  );
  redraw();
}

/** Why a place was refused. @param {string} place */
export function faultAt(place) {
  const fault = refused.get(place)?.fault;
  return fault ? html`<span class="blank-fault" id=${`${idOf(place)}-fault`} role="alert">${fault}</span>` : nothing;
}

/** @param {string} place */
export const idOf = (place) => `at-${place.replaceAll(/[^a-z0-9]+/gi, "-")}`;

/**
 * A blank for a text, a measure or a number.
 * @param {string} path @param {string} label
 * @param {{size?: number, lines?: number, placeholder?: string, whole?: boolean, required?: boolean, list?: string, name?: string}} [how] `whole`: a whole number; `name`: what a history calls it
 */
export function blank(path, label, how = {}) {
  const value = at(documentNow(), path);
  const held = refused.get(path);
  const text = held ? held.text : value === undefined || value === null ? "" : String(value);
  /** @param {any} event */
  const change = (event) => {
    const typed = event.target.value.trim();
    if (typed === text && !held) return;
    if (held && typed === String(value ?? "")) {
      refused.delete(path);
      return redraw();
    }
    if (typed === "" && how.required) {
      event.target.value = String(value ?? "");
      return say(`${label} is needed`);
    }
    const next = typed === "" ? undefined : how.whole && /^\d+$/.test(typed) ? Number(typed) : typed;
    keepAt(path, setting(documentNow(), path, next), `${how.name || label} ${typed ? `is ${typed}` : "left out"}`.slice(0, 200), typed);
  };
  const id = idOf(path), wrong = held ? "true" : nothing, by = held ? `${id}-fault` : nothing;
  const field = how.lines
    ? html`<textarea class="blank" id=${id} rows=${how.lines} aria-label=${label} aria-invalid=${wrong} aria-describedby=${by} placeholder=${how.placeholder || nothing} .value=${text} @change=${change}></textarea>`
    : html`<input class="blank num" id=${id} aria-label=${label} aria-invalid=${wrong} aria-describedby=${by} autocomplete="off" spellcheck="false" .size=${Math.max(3, Math.min(how.size || 8, 40))} placeholder=${how.placeholder || nothing} list=${how.list || nothing} .value=${text} @change=${change} @keydown=${(/** @type {KeyboardEvent} */ e) => e.key === "Enter" && /** @type {HTMLElement} */ (e.target).blur()}>`;
  return html`<span class="blank-and-fault">${field}${faultAt(path)}</span>`;
}

/**
 * A choice among words.
 * @param {string} path @param {string} label @param {(string | [string, string])[]} options words, or values with their words @param {string} [otherwise] the value where the document says nothing
 */
export function choice(path, label, options, otherwise = "") {
  const value = at(documentNow(), path) ?? otherwise;
  const pairs = options.map((o) => (typeof o === "string" ? [o, o] : o));
  return html`<span class="blank-and-fault"><select class="blank" id=${idOf(path)} aria-label=${label} @change=${(/** @type {any} */ e) => {
    const next = e.target.value;
    keepAt(path, setting(documentNow(), path, next === "" ? undefined : next), `${label} is ${pairs.find(([v]) => v === next)?.[1] || next || "left out"}`, next);
  }}>${pairs.map(([v, words]) => html`<option value=${v} .selected=${v === value}>${words}</option>`)}</select>${faultAt(path)}</span>`;
}

/** A tick that is in the document while it is set. @param {string} path @param {string} words @param {string} name what a history calls it */
export function tick(path, words, name) {
  const set = Boolean(at(documentNow(), path));
  return html`<label class="tick"><input type="checkbox" .checked=${set} @change=${(/** @type {any} */ e) => keepAt(path, setting(documentNow(), path, e.target.checked ? true : undefined), `${name}: ${words} ${e.target.checked ? "ticked" : "not any more"}`)}> ${words}</label>`;
}
