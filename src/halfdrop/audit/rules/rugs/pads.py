"""The pad under a rug as a remedy buys it: size, thickness, and its price from the job's stock by area."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.moves import text
from halfdrop.base.formats import format_area, format_money
from halfdrop.base.tolerance import SAME
from halfdrop.base.units import Money
from halfdrop.job.model import Stock
from halfdrop.room import WallOpening
from halfdrop.rugs import pad_for


@dataclass(frozen=True)
class PadBuy:
    """A pad to buy.

    Attributes
    ----------
    width, length, thickness : float
        Of the pad [m].
    kind : str
        "felt" or "grip".
    cost : Money or None
        From the stock; None where it has none that fits.
    working : str
        The sum: area ÷ unit, rounded up, × price; empty where it is not sold by area.
    """

    width: float
    length: float
    thickness: float
    kind: str
    cost: Money | None
    working: str

    def fields(self, case: RoomCase) -> dict[str, str]:
        """Return the document's pad. Its price stays in the stock, where it stands by the area."""
        return {"thickness": text(case, self.thickness)}

    def words(self, case: RoomCase) -> str:
        """Name it: `¼″ felt pad, 7′ 10″ × 4′ 10″`."""
        return f"{case.say(self.thickness)} {self.kind} pad, {case.say(self.width)} × {case.say(self.length)}"


def pad_of(
    case: RoomCase, width: float, length: float, pile: float | None = None, undercut: float | None = None
) -> PadBuy:
    """Return the pad a rug of this size wants [m], under a door with this undercut where one swings over it.

    Of the stock, one of the thickness wanted. Where it has none and no door decides, a felt pad does for a flat weave too.
    """
    answer = pad_for(width, length, case.practice, pile=pile, undercut=undercut)
    size = (answer.width, answer.length)
    thickness = answer.thickness
    item = _stocked(case, thickness, size)
    if item is None and undercut is None:
        felt = float(case.length("rugs.pad_thickness"))
        item = _stocked(case, felt, size)
        thickness = felt if item is not None else thickness
    cost, working = _priced(case, item, answer.width * answer.length) if item is not None else (None, "")
    kind = "felt" if thickness > float(case.length("rugs.pad_thin")) + SAME else "grip"
    return PadBuy(answer.width, answer.length, thickness, kind, cost, working)


def _stocked(case: RoomCase, thickness: float, size: tuple[float, float]) -> Stock | None:
    """Return the pad of the stock in this thickness: one that covers the size, the smallest, else one sold by area."""
    whole, by_area = [], []
    for key, item in sorted(case.job.stock.items()):
        if item.kind != "pad" or (
            item.thickness is not None and abs(float(item.thickness) - thickness) > SAME
        ):
            continue
        if item.width is None:
            by_area += [item] if item.per_area is not None else []
            continue
        have = sorted((float(item.width), float(item.length or item.width)))
        if all(h >= s - SAME for h, s in zip(have, sorted(size), strict=True)):
            whole.append((have[0] * have[1], key, item))
    if whole:
        return min(whole, key=lambda w: w[:2])[2]
    return by_area[0] if by_area else None


def _priced(case: RoomCase, item: Stock, area: float) -> tuple[Money | None, str]:
    if item.price is None or item.per_area is None or not float(item.per_area):
        return item.price, ""
    count = units_of(item, area)
    unit = format_area(float(item.per_area), case.units).removeprefix("1 ")
    sum_ = f"{case.say_area(area)}, rounded up to {count} × {format_money(item.price)} a {unit}"
    return item.price * count, sum_


def units_of(item: Stock, area: float) -> int:
    """Return how many whole units of a stock item sold by area cover an area [m²]."""
    assert item.per_area
    return max(1, math.ceil(area / float(item.per_area) - 1e-6))


def doors_over(case: RoomCase, shape: BaseGeometry) -> list[WallOpening]:
    """Return the doors whose leaf sweeps over a shape on the floor."""
    return [
        o
        for _, o in sorted(case.room.openings.items())
        if o.swing is not None and o.swing.intersection(shape).area > 1e-4
    ]


def undercut_over(case: RoomCase, shape: BaseGeometry) -> float | None:
    """Return the least undercut taped of the doors that sweep over a shape [m]; None where none is known."""
    known = [float(d.model.undercut) for d in doors_over(case, shape) if d.model.undercut is not None]
    return min(known, default=None)
