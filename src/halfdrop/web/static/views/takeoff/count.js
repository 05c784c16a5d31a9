// @ts-check
/** The take-off of the open job as the server counted it, kept for the revision and scheme it was counted at. */
import { finished, post, seg } from "../../api.js";
import { redraw, state } from "../../state.js";

/** @typedef {{state: "counting" | "done" | "failed", at: number, answer: any, message: string, hint: string | null}} Counted */

/** @type {Map<string, Counted>} by job and scheme */
const known = new Map();
const key = () => `${state.place.job} ${state.place.scheme || ""}`;

/** What is known of the open job under the scheme at hand. @returns {Counted | null} */
export const counted = () => known.get(key()) || null;

/** Count it, unless it was counted at this revision. */
export async function count() {
  const mine = key(), before = known.get(mine), at = state.job.revision;
  if (before && before.at === at && before.state !== "failed") return;
  /** @type {Counted} */
  const one = { state: "counting", at, answer: before?.answer || null, message: "", hint: null };
  known.set(mine, one);
  redraw();
  try {
    const { task } = await post(`/api/jobs/${seg(state.job.id)}/takeoff`, { scheme: state.place.scheme });
    const { result } = await finished(task, () => {});
    one.answer = result;
    one.state = "done";
  } catch (error) {
    one.state = "failed";
    one.answer = null;
    one.message = /** @type {any} */ (error).message;
    one.hint = /** @type {any} */ (error).hint || null;
  }
  if (known.get(mine) === one) redraw();
}
