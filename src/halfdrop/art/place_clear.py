"""Move a whole group the shortest way to where it is clear of everything on the wall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from halfdrop.art.group import Group
from halfdrop.art.rect import Rect
from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

FITTING, EDGE = "art.fitting_clear", "art.edge_clear"
Array = NDArray[np.float64]

#: Places tried at once, the nearest first.
_BATCH = 4096


def shortest_move(
    rects: Sequence[Rect], wall: Rect, obstacles: Sequence[Rect], clear: float
) -> tuple[float, float] | None:
    """Return the shortest way (dx, dy) [m] by which all frames lie in the wall and clear of all obstacles; None where there is none.

    Every place that a frame may not take is an upright rectangle of moves, so the nearest free move is none at all, an edge
    straight across or up, or a crossing of two edges; all are tried, the nearest first. Of two as near, the one higher up, then
    the one to the left.

    Parameters
    ----------
    rects : sequence of Rect
        The frames.
    wall : Rect
        Where they may be.
    obstacles : sequence of Rect
        What is on the wall.
    clear : float
        Least from a frame to an obstacle [m].

    Checked by: tests/art/test_groups.py.
    """
    box = Rect.round_all(rects)
    low = np.array((wall.x0 - box.x0, wall.y0 - box.y0))
    high = np.array((wall.x1 - box.x1, wall.y1 - box.y1))
    if (low > high + SAME).any():
        return None
    high = np.maximum(low, high)
    frames = np.array([(r.x0, r.y0, r.x1, r.y1) for r in rects])
    taken = [(o.x0 - clear, o.y0 - clear, o.x1 + clear, o.y1 + clear) for o in obstacles]
    blocks = np.array(taken).reshape(-1, 4)
    # moves that bring frame i into obstacle j: (least, most) of dx and dy
    least = (blocks[None, :, :2] - frames[:, None, 2:]).reshape(-1, 2)
    most = (blocks[None, :, 2:] - frames[:, None, :2]).reshape(-1, 2)
    ways = []
    for axis in (0, 1):
        edges = np.concatenate(([0.0], least[:, axis], most[:, axis], [low[axis], high[axis]]))
        ways.append(np.unique(np.clip(edges, low[axis], high[axis])))
    dx, dy = (m.ravel() for m in np.meshgrid(*ways))
    order = np.lexsort((dx, -dy, np.round(np.hypot(dx, dy), 9)))
    for start in range(0, len(order), _BATCH):
        part = order[start : start + _BATCH]
        move = np.column_stack((dx[part], dy[part]))
        hit = (move[:, None] > least + 1e-9).all(axis=2) & (move[:, None] < most - 1e-9).all(axis=2)
        free = np.flatnonzero(~hit.any(axis=1))
        if len(free):
            return float(move[free[0], 0]), float(move[free[0], 1])
    return None


def place_clear(
    group: Group, wall: Rect, practice: Practice, *, obstacles: Sequence[tuple[str, Rect]] = ()
) -> Group:
    """Return the group moved the shortest way to where it is clear.

    Parameters
    ----------
    group : Group
        As laid out about its middle.
    wall : Rect
        The free wall, corner to corner and floor (or top of the piece below) to ceiling [m].
    practice : Practice
        `art.fitting_clear`, `art.edge_clear`.
    obstacles : sequence of (str, Rect)
        Switches, thermostats, sconces, each with its name.

    Raises
    ------
    InputError
        Where the wall has no such place.

    Source: clearances are our choice. Checked by: tests/art/test_groups.py.
    """
    say = Words(practice)
    clear, edge = float(practice.length(FITTING)), float(practice.length(EDGE))
    free = Rect(wall.x0 + edge, wall.y0, wall.x1 - edge, wall.y1 - edge)
    move = shortest_move(group.rects, free, [r for _, r in obstacles], clear)
    if move is None:
        names = ", ".join(n for n, _ in obstacles)
        raise InputError(
            f"a {group.layout} of {say.pair(group.box.width, group.box.height)} has no place on {say.pair(wall.width, wall.height)} "
            f"of wall" + (f" clear of {names}" if names else ""),
            hint="hang fewer works, closer, or as a cluster round what is on the wall",
        )
    dx, dy = move
    note: tuple[str, ...] = ()
    if abs(dx) > SAME or abs(dy) > SAME:
        parts = [f"{say(abs(dx))} to the {'right' if dx > 0 else 'left'}"] if abs(dx) > SAME else []
        parts += [f"{say(abs(dy))} {'up' if dy > 0 else 'down'}"] if abs(dy) > SAME else []
        note = (
            f"The {group.layout} is moved {' and '.join(parts)} from where it was wanted, to be clear of what is there; its middle is at "
            f"{say(group.box.center[1] + dy)}.",
        )
        group.working.step("moved clear", "the shortest way to where every frame is clear",
                           f"{say(clear)} from fittings, {say(edge)} from the wall's ends and the ceiling",
                           " and ".join(parts), source=say.cited(FITTING, EDGE))  # fmt: skip
    return replace(group.moved(dx, dy), notes=(*group.notes, *note))
