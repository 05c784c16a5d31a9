// @ts-check
/** A drawing wearing the room's own colors: the only place, with the board, where real colors appear. */

/** @typedef {import("../plan/drawing.js").Drawing} Drawing */

/** Below this lightness of a ground, ink is drawn light. */
const DARK = 0.2;

/** @param {string} hex */
function luminance(hex) {
  const [r, g, b] = [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/**
 * Give each thing of a drawing its color; what has none stays paper.
 * @param {Drawing} drawing @param {Map<string, string>} colors hex by path, and of `walls` and `floor` @param {[number, number][]} outline corners of the floor [m]
 */
export function tint(drawing, colors, outline) {
  const ink = drawing.svg;
  if (!ink) return;
  ink.querySelector("path.floor-color")?.remove();
  for (const group of /** @type {NodeListOf<SVGGElement>} */ (ink.querySelectorAll("g[data-path]"))) {
    const letters = group.dataset.layer === "A-ANNO-TEXT";
    const hex = colors.get(group.dataset.path || "");
    if (!hex || letters) continue;
    const dark = luminance(hex) < DARK;
    for (const shape of /** @type {NodeListOf<SVGElement>} */ (group.querySelectorAll(".f-paper, .f-wash"))) shape.style.fill = hex;
    for (const line of /** @type {NodeListOf<SVGElement>} */ (group.querySelectorAll(".s-ink, .s-graphite"))) line.style.stroke = dark ? "#efebe2" : "#22262a";
  }
  const ground = colors.get("floor"), walls = colors.get("walls");
  if (ground && outline.length > 2) {
    const floor = document.createElementNS("http://www.w3.org/2000/svg", "path");
    const at = outline.map(([x, y]) => drawing.toSheet(x, y).map((v) => v.toFixed(2)).join(" "));
    floor.setAttribute("d", `M${at.join("L")}Z`);
    floor.setAttribute("class", "floor-color");
    floor.setAttribute("fill", ground);
    floor.dataset.part = "floor";
    ink.prepend(floor);
  }
  if (walls) {
    for (const shape of /** @type {NodeListOf<SVGElement>} */ (ink.querySelectorAll('g[data-layer="A-WALL"] path'))) {
      shape.style.fill = walls;
      shape.dataset.part = "walls";
    }
  }
}
