// @ts-check
/** A drawing wearing the room's own colors: the only place, with the board, where real colors appear. */

/** @typedef {import("../plan/drawing.js").Drawing} Drawing */

/** Layers that say nothing of color, and of what is written on the drawing. */
export const WITHOUT = ["A-ANNO-DIMS", "A-ANNO-TEXT"];

/** Below this luminance of a ground, ink is drawn light. */
const DARK = 0.2;

/** @param {string} hex */
function luminance(hex) {
  const [r, g, b] = [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** @param {SVGElement} ink @param {string} what @returns {SVGElement[]} */
const all = (ink, what) => /** @type {SVGElement[]} */ ([...ink.querySelectorAll(what)]);

/** A shape behind the ink. @param {string} d @param {string} fill @param {string} part */
function ground(d, fill, part) {
  const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
  path.setAttribute("d", d);
  path.setAttribute("fill", fill);
  path.dataset.part = part;
  return path;
}

/**
 * Give each thing of a drawing its color; what has none stays paper.
 * @param {Drawing} drawing @param {Map<string, string>} colors hex by path, and of `walls`, `floor`, `trim` and `wall AB`
 * @param {[number, number][]} outline corners of the floor [m] @param {string} wall the wall of an elevation; empty on the plan
 */
export function tint(drawing, colors, outline, wall = "") {
  const ink = drawing.svg;
  if (!ink) return;
  for (const group of all(ink, "g[data-path]")) {
    const hex = colors.get(group.dataset.path || "");
    if (!hex || group.dataset.layer === "A-ANNO-TEXT") continue;
    const dark = luminance(hex) < DARK;
    for (const shape of all(group, ".f-paper, .f-wash")) shape.style.fill = hex;
    for (const line of all(group, ".s-ink, .s-graphite")) line.style.stroke = dark ? "#efebe2" : "#22262a";
  }
  if (wall) elevation(ink, colors, wall);
  else plan(drawing, ink, colors, outline);
}

/** @param {Drawing} drawing @param {SVGElement} ink @param {Map<string, string>} colors @param {[number, number][]} outline */
function plan(drawing, ink, colors, outline) {
  const floor = colors.get("floor"), walls = colors.get("walls");
  for (const hatch of all(ink, 'g[data-layer="A-WALL-PATT"]')) hatch.remove();
  if (floor && outline.length > 2) {
    const at = outline.map(([x, y]) => drawing.toSheet(x, y).map((v) => v.toFixed(2)).join(" "));
    ink.prepend(ground(`M${at.join("L")}Z`, floor, "floor"));
  }
  if (!walls) return;
  for (const shape of all(ink, 'g[data-layer="A-WALL"] path')) {
    shape.style.fill = walls;
    shape.dataset.part = "walls";
  }
}

/** The wall's face between its floor line and its ceiling line; casings and doors in the trim's color. @param {SVGElement} ink @param {Map<string, string>} colors @param {string} wall */
function elevation(ink, colors, wall) {
  const face = colors.get(`wall ${wall}`) || colors.get("walls"), trim = colors.get("trim");
  const lines = all(ink, 'g[data-layer="A-ELEV-OTLN"] path').map((path) => [...(path.getAttribute("d") || "").matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])]));
  if (face && lines.length >= 2) {
    const inner = lines.slice(0, 2).map((line) => (line.length > 3 ? line.slice(1, -1) : line));
    const ring = [...inner[0], ...inner[1].reverse()];
    ink.prepend(ground(`M${ring.map((p) => p.join(" ")).join("L")}Z`, face, "walls"));
  }
  if (!trim) return;
  for (const shape of all(ink, 'g[data-layer="A-ELEV-TRIM"] .f-paper, g[data-layer="A-DOOR"] .f-paper')) shape.style.fill = trim;
  for (const group of all(ink, 'g[data-layer="A-GLAZ"]')) for (const [n, shape] of all(group, ".f-paper").entries()) if (n !== 1) shape.style.fill = trim;
}
