"""Rugs a remedy buys: from the job's stock where it has the made size, else the made size itself, unpriced."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch
from halfdrop.audit.moves import text
from halfdrop.audit.rules.rugs.pads import pad_of, undercut_over, units_of
from halfdrop.base.formats import format_angle
from halfdrop.base.tolerance import SAME
from halfdrop.base.units import Money
from halfdrop.geometry.plane import Array
from halfdrop.job.model import Rug, Stock
from halfdrop.room import LyingRug
from halfdrop.rugs import Laid, MadeSize

#: Fibers of a plain base under a kept rug.
NATURAL = frozenset({"jute", "sisal", "seagrass", "coir", "hemp", "linen", "wool", "cotton"})


@dataclass(frozen=True)
class Buy:
    """A rug to buy, with its pad.

    Attributes
    ----------
    fields : dict
        Of the document: what it is, without its place.
    cost : Money or None
        Of what is priced.
    unpriced : tuple of str
        What has no price.
    """

    fields: dict[str, Any]
    cost: Money | None
    unpriced: tuple[str, ...]

    @property
    def name(self) -> str:
        """What to call it."""
        return str(self.fields["name"])


def total(costs: Iterable[Money | None]) -> Money | None:
    """Return the sum of the amounts there are; None of none."""
    out: Money | None = None
    for cost in costs:
        if cost is not None:
            out = cost if out is None else out + cost
    return out


def _same_size(item: Stock, size: MadeSize) -> bool:
    if item.width is None:
        return False
    a = sorted((float(item.width), float(item.length or item.width)))
    return abs(a[0] - size.width) <= SAME and abs(a[1] - size.length) <= SAME


def in_stock(case: RoomCase, size: MadeSize, *, base: bool = False, like: Rug | None = None) -> Stock | None:
    """Return the stock's rug of a made size, or None.

    For a base it is plain and of a natural fiber; else it is the one most like the rug it replaces, then the cheapest.
    """
    shape = "round" if size.made == "round" else "rectangle"
    found = []
    for key, item in case.job.stock.items():
        if item.kind != "rug" or (item.shape or "rectangle") != shape or not _same_size(item, size):
            continue
        fiber, pattern = (item.fiber or "").lower(), item.pattern or "plain"
        if base and (pattern != "plain" or fiber not in NATURAL):
            continue
        unlike = 0 if like is None else 2 * (fiber != (like.fiber or "").lower()) + (pattern != like.pattern)
        price = float(item.price.amount) if item.price is not None else math.inf
        found.append((unlike, price, key, item))
    return min(found, key=lambda f: f[:3])[3] if found else None


def rug_of(
    case: RoomCase, laid: Laid, place: BaseGeometry, *, base: bool = False, like: Rug | None = None
) -> Buy:
    """Return the rug of a made size to lay at a place, with the pad it wants there.

    Parameters
    ----------
    laid : Laid
        The size and which way round it lies.
    place : shapely geometry
        Where it would lie on the plan [m]: doors over it thin the pad.
    base : bool
        A plain base of natural fiber, to lie under a kept rug.
    like : Rug, optional
        The rug it replaces.
    """
    item = in_stock(case, laid.size, base=base, like=like)
    what = "plain jute" if base else ""
    if item is not None:
        what = item.name[:1].lower() + item.name[1:]
    what = what if what.endswith("rug") else f"{what} rug".strip()
    fields: dict[str, Any] = {
        "name": f"{laid.size.name(case.units)} {what}",
        "width": text(case, laid.across),
        "length": text(case, laid.along),
    }
    if laid.size.made == "round":
        fields["shape"] = "round"
    fields |= _make(case, item, base)
    cost = _price(item, laid.size.area)
    if cost is not None and item is not None and item.per_area is None:
        fields["price"] = cost.text
    fields["arrives"] = True
    unpriced = [] if cost is not None else [fields["name"]]
    costs = [cost]
    if case.room.model.floor == "hard":
        pile = float(item.pile) if item is not None and item.pile is not None else None
        pad = pad_of(case, laid.across, laid.along, pile, undercut_over(case, place))
        fields["pad"] = pad.fields(case)
        costs.append(pad.cost)
        unpriced += [] if pad.cost is not None else [pad.words(case)]
    return Buy(fields, total(costs), tuple(unpriced))


def _make(case: RoomCase, item: Stock | None, base: bool) -> dict[str, str]:
    """Return how a rug is made, in the document's fields: as the stock says, else a plain jute base, else left open."""
    if item is None:
        flat = text(case, float(case.length("rugs.flat_weave_pile")))
        return {"pile": flat, "fiber": "jute", "pattern": "plain"} if base else {}
    made = {"fiber": item.fiber, "pattern": item.pattern}
    pile = {"pile": item.pile.text} if item.pile is not None else {}
    return pile | {key: value for key, value in made.items() if value is not None}


def _price(item: Stock | None, area: float) -> Money | None:
    if item is None or item.price is None:
        return None
    return item.price * units_of(item, area) if item.per_area else item.price


def new_rug_id(case: RoomCase, stem: str) -> str:
    """Return an id no rug of the room has."""
    taken = case.room.rugs.keys()
    return (
        stem
        if stem not in taken
        else next(f"{stem}-{k}" for k in range(2, 1000) if f"{stem}-{k}" not in taken)
    )


def at_center(case: RoomCase, center: Array) -> dict[str, str]:
    """Return the document's place of a thing that lies free at a plan point [m]."""
    base = case.room.walls[0]
    x, y = (float((center - base.start) @ v) for v in (base.direction, base.inward))
    return {"x": text(case, x), "y": text(case, y)}


def laid_fields(case: RoomCase, buy: Buy, center: Array, angle: float) -> dict[str, Any]:
    """Return a bought rug's fields with its place; square to wall AB it is said without a turn."""
    fields = dict(buy.fields)
    half = angle % math.pi
    if abs(half - math.pi / 2) < 1e-6:
        fields["width"], fields["length"] = fields["length"], fields["width"]
        half = 0.0
    turn = {} if min(half, math.pi - half) < 1e-6 else {"turn": format_angle(half)}
    return {**fields, "at": at_center(case, center), **turn}


def replaced(case: RoomCase, rug: LyingRug, buy: Buy, center: Array, angle: float) -> Patch:
    """Return the patch that lays a bought rug in another's stead."""
    value = laid_fields(case, buy, center, angle)
    for key in ("group", "over"):
        if getattr(rug.model, key) is not None:
            value[key] = getattr(rug.model, key)
    return [{"op": "replace", "path": f"/{rug.path}", "value": value}]


def added(
    case: RoomCase, buy: Buy, center: Array, angle: float, stem: str, group: str | None = None
) -> tuple[str, Patch]:
    """Return the new id and the patch that lays a bought rug."""
    key = new_rug_id(case, stem)
    value = laid_fields(case, buy, center, angle)
    if group is not None:
        value["group"] = group
    rugs = f"/{case.room.path}/rugs"
    if "rugs" not in case.room.model.model_fields_set:
        return key, [{"op": "add", "path": rugs, "value": {key: value}}]
    return key, [{"op": "add", "path": f"{rugs}/{key}", "value": value}]


def laid_at(case: RoomCase, rug: LyingRug, center: Array, angle: float | None = None) -> Patch:
    """Return the patch that lays a rug there is at a plan point [m], turned to an angle [rad] where given."""
    patch: Patch = [{"op": "add", "path": f"/{rug.path}/at", "value": at_center(case, center)}]
    shown = format_angle((rug.angle if angle is None else angle) % math.pi)
    if rug.model.turn is not None or shown != format_angle(0.0):
        patch.append({"op": "add", "path": f"/{rug.path}/turn", "value": shown})
    return patch
