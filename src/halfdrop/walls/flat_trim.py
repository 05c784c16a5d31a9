"""The flat rule for trim: half a foot of baseboard round the room, so much a door side and a window."""

from __future__ import annotations

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_BASE, _DOOR, _WINDOW = "walls.baseboard_height", "walls.door_side", "walls.window_trim"


def flat_trim(perimeter: float, doors: int, windows: int, practice: Practice) -> tuple[float, Working]:
    """Return the trim's area by the flat rule [m²], with its working; `trim_run` measures instead.

    Parameters
    ----------
    perimeter : float
        Of the room [m].
    doors, windows : int
        How many, 0 or more; one side of each door.
    practice : Practice
        `walls.baseboard_height`, `walls.door_side`, `walls.window_trim`.

    Source: common practice, no source: perimeter × 0.5 ft, 20 sq ft a door side, 7.5 sq ft a window.

    Checked by: tests/walls/test_trim.py.
    """
    if min(doors, windows) < 0 or perimeter < 0:
        raise ValueError(f"trim cannot be less than none: {perimeter} m, {doors} doors, {windows} windows")
    say = Words(practice)
    base, door, window = practice.length(_BASE), practice.area(_DOOR), practice.area(_WINDOW)
    area = perimeter * base + doors * door + windows * window
    working = Working("Trim by the flat rule")
    working.step(
        "trim", "perimeter × baseboard + doors × side + windows × trim",
        f"{say(perimeter)} × {say(base)} + {doors} × {say.area(door)} + {windows} × {say.area(window)}", say.area(area),
        source=say.cited(_BASE, _DOOR, _WINDOW),
    )  # fmt: skip
    return area, working
