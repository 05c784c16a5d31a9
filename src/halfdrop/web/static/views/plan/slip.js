// @ts-check
/** What is picked, said as a sentence with blanks: every blank takes any notation, the server reads it. */
import { html, nothing, sentence } from "../../lib/html.js";
import { redraw, say } from "../../state.js";
import { faceOfThing } from "./faces.js";
import { nudge } from "./hand.js";
import { keep, pickThing, sheet, tried } from "./sheet.js";

/** Which way a window may look; said or not. */
export const WAYS = ["", "north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];

/** Faults of blanks, by path. @type {Map<string, string>} */
const faults = new Map();

/** @param {any} thing @param {string} key below the thing, such as `at/along` @param {string} label @param {number} [width] in ch */
export function blank(thing, key, label, width = 7) {
  const value = textOf(valueAt(thing.document, key));
  const id = `blank-${key.replaceAll("/", "-")}`;
  const fault = faults.get(`${thing.path}/${key}`);
  return html`<span class="blank-and-fault"><input class="blank num" id=${id} aria-label=${label} autocomplete="off" spellcheck="false" placeholder=${thing.designed?.[key] || (key === "turn" ? "0°" : nothing)} .size=${Math.max(3, Math.min(width, 24))}
    .value=${value} aria-invalid=${fault ? "true" : nothing} aria-describedby=${fault ? `${id}-fault` : nothing}
    @change=${(/** @type {any} */ e) => commit(thing, key, label, e.target)}
    @keydown=${(/** @type {KeyboardEvent} */ e) => e.key === "Escape" && escape(e, value)}>${fault ? html`<span class="blank-fault" id="${id}-fault" role="alert">${fault}</span>` : nothing}</span>`;
}

/** @param {KeyboardEvent} event @param {string} value */
function escape(event, value) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  if (input.value !== value) {
    input.value = value;
    event.stopPropagation();
  } else input.blur();
}

/** @param {any} thing @param {string} key @param {string} label @param {string[]} options @param {string[]} [names] */
export function choice(thing, key, label, options, names = options) {
  const value = valueAt(thing.document, key);
  return html`<select class="blank" aria-label=${label} @change=${(/** @type {any} */ e) => commit(thing, key, label, e.target)}>
    ${options.map((o, i) => html`<option value=${o} .selected=${o === textOf(value)}>${names[i]}</option>`)}</select>`;
}

/** @param {any} document @param {string} key */
function valueAt(document, key) {
  return key.split("/").reduce((at, step) => (at === undefined || at === null ? undefined : at[step]), document);
}

/** @param {any} value */
function textOf(value) {
  return value === undefined || value === null ? "" : String(value);
}

/** @param {any} thing @param {string} key @param {string} label @param {HTMLInputElement | HTMLSelectElement} input */
async function commit(thing, key, label, input) {
  const old = valueAt(thing.document, key), text = input.value.trim();
  if (text === textOf(old)) return;
  await give(thing, key, label, text);
}

/** Set one value below a thing, or leave it out where the text is empty. @param {any} thing @param {string} key @param {string} label @param {string} text */
export async function give(thing, key, label, text) {
  const old = valueAt(thing.document, key), path = `/${thing.path}/${key}`;
  const holder = key.includes("/") ? key.slice(0, key.lastIndexOf("/")) : "";
  const bare = holder && text !== "" && valueAt(thing.document, holder) === undefined;
  const patch = text === "" ? [{ op: "remove", path }] : [...(bare ? [{ op: "add", path: `/${thing.path}/${holder}`, value: {} }] : []), { op: old === undefined ? "add" : "replace", path, value: text }];
  try {
    const out = await tried({ patch, live: true });
    faults.delete(`${thing.path}/${key}`);
    sheet.findings = out.findings;
    await keep(patch, { message: `${thing.name || thing.type}: ${label} ${text || "left out"}` });
  } catch (error) {
    const refused = /** @type {any} */ (error);
    faults.set(`${thing.path}/${key}`, [refused.message, refused.hint].filter(Boolean).join("; "));
  }
  redraw();
}

/** @param {any} thing */
function where(thing) {
  const at = thing.document.at;
  if (!at) return nothing;
  if (at.wall) {
    const from = at.wall.match(/[A-Z][0-9]{0,2}/)?.[0];
    return html`It stands ${blank(thing, "at/off", "off the wall")} off wall ${at.wall}, its near edge ${blank(thing, "at/along", "along the wall")} from corner ${from}`;
  }
  return html`Its middle is ${blank(thing, "at/x", "along AB from A")} along wall AB from A and ${blank(thing, "at/y", "into the room from AB")} into the room`;
}

/** @param {any} thing */
function body(thing) {
  switch (thing.kind) {
    case "piece":
      return html`<p>${sentence(article(thing.type))}, ${blank(thing, "width", "width")} wide, ${blank(thing, "depth", "depth")} deep, ${blank(thing, "height", "height")} high. ${where(thing)}, turned ${blank(thing, "turn", "turn", 5)}.</p>`;
    case "rug":
      return html`<p>A rug, ${blank(thing, "width", "width")} by ${blank(thing, "length", "length")}. ${where(thing)}, turned ${blank(thing, "turn", "turn", 5)}.</p>`;
    case "opening":
      return html`<p>${sentence(article(thing.type))} in wall ${thing.document.wall}, ${blank(thing, "width", "width")} wide and ${blank(thing, "height", "height")} high, its near jamb ${blank(thing, "along", "along the wall")} from corner ${thing.document.wall.match(/[A-Z][0-9]{0,2}/)?.[0]}.
        ${thing.type === "window" ? html`Its sill is ${blank(thing, "sill", "sill height")} above the floor. It looks ${choice(thing, "faces", "which way it looks", WAYS, ["a way not said", ...WAYS.slice(1)])}.` : nothing}
        ${thing.document.hinge ? html`Hinged at ${choice(thing, "hinge", "hinges at corner", thing.document.wall.match(/[A-Z][0-9]{0,2}/g) || [])}, opening ${choice(thing, "opens", "opens", ["in", "out"])}.` : nothing}</p>`;
    case "art":
      return html`<p>${sentence(article(thing.type))}, ${blank(thing, "width", "width")} wide and ${blank(thing, "height", "height")} high, frame and all. It hangs ${blank(thing, "at/along", "along the wall")} from corner ${thing.document.at.wall.match(/[A-Z][0-9]{0,2}/)?.[0]}, its foot ${blank(thing, "at/bottom", "height above the floor")} above the floor.</p>`;
    default:
      return html`<p>${sentence(article(thing.type))}, ${blank(thing, "width", "width")} wide${thing.document.depth !== undefined ? html`, ${blank(thing, "depth", "depth")} deep` : nothing}.
        ${thing.document.wall ? html`On wall ${thing.document.wall}, ${blank(thing, "along", "along the wall")} from corner ${thing.document.wall.match(/[A-Z][0-9]{0,2}/)?.[0]}${thing.document.bottom !== undefined ? html`, its foot ${blank(thing, "bottom", "height above the floor")} up` : nothing}.` : html`${where(thing)}.`}</p>`;
  }
}

/** @param {string} noun */
function article(noun) {
  return /^[aeiou]/.test(noun) ? `an ${noun}` : `a ${noun}`;
}

/** @param {any} thing */
async function takeOut(thing) {
  const patch = [{ op: "remove", path: `/${thing.path}` }];
  try {
    await tried({ patch, live: true });
    pickThing(null);
    await keep(patch, { message: `${thing.name || thing.type} taken out` });
  } catch (error) {
    say(/** @type {any} */ (error).message);
  }
}

/**
 * @param {any} thing @param {(thing: any) => any} [own] the sentence of a drawing that has one of its own for this thing
 * @param {{turns?: boolean, help?: (thing: any) => string}} [more]
 */
export function slip(thing, own, more = {}) {
  const turns = (thing.kind === "piece" || thing.kind === "rug") && more.turns !== false;
  return html`<section class="slip" aria-label=${`${thing.name || thing.type}, picked`}>
    <h2>${sentence(thing.name || thing.type)}</h2>
    ${own?.(thing) || body(thing)}
    <p class="ways">
      ${turns ? html`<button class="word" aria-keyshortcuts="R" @click=${() => nudge([0, 0], Math.PI / 12)}>Turn 15°</button><button class="word" aria-keyshortcuts="Shift+R" @click=${() => nudge([0, 0], Math.PI / 2)}>Turn 90°</button>` : nothing}
      ${faceOfThing(thing)}
      <button class="word" @click=${() => takeOut(thing)}>Take it out</button>
      <button class="word" aria-keyshortcuts="Escape" @click=${() => pickThing(null)}>Let go</button>
    </p>
    <p class="small quiet">${more.help?.(thing) || `Drag it, or use the arrow keys${turns ? " and R to turn" : ""}; Shift makes longer steps.`}</p>
  </section>`;
}
