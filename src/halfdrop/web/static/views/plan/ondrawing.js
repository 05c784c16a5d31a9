// @ts-check
/**
 * A drawing of a room to scale with its notes in the margin: what the plan and the elevations have in common. One is on the
 * sheet at a time, so that the hand, the notes and the remedies are the same.
 */
import { query, seg } from "../../api.js";
import { html, nothing, sentence } from "../../lib/html.js";
import { Loupe, nearness } from "../../lib/loupe.js";
import { aboutToPrint, onPaper } from "../../lib/paper.js";
import { redraw, state } from "../../state.js";
import { scaleBar } from "../../strip.js";
import { cancel, down, key, move, up } from "./hand.js";
import { history, loadHistory } from "./history.js";
import { inReadingOrder, notes, place } from "./notes.js";
import { drawOver, marksOf } from "./overlay.js";
import { prove } from "./remedies.js";
import { drawing, dropPreview, load, look, looking, noteNow, paper, pickNote, pickThing, sheet, thingNow } from "./sheet.js";

const loupe = new Loupe(drawing, () => redraw("loupe"));
/** @type {{zoom: number, at: [number, number] | null}} how near it was before the whole sheet is printed */
let before = { zoom: 1, at: null };
aboutToPrint((printing) => {
  if (printing) before = { zoom: loupe.zoom, at: loupe.at };
  Object.assign(loupe, printing ? { zoom: 1, at: null } : before);
});
/** The job, room and scheme that the loupe lies on. */
let lainOn = "";

/** @type {any} the view or preview whose ink is on the sheet */
let inked = null;
let paperThen = /** @type {string | null} */ (null);

/** @param {Event} event */
function clicked(event) {
  const mark = /** @type {Element} */ (event.target).closest("[data-note]");
  if (mark) pickNote(/** @type {HTMLElement} */ (mark).dataset.note || null);
}

/**
 * @typedef {{id: "plan" | "elevation", title: string, css: string[], named: () => string, missing: string, nothing: string,
 *   wall?: () => string | null, above?: () => any, ways: () => any, under?: () => any, slip: (thing: any) => any, beside: () => any}} Kind
 */

/** @type {Kind | null} */
let kind = null;

function head() {
  const f = sheet.preview?.findings || sheet.findings;
  const n = (/** @type {string} */ grade) => f.filter((/** @type {any} */ x) => x.grade === grade).length;
  const count = (/** @type {number} */ k, /** @type {string} */ one, many = `${one}s`) => (k ? `${k} ${k === 1 ? one : many}` : "");
  const parts = [count(n("hazard"), "hazard"), count(n("fault"), "fault"), count(n("taste"), "of taste", "of taste")].filter(Boolean);
  return html`<header class="margin-head">
    <h1 class="unseen">${state.job?.document.rooms[state.place.room || ""]?.name}, ${kind?.named()}</h1>
    <p class="count" aria-live="polite">${sheet.preview ? "If taken: " : ""}${parts.length ? parts.join(", ") : sheet.view ? kind?.nothing : ""}</p>
    <p class="ways">${kind?.ways()}</p>
  </header>`;
}

/** The sheet as it is on paper, to be kept or handed on. */
function asFile() {
  if (!sheet.view || !kind) return nothing;
  const asked = (/** @type {string} */ format) => query({ room: state.place.room, view: kind?.id, wall: looking.wall, shut: looking.wall && looking.shut ? 1 : null, scheme: state.place.scheme, format });
  return html`<p class="as-file small"><span class="quiet">This sheet</span>${["pdf", "dxf", "png"].map((format) => html`<a class="word" href=${`/api/jobs/${seg(state.place.job || "")}/sheet${asked(format)}`} target="_blank" rel="noopener" aria-label=${`${kind?.named()} as ${format.toUpperCase()}`}>${format.toUpperCase()}</a>`)}</p>`;
}

/** @param {Kind} of */
function render(of) {
  const thing = thingNow();
  if (sheet.refusal) {
    return html`<div class="refused"><h1>${of.missing}</h1><p class="prose">${sentence(sheet.refusal)}.</p>${sheet.refusalHint ? html`<p class="prose quiet">${sentence(sheet.refusalHint)}.</p>` : nothing}
      <p><a class="word" href=${`#/${state.place.job}/survey/${state.place.room}`}>To the survey</a></p></div>`;
  }
  return html`<div class="plan-sheet">
    <section class="field" aria-label="Drawing" @pointerdown=${pressed} @pointermove=${(/** @type {PointerEvent} */ e) => loupe.move(e) || move(e)} @pointerup=${(/** @type {PointerEvent} */ e) => loupe.up(e) || up(e)} @pointercancel=${(/** @type {PointerEvent} */ e) => { loupe.up(e); cancel(); }} @wheel=${(/** @type {WheelEvent} */ e) => loupe.wheel(e)} @focusin=${focused} @focusout=${() => redraw("focus")}>
      ${of.above ? of.above() : nothing}
      <div class="drawing" id="plan-drawing"></div>
      <div class="under"><p class="key small" id="plan-key"></p>${sheet.preview ? html`<button class="word narrow-only" @click=${toWays}>Back to what it is</button>` : nothing}${sheet.view ? nearness(loupe) : nothing}</div>
      ${sheet.loading ? html`<p class="waiting quiet">Drawing…</p>` : nothing}
    </section>
    <aside class="margin" aria-label="Margin" @scroll=${() => redraw("scroll")}>
      ${head()}
      ${of.under ? of.under() : nothing}
      ${thing ? of.slip(thing) : nothing}
      <div class="note-field">${notes(sheet.findings)}</div>
      ${asFile()}
      ${history()}
    </aside>
    <svg class="over" id="plan-over" aria-hidden="true" @click=${clicked}></svg>
    ${of.beside()}
  </div>`;
}

/** Two fingers are the loupe's; one takes the thing under it, or else the paper. @param {PointerEvent} event */
function pressed(event) {
  if (/** @type {Element} */ (event.target).closest("button, fieldset, select, input, a")) return;
  if (loupe.down(event)) cancel();
  else if (!down(event)) loupe.grab(event);
}

/** A thing reached by Tab is picked. @param {FocusEvent} event */
function focused(event) {
  redraw("focus");
  const group = /** @type {Element} */ (event.target).closest("g.thing");
  const path = group && /** @type {SVGGElement} */ (group).dataset.path;
  if (path && sheet.thing !== path && group.matches(":focus-visible")) pickThing(path);
  const thing = path && group.matches(":focus-visible") ? sheet.things.find((t) => t.path === path) : null;
  if (thing?.center) loupe.reveal(thing.center);
}

function drawn() {
  const host = document.getElementById("plan-drawing");
  const over = /** @type {any} */ (document.getElementById("plan-over"));
  const source = sheet.preview?.svg ? sheet.preview : sheet.view;
  if (!host || !over || !source) return;
  if (inked !== source || !host.firstElementChild) {
    const held = document.activeElement instanceof SVGElement ? /** @type {any} */ (document.activeElement).dataset.path : null;
    drawing.show(host, source);
    inked = source;
    const key = document.getElementById("plan-key");
    if (key) key.textContent = drawing.key.map(([no, name]) => `${no} ${name}`).join("   ");
    if (held) drawing.focus(held);
    const on = [state.place.job, state.place.room, state.place.scheme, looking.view, looking.wall].join(" ");
    if (lainOn !== on) loupe.whole();
    lainOn = on;
  }
  loupe.apply();
  const onto = onPaper();
  if (!onto && paper() !== paperThen) {
    paperThen = paper();
    load();
  }
  drawing.light(noteNow() ? noteNow().subjects : sheet.thing ? [sheet.thing] : []);
  const whole = /** @type {HTMLElement} */ (over.parentElement);
  const origin = whole.getBoundingClientRect();
  const marks = marksOf(drawing, sheet.findings, origin, loupe.window);
  const margin = /** @type {HTMLElement} */ (whole.querySelector(".margin"));
  const list = /** @type {HTMLElement} */ (whole.querySelector(".notes"));
  const wide = getComputedStyle(margin).getPropertyValue("--beside").trim() === "1";
  list.classList.toggle("beside", wide);
  if (wide) {
    const top = list.getBoundingClientRect().top - origin.top + margin.scrollTop;
    const room = onto ? onto.h - onto.foot - top : margin.clientHeight - (list.offsetTop || 0) - 24;
    const left = list.getBoundingClientRect().left - origin.left;
    if (place(list, sheet.findings, marks, top, room, onto ? { ...onto, left, top } : null) && inReadingOrder(sheet.findings)) redraw();
  } else {
    list.style.height = "";
  }
  if (wide || !sheet.preview) reveal(list);
  else if (sheet.preview !== lookedAt) host.scrollIntoView({ block: "center" });
  lookedAt = sheet.preview;
  drawOver(over, drawing, { cleared: sheet.preview?.cleared, findings: sheet.findings, selected: sheet.note, thing: thingNow(), face: sheet.face, focus: onto ? null : host.querySelector("g.thing:focus-visible")?.getBoundingClientRect(), live: sheet.live, marks, origin, lens: loupe.window, margin, wide, onto });
  bar();
}

/** @type {any} the preview that was brought into view, where the margin stands below the drawing */
let lookedAt = null;

/** From what is drawn to the words of it, where it is taken or left. */
function toWays() {
  const shown = document.querySelector(".remedy.shown");
  shown?.scrollIntoView({ block: "center" });
  /** @type {HTMLElement | null} */ (shown?.querySelector("button"))?.focus({ preventScroll: true });
}

let revealed = "";

/** Bring the note that was picked into the margin's view, and its remedies when they come. @param {HTMLElement} list */
function reveal(list) {
  const node = sheet.note ? /** @type {HTMLElement | null} */ (list.querySelector(`[data-note="${CSS.escape(sheet.note)}"]`)) : null;
  const now = node ? `${sheet.note} ${node.querySelectorAll(".remedy").length} ${sheet.preview?.id || ""}` : "";
  if (now === revealed) return;
  if (node && !revealed.startsWith(`${sheet.note} `)) loupe.reveal(noteNow()?.anchor || [0, 0]);
  revealed = now;
  node?.scrollIntoView({ block: "nearest" });
}

/** A bar of two feet or a metre, or less where the loupe is near. */
function bar() {
  const metric = state.job?.document.job.units === "metric";
  const bars = metric ? /** @type {const} */ ([[1, "1 m"], [0.5, "50 cm"], [0.1, "10 cm"]]) : /** @type {const} */ ([[0.6096, "2′"], [0.3048, "1′"], [0.0762, "3″"]]);
  const [length, text] = bars.find(([m]) => drawing.pxPerMetre * m < 200) || bars[2];
  if (drawing.pxPerMetre) scaleBar({ px: Math.round(drawing.pxPerMetre * length), text });
}

/** A note that stays open over a change is tried anew: its remedies were for the room as it was. */
function again() {
  const note = noteNow();
  if (note && !sheet.preview) prove(note);
}

/** A view that draws a room to scale. @param {Kind} of */
export function onDrawing(of) {
  return {
    id: of.id,
    title: of.title,
    needs: "room",
    css: of.css,
    render: () => render(of),
    drawn,
    enter: () => {
      kind = of;
      look(of.id, of.wall ? of.wall() : null);
      paperThen = paper();
      return load().then(again);
    },
    leave: () => {
      cancel();
      inked = null;
      document.getElementById("plan-drawing")?.replaceChildren();
      scaleBar(null);
    },
    changed: (/** @type {any} */ news) => {
      if (news.kind !== "photo") load({ keep: true }).then(again);
      loadHistory();
    },
    key: (/** @type {KeyboardEvent} */ event) => {
      if (loupe.key(event, !sheet.thing) || event.ctrlKey || event.metaKey || key(event)) return;
      if (event.key === "Escape") {
        if (sheet.preview) dropPreview();
        else if (sheet.note) pickNote(null);
      }
    },
  };
}
