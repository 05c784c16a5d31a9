// @ts-check
/** A thing of several colors: bands across its shape whose areas are the shares recorded, the largest first. */

/** @typedef {{hex: string, share: number}} Share */
/** @typedef {{shapes: SVGGraphicsElement[], x0: number, y0: number, x1: number, y1: number}} Patch shapes that lie on each other, and their box [mm] */

const SVG = "http://www.w3.org/2000/svg";

/** Squares along each side of a box by which the area in it is measured; edges count by how much of a square they cover. */
const FINE = 400;

/** Shares that add up to this much cover the whole. */
const WHOLE = 0.999;

/** Below this luminance of a ground, ink is drawn light. */
const DARK = 0.2;

/** The ink that is read on a ground. @param {string} color hex, or `rgb(...)` as a page computes it */
function inkOn(color) {
  const parts = color[0] === "#" ? [1, 3, 5].map((i) => parseInt(color.slice(i, i + 2), 16)) : (color.match(/[\d.]+/g) || []).map(Number);
  const [r, g, b] = parts.map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b < DARK ? "#efebe2" : "#22262a";
}

/**
 * Give shapes of one thing their colors, and its lines the ink that is read on them; what is not recorded stays as it is drawn.
 * @param {SVGElement[]} shapes @param {Share[] | undefined} colors the largest first; shares of the whole [0..1] @param {SVGElement[]} [lines]
 */
export function paint(shapes, colors, lines = []) {
  if (!colors?.length) return;
  for (const line of lines) line.style.stroke = inkOn(colors[0].hex);
  if (colors.length === 1 && colors[0].share >= WHOLE) {
    for (const shape of shapes) shape.style.fill = colors[0].hex;
    return;
  }
  for (const patch of patches(/** @type {SVGGraphicsElement[]} */ (shapes))) {
    const wide = patch.x1 - patch.x0 >= patch.y1 - patch.y0;
    const total = colors.reduce((sum, one) => sum + one.share, 0);
    const all = total < WHOLE ? [...colors, { hex: getComputedStyle(patch.shapes[0]).fill, share: 1 - total }] : colors;
    const ends = cuts(patch, wide, all.map((one) => one.share / Math.max(total, 1)));
    const fill = bands(patch, wide, ends, all.map((one) => one.hex)), ink = bands(patch, wide, ends, all.map((one) => inkOn(one.hex)));
    for (const shape of patch.shapes) shape.style.fill = fill;
    for (const line of lines) if (lies(/** @type {SVGGraphicsElement} */ (line), patch)) line.style.stroke = ink;
  }
}

/** Whether the middle of a line's box lies on a patch. @param {SVGGraphicsElement} line @param {Patch} patch */
function lies(line, patch) {
  const b = line.getBBox(), x = b.x + b.width / 2, y = b.y + b.height / 2;
  return x >= patch.x0 && x <= patch.x1 && y >= patch.y0 && y <= patch.y1;
}

/** Shapes in patches, so that each panel of a pair has all its colors, and a mount and its frame have them once. @param {SVGGraphicsElement[]} shapes */
function patches(shapes) {
  /** @type {Patch[]} */
  let found = [];
  for (const shape of shapes) {
    const b = shape.getBBox();
    if (!(b.width > 0 && b.height > 0)) continue;
    const one = { shapes: [shape], x0: b.x, y0: b.y, x1: b.x + b.width, y1: b.y + b.height };
    const apart = [];
    for (const other of found) {
      if (other.x1 <= one.x0 || other.x0 >= one.x1 || other.y1 <= one.y0 || other.y0 >= one.y1) {
        apart.push(other);
        continue;
      }
      one.shapes.unshift(...other.shapes);
      one.x0 = Math.min(one.x0, other.x0);
      one.y0 = Math.min(one.y0, other.y0);
      one.x1 = Math.max(one.x1, other.x1);
      one.y1 = Math.max(one.y1, other.y1);
    }
    found = [...apart, one];
  }
  return found;
}

/** Put bands over a patch into its drawing, and return them as a paint; the same bands have the same id. @param {Patch} patch @param {boolean} wide @param {number[]} ends @param {string[]} colors */
function bands(patch, wide, ends, colors) {
  const box = [wide ? patch.x0 : 0, wide ? 0 : patch.y0, wide ? patch.x1 : 0, wide ? 0 : patch.y1].map((v) => v.toFixed(3));
  const id = ["shares", ...box, ...ends.map((v) => v.toFixed(4)), ...colors].join("-").replace(/[^\w.-]/g, "");
  const svg = /** @type {SVGSVGElement} */ (patch.shapes[0].ownerSVGElement);
  if (svg.querySelector(`#${CSS.escape(id)}`)) return `url("#${id}")`;
  const gradient = document.createElementNS(SVG, "linearGradient");
  gradient.id = id;
  gradient.setAttribute("gradientUnits", "userSpaceOnUse");
  for (const [n, name] of ["x1", "y1", "x2", "y2"].entries()) gradient.setAttribute(name, box[n]);
  for (const [n, color] of colors.entries()) {
    for (const at of [n ? ends[n - 1] : 0, ends[n]]) {
      const stop = document.createElementNS(SVG, "stop");
      stop.setAttribute("offset", at.toFixed(5));
      stop.setAttribute("stop-color", color);
      gradient.append(stop);
    }
  }
  svg.prepend(gradient);
  return `url("#${id}")`;
}

/** Where each band ends along a patch [0..1 of its box], by the area its shapes cover. @param {Patch} patch @param {boolean} wide @param {number[]} shares */
function cuts(patch, wide, shares) {
  const slices = covered(patch, wide);
  const total = slices.reduce((sum, v) => sum + v, 0);
  let n = 0, before = 0, wanted = 0;
  return shares.map((share, k) => {
    if (k === shares.length - 1) return 1;
    wanted += share * total;
    while (n < FINE - 1 && before + slices[n] < wanted) before += slices[n++];
    return Math.min(1, (n + (slices[n] > 0 ? (wanted - before) / slices[n] : 0)) / FINE);
  });
}

/** How much of each slice of a patch its shapes cover together. @param {Patch} patch @param {boolean} wide @returns {number[]} */
function covered(patch, wide) {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = FINE;
  const ink = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d", { willReadFrequently: true }));
  ink.scale(FINE / (patch.x1 - patch.x0), FINE / (patch.y1 - patch.y0));
  ink.translate(-patch.x0, -patch.y0);
  for (const shape of patch.shapes) ink.fill(outline(shape));
  const { data } = ink.getImageData(0, 0, FINE, FINE);
  const slices = new Array(FINE).fill(0);
  for (let i = 0; i < FINE * FINE; i++) slices[wide ? i % FINE : Math.floor(i / FINE)] += data[4 * i + 3];
  return slices;
}

/** @param {SVGGraphicsElement} shape a path, a circle or an ellipse, all a drawing fills */
function outline(shape) {
  const d = shape.getAttribute("d");
  if (d) return new Path2D(d);
  const path = new Path2D(), box = shape.getBBox(), rx = box.width / 2, ry = box.height / 2;
  path.ellipse(box.x + rx, box.y + ry, rx, ry, 0, 0, 2 * Math.PI);
  return path;
}
