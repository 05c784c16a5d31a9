"""How much paint: area by coats over spread."""

from __future__ import annotations

from halfdrop.base.working import Working
from halfdrop.practice.words import Words


def paint_volume(
    area: float,
    coats: int,
    spread: float,
    say: Words,
    working: Working,
    *,
    what: str = "paint",
    source: str = "",
) -> float:
    """Return the volume of paint an area takes [m³], and add the step to a working.

    Parameters
    ----------
    area : float
        To cover, 0 or more [m²].
    coats : int
        0 or more.
    spread : float
        Area over volume of one coat, above 0 [m²/m³].

    Raises
    ------
    ValueError
        Where one of them is out of its range.

    Source: common practice: area × coats / spread.

    Checked by: tests/walls/test_paint.py.
    """
    if area < 0 or coats < 0 or spread <= 0:
        raise ValueError(f"paint cannot be counted for {area} m², {coats} coats, {spread} m²/m³")
    volume = area * coats / spread
    working.step(what, "area × coats / spread", f"{say.area(area)} × {coats} / {say.spread(spread)}", say.volume(volume),
                 source=source)  # fmt: skip
    return volume
