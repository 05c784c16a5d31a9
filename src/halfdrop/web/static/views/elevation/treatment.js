// @ts-check
/** What hangs at a window, said as a sentence with blanks; what is left out practice works out, and says so. */
import { html, nothing } from "../../lib/html.js";
import { hashOf, state } from "../../state.js";
import { blank, choice, give } from "../plan/slip.js";
import { ownCloth } from "./cloth.js";

const HEADINGS = ["pencil", "single pinch", "double pinch", "triple pinch", "goblet", "cartridge", "box", "eyelet", "tab", "rod pocket", "wave", "flat"];
const LENGTHS = ["clear", "kiss", "break", "puddle", "apron", "sill"];
const LENGTH_WORDS = ["clear of the floor", "kissing the floor", "breaking on the floor", "puddled", "to below the sill", "to the sill"];
const DRAWS = ["pair", "left", "right", "fixed"];
const SIDES = ["", "left", "right"];
const AT_SIDES = ["one at each side", "one alone, at the left", "one alone, at the right"];
const DRAWN = ["A pair", "One, drawn to the left", "One, drawn to the right", "Panels that stay"];

/** @param {any} thing */
function cloth(thing) {
  const fabrics = Object.entries(state.job?.document.fabrics || {});
  if (!fabrics.length) return html`No cloth is named, so none is counted.`;
  return html`Made in ${choice(thing, "fabric", "cloth", ["", ...fabrics.map(([id]) => id)], ["no cloth named", ...fabrics.map(([, f]) => /** @type {any} */ (f).name)])}.`;
}

/** Values that are given, each with a word that leaves it to practice. @param {any} thing */
function leave(thing) {
  const keys = /** @type {[string, string][]} */ ([["hardware/height", "the rod's height"], ["hardware/left", "the rod's left end"], ["hardware/right", "the rod's right end"], ["drop", "the cloth's length"], ["fullness", "the fullness"]]);
  const given = keys.filter(([key]) => key.split("/").reduce((at, step) => at?.[step], thing.document) !== undefined);
  if (!given.length) return html`<p class="small quiet">Nothing is given: practice works it all out.</p>`;
  return html`<details class="leave"><summary class="small">Leave to practice</summary><p class="ways small">${given.map(([key, name]) => html`<button class="word" @click=${() => give(thing, key, name, "")}>${name}</button>`)}</p></details>`;
}

/** @param {any} thing */
export function treatment(thing) {
  const d = thing.document;
  const panels = (d.kind || "panels") === "panels";
  const rod = thing.rod
    ? html` The rod's top is ${blank(thing, "hardware/height", "rod's top above the floor")} above the floor; it runs ${blank(thing, "hardware/left", "past the opening at the left")} past the opening at the left and ${blank(thing, "hardware/right", "past the opening at the right")} at the right.`
    : nothing;
  const said = panels
    ? html`<p>${choice({ ...thing, document: { draw: "pair", ...d } }, "draw", "drawn", DRAWS, DRAWN)}${d.draw === "fixed" ? html`, ${choice(thing, "side", "side", SIDES, AT_SIDES)}` : nothing}, ${choice(thing, "heading", "heading", HEADINGS)} heading, ${blank(thing, "fullness", "fullness", 4)} times full, ${choice({ ...thing, document: { length: "clear", ...d } }, "length", "length", LENGTHS, LENGTH_WORDS)}. ${cloth(thing)}${rod} As it hangs the cloth is ${blank(thing, "drop", "length of the cloth as it hangs")} long.</p>`
    : html`<p>A ${d.kind} shade, ${d.mount || "outside"}. ${cloth(thing)} Let down it is ${blank(thing, "drop", "length let down")} long.</p>`;
  return html`${said}
    <dl class="facts num">${(thing.facts || []).map((/** @type {string[]} */ [label, text]) => html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>
    ${(thing.facts || []).some((/** @type {string[]} */ [label]) => label === "to buy") ? html`<p class="small quiet">The cloth here is counted for this treatment alone. <a href=${hashOf({ view: "takeoff" })}>The take-off</a> lays out all that is cut of it together, which may take less.</p>` : nothing}
    ${ownCloth(thing)}
    ${leave(thing)}`;
}
