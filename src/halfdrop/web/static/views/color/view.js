// @ts-check
/** Color: the room's colors in true proportion, by day and of an evening; swatches, pictures and schemes that start from one. */
import { html, nothing, sentence } from "../../lib/html.js";
import { set } from "../../lib/patch.js";
import { edit, redraw, state } from "../../state.js";
import { Drawing } from "../plan/drawing.js";
import { board, percent } from "./board.js";
import { chip, find, library, loadLibraries, nearest, shelf } from "./library.js";
import { notes } from "./notes.js";
import * as photo from "./picture.js";
import { keep, load, room } from "./room.js";
import * as start from "./start.js";
import * as things from "./things.js";
import { tint, WITHOUT } from "./tint.js";

const drawing = new Drawing();
/** @type {any} the plan that is drawn and the colors it wears */
let inked = null;

/** One color of a picture: into the swatches, or looked up in the library. @param {any} color @param {number} n */
function lifted(color, n) {
  const name = `${photo.picture.name.replace(/\.[a-z]+$/i, "").slice(0, 40) || "picture"} ${n + 1}`;
  return html`<li>${chip(color.hex)}<span class="num">${color.hex}</span><span class="num quiet">${(color.share * 100).toFixed(0)}%</span>
    <button class="word" aria-label=${`To the swatches: color ${n + 1}`} @click=${() => keep([{ name, hex: color.hex }], `${name} lifted from a picture`)}>To the swatches</button>
    ${library.sha ? html`<button class="word" aria-label=${`Near it: in the library, near color ${n + 1}`} @click=${() => nearest(color.hex)}>Near it</button>` : nothing}</li>`;
}

/** Give the picture's whole palette to a work of art. @param {string} id */
async function toArt(id) {
  const colors = photo.picture.palette.colors;
  const art = room.colors.art.find((/** @type {any} */ a) => a.id === id);
  const ids = await keep(colors.map((/** @type {any} */ c, /** @type {number} */ n) => ({ name: `${art.name} ${n + 1}`.slice(0, 100), hex: c.hex })), `palette of ${art.name} lifted`);
  /** @type {Record<string, number>} */
  const value = {};
  ids.forEach((/** @type {string} */ swatch, /** @type {number} */ n) => (value[swatch] = Math.round(((value[swatch] || 0) + colors[n].share) * 1000) / 1000));
  await edit({ patch: [{ op: art.colors.length ? "replace" : "add", path: `/${art.path}/colors`, value }], scheme: state.place.scheme, message: `colors of ${art.name}, from its picture` });
}

function beginFrom() {
  const from = start.sources();
  const art = room.colors?.art || [];
  return html`${photo.picture.palette && art.length ? html`<p>These are the colors of <select class="blank" aria-label="Give the palette to a work of art" @change=${(/** @type {any} */ e) => { if (e.target.value) toArt(e.target.value); e.target.value = ""; }}><option value="">which art?</option>${art.map((/** @type {any} */ a) => html`<option value=${a.id}>${a.name}</option>`)}</select></p>` : nothing}
    ${from.length ? html`<p class="ways">${from.map((s) => html`<button class="deed" @click=${() => start.begin(s.id)}>Three schemes from ${s.name}</button>`)}</p>` : nothing}`;
}

function measures() {
  const m = room.colors.measures;
  return m.length ? html`<dl class="color-measures">${m.map((/** @type {any} */ one) => html`<div><dt>${one.name}</dt><dd>${one.measured}${one.wanted ? html`<span class="quiet">; wanted ${one.wanted}</span>` : nothing}</dd></div>`)}</dl>` : nothing;
}

/** The room's lamps of an evening. @param {any} event */
function lamps(event) {
  const path = `rooms/${state.place.room}/lamps`;
  edit({ patch: [set(state.job.document, path, event.target.value)], message: `lamps: ${event.target.value}` });
}

function field() {
  const c = room.colors;
  const name = state.job.document.rooms[state.place.room || ""]?.name || "";
  const has = c.board.length > 0;
  return html`<h1>${sentence(name)}, its colors</h1>
    ${has
      ? html`<p class="quiet">Areas in true proportion; on the left of each by ${c.lights.day.name}, on the right by <select class="blank" aria-label="Lamps of an evening" title=${c.lights.evening.why} @change=${lamps}>${c.lights.lamps.map((/** @type {string} */ l) => html`<option value=${l} ?selected=${l === c.lights.evening.name}>${l}</option>`)}</select>. <span class="small">${sentence([c.lights.day.why, c.lights.evening.why].filter((why) => why !== "its lamps").join("; "))}.</span></p>
        <div class="boards">${board(room.preview?.board || c.board, { width: 560, height: 380, label: (room.preview?.board || c.board).map((/** @type {any} */ b) => `${b.no} ${b.name} ${percent(b.share)}`).join(", ") })}<div class="tinted" id="tinted-plan" role="img" aria-label=${`${room.wall ? `Wall ${room.wall}` : "The plan"} of the ${name.toLowerCase()} in its colors`}></div></div>
        ${room.preview ? html`<p class="small" role="status">Drawn with a remedy that is not taken yet. <button class="word" @click=${() => { room.preview = null; redraw(); }}>As it is</button></p>` : nothing}${start.drawnOn()}
        <ol class="key-list">${(room.preview?.board || c.board).map((/** @type {any} */ b) => html`<li><span class="num">${b.no}</span> ${b.name} <span class="quiet num">${[b.code, percent(b.share), `LRV ${Math.round(b.lrv)}`].filter(Boolean).join(", ")}</span></li>`)}</ol>${measures()}`
      : html`<p class="prose">No colors are recorded in this room yet. Put swatches into the job, from a picture or a library, and give each thing one.</p><div class="boards"><div class="tinted" id="tinted-plan"></div></div>`}
    <h2>What wears what</h2>${things.things()}${notes()}`;
}

function render() {
  if (room.why) return html`<div class="refused"><h1>There are no colors of this room yet</h1><p class="prose">${sentence(room.why)}.</p></div>`;
  if (!room.colors) return html`<p class="waiting quiet">Reading…</p>`;
  const begun = start.start.schemes || start.start.busy || start.start.why;
  return html`<div class="color-sheet" @dragover=${(/** @type {Event} */ e) => e.preventDefault()} @drop=${photo.dropped}>
    <section class="color-field" aria-label="Colors">${begun ? start.schemes() : field()}</section>
    <aside class="color-margin" aria-label="Swatches and pictures">
      <section aria-labelledby="swatches-head"><h2 id="swatches-head">Swatches</h2>${things.swatches()}</section>
      <section aria-labelledby="picture-head"><h2 id="picture-head">From a picture</h2>${photo.panel(lifted)}${beginFrom()}</section>
      <section aria-labelledby="library-head"><h2 id="library-head">Library</h2>${shelf()}</section>
    </aside>${things.ghost()}
  </div>`;
}

function drawn() {
  photo.drawn();
  start.drawn();
  things.placeGhost();
  const host = document.getElementById("tinted-plan");
  if (!host || !room.plan) return;
  const shown = room.preview || room.plan;
  if (inked !== shown || !host.firstElementChild) {
    drawing.show(host, { ...room.plan, things: [] }, WITHOUT);
    tint(drawing, new Map(Object.entries(room.preview?.colors || room.colors.tints)), room.colors.outline, room.wall);
    inked = shown;
  }
}

export default {
  id: "color",
  title: "Color",
  needs: "room",
  scrolls: true,
  css: ["color.css"],
  render,
  drawn,
  enter: () => {
    start.shut();
    loadLibraries().then(() => (library.near ? find() : undefined));
    return load();
  },
  leave: () => {
    inked = null;
  },
  changed: (/** @type {any} */ news) => {
    if (news.kind === "photo") loadLibraries();
    else load();
    redraw();
  },
  key: (/** @type {KeyboardEvent} */ event) => things.key(event),
};
