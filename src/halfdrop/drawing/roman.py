"""A flat roman shade let down, from behind: its rods, its rings, and where they sit, to scale."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from halfdrop.base.formats import Units
from halfdrop.drawing.figure import Figure, chain_across, chain_up
from halfdrop.drawing.paper import largest_scale
from halfdrop.drawing.verbs import Arc, Area, Begin, End, Line, Verb

#: Room left of the shade for its heights and under it for its rings, and its highest on the page [mm].
LEFT, UNDER, HIGH = 14.0, 13.0, 78.0


def roman_figure(
    path: str,
    width: float,
    heights: Sequence[tuple[float, str]],
    rings: Sequence[float],
    texts: Sequence[str],
    units: Units,
    *,
    wide: float = 172.0,
) -> Figure:
    """Return the shade from behind.

    Parameters
    ----------
    path : str
        In the document.
    width : float
        Finished [m].
    heights : sequence of (float, str)
        From the hem up to the lowest rod, from rod to rod, from the topmost to the board [m], as printed.
    rings : sequence of float
        Rows of rings from the left edge [m].
    texts : sequence of str
        The spaces from edge to ring to ring to edge, as printed.
    units : {"imperial", "metric"}
        Whose scales.
    wide : float
        Of the figure [mm].

    Raises
    ------
    InputError
        Where it is too large for the page at the smallest scale.

    Source: our own. Checked by: tests/drawing/test_roman.py.
    """
    tall = sum(h for h, _ in heights)
    scale = largest_scale((width, tall), (wide - LEFT - 2, HIGH), units)
    mm = 1000 * scale.ratio
    floor = 2.0 + tall * mm
    right = LEFT + width * mm
    levels = [0.0, *accumulate(h for h, _ in heights)]
    ys = [floor - level * mm for level in levels]
    verbs: list[Verb] = [Begin("I-CLTH-CUTS", path)]
    verbs.append(Area((((LEFT, ys[0]), (right, ys[0]), (right, ys[-1]), (LEFT, ys[-1])),), "paper", "medium"))
    for y in ys[1:-1]:
        verbs.append(Line(((LEFT, y), (right, y)), "thin"))
        verbs += [Arc((LEFT + ring * mm, y), 0.9, 0.9, pen="thin", fill="paper") for ring in rings]
    verbs.append(Line(((LEFT, ys[-1]), (right, ys[-1])), "heavy"))
    verbs.append(End())
    verbs.append(Begin("A-ANNO-DIMS"))
    verbs += chain_up(ys, LEFT, LEFT - 5.0, [text for _, text in heights])
    verbs += chain_across([LEFT, *(LEFT + ring * mm for ring in rings), right], floor, floor + 8.0, texts)
    verbs.append(End())
    return Figure("The shade from behind, let down", wide, floor + UNDER, tuple(verbs), scale)
