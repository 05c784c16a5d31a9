// @ts-check
/** The take-off: what the job takes, trade by trade, and the sheet of each thing with its drawing. */
import { html, nothing, sentence } from "../../lib/html.js";
import { money } from "../../lib/money.js";
import { redraw, state } from "../../state.js";
import { count, counted } from "./count.js";
import { finishing } from "./finish.js";
import { printable } from "./printing.js";
import { sheetParts } from "./sheet.js";

/** Which sheet is open, by its path and trade. */
let chosen = "";

const TRADES = /** @type {Record<string, string>} */ ({ installer: "Installer", workroom: "Workroom", hanger: "Paper hanger", painter: "Painter", art: "Hanging" });
/** What the sheets of a trade are called, for who hears the page. @type {Record<string, string>} */
const SHEETS = { installer: "the installer's sheets", workroom: "the workroom's sheets", hanger: "the paper hanger's sheets", painter: "the painter's sheets", art: "the hanging sheets" };
/** @param {any} sheet */
const idOf = (sheet) => `${sheet.trade} ${sheet.path}`;

/** @param {string[]} ids */
const roomNames = (ids) => ids.map((id) => state.job.document.rooms[id]?.name || id).join(", ");

/** @param {any} line */
function working(line) {
  return html`<details class="working"><summary class="small">How it came about</summary>
    ${line.workings.map((/** @type {any} */ w) => html`<h4>${w.title}</h4><ul class="lines small">${w.steps.map((/** @type {any} */ s) => html`<li>${s.what}: ${s.formula} = ${s.values} → <b>${s.result}</b>${s.source ? html`<span class="quiet"> ${s.source}</span>` : nothing}</li>`)}</ul>`)}</details>`;
}

/** @param {any} takeoff */
const leftOut = (takeoff) => takeoff.left_out.map((/** @type {any} */ one) => html`<p class="prose" role="note">${one.said}${one.hint ? html`<span class="why small quiet">${one.hint}</span>` : nothing}</p>`);

/** @param {any} takeoff */
function quantities(takeoff) {
  if (!takeoff.lines.length) return html`<p class="prose">${takeoff.verdict}</p>`;
  return html`<p class="prose">${takeoff.verdict}</p>
    <table class="quantities"><thead><tr><th scope="col">What</th><th scope="col">Rooms</th><th scope="col" class="sum">Quantity</th><th scope="col" class="sum">Price</th></tr></thead>
    <tbody>${takeoff.lines.map((/** @type {any} */ line) => html`<tr><th scope="row"><span class="small quiet">${line.trade}</span> ${sentence(line.name)}${line.notes.map((/** @type {string} */ n) => html`<span class="why small quiet">${n}</span>`)}${line.workings.length ? working(line) : nothing}</th><td>${roomNames(line.rooms)}</td><td class="num sum">${line.said}</td><td class="num sum">${money(line.total) || "not priced"}</td></tr>`)}</tbody></table>`;
}

/** @param {any[]} sheets */
function listed(sheets) {
  if (!sheets.length) return html`<p class="quiet">No trade has work here yet.</p>`;
  return Object.entries(TRADES).map(([trade, name]) => {
    const mine = sheets.filter((s) => s.trade === trade);
    if (!mine.length) return nothing;
    return html`<section class="trade" aria-label=${name}><h3>${name} <span class="ways">${printable({ trade }, "Print all", SHEETS[trade])}</span></h3>
      <ul>${mine.map((s) => html`<li><button class="pick" aria-current=${chosen === idOf(s) ? "true" : "false"} @click=${() => pick(idOf(s))}><span class="num">${s.number}</span> ${s.name}</button></li>`)}</ul></section>`;
  });
}

/** @param {string} id */
function pick(id) {
  chosen = id;
  redraw();
  requestAnimationFrame(() => {
    const sheet = document.getElementById("the-sheet");
    const pane = sheet?.parentElement;
    if (pane && getComputedStyle(pane).position === "sticky") pane.scrollTop = 0;
    else sheet?.scrollIntoView({ block: "start" });
    sheet?.focus({ preventScroll: true });
  });
}

/** @param {any[]} sheets */
function opened(sheets) {
  const sheet = sheets.find((s) => idOf(s) === chosen) || sheets[0];
  if (!sheet) return nothing;
  const others = sheets.filter((s) => s.path === sheet.path).length;
  return html`<article class="trade-sheet" id="the-sheet" tabindex="-1" aria-labelledby="sheet-name">
    <p class="small quiet">${TRADES[sheet.trade]} · ${sheet.room} · ${sheet.number}</p><h2 id="sheet-name">${sheet.name}</h2>
    <p class="prose">${sheet.lead}</p>
    <p class="ways">${printable({ trade: sheet.trade, of: sheet.path }, "Print this sheet", `${sheet.name}, ${TRADES[sheet.trade].toLowerCase()}`)}${others > 1 ? printable({ of: sheet.path }, "Print its sheets for every trade", `${sheet.name}, every trade`) : nothing}</p>
    ${sheetParts(sheet)}</article>`;
}

function render() {
  const scheme = state.place.scheme ? state.job.document.schemes?.[state.place.scheme]?.name : null;
  const one = counted();
  const answer = one?.answer;
  return html`<div class="takeoff-sheet"><h1>Take-off, ${scheme || "as found"}</h1>
    ${one?.state === "failed" ? html`<p class="prose" role="alert">${sentence(one.message)}${one.hint ? html`<span class="why small quiet">${one.hint}</span>` : nothing}</p>` : nothing}
    ${!answer && one?.state !== "failed" ? html`<p class="quiet" role="status">Counting…</p>` : nothing}
    ${answer && one.state === "counting" ? html`<p class="small quiet" role="status">Counting again…</p>` : nothing}
    <div class="two"><div class="left">${answer ? leftOut(answer.takeoff) : nothing}${answer ? quantities(answer.takeoff) : nothing}${finishing()}
      ${answer ? html`<section class="sheet-list" aria-labelledby="install-head"><h2 id="install-head">Install sheets</h2>${listed(answer.sheets)}</section>` : nothing}</div>
      <div class="right">${answer ? opened(answer.sheets) : nothing}</div></div></div>`;
}

export default {
  id: "takeoff", title: "Take-off", needs: "job", scrolls: true, css: ["takeoff.css"], render,
  enter: count,
  changed: (/** @type {any} */ news) => news.kind !== "photo" && count(),
};
