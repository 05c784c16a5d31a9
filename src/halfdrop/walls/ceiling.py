"""The area of a ceiling: the floor's outline, stretched by the slope where the heights taped show one."""

from __future__ import annotations

import math

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def ceiling_area(floor: float, practice: Practice, *, rise: float = 0.0) -> tuple[float, Working]:
    """Return the ceiling's area [m²], with its working.

    Parameters
    ----------
    floor : float
        Area of the outline [m²].
    practice : Practice
        Its set decides the units of the working.
    rise : float
        Rise over run of the ceiling, 0 or more; from the survey's heights.

    Source: geometry: a plane over an outline is larger by sqrt(1 + rise²).

    Checked by: tests/walls/test_areas.py.
    """
    if rise < 0:
        raise ValueError(f"a rise is 0 or more, not {rise}")
    say = Words(practice)
    working = Working("Ceiling to paint")
    area = floor * math.hypot(1.0, rise)
    working.step("ceiling", "floor × sqrt(1 + rise²)" if rise else "as the floor", f"{say.area(floor)}, rise {rise:.3f}",
                 say.area(area))  # fmt: skip
    return area, working
