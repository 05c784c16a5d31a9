// @ts-check
/** Paper a wall, paint a room: a sentence with blanks, kept as one change of the job. */
import { faultAt, keepAt, setting } from "../../lib/blanks.js";
import { freeId, html, nothing } from "../../lib/html.js";
import { documentOpen, redraw, state } from "../../state.js";

/** Keep a change of finishes: of the rooms as found, or a step of the scheme that is open. @param {any[]} patch @param {string} message */
const keep = (patch, message) => keepAt("finishes", patch, message, "", state.place.scheme);

let open = "";
let room = "";
/** @type {Record<string, string>} which paper or paint is chosen, "" for a new one */
const taken = { paper: "", paint: "" };

/** @param {Record<string, any>} map @param {(one: any) => string} words */
const options = (map, words) => Object.entries(map || {}).map(([id, one]) => html`<option value=${id}>${words(one)}</option>`);

/** @param {any} document */
function rooms(document) {
  if (!document.rooms[room]) room = Object.keys(document.rooms)[0] || "";
  return html`<select class="blank" name="room" aria-label="room" @change=${(/** @type {any} */ e) => { room = e.target.value; redraw(); }}>${Object.entries(document.rooms).map(([id, one]) => html`<option value=${id} ?selected=${id === room}>${/** @type {any} */ (one).name}</option>`)}</select>`;
}

/** The walls of a room by its corners. @param {any} document */
function walls(document) {
  const survey = document.rooms[room]?.survey || {};
  const corners = (typeof survey.corners === "string" ? survey.corners.trim().split(/\s+/) : survey.corners) || [];
  return corners.map((/** @type {string} */ one, /** @type {number} */ n) => one + corners[(n + 1) % corners.length]);
}

/** @param {FormData} data @param {string} key */
const text = (data, key) => String(data.get(key) || "").trim();

/** @param {any} document @param {string} map @param {string} name */
const newId = (document, map, name) => freeId(name, Object.keys(document[map] || {}));

/** @param {SubmitEvent} event */
function keepPaper(event) {
  event.preventDefault();
  const data = new FormData(/** @type {HTMLFormElement} */ (event.target)), document = documentOpen();
  const patch = [];
  let id = text(data, "paper");
  if (!id) {
    const name = text(data, "name"), match = text(data, "match");
    id = newId(document, "papers", name);
    const repeat = text(data, "repeat"), price = text(data, "price");
    patch.push(...setting(document, `papers/${id}`, { name, roll: text(data, "roll"), match, ...(repeat ? { repeat } : {}), ...(price ? { price } : {}) }));
  }
  const on = data.getAll("wall").map(String), every = walls(document);
  const finish = { on: "walls", paper: id, ...(on.length && on.length < every.length ? { walls: on } : {}) };
  patch.push(...setting(document, `rooms/${room}/finishes/${freeId(`paper-${id}`, Object.keys(document.rooms[room].finishes || {}))}`, finish));
  const name = document.papers?.[id]?.name || text(data, "name");
  keep(patch, `${name} on ${on.length && on.length < every.length ? on.join(", ") : "all walls"} of ${document.rooms[room].name.toLowerCase()}`);
  open = "";
}

/** @param {SubmitEvent} event */
function keepPaint(event) {
  event.preventDefault();
  const data = new FormData(/** @type {HTMLFormElement} */ (event.target)), document = documentOpen();
  const patch = [];
  let id = text(data, "paint");
  if (!id) {
    const name = text(data, "name"), color = text(data, "color");
    id = newId(document, "paints", name);
    patch.push(...setting(document, `paints/${id}`, { name, ...(color ? { color } : {}), sheen: text(data, "sheen") }));
  }
  const there = document.rooms[room].finishes || {}, keys = Object.keys(there), made = /** @type {Record<string, any>} */ ({});
  for (const on of data.getAll("on").map(String)) {
    const key = freeId(`paint-${on}`, keys);
    keys.push(key);
    made[key] = { on, paint: id, change: text(data, "change"), substrate: text(data, "substrate") };
  }
  if (!Object.keys(made).length) return;
  if (document.rooms[room].finishes) patch.push(...Object.entries(made).map(([key, value]) => ({ op: "add", path: `/rooms/${room}/finishes/${key}`, value })));
  else patch.push({ op: "add", path: `/rooms/${room}/finishes`, value: made });
  keep(patch, `${document.paints?.[id]?.name || text(data, "name")} in ${document.rooms[room].name.toLowerCase()}`);
  open = "";
}

/** @param {any} document */
function paperForm(document) {
  const metric = document.job.units === "metric";
  return html`<form class="sentence" aria-label="Paper a wall" @submit=${keepPaper}>
    <p>Hang <select class="blank" name="paper" aria-label="paper" @change=${(/** @type {any} */ e) => { taken.paper = e.target.value; redraw(); }}><option value="">a paper not yet in the job</option>${options(document.papers, (p) => p.name)}</select> in ${rooms(document)} on ${walls(document).map((/** @type {string} */ w) => html`<label class="tick"><input type="checkbox" name="wall" value=${w}> ${w}</label> `)}<span class="quiet">(none ticked: all walls)</span>.</p>
    ${taken.paper ? nothing : html`<p>It is called <input class="blank" name="name" required size="18" maxlength="120" aria-label="name of the paper" autocomplete="off">, on rolls <select class="blank" name="roll" aria-label="roll">${(metric ? ["EN 233", "US 20.5 in", "US 27 in"] : ["US 20.5 in", "US 27 in", "EN 233"]).map((r) => html`<option>${r}</option>`)}</select>, its match <select class="blank" name="match" aria-label="match">${["free", "straight", "half-drop", "reverse-hung"].map((m) => html`<option>${m}</option>`)}</select> with a repeat of <input class="blank num" name="repeat" size="7" aria-label="repeat" autocomplete="off" placeholder=${metric ? "64 cm" : "21 in"}>, at <input class="blank num" name="price" size="7" aria-label="price of a roll" autocomplete="off"> a roll.</p>`}
    <p class="ways"><button class="deed">Paper it</button> <button type="button" class="word" @click=${() => { open = ""; redraw(); }}>Leave it</button></p></form>`;
}

/** @param {any} document */
function paintForm(document) {
  return html`<form class="sentence" aria-label="Paint a room" @submit=${keepPaint}>
    <p>Paint ${["walls", "ceiling", "trim"].map((on) => html`<label class="tick"><input type="checkbox" name="on" value=${on} ?checked=${on === "walls"}> ${on}</label> `)} of ${rooms(document)} in <select class="blank" name="paint" aria-label="paint" @change=${(/** @type {any} */ e) => { taken.paint = e.target.value; redraw(); }}><option value="">a paint not yet in the job</option>${options(document.paints, (p) => (p.color ? `${p.name}, ${p.color}` : p.name))}</select>.</p>
    ${taken.paint ? nothing : html`<p>It is called <input class="blank" name="name" required size="18" maxlength="120" aria-label="name of the paint" autocomplete="off">, its color <input class="blank" name="color" size="16" maxlength="120" aria-label="its color" autocomplete="off">, <select class="blank" name="sheen" aria-label="sheen">${["matte", "flat", "eggshell", "satin", "semi-gloss", "gloss"].map((s) => html`<option>${s}</option>`)}</select>.</p>`}
    <p>What is there is <select class="blank" name="substrate" aria-label="what is there">${["painted", "patched", "glossy", "new drywall", "new plaster", "bare wood"].map((s) => html`<option>${s}</option>`)}</select>; the color changes <select class="blank" name="change" aria-label="how far the color changes"><option value="near">a little</option><option value="same">not at all</option><option value="strong">strongly</option></select>.</p>
    <p class="ways"><button class="deed">Paint it</button> <button type="button" class="word" @click=${() => { open = ""; redraw(); }}>Leave it</button></p></form>`;
}

/** What is papered and painted already, each to be left out again. @param {any} document */
function there(document) {
  const rows = Object.entries(document.rooms).flatMap(([id, one]) => Object.entries(/** @type {any} */ (one).finishes || {}).map(([key, finish]) => ({ id, key, room: /** @type {any} */ (one).name, finish })));
  if (!rows.length) return nothing;
  return html`<ul class="lines small" aria-label="Papered and painted">${rows.map(({ id, key, room: named, finish }) => {
    const what = finish.paper ? document.papers?.[finish.paper]?.name || finish.paper : document.paints?.[finish.paint]?.name || finish.paint;
    const walls = Array.isArray(finish.walls) ? finish.walls.join(", ") : finish.walls;
    const where = finish.on === "walls" ? (walls ? `wall ${walls}` : "all walls") : finish.on;
    const name = `${what}, ${where}, ${named.toLowerCase()}`;
    return html`<li>${name} <button class="word small" aria-label=${`leave out: ${name}`} @click=${() => keep([{ op: "remove", path: `/rooms/${id}/finishes/${key}` }], `${name}: left out`)}>leave out</button></li>`;
  })}</ul>`;
}

/** The two sentences, one open at a time; under a scheme they are steps of it, and the rooms as found stay as they are. */
export function finishing() {
  const document = documentOpen();
  const begin = (/** @type {string} */ what) => () => { open = open === what ? "" : what; redraw(); };
  return html`<div class="finishing"><p class="ways"><button class="word" aria-expanded=${open === "paper"} @click=${begin("paper")}>Paper a wall</button> <button class="word" aria-expanded=${open === "paint"} @click=${begin("paint")}>Paint a room</button></p>
    ${there(document)}
    ${open === "paper" ? paperForm(document) : open === "paint" ? paintForm(document) : nothing}${faultAt("finishes")}</div>`;
}
