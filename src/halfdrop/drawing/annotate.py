"""What is written round a drawing: notes first, then dimensions, then names; each stays off what stands
already.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Frame
from halfdrop.drawing.changes import mark_disk
from halfdrop.drawing.dimensions import Lettering, draw_dimensions
from halfdrop.drawing.labels import draw_labels, place_labels, thread
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import (
    GAP,
    INDENT,
    RING,
    SECOND,
    Column,
    Margin,
    Note,
    line_height,
    place_notes,
)
from halfdrop.drawing.scene import Scene
from halfdrop.drawing.sheet import Parts, heading
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Begin, End, Text, Verb
from halfdrop.room import ResolvedRoom


@dataclass(frozen=True)
class Annotated:
    """Dimensions and names as verbs, the margin's notes, and the key."""

    verbs: tuple[Verb, ...]
    margin: Margin
    key: tuple[tuple[int, str], ...]


def annotate(
    scene: Scene,
    room: ResolvedRoom,
    notes: Sequence[Note],
    frame: Frame,
    parts: Parts,
    units: Units,
    *,
    detail: bool = True,
    first: int | None = None,
) -> Annotated:
    """Place notes, dimensions and names.

    A name that finds no place becomes a number; the notes then make way for the key under them.

    Parameters
    ----------
    scene : Scene
        The drawn room.
    room : ResolvedRoom
    notes : sequence of Note
    frame : Frame
        Plan to paper.
    parts : Parts
        Of the paper.
    units : {"imperial", "metric"}
    detail : bool
        False dimensions the whole lengths alone.
    first : int, optional
        First number of the key; by default the one after the notes'.
    """

    def dimensions(blocks: Sequence[BaseGeometry]) -> Lettering:
        return draw_dimensions(frame, room, units, blocks=blocks, detail=detail)

    return annotate_with(scene, notes, frame, parts, dimensions, first=first)


def annotate_with(
    scene: Scene,
    notes: Sequence[Note],
    frame: Frame,
    parts: Parts,
    dimensions: Callable[[Sequence[BaseGeometry]], Lettering],
    *,
    first: int | None = None,
) -> Annotated:
    """Place notes, then the dimensions that `dimensions` draws clear of them, then names; see `annotate`."""
    anchors = [frame(*note.anchor) for note in notes]
    if first is None:
        first = max((note.number for note in notes), default=0) + 1
    assert scene.floor is not None
    keyed = 0
    for _ in range(4):
        column = replace(parts.margin, height=parts.margin.height - key_height(keyed))
        margin = place_notes(notes, anchors, column, leaders=not parts.narrow)
        stood = mark_shapes(margin)
        sizes = dimensions(stood)
        lettered = place_labels(scene.labels, scene.floor, [*scene.blocks, *stood, *sizes.boxes], scene.edges)
        if len(lettered.keyed) <= keyed:
            break
        keyed = len(lettered.keyed)
    verbs, key = draw_labels(lettered, first)
    return Annotated((*sizes.verbs, *verbs), margin, tuple(key))


def mark_shapes(margin: Margin) -> list[BaseGeometry]:
    """Return marks and leaders as shapes that lettering stays off [mm]."""
    shapes: list[BaseGeometry] = [
        mark_disk(spot, RING + (SECOND if note.grade == "hazard" else 0.0) + 0.5)
        for note, spot in margin.marks
    ]
    for placed in margin.placed:
        shapes += [thread(pair, 0.5) for pair in pairwise(placed.leader)]
    return shapes


def key_height(count: int) -> float:
    """Return the height of a key of so many lines [mm]."""
    return 0.0 if not count else (count + 1) * line_height() + 2 * GAP


def draw_key(key: Sequence[tuple[int, str]], column: Column) -> list[Verb]:
    """Return the key at the foot of the margin: number and name of each thing that could not be lettered in
    place.
    """
    if not key:
        return []
    size, high = tokens().sizes["small"], line_height()
    top = column.top + column.height - key_height(len(key)) + GAP
    out: list[Verb] = [Begin("A-ANNO-TEXT"), *heading("Key", (column.left, top + high * 0.8), "small")]
    for k, (number, name) in enumerate(key):
        base = top + high * (k + 1.8)
        out.append(Text((column.left + INDENT - 2.2, base), str(number), size, "medium", "graphite", "end"))
        shown = name
        while text_width(shown, size) > column.width - INDENT and len(shown) > 1:
            shown = shown[:-2].rstrip() + "…"
        out.append(Text((column.left + INDENT, base), shown, size, "lettering", "ink"))
    return [*out, End()]
