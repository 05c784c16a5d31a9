"""Search for a free cluster: frame by frame, each one gap from another, the best few kept at every step.

The frames stand about the origin. Places are numpy arrays (n, 4) of x0, y0, x1, y1 [m].
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfdrop.art.work import Work

Array = NDArray[np.float64]

#: Part layouts kept at every step, places of one work kept for each part layout, orders tried (fewer of many works).
BEAM, PER_PART, ORDERS = 12, 6, 16
_PLACINGS = 120
_EPS = 1e-7


@dataclass(frozen=True, eq=False)
class Task:
    """What a search is given.

    Attributes
    ----------
    works : sequence of Work
        What hangs.
    gap : float
        Between frames [m].
    wall : Array (4,)
        Where frames may be, about the origin [m].
    blocked : Array (m, 4)
        Where they may not be: obstacles and their clearance [m].
    aspect : float
        Width ÷ height wanted of the whole.
    width : float or None
        Width wanted of the whole [m]; then `aspect` is not asked for.
    """

    works: Sequence[Work]
    gap: float
    wall: Array
    blocked: Array
    aspect: float
    width: float | None


@dataclass(frozen=True, eq=False)
class _Part:
    order: tuple[int, ...]
    places: Array
    cost: float


def layouts(task: Task, seed: int) -> Iterator[Array]:
    """Give whole layouts, places (n, 4) in the order of the works.

    The same task and seed give the same layouts, always.

    Source: our choice (beam search). Checked by: tests/art/test_cluster.py.
    """
    count = len(task.works)
    dice = random.Random(seed)
    weights = [w.weight for w in task.works]
    for turn in range(max(3, min(ORDERS, _PLACINGS // count))):
        shuffled = [x * (1 if turn == 0 else 0.4 + 1.2 * dice.random()) for x in weights]
        order = sorted(range(count), key=lambda i: (-round(shuffled[i], 12), i))
        parts = [_Part((), np.empty((0, 4)), 0.0)]
        for index in order:
            parts = _grown(task, parts, index)
        for part in parts:
            back = np.empty((count, 4))
            back[list(part.order)] = part.places
            yield back


def _grown(task: Task, parts: Sequence[_Part], index: int) -> list[_Part]:
    """Return the best part layouts that hold one work more."""
    found: dict[bytes, _Part] = {}
    for part in parts:
        places = _places(task, part.places, task.works[index])
        if not len(places):
            continue
        costs = _costs(task, part, index, places)
        best = np.lexsort((places[:, 0], places[:, 1], np.round(costs, 9)))[:PER_PART]
        for i in best:
            whole = np.vstack((part.places, places[i]))
            key = np.round(whole[np.lexsort(whole.T)], 6).tobytes()
            if key not in found:
                found[key] = _Part((*part.order, index), whole, float(costs[i]))
    ranked = sorted(found.values(), key=lambda p: (round(p.cost, 9), p.places.round(6).tolist()))
    return ranked[:BEAM]


def _places(task: Task, placed: Array, work: Work) -> Array:
    """Return every place (k, 4) of a work that is clear and one gap from a placed frame."""
    w, h = work.width, work.height
    xs, ys = [np.array((-w / 2,))], [np.array((-h / 2,))]
    if len(placed):
        xs, ys = (
            _steps(placed[:, 0], placed[:, 2], w, task.gap),
            _steps(placed[:, 1], placed[:, 3], h, task.gap),
        )
    if len(task.blocked):
        xs += [task.blocked[:, 2], task.blocked[:, 0] - w]
        ys += [task.blocked[:, 3], task.blocked[:, 1] - h]
    x, y = (m.ravel() for m in np.meshgrid(_distinct(xs), _distinct(ys)))
    places: Array = np.column_stack((x, y, x + w, y + h))
    wall = task.wall
    keep = (x >= wall[0] - _EPS) & (y >= wall[1] - _EPS)
    keep &= (places[:, 2] <= wall[2] + _EPS) & (places[:, 3] <= wall[3] + _EPS)
    places = places[keep]
    if len(task.blocked):
        places = places[(_apart(places, task.blocked).max(axis=2) >= -_EPS).all(axis=1)]
    if len(placed):
        apart = _apart(places, placed)
        clear = (apart.max(axis=2) >= task.gap - _EPS).all(axis=1)
        places = places[clear & (_touching(apart, task.gap).any(axis=1))]
    return places


def _steps(low: Array, high: Array, size: float, gap: float) -> list[Array]:
    """Return where a side of `size` begins: a gap after or before, or lined up with, what is placed."""
    return [high + gap, low - gap - size, low, high - size, (low + high - size) / 2]


def _distinct(parts: Sequence[Array]) -> Array:
    found: Array = np.unique(np.round(np.concatenate(parts), 9))
    return found


def _apart(a: Array, b: Array) -> Array:
    """Return the gaps (n, m, 2) across and up between two lists of frames; negative where they share that way."""
    first, second = a[:, None], b[None]
    gaps: Array = np.maximum(first[..., :2], second[..., :2]) - np.minimum(first[..., 2:], second[..., 2:])
    return gaps


def _touching(apart: Array, gap: float) -> NDArray[np.bool_]:
    """Return which pairs (n, m) face each other over exactly one gap, sharing at least as much as the gap."""
    near = np.abs(apart - gap) <= 1e-6
    shared = apart <= -max(gap, 0.01)
    return (near[..., 0] & shared[..., 1]) | (near[..., 1] & shared[..., 0])


def _costs(task: Task, part: _Part, index: int, places: Array) -> Array:
    """Return what each place costs (k,): loose, lopsided, off the middle, of the wrong shape."""
    low = np.minimum(places[:, :2], part.places[:, :2].min(axis=0)) if len(part.places) else places[:, :2]
    high = np.maximum(places[:, 2:], part.places[:, 2:].max(axis=0)) if len(part.places) else places[:, 2:]
    size = high - low
    used = [
        (task.works[i].width + task.gap) * (task.works[i].height + task.gap) for i in (*part.order, index)
    ]
    loose = (size + task.gap).prod(axis=1) / sum(used) - 1
    if task.width is not None:
        shape = np.maximum(size[:, 0] / task.width - 1, 0.0) * 4
        shape += 0.5 * np.maximum(np.log(size[:, 1] / size[:, 0]), 0.0)
    else:
        shape = np.abs(np.log(size[:, 0] / size[:, 1] / task.aspect))
    weights = np.array([task.works[i].weight for i in (*part.order, index)])
    middles = (places[:, :2] + places[:, 2:]) / 2
    fixed = (part.places[:, :2] + part.places[:, 2:]) / 2
    heavy = ((weights[:-1, None] * fixed).sum(axis=0) + weights[-1] * middles) / weights.sum()
    center = (low + high) / 2
    span = np.hypot(size[:, 0], size[:, 1])
    lopsided = np.hypot(*(heavy - center).T) / span
    off = np.hypot(*center.T) / span
    touches = np.zeros(len(places))
    if len(part.places):
        touches = _touching(_apart(places, part.places), task.gap).sum(axis=1)
    cost: Array = loose + 0.5 * shape + lopsided + (1.5 if len(task.blocked) else 0.6) * off - 0.12 * touches
    return cost
