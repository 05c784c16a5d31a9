// @ts-check
/** Areas in true proportion: each color a block as large as its share, the left of it by day, the right of it of an evening. */
import { svg } from "../../lib/html.js";

/** @typedef {{x: number, y: number, w: number, h: number}} Box */

/**
 * Blocks of given areas that fill a box, each as near to square as it goes, the largest first.
 * @param {number[]} shares largest first, adding to 1 @param {Box} box @returns {Box[]}
 */
export function blocks(shares, box) {
  /** @type {Box[]} */
  const out = [];
  let { x, y, w, h } = box;
  const total = shares.reduce((a, b) => a + b, 0) || 1;
  const areas = shares.map((share) => (share / total) * w * h);
  let n = 0;
  while (n < areas.length) {
    const short = Math.min(w, h);
    let row = [areas[n]];
    let worst = ratio(row, short);
    while (n + row.length < areas.length) {
      const next = [...row, areas[n + row.length]];
      if (ratio(next, short) > worst) break;
      worst = ratio(next, short);
      row = next;
    }
    const sum = row.reduce((a, b) => a + b, 0);
    const deep = short > 0 ? sum / short : 0;
    let along = 0;
    for (const area of row) {
      const long = deep > 0 ? area / deep : 0;
      out.push(w >= h ? { x, y: y + along, w: deep, h: long } : { x: x + along, y, w: long, h: deep });
      along += long;
    }
    if (w >= h) [x, w] = [x + deep, w - deep];
    else [y, h] = [y + deep, h - deep];
    n += row.length;
  }
  return out;
}

/** The longest side to the shortest of the blocks of a row. @param {number[]} row @param {number} side */
function ratio(row, side) {
  const sum = row.reduce((a, b) => a + b, 0);
  const most = Math.max(...row), least = Math.min(...row);
  return least > 0 && sum > 0 ? Math.max((side * side * most) / (sum * sum), (sum * sum) / (side * side * least)) : Infinity;
}

/** A share as it is said. @param {number} share */
export const percent = (share) => (share < 0.005 ? "under 1%" : `${Math.round(share * 100)}%`);

/** Black or white, whichever reads better on a color. @param {string} hex */
export function letters(hex) {
  const [r, g, b] = [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  const light = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return (light + 0.05) / 0.05 > 1.05 / (light + 0.05) ? "#000000" : "#ffffff";
}

/**
 * The board as a drawing.
 * @param {{no: number, name: string, day: string, evening: string, share: number}[]} colors the largest first
 * @param {{width: number, height: number, label: string}} how
 */
export function board(colors, how) {
  const placed = blocks(colors.map((c) => c.share), { x: 0, y: 0, w: how.width, h: how.height });
  return svg`<svg class="board" viewBox=${`0 0 ${how.width} ${how.height}`} role="img" aria-label=${how.label} preserveAspectRatio="xMidYMid meet">
    ${colors.map((c, n) => {
      const b = placed[n], half = b.w / 2;
      const size = Math.min(15, b.h * 0.62, b.w * (c.no > 9 ? 0.36 : 0.5));
      return svg`<g data-swatch=${c.no}><rect x=${b.x} y=${b.y} width=${half} height=${b.h} fill=${c.day}></rect><rect x=${b.x + half} y=${b.y} width=${half} height=${b.h} fill=${c.evening}></rect><rect class="edge-line" x=${b.x} y=${b.y} width=${b.w} height=${b.h}></rect>
        ${size > 7 ? svg`<text x=${b.x + Math.min(7, b.w * 0.12)} y=${b.y + size * 1.15} font-size=${size} fill=${letters(c.day)}>${c.no}</text>` : ""}
        ${b.h > 40 && half > 66 ? svg`<text x=${b.x + 7} y=${b.y + b.h - 8} font-size="12" fill=${letters(c.day)}>day</text><text x=${b.x + half + 7} y=${b.y + b.h - 8} font-size="12" fill=${letters(c.evening)}>evening</text>` : ""}</g>`;
    })}
  </svg>`;
}
