"""Leaders of margin notes: horizontal from the note, one bend, upright to the mark, never crossing.

One-sided boundary labelling with leaders of one bend (a part parallel to the margin, a part square to it).
For notes that stand on given places, sorting both by height makes the leaders' length least; where two
leaders then cross, exchanging their places keeps the length and takes the crossing away, so repeated
exchange ends without crossings. Here the notes' heights differ, so places move a little with each exchange:
the exchange is repeated on the new places, and where that will not settle, places of equal height are used.

Source: M. A. Bekos, M. Kaufmann, A. Symvonis, A. Wolff, "Boundary labeling: models and efficient algorithms
for rectangular maps", Computational Geometry 36 (2007), the length-minimal one-bend case.
Checked by: tests/drawing/test_leaders.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from halfdrop.drawing.verbs import XY

#: Two uprights nearer than this count as one line [mm].
LANE = 0.7
#: How far a leader starts left of its note [mm].
START = 1.2


@dataclass(frozen=True)
class Item:
    """A note to be stood in the margin: its mark, its height, and how far under its top its leader leaves
    it [mm].
    """

    mark: XY
    height: float
    port: float


@dataclass(frozen=True)
class Stand:
    """Where a note stands [mm], and its leader from note to mark."""

    top: float
    leader: tuple[XY, ...]


def arrange(items: Sequence[Item], margin: float, top: float, bottom: float) -> list[Stand]:
    """Stand notes in a margin and lead each to its mark.

    Parameters
    ----------
    items : sequence of Item
        In any order.
    margin : float
        Left edge of the column; every mark should lie left of it [mm].
    top, bottom : float
        Of the column [mm]. Notes that are taller together start at the top and run over.

    Returns
    -------
    list of Stand
        In the order of the items. A leader is empty only where its mark lies in the margin itself, or where
        no order without a crossing was found.
    """
    if not items:
        return []
    lanes = _lanes([item.mark for item in items])
    order = sorted(range(len(items)), key=lambda i: (items[i].mark[1], -items[i].mark[0]))
    best = _settle(items, lanes, order, margin, top, bottom, equal=False)
    tops = best
    if _crossings(_ways(items, lanes, tops, margin)):
        equal = _settle(items, lanes, order, margin, top, bottom, equal=True)
        tops = min((best, equal), key=lambda t: len(_crossings(_ways(items, lanes, t, margin))))
    ways = _ways(items, lanes, tops, margin)
    dropped: set[int] = set()
    for i, j in _crossings(ways):
        if i not in dropped and j not in dropped:
            dropped.add(max(i, j))
    stands = []
    for i in range(len(items)):
        way = () if i in dropped or lanes[i] >= margin - START else ways[i]
        stands.append(Stand(tops[i], way))
    return stands


def _lanes(marks: Sequence[XY]) -> list[float]:
    """Return the x of each mark's upright: the mark's own, shifted a little where another runs there."""
    taken: list[float] = []
    for x, _ in marks:
        shifts = [0.0]
        for k in range(1, 3):
            shifts += [k * LANE, -k * LANE]
        taken.append(next((x + s for s in shifts if all(abs(x + s - t) >= LANE - 1e-9 for t in taken)), x))
    return taken


def _settle(
    items: Sequence[Item],
    lanes: Sequence[float],
    order: list[int],
    margin: float,
    top: float,
    bottom: float,
    *,
    equal: bool,
) -> list[float]:
    """Exchange neighbors' places until no leaders cross; return the tops."""
    order = list(order)
    heights = [item.height for item in items]
    if equal:
        heights = [max(heights)] * len(items)
    tops = _stack(items, heights, order, top, bottom)
    seen = {tuple(order)}
    for _ in range(4 * len(items) * len(items)):
        found = _crossings(_ways(items, lanes, tops, margin))
        if not found:
            break
        moved = False
        for i, j in found:
            trial = list(order)
            a, b = trial.index(i), trial.index(j)
            trial[a], trial[b] = trial[b], trial[a]
            if tuple(trial) not in seen:
                order, moved = trial, True
                seen.add(tuple(trial))
                break
        if not moved:
            break
        # on equal heights the places are the ones the first, sorted order took: only who stands where changes
        tops = _deal(tops, order) if equal else _stack(items, heights, order, top, bottom)
    return tops


def _deal(tops: Sequence[float], order: Sequence[int]) -> list[float]:
    places = sorted(tops)
    out = [0.0] * len(tops)
    for place, i in zip(places, order, strict=True):
        out[i] = place
    return out


def _stack(
    items: Sequence[Item], heights: Sequence[float], order: Sequence[int], top: float, bottom: float
) -> list[float]:
    """Return tops in a given order, each note as near to its mark's height as its neighbors let it (least
    squares).
    """
    blocks: list[tuple[float, float, list[int]]] = []  # sum of wishes, height, members
    for i in order:
        members, wish, height = [i], items[i].mark[1] - items[i].port, heights[i]
        while blocks:
            total, above, others = blocks[-1]
            if total / len(others) + above <= wish / len(members) + 1e-9:
                break
            blocks.pop()
            wish = total + wish - above * len(members)
            members, height = others + members, above + height
        blocks.append((wish, height, members))
    tops = [0.0] * len(items)
    floor = bottom
    starts = []
    for total, height, members in reversed(blocks):
        start = min(total / len(members), floor - height)
        starts.append((start, members))
        floor = start
    ceiling = top
    for start, members in reversed(starts):
        at = max(start, ceiling)
        for i in members:
            tops[i] = at
            at += heights[i]
        ceiling = at
    return tops


def _ways(
    items: Sequence[Item], lanes: Sequence[float], tops: Sequence[float], margin: float
) -> list[tuple[XY, ...]]:
    ways: list[tuple[XY, ...]] = []
    for item, lane, y in zip(items, lanes, tops, strict=True):
        port = y + item.port
        if abs(port - item.mark[1]) < 1e-6:
            ways.append(((margin - START, port), (lane, port)))
        else:
            ways.append(((margin - START, port), (lane, port), (lane, item.mark[1])))
    return ways


def _crossings(ways: Sequence[tuple[XY, ...]]) -> list[tuple[int, int]]:
    """Return every pair of leaders that touch."""
    return [(i, j) for i in range(len(ways)) for j in range(i + 1, len(ways)) if crosses(ways[i], ways[j])]


def crosses(first: Sequence[XY], second: Sequence[XY]) -> bool:
    """Return whether two leaders of level and upright parts touch anywhere."""
    return any(_touch(*s, *t) for s in pairwise(first) for t in pairwise(second))


def _touch(a: XY, b: XY, c: XY, d: XY) -> bool:
    # both are level or upright, so they touch where their boxes do
    eps = 1e-9
    return (
        min(a[0], b[0]) <= max(c[0], d[0]) + eps
        and min(c[0], d[0]) <= max(a[0], b[0]) + eps
        and min(a[1], b[1]) <= max(c[1], d[1]) + eps
        and min(c[1], d[1]) <= max(a[1], b[1]) + eps
    )
