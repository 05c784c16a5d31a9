// @ts-check
/**
 * The sheets in the drawer, in their order. A trade adds its folder and one line here.
 *
 * A view is `{id, title, needs: "nothing" | "job" | "room", css?, scrolls?, enter?(), leave?(), render(), drawn?(), key?(event)}`:
 * `enter` runs when its place opens, `drawn` after each rendering, `key` for keys that no field took.
 */
import jobs from "./jobs/view.js";
import brief from "./brief/view.js";
import survey from "./survey/view.js";
import plan from "./plan/view.js";
import elevation from "./elevation/view.js";
import color from "./color/view.js";
import schemes from "./schemes/view.js";
import schedule from "./schedule/view.js";
import takeoff from "./takeoff/view.js";
import book from "./book/view.js";

export const views = [jobs, brief, survey, plan, elevation, color, schemes, schedule, takeoff, book];
