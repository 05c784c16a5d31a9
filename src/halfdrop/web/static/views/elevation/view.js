// @ts-check
/** A wall face on: what is in it, on it and before it, with its notes in the margin. */
import { html, nothing, sentence } from "../../lib/html.js";
import { onDrawing } from "../plan/ondrawing.js";
import { leaveAt, leftAt, load, look, looking, sheet } from "../plan/sheet.js";
import { blank, choice, slip, WAYS } from "../plan/slip.js";
import { hangDialog, openHang } from "./hang.js";
import { extras } from "./extras.js";
import { treatment } from "./treatment.js";
import "./art.js";

/** @param {string} wall */
function turnTo(wall) {
  leaveAt(wall);
  look("elevation", wall);
  load();
}

function drawCurtains() {
  looking.shut = !looking.shut;
  load();
}

/** The walls by their names, left to right as one goes round; the arrow keys turn to the next. */
function walls() {
  const names = sheet.view?.elevations || [];
  if (!names.length) return html`<p class="walls"></p>`;
  const [a, b] = sheet.view.corners;
  return html`<fieldset class="walls"><legend class="unseen">Wall</legend>
    ${names.map((/** @type {string} */ name) => html`<label class="wall"><input type="radio" name="wall" value=${name} .checked=${name === looking.wall} @change=${() => turnTo(name)}><span>${name}</span></label>`)}
    ${sheet.things.some((t) => t.kind === "treatment") ? html`<button class="word" type="button" aria-pressed=${looking.shut ? "true" : "false"} @click=${drawCurtains}>${looking.shut ? "Draw the curtains back" : "Draw the curtains shut"}</button>` : nothing}
    <span class="small quiet">from ${a} at the left to ${b} at the right</span>
  </fieldset>`;
}

/** @param {any} thing */
function own(thing) {
  if (thing.kind === "treatment") return treatment(thing);
  return extras.slips[thing.kind]?.(thing) || (thing.kind === "fitting" && thing.document.wall ? fitting(thing) : thing.type === "window" ? window_(thing) : null);
}

/** @param {any} thing */
const corner = (thing) => thing.document.wall.match(/[A-Z][0-9]{0,2}/)?.[0];

/** @param {any} thing */
function fitting(thing) {
  return html`<p>${sentence(thing.type)} on wall ${thing.document.wall}, ${blank(thing, "along", "along the wall")} from corner ${corner(thing)}, ${blank(thing, "width", "width")} wide and ${blank(thing, "height", "height")} high, its foot ${blank(thing, "bottom", "height above the floor")} up.</p>
    ${thing.usual ? html`<p class="small quiet">How high it is was not taped; it is drawn where such a thing usually is.</p>` : nothing}`;
}

/** @param {any} thing */
function window_(thing) {
  const sashes = ["", "fixed", "casement", "double-hung", "sliding", "awning", "tilt"];
  return html`<p>A window in wall ${thing.document.wall}, ${blank(thing, "width", "width")} wide and ${blank(thing, "height", "height")} high, its near jamb ${blank(thing, "along", "along the wall")} from corner ${corner(thing)}, its sill ${blank(thing, "sill", "sill height")} up; trim ${blank(thing, "trim", "width of its trim")} wide, ${choice(thing, "sash", "sash", sashes, ["sash not said", ...sashes.slice(1)])}. It looks ${choice(thing, "faces", "which way it looks", WAYS, ["a way not said", ...WAYS.slice(1)])}.</p>`;
}

/** @param {any} thing */
function help(thing) {
  if (thing.kind === "treatment") return thing.rod ? "Drag it up or down, or a rod's end along; arrow keys up and down raise and lower, right and left lengthen and shorten at both ends. Shift makes longer steps." : "Its place is the opening's.";
  return "Drag it, or use the arrow keys; Shift makes longer steps.";
}

export default onDrawing({
  id: "elevation",
  title: "Elevation",
  css: ["elevation.css", "art.css"],
  named: () => `elevation ${looking.wall || ""}`,
  missing: "There is no elevation of this room yet",
  nothing: "Nothing to note on this wall",
  wall: leftAt,
  above: walls,
  ways: () => html`<button class="word" @click=${openHang} ?disabled=${!sheet.view}>Hang or put something in</button>${extras.ways.map((way) => way())}`,
  under: () => extras.heads.map((part) => part()),
  slip: (thing) => slip(thing, own, { turns: false, help }),
  beside: () => html`${hangDialog()}${extras.beside.map((part) => part())}`,
});
