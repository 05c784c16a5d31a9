"""The area of walls to cover: each wall's length by its mean height, each opening taken off as it was taped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.walls.faces import Face, Hole


@dataclass(frozen=True)
class WallArea:
    """One wall's area.

    Attributes
    ----------
    name : str
        The wall.
    gross, net : float
        Before and after its openings [m²].
    deductions : tuple of (str, float)
        Path and area of each opening, as far as it lies in the band covered [m²].
    """

    name: str
    gross: float
    net: float
    deductions: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class AreaAnswer:
    """The walls' area together [m²]."""

    gross: float
    net: float
    walls: tuple[WallArea, ...]
    working: Working


def wall_areas(
    faces: Sequence[Face], practice: Practice, *, bottom: float = 0.0, top: float | None = None
) -> AreaAnswer:
    """Return the area of walls, each opening deducted as measured.

    Parameters
    ----------
    faces : sequence of Face
        The walls that are covered.
    practice : Practice
        Its set decides the units of the working.
    bottom, top : float, optional
        The band that is covered, above the floor [m]; to the ceiling where `top` is None.

    Source: common practice, no source: length × mean height, measured openings deducted.

    Checked by: tests/walls/test_areas.py.
    """
    say = Words(practice)
    working = Working("Walls to cover")
    found = []
    for face in faces:
        roof = face.mean_height if top is None else min(face.mean_height, top)
        high = max(roof - bottom, 0.0)
        gross = face.length * high
        working.step(
            f"wall {face.name}", "length × mean height" if not bottom and top is None else "length × band",
            f"{say(face.length)} × {say(high)}", say.area(gross),
        )  # fmt: skip
        cuts = tuple((hole.path, _cut(hole, bottom, bottom + high)) for hole in face.holes)
        for hole, (_, area) in zip(face.holes, cuts, strict=True):
            if area > 0:
                seen = min(hole.top, bottom + high) - max(hole.bottom, bottom)
                working.step(
                    f"less {hole.called}", "width × height in the band",
                    f"{say(hole.width)} × {say(seen)}", f"−{say.area(area)}",
                )  # fmt: skip
        net = max(gross - sum(area for _, area in cuts), 0.0)
        found.append(WallArea(face.name, gross, net, tuple(cut for cut in cuts if cut[1] > 0)))
    gross, net = sum(w.gross for w in found), sum(w.net for w in found)
    off = sum(area for wall in found for _, area in wall.deductions)
    working.step("to cover", "walls − openings", f"{say.area(gross)} − {say.area(off)}", say.area(net))
    return AreaAnswer(gross, net, tuple(found), working)


def _cut(hole: Hole, low: float, high: float) -> float:
    """Return the area of an opening inside the band [m²]."""
    return hole.width * max(min(hole.top, high) - max(hole.bottom, low), 0.0)
