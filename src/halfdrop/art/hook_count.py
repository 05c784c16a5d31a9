"""One hook or two, and how far apart."""

from __future__ import annotations

from halfdrop.practice import Practice

WIDTH, MASS, SPACING = "art.two_hooks_width", "art.two_hooks_mass", "art.hook_spacing"


def hooks_wanted(width: float, mass: float, practice: Practice) -> int:
    """Return 2 from `art.two_hooks_width` or `art.two_hooks_mass` on, else 1.

    Parameters
    ----------
    width : float
        Of the frame [m].
    mass : float
        Of the work [kg].

    Source: common practice, from memory. Checked by: tests/art/test_wire.py.
    """
    wide = width >= float(practice.length(WIDTH)) - 1e-9
    return 2 if wide or mass >= float(practice.mass(MASS)) - 1e-9 else 1


def spacing_wanted(width: float, practice: Practice) -> float:
    """Return the distance between two hooks [m]: `art.hook_spacing` × the frame's width.

    Source: common practice, from memory. Checked by: tests/art/test_wire.py.
    """
    return practice.number(SPACING) * width
