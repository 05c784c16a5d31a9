"""Margin notes: what they are, how they stand in the margin, and their number marks on the drawing."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from halfdrop.drawing.leaders import Item, arrange
from halfdrop.drawing.metrics import cap_height, text_width, wrap
from halfdrop.drawing.tokens import Dash, Ink, tokens
from halfdrop.drawing.verbs import XY, Arc, Begin, End, Line, Text, Verb

Grade = Literal["hazard", "fault", "taste", "plain"]
_RANK = {"hazard": 0, "fault": 1, "taste": 2, "plain": 3}

#: Radius of a mark's inner ring, distance of the outer one, and space between two notes [mm].
RING = 2.35
SECOND = 0.75
GAP = 2.8
#: Room at the left of a note for its number [mm].
INDENT = 8.0


@dataclass(frozen=True)
class Note:
    """A note on a sheet, whoever wrote it.

    Attributes
    ----------
    number : int
        As it stands in its ring.
    grade : {"hazard", "fault", "taste", "plain"}
        Shown by ring and first word, never by hue alone.
    text : str
        One designer to another.
    anchor : tuple
        Where on the plan [m].
    within_tape : bool
        The tape's error could undo it: the ring is dashed.
    path : str
        What it is about, in the job document.
    """

    number: int
    grade: Grade
    text: str
    anchor: XY
    within_tape: bool = False
    path: str = ""


@dataclass(frozen=True)
class Column:
    """A column of the margin on the paper [mm]."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True)
class PlacedNote:
    """A note in the margin: its lines, its top, and its leader from the note to its mark (empty where it
    has none).
    """

    note: Note
    lines: tuple[str, ...]
    top: float
    mark: XY
    leader: tuple[XY, ...]


@dataclass(frozen=True)
class Margin:
    """The notes of one sheet: those that stand in the column, and those that go on elsewhere."""

    column: Column
    placed: tuple[PlacedNote, ...]
    left: tuple[Note, ...]
    marks: tuple[tuple[Note, XY], ...]


def line_height() -> float:
    """Return the height of a line of a note [mm]."""
    look = tokens()
    return look.sizes["small"] * look.line


def note_lines(note: Note, width: float) -> tuple[str, ...]:
    """Return a note's text broken to a column's width [mm]; a hazard says so first."""
    text = re.sub(r"(?<=[A-Za-z])'", "’", note.text.strip())
    if note.grade == "hazard" and not text.lower().startswith("hazard"):
        text = f"Hazard. {text}"
    return tuple(wrap(text, width - INDENT, tokens().sizes["small"], "prose"))


def notes_height(notes: Sequence[Note], width: float) -> float:
    """Return the height of notes one under another in a column [mm], with a line to spare."""
    if not notes:
        return 0.0
    return sum(len(note_lines(n, width)) * line_height() + GAP for n in notes) + line_height()


def spread_marks(anchors: Sequence[XY]) -> list[XY]:
    """Return where the number marks stand: on their anchors, moved apart where two would touch [mm].

    Each mark keeps its place or takes the nearest free one on a small fixed spiral, in the order given.
    """
    apart = 2 * (RING + SECOND) + 0.4
    steps = [(0.0, 0.0)]
    for ring in range(1, 8):
        d = ring * apart * 0.75
        s = 0.70710678 * d
        # above and below first: beside it a leader, which leaves to the right, would run through the mark
        steps += [(0, d), (0, -d), (-s, s), (s, -s), (s, s), (-s, -s), (-d, 0), (d, 0)]
    taken: list[XY] = []
    for x, y in anchors:
        free = ((x + dx, y + dy) for dx, dy in steps)
        spot = next((p for p in free if all(_far(p, t, apart) for t in taken)), (x, y))
        taken.append(spot)
    return taken


def _far(p: XY, q: XY, d: float) -> bool:
    return (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 >= d * d


def place_notes(
    notes: Sequence[Note], anchors: Sequence[XY], column: Column, *, leaders: bool = True
) -> Margin:
    """Stand notes in the margin, in the order that lets their leaders run without crossing.

    Parameters
    ----------
    notes : sequence of Note
        Any number; where they do not all fit, the graver ones stay and the rest go on elsewhere.
    anchors : sequence of (x, y)
        Where each is anchored on the paper [mm].
    column : Column
        Where they stand.
    leaders : bool
        False for a margin below the drawing (a phone): the numbers alone join note and mark.
    """
    spots = spread_marks(anchors)
    high = line_height()
    broken = [note_lines(note, column.width) for note in notes]
    heights = [len(lines) * high + GAP for lines in broken]
    kept: list[int] = []
    room = column.height - high
    for i in sorted(range(len(notes)), key=lambda i: (_RANK[notes[i].grade], notes[i].number)):
        if heights[i] > room + 1e-6:
            break
        room -= heights[i]
        kept.append(i)
    if not leaders:
        return _listed(notes, broken, heights, kept, spots, column)
    items = [Item(spots[i], heights[i], high / 2) for i in sorted(kept)]
    order = sorted(kept)
    shelf = arrange(
        items, column.left, column.top, column.top + column.height - (0 if len(kept) == len(notes) else high)
    )
    placed = [
        PlacedNote(
            notes[i],
            broken[i],
            stand.top,
            spots[i],
            _to_mark(stand.leader, notes[i]),
        )
        for i, stand in zip(order, shelf, strict=True)
    ]
    placed.sort(key=lambda p: p.top)
    left = tuple(notes[i] for i in range(len(notes)) if i not in kept)
    return Margin(column, tuple(placed), left, tuple(zip(notes, spots, strict=True)))


def _listed(
    notes: Sequence[Note],
    broken: Sequence[tuple[str, ...]],
    heights: Sequence[float],
    kept: Sequence[int],
    spots: Sequence[XY],
    column: Column,
) -> Margin:
    """Stand notes one under another by number: below a drawing no leader asks for another order."""
    placed: list[PlacedNote] = []
    y = column.top
    for i in sorted(kept, key=lambda i: notes[i].number):
        placed.append(PlacedNote(notes[i], broken[i], y, spots[i], ()))
        y += heights[i]
    left = tuple(notes[i] for i in range(len(notes)) if i not in kept)
    return Margin(column, tuple(placed), left, tuple(zip(notes, spots, strict=True)))


def _to_mark(leader: tuple[XY, ...], note: Note) -> tuple[XY, ...]:
    """Shorten a leader so that it ends at its mark's ring."""
    if len(leader) < 2:
        return ()
    (x0, y0), (x1, y1) = leader[-2], leader[-1]
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    reach = RING + (SECOND if note.grade == "hazard" else 0.0) + 0.2
    if length <= reach:
        # the bend lies under the ring: stop the horizontal part short of it instead
        if len(leader) == 3:
            (xs, ys), (xb, _) = leader[0], leader[1]
            dy = abs(y1 - ys)
            half = (max(reach * reach - dy * dy, 0.0)) ** 0.5
            return ((xs, ys), (xb + half, ys)) if xs > xb + half else ()
        return ()
    part = (length - reach) / length
    return (*leader[:-1], (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part))


def draw_mark(note: Note, at: XY, ink: Ink = "pencil", *, solid: bool = True) -> list[Verb]:
    """Return a note's number in its ring: double for a hazard, single for a fault, underlined for taste."""
    x, y = at
    size = tokens().sizes["small"]
    text = str(note.number)
    dash: Dash | None = "fine" if note.within_tape else None
    verbs: list[Verb] = []
    outer = RING + (SECOND if note.grade == "hazard" else 0.0)
    if solid:
        verbs.append(Arc(at, outer, outer, pen=None, fill="paper"))
    if note.grade == "hazard":
        verbs.append(Arc(at, outer, outer, pen="hair", ink=ink, dash=dash))
    if note.grade in ("hazard", "fault"):
        verbs.append(Arc(at, RING, RING, pen="thin", ink=ink, dash=dash))
    base = y + cap_height(size, "strong") / 2
    verbs.append(Text((x, base), text, size, "strong", ink, "middle"))
    if note.grade == "taste":
        half = text_width(text, size, "strong") / 2 + 0.4
        verbs.append(Line(((x - half, base + 0.75), (x + half, base + 0.75)), "thin", ink, dash))
    return verbs


def draw_notes(margin: Margin, onward: str = "") -> list[Verb]:
    """Return the margin: leaders, notes and marks; `onward` says where notes that did not fit are."""
    look = tokens()
    size, high = look.sizes["small"], line_height()
    verbs: list[Verb] = [Begin("G-ANNO-NOTE")]
    verbs += [Line(p.leader, "hair", "pencil") for p in margin.placed if p.leader]
    for p in margin.placed:
        verbs.append(Begin("G-ANNO-NOTE", p.note.path))
        verbs += draw_mark(p.note, (margin.column.left + RING + SECOND, p.top + high / 2), solid=False)
        for k, line in enumerate(p.lines):
            base = p.top + high * k + (high + cap_height(size, "prose")) / 2
            x = margin.column.left + INDENT
            if k == 0 and p.note.grade == "hazard":
                word, _, rest = line.partition(" ")
                verbs.append(Text((x, base), word, size, "prose-strong", "ink"))
                x += text_width(word + " ", size, "prose-strong")
                line = rest
            verbs.append(Text((x, base), line, size, "prose", "ink"))
        verbs.append(End())
    for note, spot in margin.marks:
        verbs += [Begin("G-ANNO-NOTE", note.path), *draw_mark(note, spot), End()]
    if margin.left:
        names = ", ".join(str(n.number) for n in margin.left)
        base = margin.column.top + margin.column.height - 0.5
        text = f"Note{'s' if len(margin.left) > 1 else ''} {names}: {onward or 'next sheet'}"
        for k, line in enumerate(reversed(wrap(text, margin.column.width, size, "slanted"))):
            verbs.append(Text((margin.column.left, base - k * high), line, size, "slanted", "graphite"))
    return [*verbs, End()]
