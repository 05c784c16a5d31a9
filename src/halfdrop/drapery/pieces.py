"""The pieces a treatment is cut into, for the bolt plan: which lies where in the pattern."""

from __future__ import annotations

from halfdrop.drapery.bolts import Cut
from halfdrop.drapery.cloth import Cloth
from halfdrop.drapery.cut_length import Allowances
from halfdrop.drapery.widths import WidthsAnswer


def panel_pieces(
    path: str, room: str, cloth: Cloth, cut: float, allowed: Allowances, widths: WidthsAnswer, panels: int
) -> list[Cut]:
    """Return the full widths of the panels of one treatment, the left panel first.

    All lie alike in the pattern, so that panels of a pair are in phase; of half-drop cloth every second width of a panel is half a
    repeat further. A width split between the panels of a pair stands at their inner or outer edge in both, and is cut once.

    Parameters
    ----------
    path, room : str
        The treatment's place in the document, its room.
    cloth : Cloth
        The cloth.
    cut : float
        Plain cut [m].
    allowed : Allowances
        Hem and heading.
    widths : WidthsAnswer
        How many.
    panels : int
        1 or 2.

    Source: our own. Checked by: tests/drapery/test_takeoff.py.
    """
    line = None
    if cloth.repeat:
        line = allowed.hem if cloth.motif == "hem" else allowed.heading
    whole = int(widths.per_panel + 1e-6)
    half_drop = cloth.match == "half-drop"
    order = [i % 2 == 1 for _ in range(panels) for i in range(whole)]
    order += [(len(order) // panels) % 2 == 1] * (widths.cuts - len(order))
    halved = (cloth.width / 2, cloth.width / 2)
    shared = panels == 2 and widths.per_panel - whole > 1e-6
    return [
        Cut(
            f"{path}/{n}",
            room,
            cut,
            line,
            half_drop and half,
            halved if shared and n > panels * whole else (),
        )
        for n, half in enumerate(order, 1)
    ]


def turned_pieces(
    path: str, room: str, cloth: Cloth, flat: float, panels: int, cut: float = 0.0
) -> list[Cut]:
    """Return the panels of one treatment cut along the cloth, one piece each: it is turned on its side [m].

    `cut` is the plain cut, which then lies across the cloth [m].
    """
    line = 0.0 if cloth.repeat else None
    across = (cut,) if cut else ()
    return [Cut(f"{path}/{n}", room, flat / panels, line, False, across) for n in range(1, panels + 1)]
