"""A bolt of cloth to scale: every cut in its place, the pattern's ticks along the selvages, what is left over.

The bolt unrolls to the right. It is drawn in rows, one under the other; a row ends between two cuts, never in one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.formats import Units
from halfdrop.drawing.figure import Figure, lettered
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.paper import Scale, largest_scale
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Area, Begin, End, Line, Text, Verb

#: Widest cloth on the page, highest figure, air over a row for its places and between rows [mm].
WIDEST = 34.0
HIGHEST = 152.0
OVER = 5.6
BETWEEN = 4.0
#: Length of the pattern's ticks at a motif line, and halfway between two of half-drop cloth [mm].
TICK = 2.2
HALF_TICK = 1.1


@dataclass(frozen=True)
class DrawnCut:
    """One cut as it is drawn.

    Attributes
    ----------
    number : int
        In the order it comes off the bolt; the cutting list goes by it.
    path : str
        The thing in the document.
    lines : tuple of str
        What stands in it, the most needed first.
    start, end : float
        From the bolt's beginning [m].
    place : str
        `start` as printed.
    pieces : tuple of (float, float)
        What of the cloth's width its pieces take, from the near selvage [m].
    motif : float or None
        From the bolt's beginning to the motif line it was laid by [m].
    """

    number: int
    path: str
    lines: tuple[str, ...]
    start: float
    end: float
    place: str
    pieces: tuple[tuple[float, float], ...]
    motif: float | None = None


@dataclass(frozen=True)
class DrawnBolt:
    """One bolt as it is drawn.

    Attributes
    ----------
    name, path : str
        What it is called; its cloth in the document.
    width : float
        Usable [m].
    paid : float
        What is bought of it [m].
    paid_text : str
        The same as printed.
    cuts : tuple of DrawnCut
        In their order.
    repeat, motif : float
        Of the pattern; from the bolt's beginning to the first motif line [m]. A repeat of 0 is plain cloth.
    half_drop : bool
        Whether every second width lies half a repeat further.
    """

    name: str
    path: str
    width: float
    paid: float
    paid_text: str
    cuts: tuple[DrawnCut, ...]
    repeat: float = 0.0
    motif: float = 0.0
    half_drop: bool = False


@dataclass(frozen=True)
class _Row:
    start: float
    end: float
    cuts: tuple[DrawnCut, ...]


def bolt_figures(
    bolt: DrawnBolt, units: Units, *, wide: float = 172.0, highest: float = HIGHEST
) -> tuple[Figure, ...]:
    """Return a bolt drawn to the largest standard scale; as many figures as its rows want.

    Parameters
    ----------
    bolt : DrawnBolt
    units : {"imperial", "metric"}
        Whose scales.
    wide, highest : float
        Of a figure [mm].

    Raises
    ------
    InputError
        Where a cut is too long for the page at the smallest scale.
    """
    longest = max([cut.end - cut.start for cut in bolt.cuts], default=min(bolt.paid, 1.0))
    scale = largest_scale((longest, bolt.width), (wide, WIDEST), units)
    told = _rows(bolt, wide / 1000 / scale.ratio)
    rows = max(1, int(highest / (bolt.width * 1000 * scale.ratio + OVER + BETWEEN)))
    parts = [told[i : i + rows] for i in range(0, len(told), rows)]
    return tuple(
        _figure(bolt, part, scale, wide, f"{n} of {len(parts)}" if len(parts) > 1 else "")
        for n, part in enumerate(parts, 1)
    )


def _rows(bolt: DrawnBolt, most: float) -> list[_Row]:
    """Break a bolt between cuts into rows no longer than `most` [m]."""
    rows: list[_Row] = []
    start, held = 0.0, list[DrawnCut]()
    for cut in bolt.cuts:
        if held and cut.end - start > most + 1e-9:
            rows.append(_Row(start, max(held[-1].end, min(cut.start, start + most)), tuple(held)))
            start, held = rows[-1].end, []
        if cut.end - start > most + 1e-9:  # the empty cloth before it alone is too much: it begins its row
            if cut.start - start > 1e-9:
                rows.append(_Row(start, min(cut.start, start + most), ()))
            start = cut.start
        held.append(cut)
    end = max(bolt.paid, held[-1].end if held else 0.0)
    while end - start > most + 1e-9:
        last = held[-1].end if held else start + most
        rows.append(_Row(start, max(last, start + most) if not held else last, tuple(held)))
        start, held = rows[-1].end, []
    if end - start > 1e-6 or held:
        rows.append(_Row(start, end, tuple(held)))
    return rows


def _figure(bolt: DrawnBolt, rows: Sequence[_Row], scale: Scale, wide: float, part: str) -> Figure:
    mm = 1000 * scale.ratio
    high = bolt.width * mm
    verbs: list[Verb] = []
    top = 0.0
    for row in rows:
        top += OVER
        verbs += _row(bolt, row, top, high, mm)
        top += high + BETWEEN
    name = f"{bolt.name}, {part}" if part else bolt.name
    return Figure(name, wide, top - BETWEEN + 1.0, tuple(verbs), scale)


def _row(bolt: DrawnBolt, row: _Row, top: float, high: float, mm: float) -> list[Verb]:
    """Return one row: the cloth left over in wash, the cuts on it, ticks and places."""
    long = (row.end - row.start) * mm
    out: list[Verb] = [Begin("I-CLTH-BOLT", bolt.path)]
    out.append(Area((((0.0, top), (long, top), (long, top + high), (0.0, top + high)),), "wash"))
    for cut in row.cuts:
        out += _cut(bolt, cut, row.start, top, high, mm)
    out += _ticks(bolt, row, top, high, mm)
    for y in (top, top + high):
        out.append(Line(((0.0, y), (long, y)), "medium"))
    out.append(Line(((0.0, top), (0.0, top + high)), "medium" if row.start == 0 else "thin"))
    if abs(row.end - bolt.paid) < 1e-6:
        small = tokens().sizes["small"]
        out.append(Line(((long, top - 2.0), (long, top + high)), "wide"))
        out.append(Text((long - 0.9, top - 1.4), bolt.paid_text, small, "medium", "ink", "end"))
    return [*out, End()]


def _cut(bolt: DrawnBolt, cut: DrawnCut, start: float, top: float, high: float, mm: float) -> list[Verb]:
    look = tokens().sizes
    a, b = (cut.start - start) * mm, (cut.end - start) * mm
    out: list[Verb] = [Begin("I-CLTH-CUTS", cut.path)]
    for low, up in cut.pieces:
        y0, y1 = top + low / bolt.width * high, top + up / bolt.width * high
        out.append(Area((((a, y0), (b, y0), (b, y1), (a, y1)),), "paper", "thin"))
    near = a
    if cut.motif is not None and bolt.repeat:
        x = (cut.motif - start) * mm
        if a - 1e-6 <= x <= b + 1e-6:
            out.append(Line(((x, top), (x, top + high)), "hair", "slate", "fine"))
            near = x if x - a < 0.4 * (b - a) else a
    number = str(cut.number)
    big = look["lead"] if b - near > 9 and high > 9 else look["small"]
    if b - near > text_width(number, look["small"], "strong") + 0.8:
        out.append(Text((near + 1.2, top + TICK + 1.4 + big * 0.72), number, big, "strong"))
    room = b - near - 2.6
    if room > 8:
        free = (cut.pieces[0][1] / bolt.width) * high if cut.pieces else high
        under = TICK + 2.8 + big * 0.8
        less = TICK if len(cut.pieces) < 2 else 0.4
        out += lettered(cut.lines, (near + 1.3, top + under), room, free - under - less)
    small = look["small"]
    last = text_width(bolt.paid_text, small, "medium") + 2.5 if abs(cut.end - bolt.paid) < 0.2 else 0.0
    if b - a > text_width(cut.place, small) + 1.5 + last:
        out.append(Text((a, top - 1.4), cut.place, small, "lettering", "graphite"))
    return [*out, End()]


def _ticks(bolt: DrawnBolt, row: _Row, top: float, high: float, mm: float) -> list[Verb]:
    """Return ticks at the motif lines along both selvages, shorter ones half a repeat further on half-drop cloth."""
    if not bolt.repeat:
        return []
    out: list[Verb] = []
    step = bolt.repeat / 2 if bolt.half_drop else bolt.repeat
    first = math.ceil((row.start - bolt.motif) / step - 1e-9)
    last = math.floor((row.end - bolt.motif) / step + 1e-9)
    for k in range(first, last + 1):
        x = (bolt.motif + k * step - row.start) * mm
        long = HALF_TICK if bolt.half_drop and k % 2 else TICK
        for y, way in ((top, 1), (top + high, -1)):
            out.append(Line(((x, y), (x, y + way * long)), "medium", "slate"))
    return out
