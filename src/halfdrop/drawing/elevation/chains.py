"""Dimensions of an elevation: heights at the left from the finished floor, along the bottom from the left corner."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units
from halfdrop.base.tolerance import SAME
from halfdrop.drawing.board import Frame
from halfdrop.drawing.dimensions import FIRST, FOOT, STEP, TOLD, Lettering, draw_chain, print_length
from halfdrop.drawing.elevation.shown import Shown
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.svg import OVERRUN
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Begin, Dimension, End
from halfdrop.drawing.walls import THICK
from halfdrop.room.face import Seen
from halfdrop.room.things import HungArt

#: Most feet of one chain that groups share, and most chains beside those of rods, walls and the whole.
MOST, ROWS = 11, 4
#: Two feet of different groups on one chain stand at least so far apart [m]; a fitting no wider than a plate is not dimensioned [m].
ROOM, PLATE = 0.3, 0.16
#: Room for the corners' letters under the floor [mm].
LETTERS = 3.5
#: Cloth that stops farther than this off the floor has its own foot [m].
OFF = 0.012


def heights(shown: Shown, *, detail: bool = True, noted: Collection[str] = ()) -> list[list[float]]:
    """Return the upright chains at the left, the nearest first: what hangs and opens; fittings, works, noted pieces; rods; the ceiling [m].

    Heights are told above the floor under each thing, as they are taped and set out; a ceiling that was not taped anywhere is
    not dimensioned. `noted`: paths of what a finding is about.
    """
    face = shown.face
    top = face.ceiling(0.0)
    whole = [[0.0, top]] if face.ceiling_taped else []
    if not detail:
        return whole
    ends = [0.0, top] if face.ceiling_taped else [0.0]

    def over(seen: Seen, y: float) -> float:
        return y - face.floor((seen.left + seen.right) / 2)

    outside = [h for h in shown.hangings if h.hung.treatment.mount != "inside"]
    rods = [h.height - h.dy for h in outside]
    hems = [
        hem - h.dy
        for h in shown.hangings
        for p in h.panels(shut=True)
        for hem in p[2:]
        if hem > OFF + face.floor(p[0])
    ]
    sills = [over(s, s.bottom) for s in face.openings if over(s, s.bottom) > 0.05]
    heads = [over(s, s.top) for s in face.openings]
    works = [v for s, low, high in _works(shown) for v in (over(s, low[1]), over(s, high[1]))]
    fittings = [over(s, v) for s in _fittings(shown) for v in (s.bottom, s.top)]
    pieces = [over(s, s.top) for s in _noted(shown, noted)]
    groups = [[*rods, *hems, *heads, *sills], works, [*fittings, *pieces]]
    found = _rows(ends, [[v for v in group if 0.0 < v < top] for group in groups])
    told = [row for row in found if len(row) > 1]
    for rod in sorted({round(r, 4) for r in rods}):
        if (
            top - rod > FOOT
            and len(found) < 3
            and [0.0, rod] not in found
            and not any(_told(row, rod) for row in told)
        ):
            found.append([0.0, rod])
    return [*found, *whole]


def _told(chain: Sequence[float], value: float) -> bool:
    """Return whether a chain gives a height from the floor in one piece."""
    return len(chain) > 1 and abs(chain[1] - value) < TOLD


def across(shown: Shown, *, detail: bool = True, noted: Collection[str] = ()) -> list[list[float]]:
    """Return the level chains along the bottom, the nearest first: openings; fittings; works; rods; walls; the whole [m].

    All begin at the left corner. Pieces are told only where a finding is about them: `noted`, by their paths.
    """
    face = shown.face
    whole = [0.0, face.width]
    if not detail:
        return [whole]
    groups = [
        [v for s in face.openings for v in (s.left, s.right)],
        [v for s in _fittings(shown) for v in (s.left, s.right)],
        [v for _, low, high in _works(shown) for v in (low[0], high[0])],
        [v for h in shown.hangings if h.hung.treatment.mount != "inside" for v in h.rod],
        [v for s in _noted(shown, noted) for v in (s.left, s.right)],
    ]
    found = _rows(whole, [[v for v in group if -FOOT < v < face.width + FOOT] for group in groups])
    corners = _merged([*whole, *(s.left for s in face.stretches)])
    if len(corners) > 2 and corners not in found:
        found.append(corners)
    return [*found, whole]


def _fittings(shown: Shown) -> list[Seen]:
    """Return the fittings that are dimensioned: plates of switches and outlets stay where they are, and are left to the tape."""
    return [s for s in shown.face.fittings if s.right - s.left > PLATE]


def _noted(shown: Shown, noted: Collection[str]) -> list[Seen]:
    """Return the pieces that a finding is about and that stand at the wall."""
    return [s for s in shown.face.pieces if s.path in noted]


def _works(shown: Shown) -> list[tuple[Seen, tuple[float, float], tuple[float, float]]]:
    """Return a work, and the lower left and the upper right of it; of works that hang as a group, those of the group.

    Each frame of a group is set out on its own hanging sheet.
    """
    groups: dict[str, list[Seen]] = {}
    for seen in shown.face.art:
        assert isinstance(seen.thing, HungArt)
        groups.setdefault(seen.thing.model.group or seen.path, []).append(seen)
    return [
        (
            of[0],
            (min(s.left for s in of), min(s.bottom for s in of)),
            (max(s.right for s in of), max(s.top for s in of)),
        )
        for of in groups.values()
    ]


def _rows(ends: Sequence[float], groups: Iterable[Sequence[float]]) -> list[list[float]]:
    """Return chains from end to end: a group shares a row where its values have room there, else it has its own; `ROWS` at most."""
    rows: list[list[float]] = []
    for group in groups:
        if not group:
            continue
        own = _merged([*ends, *group])
        if len(own) <= len(ends) or own in rows:
            continue
        for k, row in enumerate(rows):
            apart = all(abs(v - foot) > ROOM or abs(v - foot) < SAME for v in own for foot in row)
            both = _merged([*row, *own])
            if apart and len(both) <= MOST:
                rows[k] = both
                break
        else:
            if len(rows) < ROWS:
                rows.append(own)
    return rows


def _merged(values: Iterable[float]) -> list[float]:
    """Return values in order, those nearer than `FOOT` as one; the first and the last stay."""
    ordered = sorted(values)
    out = [ordered[0]]
    for value in ordered[1:]:
        if value - out[-1] > FOOT:
            out.append(value)
    out[-1] = ordered[-1] if ordered[-1] - out[-1] <= FOOT else out[-1]
    return out


def reach(shown: Shown, *, detail: bool = True, noted: Collection[str] = ()) -> dict[str, float]:
    """Return how far dimensions stand off on each side [mm]."""

    def out(count: int) -> float:
        return FIRST + STEP * (count - 1) + OVERRUN + 0.5 if count else 3.0

    return {
        "west": out(len(heights(shown, detail=detail, noted=noted))),
        "south": out(len(across(shown, detail=detail, noted=noted))) + LETTERS,
        "north": 3.0,
        "east": out(1) if slopes(shown) else 3.0,
    }


def slopes(shown: Shown) -> bool:
    """Return whether the ceiling's height at the right end differs from that at the left."""
    face = shown.face
    right = face.ceiling(face.width) - face.floor(face.width)
    return abs(right - face.ceiling(0.0)) > TOLD


def draw_chains(
    frame: Frame,
    shown: Shown,
    units: Units,
    blocks: Sequence[BaseGeometry],
    *,
    detail: bool = True,
    noted: Collection[str] = (),
) -> Lettering:
    """Draw every chain of an elevation.

    Parameters
    ----------
    frame : Frame
        Elevation to paper.
    shown : Shown
    units : {"imperial", "metric"}
    blocks : sequence of BaseGeometry
        Leaders and marks, which values stay off [mm].
    detail : bool
        False draws the whole lengths alone.
    noted : collection of str
        Paths of the pieces that a finding is about.
    """
    face = shown.face
    done = Lettering([Begin("A-ANNO-DIMS", f"{face.room.path}/survey/walls/{face.stretches[0].wall.name}")])
    taped = [float(h) for h in face.room.model.survey.heights.values()]
    uneven = bool(taped) and max(taped) - min(taped) > TOLD
    for level, wanted in enumerate(heights(shown, detail=detail, noted=noted)):
        ys = _thinned(wanted, frame.scale, units)
        line = -THICK - (FIRST + STEP * level) / frame.scale
        draw_chain(done, frame, [(0.0, y) for y in ys], line, 1, units, -THICK, blocks)
        if ys == [0.0, face.ceiling(0.0)] and uneven and face.stretches[0].left_corner in face.untaped:
            _about(done)
    for level, wanted in enumerate(across(shown, detail=detail, noted=noted)):
        xs = _thinned(wanted, frame.scale, units)
        line = face.bottom - (LETTERS + FIRST + STEP * level) / frame.scale
        feet = [(x, face.bottom) for x in xs]
        draw_chain(done, frame, feet, line, 0, units, -LETTERS / frame.scale, blocks)
    if slopes(shown):
        x = face.width
        ends = [(x, face.floor(x)), (x, face.ceiling(x))]
        draw_chain(done, frame, ends, x + THICK + FIRST / frame.scale, 1, units, THICK, blocks)
        if face.stretches[-1].right_corner in face.untaped:
            _about(done)
    done.verbs.append(End())
    return done


def _thinned(chain: Sequence[float], scale: float, units: Units) -> list[float]:
    """Return a chain whose values can be read: of three narrow spans in a row, which no value fits, one foot between gives way."""
    out, size = list(chain), tokens().sizes["small"]

    def narrow(k: int) -> bool:
        span = out[k + 1] - out[k]
        return span * scale < text_width(print_length(span, units), size) + 1.6

    while True:
        runs = [k for k in range(len(out) - 3) if narrow(k) and narrow(k + 1) and narrow(k + 2)]
        inner = sorted({k + step for k in runs for step in (1, 2)}, key=lambda k: out[k + 1] - out[k - 1])
        if not inner:
            return out
        del out[inner[0]]


def _about(done: Lettering) -> None:
    """Mark the value drawn last as one that was not taped there: the mean of the room's heights."""
    last = done.verbs[-1]
    assert isinstance(last, Dimension)
    done.verbs[-1] = replace(last, text=f"≈ {last.text}")
