// @ts-check
/** The plan: the drawing, with its notes in the margin. */
import { html, nothing, sentence } from "../../lib/html.js";
import { redraw, state } from "../../state.js";
import { scaleBar } from "../../strip.js";
import { cancel, down, key, move, up } from "./hand.js";
import { history, loadHistory } from "./history.js";
import { inReadingOrder, notes, place } from "./notes.js";
import { drawOver, marksOf } from "./overlay.js";
import { openPutIn, putIn } from "./putin.js";
import { drawing, dropPreview, load, noteNow, paper, pickNote, pickThing, sheet, thingNow } from "./sheet.js";
import { slip } from "./slip.js";

/** @type {any} the view or preview whose ink is on the sheet */
let inked = null;
let paperThen = /** @type {string | null} */ (null);

/** @param {Event} event */
function clicked(event) {
  const mark = /** @type {Element} */ (event.target).closest("[data-note]");
  if (mark) pickNote(/** @type {HTMLElement} */ (mark).dataset.note || null);
}

function head() {
  const f = sheet.preview?.findings || sheet.findings;
  const n = (/** @type {string} */ grade) => f.filter((/** @type {any} */ x) => x.grade === grade).length;
  const count = (/** @type {number} */ k, /** @type {string} */ one, many = `${one}s`) => (k ? `${k} ${k === 1 ? one : many}` : "");
  const parts = [count(n("hazard"), "hazard"), count(n("fault"), "fault"), count(n("taste"), "of taste", "of taste")].filter(Boolean);
  return html`<header class="margin-head">
    <h1 class="unseen">${state.job?.document.rooms[state.place.room || ""]?.name}, plan</h1>
    <p class="count" aria-live="polite">${sheet.preview ? "If taken: " : ""}${parts.length ? parts.join(", ") : sheet.view ? "Nothing to note in this room" : ""}</p>
    <p class="ways"><button class="word" @click=${openPutIn} ?disabled=${!sheet.view}>Put something in</button></p>
  </header>`;
}

function render() {
  const thing = thingNow();
  if (sheet.refusal) {
    return html`<div class="refused"><h1>There is no plan of this room yet</h1><p class="prose">${sentence(sheet.refusal.replace(/^room `[^`]*`: /, ""))}.</p>${sheet.refusalHint ? html`<p class="prose quiet">${sheet.refusalHint}</p>` : nothing}
      <p><a class="word" href=${`#/${state.place.job}/survey/${state.place.room}`}>To the survey</a></p></div>`;
  }
  return html`<div class="plan-sheet">
    <section class="field" aria-label="Drawing" @pointerdown=${down} @pointermove=${move} @pointerup=${up} @pointercancel=${cancel} @focusin=${focused}>
      <div class="drawing" id="plan-drawing"></div>
      <p class="key small" id="plan-key"></p>
      ${sheet.loading ? html`<p class="waiting quiet">Drawing…</p>` : nothing}
    </section>
    <aside class="margin" aria-label="Margin" @scroll=${() => redraw("scroll")}>
      ${head()}
      ${thing ? slip(thing) : nothing}
      <div class="note-field">${notes(sheet.findings)}</div>
      ${history()}
    </aside>
    <svg class="over" id="plan-over" aria-hidden="true" @click=${clicked}></svg>
    ${putIn()}
  </div>`;
}

/** A thing reached by Tab is picked. @param {FocusEvent} event */
function focused(event) {
  const group = /** @type {Element} */ (event.target).closest("g.thing");
  const path = group && /** @type {SVGGElement} */ (group).dataset.path;
  if (path && sheet.thing !== path && group.matches(":focus-visible")) pickThing(path);
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
  }
  if (paper() !== paperThen) {
    paperThen = paper();
    load();
  }
  drawing.light(noteNow() ? noteNow().subjects : sheet.thing ? [sheet.thing] : []);
  const whole = /** @type {HTMLElement} */ (over.parentElement);
  const origin = whole.getBoundingClientRect();
  const marks = marksOf(drawing, sheet.findings, origin);
  const margin = /** @type {HTMLElement} */ (whole.querySelector(".margin"));
  const list = /** @type {HTMLElement} */ (whole.querySelector(".notes"));
  const wide = getComputedStyle(margin).getPropertyValue("--beside").trim() === "1";
  list.classList.toggle("beside", wide);
  if (wide) {
    const top = list.getBoundingClientRect().top - origin.top + margin.scrollTop;
    if (place(list, sheet.findings, marks, top, margin.clientHeight - (list.offsetTop || 0) - 24) && inReadingOrder(sheet.findings)) redraw();
  } else {
    list.style.height = "";
  }
  reveal(list);
  drawOver(over, drawing, { cleared: sheet.preview?.cleared, findings: sheet.findings, selected: sheet.note, thing: thingNow(), live: sheet.live, marks, origin, margin, wide });
  bar();
}

let revealed = "";

/** Bring the note that was picked into the margin's view, and its remedies when they come. @param {HTMLElement} list */
function reveal(list) {
  const node = sheet.note ? /** @type {HTMLElement | null} */ (list.querySelector(`[data-note="${CSS.escape(sheet.note)}"]`)) : null;
  const now = node ? `${sheet.note} ${node.querySelectorAll(".remedy").length} ${sheet.preview?.id || ""}` : "";
  if (now === revealed) return;
  revealed = now;
  node?.scrollIntoView({ block: "nearest" });
}

/** A bar of two feet or a metre. */
function bar() {
  const metric = state.job?.document.job.units === "metric";
  const px = drawing.pxPerMetre * (metric ? 1 : 0.6096);
  if (px) scaleBar({ px: Math.round(px), text: metric ? "1 m" : "2′" });
}

export default {
  id: "plan",
  title: "Plan",
  needs: "room",
  css: ["plan.css"],
  render,
  drawn,
  enter: () => {
    paperThen = paper();
    return load();
  },
  leave: () => {
    cancel();
    inked = null;
    scaleBar(null);
  },
  changed: (/** @type {any} */ news) => {
    if (news.kind !== "photo") load({ keep: true });
    loadHistory();
  },
  key: (/** @type {KeyboardEvent} */ event) => {
    if (key(event)) return;
    if (event.key === "Escape") {
      if (sheet.preview) dropPreview();
      else if (sheet.note) pickNote(null);
    }
  },
};
