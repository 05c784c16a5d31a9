// @ts-check
/** The plan: the drawing, with its notes in the margin. */
import { html } from "../../lib/html.js";
import { onDrawing } from "./ondrawing.js";
import { faces } from "./faces.js";
import { openPutIn, putIn } from "./putin.js";
import { sheet } from "./sheet.js";
import { slip } from "./slip.js";

export default onDrawing({
  id: "plan",
  title: "Plan",
  css: ["plan.css"],
  named: () => "plan",
  missing: "There is no plan of this room yet",
  nothing: "Nothing to note in this room",
  ways: () => html`<button class="word" @click=${openPutIn} ?disabled=${!sheet.view}>Put something in</button>`,
  under: faces,
  slip: (thing) => slip(thing),
  beside: putIn,
});
