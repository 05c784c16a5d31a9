// @ts-check
/** The survey: walk round, type what the tape says; the outline closes as it goes, and a blunder is named at once. */
import { get, query, seg } from "../../api.js";
import { html, nothing, render as draw, sentence, svg } from "../../lib/html.js";
import { faulted, redraw, state } from "../../state.js";
import { scaleBar } from "../../strip.js";
import { Drawing } from "../plan/drawing.js";
import { loadPhotos, photosOf, picture } from "./photos.js";
import { anew, anotherCorner, cornersOf, drafts, ends, enter, heightRows, oneCornerLess, setSquare, surveyNow, tieRows, typed, waits, wallRows } from "./walk.js";

const drawing = new Drawing();
/** @type {any} */
let report = null;
/** @type {any} */
let sheet = null;
let inked = /** @type {any} */ (null);
let turn = 0;
let sure = false;
/** Ties asked for by hand. @type {Map<string, string[]>} */
const asked = new Map();

async function load() {
  const mine = ++turn;
  const { job, room } = state.place;
  if (!job || !room) return;
  try {
    const told = await get(`/api/jobs/${seg(job)}/survey/${seg(room)}`);
    if (mine !== turn) return;
    report = told;
    sheet = null;
    if (told.whole) {
      const paper = innerWidth < 700 ? "phone" : innerWidth < 1000 ? "letter landscape" : null;
      const view = await get(`/api/jobs/${seg(job)}/rooms/${seg(room)}/view${query({ view: "survey", notes: 0, paper })}`);
      if (mine !== turn) return;
      sheet = view;
    }
  } catch (error) {
    if (mine === turn) faulted(error);
  }
  redraw();
}

/** The measure that would settle it, as a row to type into. */
function wanted() {
  const pair = report?.extra?.pair;
  if (pair) return [pair];
  const hint = report?.hint || "";
  return report?.whole === false ? (hint.match(/tape ([A-Z0-9, and]+), corner to corner/)?.[1] || "").split(/,| and /).map((/** @type {string} */ s) => s.trim()).filter(Boolean) : [];
}

/** @param {string} id */
const measured = (id) => report?.measures?.find((/** @type {string[]} */ m) => m[0] === id);

/** @param {any} survey @param {any} row */
function entry(survey, row) {
  const draft = drafts.get(row.path);
  const text = draft ? draft.text : typed(survey, row);
  const id = `${row.kind}/${row.pair}`;
  const line = measured(id);
  const suspect = report?.suspects?.some((/** @type {any} */ s) => s.id === id);
  const key = `in-${row.kind}-${row.pair}`;
  const notes = [];
  if (waits(row)) notes.push(html`<span class="quiet">on this device, not sent yet</span>`);
  if (suspect) notes.push(html`<strong class="suspect">${report.suspects.length === 1 ? "The blunder: off by" : "Suspect: off by"} ${line ? line[3].replace(/^[−-]/, "") : ""}</strong>`);
  else if (line && line[4] === "set aside") notes.push(html`<strong class="suspect">Set aside</strong>`);
  else if (line && !/^0/.test(line[3])) notes.push(html`<span class="quiet num">adjusted ${line[2]}</span>`);
  return html`<li class=${`entry${suspect ? " doubted" : ""}`}>
    <label for=${key}>${row.what}</label>
    <input id=${key} class="blank num" data-walk autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="next" .value=${text}
      placeholder=${state.job?.document.job.units === "metric" ? "3.81 m" : "12' 6 1/2\""} aria-invalid=${draft ? "true" : nothing} aria-describedby="${key}-says"
      @change=${(/** @type {any} */ e) => enter(row, e.target.value.trim())} @keydown=${step}>
    ${row.kind === "walls" ? photosOf(row.path, row.pair) : html`<span></span>`}
    <span class="says small" id="${key}-says">${draft ? html`<span class="wrong">${draft.fault}</span>` : notes}</span>
  </li>`;
}

/** Enter goes on to the next blank of the walk that is still empty, or the next one. @param {KeyboardEvent} event */
function step(event) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  if (event.key === "Escape") return input.blur();
  if (event.key !== "Enter") return;
  event.preventDefault();
  const all = /** @type {HTMLInputElement[]} */ ([...document.querySelectorAll("input[data-walk]")]);
  const here = all.indexOf(input);
  const next = all.slice(here + 1).find((i) => !i.value) || all[here + 1];
  if (next) {
    next.focus();
    next.select();
  } else input.blur();
}

/** What the server says of the measures; while walls are still to be taped, which comes next. */
function verdict() {
  if (!report) return html`<p class="quiet">Reading…</p>`;
  const survey = surveyNow();
  const next = wallRows(survey).find((r) => !typed(survey, r));
  if (!report.whole && next) {
    const done = wallRows(survey).filter((r) => typed(survey, r)).length;
    return html`<div class="verdict" role="status" aria-live="polite"><p class="prose">${done ? `${done === 1 ? "One wall" : `${done} walls`} taped. ` : ""}Next: wall ${next.what}.</p></div>`;
  }
  const extra = report.extra;
  const blunder = /blunder/.test(report.verdict);
  return html`<div class=${`verdict ${blunder ? "blunder" : ""}`} role="status" aria-live="polite">
    <p class="prose">${report.whole ? report.misclosure : `${sentence(unnamed(report.message))}.`}</p>
    ${(report.advice || []).filter((/** @type {string} */ a) => a !== report.message).map((/** @type {string} */ a) => html`<p class="small">${sentence(plain(a)).replace(/\.?$/, ".")}</p>`)}
    ${report.whole ? html`<p class="small quiet num">${report.area} of floor</p>` : nothing}
    ${extra && !extra.repeat ? html`<p class="small quiet">Type it below, at ${ends(extra.pair).join(" to ")}.</p>` : nothing}
  </div>`;
}

/** The room is named above. @param {string} text */
const unnamed = (text) => text.replace(/^room `[^`]*`: /, "");

/** Advice as a person at the wall reads it, without the file's own words. @param {string} text */
function plain(text) {
  return text
    .replace(/,? and add (it|them) under `ties`/, "")
    .replace(/; or add `square: \{([A-Z0-9]+): true\}` where corner \1 is square/, "; or tick corner $1 as square where it is")
    .replace(/,? or add `square: \{([A-Z0-9]+): true\}` where it is square/, ", or tick corner $1 as square where it is")
    .replace(/\b(walls|ties)\/([A-Z0-9]+)/g, (_, kind, pair) => `${kind === "ties" ? "tie" : "wall"} ${pair}`);
}

/** @param {SubmitEvent} event */
function askTie(event) {
  event.preventDefault();
  const form = new FormData(/** @type {HTMLFormElement} */ (event.target));
  const [a, b] = [String(form.get("from")), String(form.get("to"))];
  const room = state.place.room || "";
  if (a === b) return;
  asked.set(room, [...(asked.get(room) || []), a + b]);
  redraw();
  requestAnimationFrame(() => document.getElementById(`in-ties-${a}${b}`)?.focus());
}

/** @param {any} survey */
function walk(survey) {
  const corners = cornersOf(survey);
  const ties = tieRows(survey, [...wanted().filter((/** @type {string} */ p) => !isWall(p, corners)), ...(asked.get(state.place.room || "") || [])]);
  return html`
    <section aria-labelledby="walls-head"><h2 id="walls-head">Walls, in walking order</h2>
      <p class="small quiet">${survey.round === "clockwise" ? "Clockwise, with the wall on the left hand." : "Counterclockwise, with the wall on the right hand."} Any notation: 12' 6 1/2", 150.5 in, 3.81 m.</p>
      <ol class="entries">${wallRows(survey).map((r) => entry(survey, r))}</ol>
      <p class="ways"><button class="word" @click=${anotherCorner}>There is another corner after ${corners[corners.length - 1]}</button>${corners.length > 3 ? html`<button class="word" @click=${oneCornerLess}>No corner ${corners[corners.length - 1]}</button>` : nothing}</p>
    </section>
    <section aria-labelledby="ties-head"><h2 id="ties-head">Ties, corner to corner</h2>
      <p class="small quiet">They check the walls: a tie more is what names a blunder.</p>
      <ol class="entries">${ties.map((r) => entry(survey, r))}</ol>
      ${corners.length > 3 ? html`<form class="ways" @submit=${askTie}><span>A tie from <select class="blank" name="from" aria-label="from corner">${corners.map((c) => html`<option>${c}</option>`)}</select> to <select class="blank" name="to" aria-label="to corner">${corners.map((c, i) => html`<option .selected=${i === 2}>${c}</option>`)}</select></span><button class="word">Tape it</button></form>` : nothing}
    </section>
    <section aria-labelledby="sq-head"><h2 id="sq-head">Square corners</h2>
      <p class="small quiet">Tick only what was tried with a square, or by 3, 4 and 5.</p>
      <p>${corners.map((c) => html`<label class="tick"><input type="checkbox" .checked=${Boolean(survey.square?.[c])} @change=${(/** @type {any} */ e) => setSquare(c, e.target.checked)}> ${c}</label>`)}</p>
    </section>
    <section aria-labelledby="h-head"><h2 id="h-head">Heights</h2><ol class="entries">${heightRows(survey).map((r) => entry(survey, r))}</ol></section>
    <p class="ways anew">${sure ? html`<span>Every measure of this room goes; it can be undone.</span><button class="word" @click=${() => { sure = false; anew(); }}>Begin anew</button><button class="word" @click=${() => { sure = false; redraw(); }}>Keep them</button>` : html`<button class="word" @click=${() => { sure = true; redraw(); }}>Walk this room anew</button>`}</p>`;
}

/** @param {string} pair @param {string[]} corners */
function isWall(pair, corners) {
  const [a, b] = ends(pair).map((c) => corners.indexOf(c));
  return (a + 1) % corners.length === b || (b + 1) % corners.length === a;
}

function render() {
  const survey = surveyNow();
  const name = state.job?.document.rooms[state.place.room || ""]?.name || "";
  return html`<div class="survey-sheet">
    <section class="outline" aria-label=${`Outline of the ${name.toLowerCase()}`}><div id="survey-drawing"></div></section>
    <aside class="measures" aria-label="Measures">
      <h1>${name}, survey</h1>
      ${verdict()}
      ${walk(survey)}
    </aside>
    ${picture()}
  </div>`;
}

function drawn() {
  const host = document.getElementById("survey-drawing");
  if (!host) return;
  if (sheet) {
    if (inked !== sheet || !host.querySelector("svg")) {
      host.replaceChildren();
      drawing.show(host, { ...sheet, things: [] });
      inked = sheet;
    }
    const metric = state.job?.document.job.units === "metric";
    scaleBar({ px: Math.round(drawing.pxPerMetre * (metric ? 1 : 0.6096)), text: metric ? "1 m" : "2′" });
  } else if (report?.sketch && inked !== report) {
    host.replaceChildren();
    delete (/** @type {any} */ (host)._$litPart$);
    draw(sketch(report.sketch), host);
    inked = report;
    scaleBar(null);
  }
}

/** The walk so far: walls taped in ink, what is still open dashed. @param {any} walked */
function sketch({ corners, closed }) {
  const span = (/** @type {number} */ k) => corners.map((/** @type {any} */ c) => c.at[k]);
  const xs = span(0), ys = span(1);
  const w = Math.max(3, Math.max(...xs) - Math.min(...xs)), h = Math.max(2.2, Math.max(...ys) - Math.min(...ys));
  const u = 560 / Math.max(w, h * 1.3), pad = 70;
  const at = (/** @type {any} */ c) => [pad + (c.at[0] - Math.min(...xs)) * u, pad + (Math.max(...ys, Math.min(...ys) + h) - c.at[1]) * u];
  const line = corners.map(at).map((/** @type {number[]} */ p) => p.map((v) => v.toFixed(1)).join(" ")).join("L");
  const [fx, fy] = at(corners[0]), [lx, ly] = at(corners[corners.length - 1]);
  return html`<svg viewBox="0 0 ${w * u + 2 * pad} ${h * u + 2 * pad}" role="img" aria-label=${`The walk so far: ${corners.map((/** @type {any} */ c) => c.id).join(", ")}`}>
    <path class=${closed ? "s-graphite walk guess" : "s-ink walk"} d=${`M${line}${closed ? "Z" : ""}`}></path>
    ${closed || corners.length < 3 ? nothing : svg`<path class="s-graphite walk guess" d=${`M${lx} ${ly}L${fx} ${fy}`}></path>`}
    ${corners.map((/** @type {any} */ c) => { const [x, y] = at(c); return svg`<circle class="f-ink" cx=${x} cy=${y} r="3"></circle><text class="letter" x=${x - 16} y=${y + 22}>${c.id}</text>`; })}
  </svg>`;
}

export default {
  id: "survey", title: "Survey", needs: "room", css: ["survey.css"], render, drawn,
  enter: async () => {
    report = sheet = inked = null;
    sure = false;
    loadPhotos();
    await load();
  },
  leave: () => {
    inked = null;
    scaleBar(null);
  },
  changed: (/** @type {any} */ news) => (news.kind === "photo" ? loadPhotos() : load()),
};
