"""What a proposal changes on a wall: things that moved, came or went, rods raised or lengthened."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units, format_length
from halfdrop.base.tolerance import SAME
from halfdrop.drawing.board import Board
from halfdrop.drawing.changes import Arrows, draw_arrow
from halfdrop.drawing.elevation.art import art_layer
from halfdrop.drawing.elevation.cloth import cloth_layer
from halfdrop.drawing.elevation.shown import Hanging, Shown
from halfdrop.drawing.layers import furniture_layer
from halfdrop.drawing.verbs import XY
from halfdrop.room.face import Seen
from halfdrop.room.things import HungArt

#: A move shorter than this has a ghost and no arrow [m].
SHORT = 0.01


@dataclass(frozen=True)
class FaceChanges:
    """What differs between two states of a wall.

    Attributes
    ----------
    proposed : frozenset of str
        Paths of what is drawn as proposed.
    seen, hangings : tuple of Seen, tuple of Hanging
        Things drawn where they were before.
    moved : tuple of (thing, from, to)
        Where an arrow runs [m]: between the middles of a thing, or up from a rod's old end; its length is dimensioned.
    """

    proposed: frozenset[str] = frozenset()
    seen: tuple[Seen, ...] = ()
    hangings: tuple[Hanging, ...] = ()
    moved: tuple[tuple[Seen | Hanging, XY, XY], ...] = ()


def compare_faces(before: Shown, after: Shown) -> FaceChanges:
    """Return what differs between a wall as found and as proposed."""
    proposed: set[str] = set()
    moved: list[tuple[Seen | Hanging, XY, XY]] = []
    seen: list[Seen] = []
    was, now = _seen(before), _seen(after)
    for path, old in was.items():
        there = now.get(path)
        if there is None:
            seen.append(old)
        elif _box(old) != _box(there):
            seen.append(old)
            proposed.add(path)
            if _size(old) == _size(there):
                moved.append((there, _middle(old), _middle(there)))
        elif old.thing.model != there.thing.model:
            proposed.add(path)
    proposed |= now.keys() - was.keys()
    hangings: list[Hanging] = []
    hung, hangs = ({h.path: h for h in state.hangings} for state in (before, after))
    for path, rod in hung.items():
        raised = hangs.get(path)
        if raised is None:
            hangings.append(rod)
        elif _cloth(rod) != _cloth(raised) or rod.hung.treatment != raised.hung.treatment:
            hangings.append(rod)
            proposed.add(path)
            moved.append((raised, (rod.rod[0], rod.height), (rod.rod[0], raised.height)))
    proposed |= hangs.keys() - hung.keys()
    far = [m for m in moved if max(abs(m[1][0] - m[2][0]), abs(m[1][1] - m[2][1])) > SHORT]
    return FaceChanges(frozenset(proposed), tuple(seen), tuple(hangings), tuple(far))


def _seen(shown: Shown) -> dict[str, Seen]:
    face = shown.face
    return {s.path: s for s in (*face.openings, *face.fittings, *face.pieces, *face.art)}


def _box(seen: Seen) -> tuple[int, ...]:
    return tuple(round(v / SAME) for v in (seen.left, seen.right, seen.bottom, seen.top))


def _size(seen: Seen) -> tuple[int, int]:
    return round((seen.right - seen.left) / SAME), round((seen.top - seen.bottom) / SAME)


def _middle(seen: Seen) -> XY:
    return (seen.left + seen.right) / 2, (seen.bottom + seen.top) / 2


def _cloth(hanging: Hanging) -> tuple[int, ...]:
    parts = [
        *hanging.rod,
        hanging.height,
        hanging.top,
        *(v for panel in hanging.panels(shut=True) for v in panel),
    ]
    return tuple(round(v / SAME) for v in parts)


def draw_moves(
    board: Board,
    found: FaceChanges,
    units: Units,
    blocks: Sequence[BaseGeometry],
    edges: Sequence[BaseGeometry],
) -> Arrows:
    """Draw one arrow from where each thing was to where it is proposed, the distance on it."""
    done = Arrows()
    for thing, a, b in found.moved:
        layer = furniture_layer("proposed")
        if isinstance(thing, Hanging):
            layer = cloth_layer("proposed")
        elif isinstance(thing.thing, HungArt):
            layer = art_layer("proposed")
        distance = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
        with board.group(layer, thing.path):
            draw_arrow(board, done, a, b, format_length(distance, units), blocks, edges)
    return done
