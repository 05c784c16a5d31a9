// @ts-check
/** How notes stand in the margin beside their marks: each as near to its mark's height as its neighbors let it. */

/**
 * @typedef {{id: string, x: number, y: number, height: number}} Item a note: its mark [px], its height [px]
 * @typedef {{id: string, top: number}} Place
 */

const GAP = 10;
/** Where a note's number stands below its top. */
export const LEAD = 12;

/**
 * Order and place notes so that leaders, each level from its note and then upright to its mark, do not cross.
 * @param {Item[]} items @param {number} room the margin's height
 * @returns {Place[]} in reading order
 */
export function arrange(items, room) {
  let order = [...items].sort((a, b) => a.y - b.y || b.x - a.x);
  let tops = spread(order, room);
  for (let turn = 0; turn < 40; turn += 1) {
    const i = order.findIndex((item, k) => k + 1 < order.length && crosses(item, tops[k] + LEAD, order[k + 1], tops[k + 1] + LEAD));
    if (i < 0) break;
    const swapped = [...order];
    [swapped[i], swapped[i + 1]] = [swapped[i + 1], swapped[i]];
    const next = spread(swapped, room);
    if (crosses(swapped[i], next[i] + LEAD, swapped[i + 1], next[i + 1] + LEAD)) break;
    [order, tops] = [swapped, next];
  }
  return order.map((item, k) => ({ id: item.id, top: tops[k] }));
}

/** @param {Item} a @param {number} ya @param {Item} b @param {number} yb */
function crosses(a, ya, b, yb) {
  const cut = (/** @type {Item} */ p, /** @type {number} */ yp, /** @type {number} */ yq, /** @type {Item} */ q) => p.x > q.x + 1 && Math.min(yp, p.y) < yq && yq < Math.max(yp, p.y);
  return cut(a, ya, yb, b) || cut(b, yb, ya, a);
}

/** Least moves that keep the order and the gaps: neighbors that would touch move as one block. @param {Item[]} order @param {number} room */
function spread(order, room) {
  /** @type {{from: number, n: number, height: number, want: number}[]} */
  const blocks = [];
  order.forEach((item, i) => {
    blocks.push({ from: i, n: 1, height: item.height + GAP, want: item.y - LEAD });
    while (blocks.length > 1) {
      const [b, a] = [blocks[blocks.length - 1], blocks[blocks.length - 2]];
      if (top(a) + a.height <= top(b)) break;
      a.want = (a.want * a.n + (b.want - a.height) * b.n) / (a.n + b.n);
      a.n += b.n;
      a.height += b.height;
      blocks.pop();
    }
  });
  function top(/** @type {{want: number, height: number}} */ block) {
    return Math.max(0, Math.min(block.want, room - block.height));
  }
  const tops = new Array(order.length).fill(0);
  let floor = 0;
  for (const block of blocks) {
    let at = Math.max(floor, top(block));
    for (let i = block.from; i < block.from + block.n; i += 1) {
      tops[i] = at;
      at += order[i].height + GAP;
    }
    floor = at;
  }
  const over = floor - room;
  if (over > 0) {
    let at = 0;
    const slack = tops[0];
    order.forEach((item, i) => {
      tops[i] = Math.max(at, tops[i] - Math.max(0, Math.min(over, slack)));
      at = tops[i] + item.height + GAP;
    });
  }
  return tops;
}

/** @typedef {{left: number, top: number, right: number, bottom: number}} Box */

const WAYS = [[1, 0], [-1, 0], [0, 1], [0, -1], [1, 1], [-1, 1], [1, -1], [-1, -1]];

/**
 * Part marks from each other and from lettering: each steps aside to the nearest free place.
 * @param {{id: string, x: number, y: number}[]} marks @param {number} apart @param {Box[]} letters
 */
export function parted(marks, apart, letters = []) {
  /** @type {{id: string, x: number, y: number}[]} */
  const out = [];
  const r = apart / 2 - 1;
  const free = (/** @type {number} */ x, /** @type {number} */ y) =>
    out.every((o) => Math.hypot(o.x - x, o.y - y) >= apart) &&
    letters.every((b) => x + r < b.left || x - r > b.right || y + r < b.top || y - r > b.bottom);
  for (const mark of marks) {
    let best = mark;
    search: for (let far = 0; far <= 3 * apart; far += apart / 4) {
      for (const [dx, dy] of far ? WAYS : [[0, 0]]) {
        if (free(mark.x + dx * far, mark.y + dy * far)) {
          best = { ...mark, x: mark.x + dx * far, y: mark.y + dy * far };
          break search;
        }
      }
    }
    out.push(best);
  }
  return out;
}
