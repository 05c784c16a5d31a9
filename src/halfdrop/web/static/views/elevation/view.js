// @ts-check
/** A wall face on: what is in it, on it and before it, with its notes in the margin. */
import { html } from "../../lib/html.js";
import { state } from "../../state.js";
import { onDrawing } from "../plan/ondrawing.js";
import { load, look, looking, sheet } from "../plan/sheet.js";
import { slip } from "../plan/slip.js";
import { hangDialog, openHang } from "./hang.js";
import { extras } from "./extras.js";
import { treatment } from "./treatment.js";
import "./art.js";

/** The wall each room was left at. @type {Map<string, string>} */
const left = new Map();
const roomKey = () => `${state.place.job} ${state.place.room}`;

/** @param {string} wall */
function turnTo(wall) {
  left.set(roomKey(), wall);
  look("elevation", wall);
  load();
}

/** The walls by their names, left to right as one goes round; the arrow keys turn to the next. */
function walls() {
  const names = sheet.view?.elevations || [];
  if (!names.length) return html`<p class="walls"></p>`;
  const [a, b] = sheet.view.corners;
  return html`<fieldset class="walls"><legend class="unseen">Wall</legend>
    ${names.map((/** @type {string} */ name) => html`<label class="wall"><input type="radio" name="wall" value=${name} .checked=${name === looking.wall} @change=${() => turnTo(name)}><span>${name}</span></label>`)}
    <span class="small quiet">from ${a} at the left to ${b} at the right</span>
  </fieldset>`;
}

/** @param {any} thing */
const own = (thing) => (thing.kind === "treatment" ? treatment(thing) : extras.slips[thing.kind]?.(thing) || null);

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
  wall: () => left.get(roomKey()) || null,
  above: walls,
  ways: () => html`<button class="word" @click=${openHang} ?disabled=${!sheet.view}>Hang or put something in</button>${extras.ways.map((way) => way())}`,
  under: () => extras.heads.map((part) => part()),
  slip: (thing) => slip(thing, own, { turns: false, help }),
  beside: () => html`${hangDialog()}${extras.beside.map((part) => part())}`,
});
