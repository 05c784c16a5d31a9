"""Half-drop match by the panel: whole repeats, and half a repeat for every cut."""

from __future__ import annotations

from halfdrop.drapery.repeats.answer import CutsAnswer, checked, told, units
from halfdrop.practice import Practice


def per_panel(plain: float, repeat: float, count: int, practice: Practice) -> CutsAnswer:
    """Return cuts of ceil(plain ÷ repeat) × repeat + ½ repeat [m].

    It is never short; where half a repeat less already holds the cut it wastes a whole one.

    Source: The Encyclopaedia of Curtains, p. 119, as a secondary page quotes it. Checked by: tests/published/drapery_cuts.csv.
    """
    checked(plain, repeat, count, practice)
    cut = (units(plain, repeat) + 0.5) * repeat
    return told(
        "per panel",
        plain,
        repeat,
        cut,
        0.0,
        count,
        "The Encyclopaedia of Curtains, p. 119, as quoted",
        practice,
    )
