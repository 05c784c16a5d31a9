// @ts-check
/** Install sheets printed: a button that becomes the way to the PDF. */
import { finished, post, seg } from "../../api.js";
import { html } from "../../lib/html.js";
import { faulted, redraw, say, state } from "../../state.js";

/** @type {Map<string, {state: "printing" | "done", url: string, at: number}>} */
const prints = new Map();

/** @param {string} id @param {{trade?: string, of?: string}} what @param {string} name */
async function print(id, what, name) {
  const one = { state: /** @type {"printing" | "done"} */ ("printing"), url: "", at: state.job.revision };
  prints.set(id, one);
  redraw();
  try {
    const { task } = await post(`/api/jobs/${seg(state.job.id)}/install`, { scheme: state.place.scheme, ...what });
    const out = await finished(task, () => {});
    one.url = typeof out.result === "string" ? out.result : `/api/tasks/${seg(task)}/result`;
    one.state = "done";
    say(`${name}: printed`);
  } catch (error) {
    prints.delete(id);
    faulted(error);
  }
  redraw();
}

/**
 * A way to print some sheets.
 * @param {{trade?: string, of?: string}} what @param {string} words @param {string} name what they are called, for who hears the page
 */
export function printable(what, words, name) {
  const id = `${state.place.job} ${state.place.scheme || ""} ${what.trade || ""} ${what.of || ""}`;
  const one = prints.get(id);
  if (one?.state === "done" && one.at === state.job.revision) return html`<a class="word" href=${one.url} target="_blank" rel="noopener" aria-label=${`Open ${name}`}>Open the PDF</a>`;
  if (one?.state === "printing") return html`<span class="quiet" role="status">Printing…</span>`;
  return html`<button class="word" aria-label=${`${words}: ${name}`} @click=${() => print(id, what, name)}>${words}</button>`;
}
