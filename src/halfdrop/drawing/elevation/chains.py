"""Dimensions of an elevation: heights at the left from the finished floor, along the bottom from the left corner."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from shapely.geometry.base import BaseGeometry

from halfdrop.base.formats import Units
from halfdrop.drawing.board import Frame
from halfdrop.drawing.dimensions import FIRST, FOOT, STEP, TOLD, Lettering, draw_chain
from halfdrop.drawing.elevation.shown import Shown
from halfdrop.drawing.svg import OVERRUN
from halfdrop.drawing.verbs import Begin, Dimension, End
from halfdrop.drawing.walls import THICK
from halfdrop.room.face import Seen

#: Most feet of one chain: past that the less wanted are left to the sheets of each trade.
MOST = 11
#: Room for the corners' letters under the floor [mm].
LETTERS = 3.5
#: Cloth that stops farther than this off the floor has its own foot [m].
OFF = 0.012


def heights(shown: Shown, *, detail: bool = True) -> list[list[float]]:
    """Return the upright chains at the left, the nearest first: broken at what hangs and opens, then rods, then the ceiling [m].

    Heights are told above the floor under each thing, as they are taped and set out; a ceiling that was not taped anywhere is
    not dimensioned.
    """
    face = shown.face
    top = face.ceiling(0.0)
    whole = [[0.0, top]] if face.ceiling_taped else []
    if not detail:
        return whole
    wanted: list[float] = [0.0, top] if face.ceiling_taped else [0.0]

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
    works = [over(s, v) for s in face.art for v in (s.bottom, s.top)]
    for value in [*rods, *hems, *heads, *sills, *works]:
        if len(wanted) < MOST and 0.0 < value < top:
            wanted.append(value)
    chain = _merged(wanted)
    found = [chain] if len(chain) > 2 else []
    for rod in sorted({round(r, 4) for r in rods}):
        if top - rod > FOOT and len(found) < 3 and [0.0, rod] not in found and not _told(chain, rod):
            found.append([0.0, rod])
    return [*found, *whole]


def _told(chain: Sequence[float], value: float) -> bool:
    """Return whether a chain gives a height from the floor in one piece."""
    return len(chain) > 1 and abs(chain[1] - value) < TOLD


def across(shown: Shown, *, detail: bool = True) -> list[list[float]]:
    """Return the level chains along the bottom, the nearest first: openings, then rods and works, then walls, then the whole [m]."""
    face = shown.face
    whole = [0.0, face.width]
    if not detail:
        return [whole]
    found: list[list[float]] = []
    for edges in (
        [v for s in face.openings for v in (s.left, s.right)],
        [
            *(v for h in shown.hangings if h.hung.treatment.mount != "inside" for v in h.rod),
            *(v for s in face.art for v in (s.left, s.right)),
        ],
        [s.left for s in face.stretches],
    ):
        chain = _merged([*whole, *(v for v in edges if -FOOT < v < face.width + FOOT)][: 2 * MOST])
        if len(chain) > 2 and chain not in found:
            found.append(chain)
    return [*found, whole]


def _merged(values: Iterable[float]) -> list[float]:
    """Return values in order, those nearer than `FOOT` as one; the first and the last stay."""
    ordered = sorted(values)
    out = [ordered[0]]
    for value in ordered[1:]:
        if value - out[-1] > FOOT:
            out.append(value)
    out[-1] = ordered[-1] if ordered[-1] - out[-1] <= FOOT else out[-1]
    return out


def reach(shown: Shown, *, detail: bool = True) -> dict[str, float]:
    """Return how far dimensions stand off on each side [mm]."""

    def out(count: int) -> float:
        return FIRST + STEP * (count - 1) + OVERRUN + 0.5 if count else 3.0

    return {
        "west": out(len(heights(shown, detail=detail))),
        "south": out(len(across(shown, detail=detail))) + LETTERS,
        "north": 3.0,
        "east": out(1) if slopes(shown) else 3.0,
    }


def slopes(shown: Shown) -> bool:
    """Return whether the ceiling's height at the right end differs from that at the left."""
    face = shown.face
    right = face.ceiling(face.width) - face.floor(face.width)
    return abs(right - face.ceiling(0.0)) > TOLD


def draw_chains(
    frame: Frame, shown: Shown, units: Units, blocks: Sequence[BaseGeometry], *, detail: bool = True
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
    """
    face = shown.face
    done = Lettering([Begin("A-ANNO-DIMS", f"{face.room.path}/survey/walls/{face.stretches[0].wall.name}")])
    taped = [float(h) for h in face.room.model.survey.heights.values()]
    uneven = bool(taped) and max(taped) - min(taped) > TOLD
    for level, ys in enumerate(heights(shown, detail=detail)):
        line = -THICK - (FIRST + STEP * level) / frame.scale
        draw_chain(done, frame, [(0.0, y) for y in ys], line, 1, units, -THICK, blocks)
        if ys == [0.0, face.ceiling(0.0)] and uneven and face.stretches[0].left_corner in face.untaped:
            _about(done)
    for level, xs in enumerate(across(shown, detail=detail)):
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


def _about(done: Lettering) -> None:
    """Mark the value drawn last as one that was not taped there: the mean of the room's heights."""
    last = done.verbs[-1]
    assert isinstance(last, Dimension)
    done.verbs[-1] = replace(last, text=f"≈ {last.text}")
