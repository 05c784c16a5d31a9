// @ts-check
/** The book: bound by the server, said how far it is, opened as a PDF. */
import { call, finished, post, query, seg } from "../../api.js";
import { html, nothing } from "../../lib/html.js";
import { faulted, hashOf, redraw, say, state } from "../../state.js";
import { printable } from "../takeoff/printing.js";

/** @typedef {{state: "idle" | "binding" | "done", task: string, done: number, total: number, url: string, revision: number, stop: AbortController | null}} Binding */

/** One for each job and state. @type {Map<string, Binding>} */
const bindings = new Map();
let paper = "";
/** A client's copy leaves out what only the trade reads. */
let forClient = false;

const TRADES = [["installer", "Installer"], ["workroom", "Workroom"], ["hanger", "Paper hanger"], ["painter", "Painter"], ["art", "Hanging"]];

const key = () => `${state.place.job} ${state.place.scheme}`;

/** @returns {Binding} */
function now() {
  return bindings.get(key()) || { state: "idle", task: "", done: 0, total: 0, url: "", revision: 0, stop: null };
}

async function bind() {
  /** @type {Binding} */
  const one = { state: "binding", task: "", done: 0, total: 0, url: "", revision: state.job.revision, stop: new AbortController() };
  bindings.set(key(), one);
  const mine = key();
  redraw();
  try {
    const { task } = await post(`/api/jobs/${seg(state.job.id)}/book`, { scheme: state.place.scheme, ...(paper ? { paper } : {}), ...(forClient ? { without: ["workings", "values", "trades"] } : {}) });
    one.task = task;
    const out = await finished(task, (t) => {
      one.done = t.done;
      one.total = t.total;
      redraw();
    }, one.stop?.signal);
    one.url = typeof out.result === "string" ? out.result : `/api/tasks/${seg(task)}/result`;
    one.state = "done";
    say("the book is bound");
  } catch (error) {
    bindings.delete(mine);
    faulted(error);
  }
  redraw();
}

async function stop() {
  const one = now();
  one.stop?.abort();
  bindings.delete(key());
  redraw();
  if (one.task) await call("DELETE", `/api/tasks/${seg(one.task)}`).catch(() => {});
}

function progress() {
  const one = now();
  if (one.state === "binding") {
    return html`<div class="binding" role="status"><p>Binding${one.total ? `: ${one.done} of ${one.total}` : ""}. Every remedy is tried again before it is printed.</p>
      <progress max=${one.total || 1} value=${one.total ? one.done : 0} aria-label="How far the book is"></progress><p class="ways"><button class="word" @click=${stop}>Stop</button></p></div>`;
  }
  if (one.state === "done") {
    return html`<div class="binding"><p>Bound at revision ${one.revision}${one.revision < state.job.revision ? html`; the job is at ${state.job.revision} now` : nothing}.</p>
      <p class="ways"><a class="deed" href=${one.url} target="_blank" rel="noopener">Open the book</a><a class="word" href=${one.url} download=${`${state.job.id}.pdf`}>Keep it as a file</a><button class="word" @click=${bind}>Bind it again</button></p></div>`;
  }
  return html`<p class="ways"><button class="deed" @click=${bind}>Bind the book</button></p>`;
}

function render() {
  const scheme = state.place.scheme ? state.job.document.schemes?.[state.place.scheme] : null;
  const imperial = state.job.document.job.units !== "metric";
  const rooms = Object.entries(state.job.document.rooms);
  const one = (/** @type {string} */ room, /** @type {string} */ view, /** @type {string} */ format) => `/api/jobs/${seg(state.job.id)}/sheet${query({ room, view, scheme: view === "survey" ? null : state.place.scheme, format })}`;
  return html`<div class="book-sheet">
    <section><h1>The book, ${scheme ? scheme.name : "as found"}</h1>
      <p class="prose">Each room's survey, its plan, its walls where anything hangs and its colors, the findings with what would put them right, the schedule, the shopping list and the install sheets, bound for the client and for the trades.</p>
      <p class="on-paper">On <select class="blank" aria-label="Paper of the book" @change=${(/** @type {any} */ e) => { paper = e.target.value; }}><option value="">${imperial ? "the job's own paper" : "the job's own paper"}</option>${["letter", "tabloid", "a4", "a3"].map((p) => html`<option value=${p}>${p.length < 3 ? p.toUpperCase() : p}</option>`)}</select>
        <label class="tick"><input type="checkbox" .checked=${forClient} @change=${(/** @type {any} */ e) => { forClient = e.target.checked; }}> Without workings, values and install sheets: a client's copy</label></p>
      ${progress()}
    </section>
    <section aria-labelledby="sheets-head"><h2 id="sheets-head">Single sheets</h2>
      <ul class="single">${rooms.map(([id, room]) => html`<li><span>${/** @type {any} */ (room).name}</span>${["survey", "plan"].map((view) => html`<span class="formats"><span class="quiet">${view}</span>${["pdf", "dxf", "png"].map((f) => html`<a class="word small" href=${one(id, view, f)} target="_blank" rel="noopener" aria-label=${`${/** @type {any} */ (room).name}, ${view}, ${f.toUpperCase()}`}>${f.toUpperCase()}</a>`)}</span>`)}</li>`)}</ul>
      <p class="small quiet">A wall face on is kept from <a href=${hashOf({ view: "elevation" })}>its own sheet</a>.</p>
      <h2 id="trades-head">Install sheets</h2>
      <p class="small quiet">Each for one tradesperson, to be handed on by itself. <a href=${hashOf({ view: "takeoff" })}>The take-off</a> shows them one by one.</p>
      <ul class="single" aria-labelledby="trades-head">${TRADES.map(([trade, name]) => html`<li><span>${name}</span><span class="formats">${printable({ trade }, "Print", trade === "art" ? "the hanging sheets" : `the ${name.toLowerCase()}'s sheets`)}</span></li>`)}</ul>
    </section>
  </div>`;
}

export default { id: "book", title: "Book", needs: "job", css: ["book.css"], render };
