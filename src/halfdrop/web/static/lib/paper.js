// @ts-check
/**
 * A drawing with its margin on paper. A browser lays a page out for print without asking the page again, so the sheet is
 * set to the paper's size before that: notes, marks and leaders then stand as they will be printed.
 */
import { redraw, state } from "../state.js";

/** Paper of the job's units, landscape, and the edge left white [px at 96 to the inch]. */
const PAPERS = { imperial: { size: "11in 8.5in", w: 1056, h: 816 }, metric: { size: "297mm 210mm", w: 1122, h: 793 } };
const EDGE = 42;

/** @type {{w: number, h: number, foot: number} | null} */
let paper = null;
/** @type {CSSStyleSheet | null} */
let rules = null;
/** @type {string | undefined} */
let ground;
/** @type {Set<(printing: boolean) => void>} */
const hearers = new Set();

/** What is left of the paper inside its edges, and how much of its foot the title strip takes [px]; null on the screen. */
export const onPaper = () => paper;

/** @param {(printing: boolean) => void} hear before the sheet is set to paper, and after */
export function aboutToPrint(hear) {
  hearers.add(hear);
}

addEventListener("beforeprint", () => {
  if (paper || !document.querySelector(".plan-sheet")) return;
  const { size, w, h } = state.job?.document.job.units === "metric" ? PAPERS.metric : PAPERS.imperial;
  for (const hear of hearers) hear(true);
  paper = { w: w - 2 * EDGE, h: h - 2 * EDGE, foot: 66 };
  rules = new CSSStyleSheet();
  rules.replaceSync(`@page { size: ${size}; margin: ${EDGE}px; } :root { --paper-w: ${paper.w}px; --paper-h: ${paper.h}px; --paper-foot: ${paper.foot}px; }`);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, rules];
  const root = document.documentElement;
  ground = root.dataset.ground;
  root.dataset.ground = "light";
  root.dataset.paper = "";
  redraw("print");
});

addEventListener("afterprint", () => {
  if (!paper) return;
  paper = null;
  document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== rules);
  const root = document.documentElement;
  delete root.dataset.paper;
  if (ground) root.dataset.ground = ground;
  else delete root.dataset.ground;
  for (const hear of hearers) hear(false);
  redraw("print");
});
