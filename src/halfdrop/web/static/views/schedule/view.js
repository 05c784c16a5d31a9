// @ts-check
/** The schedule: what stands where, and what is bought, moved and let go. */
import { get, query, seg } from "../../api.js";
import { html, nothing, sentence } from "../../lib/html.js";
import { money } from "../../lib/money.js";
import { faulted, hashOf, redraw, state } from "../../state.js";
import { count, counted } from "../takeoff/count.js";

/** @type {any} */
let list = null;
/** @type {Map<string, any[]>} */
const things = new Map();
let turn = 0;

async function load() {
  const mine = ++turn;
  const { job, scheme } = state.place;
  if (!job) return;
  const rooms = Object.keys(state.job.document.rooms);
  try {
    const shopping = get(`/api/jobs/${seg(job)}/shopping${query({ scheme })}`).catch((error) => ({ verdict: error.message, bought: [], coming: [], moved: [], leaves: [], works: [], cautions: [] }));
    await Promise.all(rooms.map(async (room) => {
      try {
        const view = await get(`/api/jobs/${seg(job)}/rooms/${seg(room)}/view${query({ view: "plan", scheme, notes: 0 })}`);
        if (mine === turn) things.set(room, view.things);
      } catch (error) {
        if (mine === turn) things.delete(room);
        if (/** @type {any} */ (error).status !== 422) throw error;
      }
    }));
    const told = await shopping;
    if (mine === turn) list = told;
  } catch (error) {
    faulted(error);
  }
  redraw();
}

/** @param {string} id @param {any} room */
function roomTable(id, room) {
  const here = (things.get(id) || []).filter((t) => t.kind === "piece" || t.kind === "rug");
  return html`<section aria-labelledby=${`room-${id}`}><h2 class="room-name" id=${`room-${id}`}>${room.name}</h2>
    ${here.length ? html`<table><thead><tr><th scope="col">Thing</th><th scope="col">Size</th><th scope="col">High</th><th scope="col">Stands</th><th scope="col" class="sum">Price</th></tr></thead>
      <tbody>${here.map((t) => html`<tr><th scope="row">${sentence(t.name || t.type)}</th><td class="num">${t.size_text}</td><td class="num">${t.height_text || ""}</td><td>${[t.keep ? "stays with the client" : "", t.document.arrives ? "arrives" : ""].filter(Boolean).join(", ")}</td><td class="num sum">${t.document.price || ""}</td></tr>`)}</tbody></table>` : html`<p class="quiet">${things.has(id) ? "Nothing stands here yet." : "Its survey is not whole yet."}</p>`}
  </section>`;
}

/** @param {string} room */
const roomName = (room) => state.job.document.rooms[room]?.name || room;

/** The rooms that something bought is for: cloth off one bolt goes to several. @param {any} bought */
const roomsOf = (bought) => [...new Set([bought.room, ...bought.paths.map((/** @type {string} */ path) => path.split("/")[1])])].map(roomName).join(", ");

function shopping() {
  if (!list) return html`<p class="quiet">Reading…</p>`;
  const bought = [...list.bought, ...list.coming];
  return html`<p class="prose">${list.verdict}</p>
    ${bought.length ? html`<table><thead><tr><th scope="col">Bought</th><th scope="col">Size</th><th scope="col">For</th><th scope="col" class="sum">How many</th><th scope="col" class="sum">Sum</th></tr></thead>
      <tbody>${bought.map((/** @type {any} */ b) => html`<tr><th scope="row">${sentence(b.name)}${b.why ? html`<span class="why small quiet">${b.why}</span>` : nothing}${b.caution && !list.cautions.includes(b.caution) ? html`<span class="why small">${b.caution}</span>` : nothing}</th><td class="num">${b.size}</td><td>${roomsOf(b)}</td><td class="num sum">${b.quantity} ${b.unit}</td><td class="num sum">${money(b.total) || "not priced"}</td></tr>`)}</tbody>
      <tfoot><tr><th scope="row" colspan="4">Together</th><td class="num sum">${money(list.total)}</td></tr></tfoot></table>` : html`<p class="quiet">Nothing is bought ${state.place.scheme ? "under this scheme" : "for the rooms as found"}.</p>`}
    ${list.moved.length ? html`<h3>Moved</h3><ul class="lines">${list.moved.map((/** @type {any} */ m) => html`<li>${sentence(m.name)}, ${roomName(m.room).toLowerCase()}: from ${m.from} to ${m.to}.</li>`)}</ul>` : nothing}
    ${list.leaves.length ? html`<h3>Leaves</h3><ul class="lines">${list.leaves.map((/** @type {any} */ m) => html`<li>${sentence(m.name)}, ${m.size}${m.replaced ? `; ${m.replaced} comes instead` : ""}.</li>`)}</ul>` : nothing}
    ${list.works?.length ? html`<h3>To be done</h3><ul class="lines">${list.works.map((/** @type {any} */ m) => html`<li>${sentence(m.what)}${m.why ? `: ${m.why}` : ""}</li>`)}</ul>` : nothing}
    ${list.cautions.length ? html`<ul class="lines caution">${list.cautions.map((/** @type {string} */ c) => html`<li>${c}</li>`)}</ul>` : nothing}`;
}

function quantities() {
  const one = counted();
  if (one?.state === "failed") return html`<p class="quiet">${sentence(one.message)}.${one.hint ? html` ${sentence(one.hint)}.` : nothing}</p>`;
  if (!one?.answer) return html`<p class="quiet">Counting…</p>`;
  const lines = one.answer.takeoff.lines.filter((/** @type {any} */ line) => ["paper", "paint"].includes(line.trade)); // cloth and rods are on the list already
  if (!lines.length) return html`<p class="quiet">Nothing is papered or painted.</p>`;
  return html`<table><thead><tr><th scope="col">Taken</th><th scope="col">For</th><th scope="col" class="sum">Quantity</th><th scope="col" class="sum">Sum</th></tr></thead>
    <tbody>${lines.map((/** @type {any} */ line) => html`<tr><th scope="row">${sentence(line.name)}</th><td>${line.rooms.map(roomName).join(", ")}</td><td class="num sum">${line.said}</td><td class="num sum">${money(line.total) || "not priced"}</td></tr>`)}</tbody></table>
    <p class="small"><a href=${hashOf({ view: "takeoff" })}>How each came about, and the sheets for the trades</a></p>`;
}

function render() {
  const scheme = state.place.scheme ? state.job.document.schemes?.[state.place.scheme]?.name : null;
  return html`<div class="schedule-sheet">
    <h1>Schedule, ${scheme || "as found"}</h1>
    <div class="two"><div class="rooms" aria-label="Rooms" role="group">${Object.entries(state.job.document.rooms).map(([id, room]) => roomTable(id, room))}</div>
    <section class="shopping" aria-labelledby="shopping-head"><h2 id="shopping-head">Shopping list</h2>${shopping()}
      <h2 id="taken-head">Paper and paint</h2>${quantities()}</section></div>
  </div>`;
}

export default {
  id: "schedule", title: "Schedule", needs: "job", scrolls: true, css: ["schedule.css"], render,
  enter: () => {
    list = null;
    things.clear();
    count();
    return load();
  },
  changed: (/** @type {any} */ news) => {
    if (news.kind === "photo") return;
    count();
    load();
  },
};
