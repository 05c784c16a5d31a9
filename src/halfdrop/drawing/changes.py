"""What a proposal changes: things that moved, came or went, their ghosts, and the arrow from old place to
new.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units, format_length
from halfdrop.base.tolerance import SAME
from halfdrop.drawing.board import Board
from halfdrop.drawing.labels import AIR, block, extent
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import XY
from halfdrop.geometry.plane import Array
from halfdrop.room import LyingRug, ResolvedRoom, StandingPiece

#: A turn smaller than this is no move [rad].
TURN = math.radians(0.5)


@dataclass(frozen=True)
class Changes:
    """What differs between two states of a room.

    Attributes
    ----------
    moved : tuple of (before, after)
        Things in both, elsewhere or of another size.
    new : frozenset of str
        Paths of things only in the later state, and of works that hang elsewhere in it.
    gone : tuple
        Things only in the earlier one.
    """

    moved: tuple[tuple[StandingPiece | LyingRug, StandingPiece | LyingRug], ...] = ()
    new: frozenset[str] = frozenset()
    gone: tuple[StandingPiece | LyingRug, ...] = ()

    @property
    def proposed(self) -> frozenset[str]:
        """Paths of everything drawn as proposed."""
        return self.new | {after.path for _, after in self.moved}

    @property
    def ghosts(self) -> tuple[StandingPiece | LyingRug, ...]:
        """Things drawn where they stood."""
        return tuple(before for before, _ in self.moved) + self.gone


def changes(before: ResolvedRoom, after: ResolvedRoom) -> Changes:
    """Return what differs between a room as found and as proposed."""
    moved: list[tuple[StandingPiece | LyingRug, StandingPiece | LyingRug]] = []
    new: set[str] = set()
    gone: list[StandingPiece | LyingRug] = []
    for old, now in ((before.rugs, after.rugs), (before.pieces, after.pieces)):
        for key, thing in old.items():
            there = now.get(key)
            if there is None:
                gone.append(thing)
            elif _differs(thing, there):
                moved.append((thing, there))
        new |= {thing.path for key, thing in now.items() if key not in old}
    hung = {key: work.model.at for key, work in before.art.items()}
    new |= {work.path for key, work in after.art.items() if hung.get(key) != work.model.at}
    return Changes(tuple(moved), frozenset(new), tuple(gone))


def _differs(a: StandingPiece | LyingRug, b: StandingPiece | LyingRug) -> bool:
    turn = (a.angle - b.angle + math.pi) % math.tau - math.pi
    return (
        float(np.hypot(*(a.center - b.center))) > SAME
        or abs(turn) > TURN
        or abs(a.width - b.width) > SAME
        or abs(a.depth - b.depth) > SAME
        or a.footprint.symmetric_difference(b.footprint).area > 1e-4
    )


@dataclass
class Arrows:
    """What the arrows took of the paper [mm]."""

    boxes: list[BaseGeometry] = field(default_factory=list)


def draw_arrows(
    board: Board,
    found: Changes,
    units: Units,
    blocks: Sequence[BaseGeometry],
    edges: Sequence[BaseGeometry] = (),
) -> Arrows:
    """Draw one arrow from each moved thing's old place to its new one, the distance on it.

    The value stands off `blocks`, and off `edges` too where there is such a place [mm].
    """
    done = Arrows()
    # several things that moved as one need one arrow: the largest of them carries it
    seen: list[tuple[float, float, float]] = []
    for before, after in sorted(found.moved, key=lambda m: -m[1].footprint.area):
        shift = after.center - before.center
        distance = float(np.hypot(*shift))
        if distance < 0.01 or abs(before.width - after.width) + abs(before.depth - after.depth) > SAME:
            continue  # a thing of another size did not move: it is another thing
        turn = (after.angle - before.angle + math.pi) % math.tau - math.pi
        key = (float(shift[0]), float(shift[1]), turn)
        if abs(turn) < TURN and any(math.dist(key, s) < 2e-3 for s in seen):
            continue
        seen.append(key)
        a, b = _ends(before, after, turn)
        with board.group("I-FURN-N", after.path):
            draw_arrow(board, done, a, b, format_length(distance, units), blocks, edges)
    return done


def _ends(before: StandingPiece | LyingRug, after: StandingPiece | LyingRug, turn: float) -> tuple[XY, XY]:
    """Return where the arrow runs [m]: between like points of the two places, the pair seen best between
    the shapes.
    """
    if abs(turn) > TURN:
        return _xy(before.center), _xy(after.center)
    both = before.footprint.union(after.footprint)
    best: tuple[float, XY, XY] | None = None
    for u, v in (
        (0, 0.5),
        (0.5, 0),
        (0, -0.5),
        (-0.5, 0),
        (0.5, 0.5),
        (-0.5, 0.5),
        (-0.5, -0.5),
        (0.5, -0.5),
    ):
        a = _xy(before.at(u * before.width, v * before.depth))
        b = _xy(after.at(u * before.width, v * before.depth))
        seen = LineString([a, b]).difference(both.buffer(-0.01)).length
        if best is None or seen > best[0] + 1e-6:
            best = (seen, a, b)
    assert best is not None
    return best[1], best[2]


def _xy(p: Array) -> XY:
    return (float(p[0]), float(p[1]))


def draw_arrow(
    board: Board,
    done: Arrows,
    a: XY,
    b: XY,
    value: str,
    blocks: Sequence[BaseGeometry],
    edges: Sequence[BaseGeometry],
) -> None:
    """Draw one arrow from `a` to `b` [m] with its value, which stands off `blocks` and `edges` [mm]."""
    mm = 1.0 / board.frame.scale
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    head = min(2.2 * mm, length * 0.6)
    board.line([a, b], "thin", "slate")
    for side in (0.36, -0.36):
        back = (b[0] - head * (ux - side * uy), b[1] - head * (uy + side * ux))
        board.line([b, back], "medium", "slate")
    board.oval(a, 0.9 * mm, 0.9 * mm, pen=None, fill="slate")
    p, q = board.frame(*a), board.frame(*b)
    done.boxes.append(LineString([p, q]).buffer(0.5))
    size = extent((value,), "medium")
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    hard = [*blocks, *done.boxes]
    at = _spot(middle, p, q, size, [*hard, *edges])
    clear = at is not None
    at = at or _spot(middle, p, q, size, hard) or middle
    shape = block(at, size, False, AIR)
    done.boxes.append(shape)
    if not clear:
        ring = [
            board.frame.inverse((x, y)) for x, y in list(block(at, size, False, 0.4).exterior.coords)[:-1]
        ]
        board.area(ring, fill="paper", pen=None)
    letters = tokens().sizes["small"]
    board.text(board.frame.inverse((at[0], at[1] + size[1] / 2)), value, letters, "medium", "slate")


def _spot(middle: XY, p: XY, q: XY, size: tuple[float, float], blocks: Sequence[BaseGeometry]) -> XY | None:
    """Return where an arrow's value stands: beside the middle, else past an end, clear of what is drawn
    [mm].
    """
    length = max(math.dist(p, q), 1e-6)
    nx, ny = -(q[1] - p[1]) / length, (q[0] - p[0]) / length
    off = abs(nx) * size[0] / 2 + abs(ny) * size[1] / 2 + AIR + 0.9
    spots = [
        (base[0] + s * off * k * nx, base[1] + s * off * k * ny)
        for k in (1.0, 1.6, 2.4, 3.4)
        for base in (middle, p, q)
        for s in (1, -1)
    ]
    for spot in spots:
        shape = block(spot, size, False, AIR)
        if not any(shape.intersects(b) for b in blocks):
            return spot
    return None


def mark_disk(at: XY, radius: float) -> BaseGeometry:
    """Return the disk of a number mark [mm]."""
    return Point(at).buffer(radius, quad_segs=6)
