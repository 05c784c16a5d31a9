"""The flat rule for openings: so much off for each door and each window, where nobody taped them."""

from __future__ import annotations

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_DOOR, _WINDOW = "walls.door_deduction", "walls.window_deduction"


def flat_deductions(doors: int, windows: int, practice: Practice) -> tuple[float, Working]:
    """Return the area taken off for openings by the flat rule [m²], with its working.

    A rough sum for a first price; `wall_areas` takes the measured openings instead.

    Parameters
    ----------
    doors, windows : int
        How many, 0 or more.
    practice : Practice
        `walls.door_deduction`, `walls.window_deduction`.

    Source: common practice, no source; published figures differ (20 or 30 sq ft a door, 15 or 20 a window).

    Checked by: tests/walls/test_areas.py.
    """
    if min(doors, windows) < 0:
        raise ValueError(f"openings cannot be fewer than none: {doors} doors, {windows} windows")
    say = Words(practice)
    door, window = practice.area(_DOOR), practice.area(_WINDOW)
    area = doors * door + windows * window
    working = Working("Openings by the flat rule")
    working.step(
        "openings", "doors × flat area + windows × flat area",
        f"{doors} × {say.area(door)} + {windows} × {say.area(window)}", say.area(area),
        source=say.cited(_DOOR, _WINDOW),
    )  # fmt: skip
    return area, working
