"""Trim to paint: each kind's running length by its face, openings and all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.walls.faces import Face

_BASE, _CASING, _CROWN = "walls.baseboard_height", "walls.casing_width", "walls.crown_height"
#: What is painted where a finish does not say.
USUAL: Mapping[str, bool] = {"baseboard": True, "casings": True, "doors": True, "crown": False}


@dataclass(frozen=True)
class TrimAnswer:
    """Trim of a room.

    Attributes
    ----------
    runs : dict of str to float
        Running length of each kind [m]; doors are counted, not run.
    area : float
        Faces together [m²].
    """

    runs: dict[str, float]
    doors: int
    area: float
    working: Working


def trim_run(
    faces: Sequence[Face], practice: Practice, parts: Mapping[str, bool] | None = None
) -> TrimAnswer:
    """Return the trim of a room: lengths measured, faces by practice.

    Parameters
    ----------
    faces : sequence of Face
        All walls of the room.
    practice : Practice
        `walls.baseboard_height`, `walls.casing_width` (where an opening's trim was not taped), `walls.crown_height`.
    parts : mapping, optional
        `baseboard`, `casings`, `doors`, `crown`: whether each is painted; the first three where nothing is said.

    A baseboard stops at doors and cased openings. A door's casing runs up both jambs and over the head, a window's
    all round. A door's leaf is counted on this room's side.

    Source: common practice, no source.

    Checked by: tests/walls/test_trim.py.
    """
    say = Words(practice)
    painted = {**USUAL, **(parts or {})}
    working = Working("Trim to paint")
    holes = [hole for face in faces for hole in face.holes]
    round_ = sum(face.length for face in faces)
    runs: dict[str, float] = {}
    area, doors = 0.0, 0
    if painted["baseboard"]:
        gaps = [hole.width for hole in holes if hole.bottom <= practice.length(_BASE)]
        runs["baseboard"] = max(round_ - sum(gaps), 0.0)
        working.step(
            "baseboard", "walls − doorways", f"{say(round_)} − {say(sum(gaps))}", say(runs["baseboard"])
        )
        area += _face("baseboard", runs["baseboard"], practice.length(_BASE), working, say, say.cited(_BASE))
    if painted["casings"]:
        runs["casings"] = 0.0
        for hole in holes:
            window = hole.kind == "window"
            run = 2 * hole.height + (2 if window else 1) * hole.width
            formula = "2 × (width + height)" if window else "2 × height + width"
            working.step(
                f"casing of {hole.called}",
                formula,
                f"{say(hole.width)}, {say(hole.height)}",
                say(run),
            )
            face = practice.length(_CASING) if hole.trim is None else hole.trim
            cited = say.cited(_CASING) if hole.trim is None else "as taped"
            area += _face(f"casing of {hole.called}", run, face, working, say, cited)
            runs["casings"] += run
    if painted["crown"]:
        runs["crown"] = round_
        area += _face("crown", round_, practice.length(_CROWN), working, say, say.cited(_CROWN))
    if painted["doors"]:
        for hole in holes:
            if hole.kind == "door":
                doors += 1
                leaf = hole.width * hole.height
                working.step(f"leaf of {hole.called}", "width × height, one side", say.pair(hole.width, hole.height),
                             say.area(leaf))  # fmt: skip
                area += leaf
    working.step("trim", "sum of the faces", f"{len(runs)} runs, {doors} doors", say.area(area))
    return TrimAnswer(runs, doors, area, working)


def _face(what: str, run: float, face: float, working: Working, say: Words, source: str) -> float:
    """Add a face to the working and return its area [m²]."""
    working.step(f"{what}, face", "length × face", say.pair(run, face), say.area(run * face), source=source)
    return run * face
