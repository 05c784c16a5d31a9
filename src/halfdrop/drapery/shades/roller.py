"""Roller shades: what is ordered and how wide the cloth comes to be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.drapery.shades.inside import inside_width
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_CLOTH, _OVERLAP = "drapery.roller_cloth_narrower", "drapery.shade_overlap"


@dataclass(frozen=True)
class RollerAnswer:
    """A roller shade.

    Attributes
    ----------
    ordered : float
        Width to order [m]: the opening's inside, the shade's outside.
    cloth : float
        Width of the cloth [m].
    gap : float
        Opening less cloth, both sides together [m]; 0 outside.
    fits : bool
        Whether the opening takes it inside.
    working : Working
        The steps.
    """

    ordered: float
    cloth: float
    gap: float
    fits: bool
    working: Working


def roller_inside(widths: Sequence[float], practice: Practice, *, depth: float | None = None) -> RollerAnswer:
    """Return a roller shade inside an opening with these clear widths [m].

    Source: common practice (three makers: 7/8 to 1-1/4 in). Checked by: tests/drapery/test_shades.py.
    """
    say = Words(practice)
    inside = inside_width(widths, practice, depth=depth)
    narrower = float(practice.length(_CLOTH))
    cloth = inside.width - narrower
    working = Working("Roller shade inside", list(inside.working.steps))
    working.step(
        "cloth",
        "ordered width − deduction",
        f"{say(inside.width)} − {say(narrower)}",
        say(cloth),
        source=say.cited(_CLOTH),
    )
    return RollerAnswer(
        inside.width, cloth, min(widths) - cloth, inside.square and inside.deep and cloth > 0, working
    )


def roller_outside(width: float, practice: Practice) -> RollerAnswer:
    """Return a roller shade outside an opening of that width [m]: past it on each side.

    Source: common practice (makers: 1.5 to 3 in). Checked by: tests/drapery/test_shades.py.
    """
    say = Words(practice)
    past = float(practice.length(_OVERLAP))
    ordered = width + 2 * past
    working = Working("Roller shade outside")
    working.step(
        "width",
        "opening + 2 × past it",
        f"{say(width)} + 2 × {say(past)}",
        say(ordered),
        source=say.cited(_OVERLAP),
    )
    return RollerAnswer(ordered, ordered, 0.0, True, working)
