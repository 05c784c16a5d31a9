// @ts-check
/** A thing of several colors: bands across its shape whose areas are the shares recorded, the largest first. */

/** @typedef {{hex: string, share: number}} Share */
/** @typedef {{shapes: SVGGraphicsElement[], x0: number, y0: number, x1: number, y1: number}} Patch shapes that lie on each other, and their box [mm] */

const SVG = "http://www.w3.org/2000/svg";

/** Squares along each side of a box by which the area in it is measured; edges count by how much of a square they cover. */
const FINE = 400;

/** Shares that add up to this much cover the whole. */
const WHOLE = 0.999;

/**
 * Give shapes of one thing their colors; what is not recorded stays as it is drawn.
 * @param {SVGElement[]} shapes @param {Share[] | undefined} colors the largest first; shares of the whole [0..1]
 */
export function paint(shapes, colors) {
  if (!colors?.length) return;
  if (colors.length === 1 && colors[0].share >= WHOLE) {
    for (const shape of shapes) shape.style.fill = colors[0].hex;
    return;
  }
  for (const patch of patches(/** @type {SVGGraphicsElement[]} */ (shapes))) {
    const fill = `url("#${bands(patch, colors)}")`;
    for (const shape of patch.shapes) shape.style.fill = fill;
  }
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

/** Put a patch's bands into its drawing; return their id, the same for the same bands. @param {Patch} patch @param {Share[]} colors */
function bands(patch, colors) {
  const wide = patch.x1 - patch.x0 >= patch.y1 - patch.y0;
  const total = colors.reduce((sum, one) => sum + one.share, 0);
  const all = total < WHOLE ? [...colors, { hex: getComputedStyle(patch.shapes[0]).fill, share: 1 - total }] : colors;
  const ends = cuts(patch, wide, all.map((one) => one.share / Math.max(total, 1)));
  const box = [wide ? patch.x0 : 0, wide ? 0 : patch.y0, wide ? patch.x1 : 0, wide ? 0 : patch.y1].map((v) => v.toFixed(3));
  const id = ["shares", ...box, ...ends.map((v) => v.toFixed(4)), ...all.map((one) => one.hex)].join("-").replace(/[^\w.-]/g, "");
  const svg = /** @type {SVGSVGElement} */ (patch.shapes[0].ownerSVGElement);
  if (svg.querySelector(`#${CSS.escape(id)}`)) return id;
  const gradient = document.createElementNS(SVG, "linearGradient");
  gradient.id = id;
  gradient.setAttribute("gradientUnits", "userSpaceOnUse");
  for (const [n, name] of ["x1", "y1", "x2", "y2"].entries()) gradient.setAttribute(name, box[n]);
  for (const [n, one] of all.entries()) {
    for (const at of [n ? ends[n - 1] : 0, ends[n]]) {
      const stop = document.createElementNS(SVG, "stop");
      stop.setAttribute("offset", at.toFixed(5));
      stop.setAttribute("stop-color", one.hex);
      gradient.append(stop);
    }
  }
  svg.prepend(gradient);
  return id;
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
