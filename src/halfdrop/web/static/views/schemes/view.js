// @ts-check
/** Schemes side by side: each room drawn, what each changes, what it leaves open, what it costs. */
import { get, query, seg } from "../../api.js";
import { freeId, html, nothing } from "../../lib/html.js";
import { priced } from "../../lib/money.js";
import { edit, faulted, hashOf, redraw, say, state } from "../../state.js";
import { Drawing } from "../plan/drawing.js";

/** @type {any[] | null} */
let rows = null;
/** @type {Map<string, any>} drawings by scheme */
const views = new Map();
/** @type {Map<string, Drawing>} */
const drawings = new Map();
let turn = 0;
let removing = "";
let why = "";

async function load() {
  const mine = ++turn;
  const { job, room } = state.place;
  if (!job || !room) return;
  try {
    const out = await get(`/api/jobs/${seg(job)}/compare`);
    if (mine !== turn) return;
    rows = out.schemes;
    why = "";
    redraw();
    await Promise.all(out.schemes.map(async (/** @type {any} */ row) => {
      const scheme = row.scheme === "as found" ? null : row.scheme;
      const view = await get(`/api/jobs/${seg(job)}/rooms/${seg(room)}/view${query({ view: "plan", scheme, notes: 0, paper: state.job.document.job.units === "metric" ? "a4 landscape" : "letter landscape" })}`);
      if (mine === turn) views.set(row.scheme, view);
    }));
  } catch (error) {
    if (mine !== turn) return;
    if (/** @type {any} */ (error).status === 422) why = /** @type {any} */ (error).message;
    else faulted(error);
  }
  if (mine === turn) redraw();
}

/** @param {SubmitEvent} event */
async function begin(event) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.target);
  const name = String(new FormData(form).get("name")).trim();
  const schemes = state.job.document.schemes;
  const id = freeId(name, Object.keys(schemes || {}));
  const from = String(new FormData(form).get("from"));
  const value = from ? { ...structuredClone(schemes[from]), name } : { name, steps: [] };
  await edit({ patch: [...(schemes ? [] : [{ op: "add", path: "/schemes", value: {} }]), { op: "add", path: `/schemes/${id}`, value }], message: `scheme ${name} begun` });
  form.reset();
}

/** @param {string} id */
async function remove(id) {
  removing = "";
  await edit({ patch: [{ op: "remove", path: `/schemes/${id}` }], message: `scheme ${state.job.document.schemes[id]?.name || id} removed` });
  say("the scheme is removed; undo brings it back");
}

/** @param {number} n @param {string} one @param {string} [many] */
const count = (n, one, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

/** @param {any} row @param {any} found */
function column(row, found) {
  const asFound = row.scheme === "as found";
  const scheme = asFound ? null : state.job.document.schemes[row.scheme];
  if (!asFound && !scheme) return nothing;
  const before = new Set(found.open), after = new Set(row.open);
  const cleared = found.open.filter((/** @type {string} */ id) => !after.has(id)).length;
  const brought = row.open.filter((/** @type {string} */ id) => !before.has(id)).length;
  return html`<li class="column">
    <h2><a href=${hashOf({ view: "plan", scheme: asFound ? null : row.scheme })}>${asFound ? "As found" : scheme.name}</a></h2>
    <div class="small-plan" data-scheme=${row.scheme}></div>
    <dl class="num">
      <div><dt>hazards</dt><dd>${row.hazards}</dd></div><div><dt>faults</dt><dd>${row.faults}</dd></div><div><dt>taste</dt><dd>${row.tastes}</dd></div>
      <div class="wide"><dt>cost${row.unpriced ? `, ${row.unpriced} not priced` : ""}</dt><dd>${row["known cost"]}</dd></div>
    </dl>
    ${asFound ? html`<p class="small quiet">Every room of the job is counted; the drawing is of one.</p>` : html`
      <p class="prose">${scheme.steps.length ? `Clears ${count(cleared, "note")}${brought ? `, brings ${brought}` : ""}.` : "Nothing changed yet."}</p>
      <ol class="steps">${scheme.steps.map((/** @type {any} */ s) => html`<li>${s.title}${s.cost ? html` <span class="num quiet">${priced(s.cost)}</span>` : nothing}</li>`)}</ol>
      <p class="ways">${removing === row.scheme ? html`<span>Remove it?</span><button class="word" @click=${() => remove(row.scheme)}>Remove</button><button class="word" @click=${() => { removing = ""; redraw(); }}>Keep</button>` : html`<a class="word" href=${hashOf({ view: "plan", scheme: row.scheme })}>Open it</a><button class="word" aria-label=${`Remove ${scheme.name}`} @click=${() => { removing = row.scheme; redraw(); }}>Remove</button>`}</p>`}
  </li>`;
}

function render() {
  const room = state.job?.document.rooms[state.place.room || ""]?.name || "";
  const found = rows?.find((r) => r.scheme === "as found");
  const schemes = Object.entries(state.job?.document.schemes || {});
  return html`<div class="schemes-sheet">
    <header><h1>Schemes, side by side</h1><p class="quiet">Drawn: the ${room.toLowerCase()}. What a scheme changes is in slate, where it stood before is dashed.</p></header>
    ${why ? html`<p class="prose">${why}. The schemes can be compared when every room's survey is whole.</p>` : nothing}
    ${rows && found ? html`<ol class="columns">${rows.map((row) => column(row, found))}</ol>` : why ? nothing : html`<p class="quiet">Comparing…</p>`}
    <form class="another" @submit=${begin}>
      <p>Begin another, called <input class="blank" name="name" required maxlength="80" size="20" aria-label="The scheme's name" autocomplete="off"> from <select class="blank" name="from" aria-label="Begin from"><option value="">the rooms as found</option>${schemes.map(([id, s]) => html`<option value=${id}>${/** @type {any} */ (s).name}</option>`)}</select> <button class="deed">Begin it</button></p>
    </form>
  </div>`;
}

function drawn() {
  for (const host of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".small-plan"))) {
    const scheme = host.dataset.scheme || "";
    const view = views.get(scheme);
    if (!view || /** @type {any} */ (host).shown === view) continue;
    const drawing = drawings.get(scheme) || new Drawing();
    drawings.set(scheme, drawing);
    drawing.show(host, { ...view, things: [] }, ["A-ANNO-DIMS"]);
    /** @type {any} */ (host).shown = view;
  }
}

export default {
  id: "schemes", title: "Schemes", needs: "room", css: ["schemes.css"], render, drawn,
  enter: () => {
    views.clear();
    rows = null;
    return load();
  },
  changed: (/** @type {any} */ news) => news.kind !== "photo" && load(),
};
