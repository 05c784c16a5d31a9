// @ts-check
/** A drawing wearing the room's own colors: the only place, with the board, where real colors appear. */
import { paint } from "./shares.js";

/** @typedef {import("../plan/drawing.js").Drawing} Drawing */
/** @typedef {Map<string, import("./shares.js").Share[]>} Colors by path, and of `walls`, `floor`, `trim` and `wall AB` */

/** Layers that say nothing of color, and of what is written on the drawing. */
export const WITHOUT = ["A-ANNO-DIMS", "A-ANNO-TEXT"];

/** @param {SVGElement} ink @param {string} what @returns {SVGElement[]} */
const all = (ink, what) => /** @type {SVGElement[]} */ ([...ink.querySelectorAll(what)]);

/** Put a shape behind the ink. @param {SVGElement} ink @param {string} d @param {string} part */
function ground(ink, d, part) {
  const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
  path.setAttribute("d", d);
  path.setAttribute("class", "f-paper");
  path.dataset.part = part;
  ink.prepend(path);
  return path;
}

/**
 * Give each thing of a drawing its color; what has none stays paper.
 * @param {Drawing} drawing @param {Colors} colors
 * @param {[number, number][]} outline corners of the floor [m] @param {string} wall the wall of an elevation; empty on the plan
 */
export function tint(drawing, colors, outline, wall = "") {
  const ink = drawing.svg;
  if (!ink) return;
  for (const group of all(ink, "g[data-path]")) {
    const worn = colors.get(group.dataset.path || "");
    if (!worn?.length || group.dataset.layer === "A-ANNO-TEXT") continue;
    paint(all(group, ".f-paper, .f-wash"), worn, all(group, ".s-ink, .s-graphite"));
  }
  if (wall) elevation(ink, colors, wall);
  else plan(drawing, ink, colors, outline);
}

/** @param {Drawing} drawing @param {SVGElement} ink @param {Colors} colors @param {[number, number][]} outline */
function plan(drawing, ink, colors, outline) {
  const floor = colors.get("floor"), walls = colors.get("walls");
  for (const hatch of all(ink, 'g[data-layer="A-WALL-PATT"]')) hatch.remove();
  if (floor && outline.length > 2) {
    const at = outline.map(([x, y]) => drawing.toSheet(x, y).map((v) => v.toFixed(2)).join(" "));
    paint([ground(ink, `M${at.join("L")}Z`, "floor")], floor);
  }
  if (!walls) return;
  const cut = all(ink, 'g[data-layer="A-WALL"] path');
  paint(cut, walls);
  for (const shape of cut) shape.dataset.part = "walls";
}

/** The wall's face between its floor line and its ceiling line; casings and doors in the trim's color. @param {SVGElement} ink @param {Colors} colors @param {string} wall */
function elevation(ink, colors, wall) {
  const face = colors.get(`wall ${wall}`) || colors.get("walls"), trim = colors.get("trim");
  const lines = all(ink, 'g[data-layer="A-ELEV-OTLN"] path').map((path) => [...(path.getAttribute("d") || "").matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])]));
  if (face && lines.length >= 2) {
    const inner = lines.slice(0, 2).map((line) => (line.length > 3 ? line.slice(1, -1) : line));
    const ring = [...inner[0], ...inner[1].reverse()];
    paint([ground(ink, `M${ring.map((p) => p.join(" ")).join("L")}Z`, "walls")], face);
  }
  if (!trim) return;
  paint(all(ink, 'g[data-layer="A-ELEV-TRIM"] .f-paper, g[data-layer="A-DOOR"] .f-paper'), trim);
  for (const group of all(ink, 'g[data-layer="A-GLAZ"]')) paint(all(group, ".f-paper").filter((_, n) => n !== 1), trim);
}
