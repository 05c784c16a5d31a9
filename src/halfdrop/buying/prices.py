"""Prices and quantities: from the document where it gives them, else from the job's stock list, never guessed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.formats import Units, format_area, format_money
from halfdrop.base.tolerance import SAME
from halfdrop.base.units import Length, Money
from halfdrop.base.working import Working
from halfdrop.buying.words import flat_size
from halfdrop.job.model import Job, Pad, Piece, Rug, Stock
from halfdrop.practice import Practice

#: A count this near to a whole one is that one: arithmetic noise never buys a whole unit more.
NOISE = 1e-6


@dataclass(frozen=True)
class Priced:
    """A price, where it was read, and how many of the stock unit it is for."""

    price: Money | None
    source: str
    quantity: int = 1


@dataclass(frozen=True)
class PadSize:
    """What is bought for under a rug: the size wanted and the made size it is cut from [m], and how both are printed."""

    width: float
    length: float
    wanted: str
    bought: str
    made: bool


def price_of(
    job: Job, thing: Piece | Rug, before: Piece | Rug | None = None, working: Working | None = None
) -> Priced:
    """Return the price of a piece or rug.

    A price that stood on a thing of another size before is not believed: it is the old one's.
    """
    stale = before is not None and before.price is not None and before.price == thing.price
    if thing.price is not None and not stale:
        return Priced(thing.price, "job")
    if isinstance(thing, Rug):
        found = from_stock(
            job, "rug", lambda s: _covers_rug(s, thing), thing.name, _area(thing.width, thing.length, thing.shape), working
        )
    else:
        found = from_stock(job, "piece", lambda s: _is_piece(s, thing), thing.name)
    if found.price is None and stale:
        return Priced(None, "the price in the job is that of the one it replaces")
    return found


def from_stock(
    job: Job,
    kind: Literal["rug", "pad", "anchor", "piece"],
    fits: Callable[[Stock], bool],
    name: str | None = None,
    area: float | None = None,
    working: Working | None = None,
) -> Priced:
    """Return the price of the one item of the stock list that fits; where several fit, the one of the same name.

    An item priced by area is bought in whole units of it.
    """
    known = [s for s in job.stock.values() if s.kind == kind and fits(s)]
    named = [s for s in known if name is not None and s.name == name]
    if len(named) == 1:
        known = named
    if not known:
        return Priced(None, "not in the stock list")
    if len(known) > 1:
        return Priced(None, f"{len(known)} items of the stock list fit; choose one")
    item = known[0]
    if item.price is None:
        return Priced(None, f"“{item.name}” of the stock list has no price")
    if item.per_area is None:
        return Priced(item.price, "stock list")
    if area is None or not item.per_area:
        return Priced(None, f"“{item.name}” is priced by area, and no area is known")
    units = job.job.units
    exact = area / float(item.per_area)
    count = max(1, math.ceil(exact - NOISE))
    if working is not None:
        one = format_area(float(item.per_area), units, digits=2)
        working.step(
            f"{item.name}: units to buy",
            "area / area of one unit",
            f"{format_area(area, units, digits=2)} / {one}",
            f"{count}",
            rounding=f"up from {exact:.2f}: it is sold by the whole {one}",
        )
        working.step(
            f"{item.name}: price",
            "units × price of one",
            f"{count} × {format_money(item.price)}",
            format_money(item.price * count),
        )
    return Priced(item.price, "stock list", count)


def _area(width: float, length: float, shape: str) -> float:
    """Return the area bought for a rug [m²]: round and oval ones are cut from their rectangle."""
    return float(width) * float(length)


def _same_sides(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return all(abs(x - y) <= SAME for x, y in zip(sorted(a), sorted(b), strict=True))


def _covers_rug(stock: Stock, rug: Rug) -> bool:
    if (stock.shape or "rectangle") != rug.shape or (stock.fiber and rug.fiber and stock.fiber != rug.fiber):
        return False
    if stock.width is None:
        return stock.per_area is not None
    return _same_sides((stock.width, stock.length or stock.width), (rug.width, rug.length))


def _is_piece(stock: Stock, piece: Piece) -> bool:
    if stock.piece != piece.type or stock.width is None:
        return False
    depth = stock.length is None or abs(stock.length - piece.depth) <= SAME
    height = stock.height is None or abs(stock.height - piece.height) <= SAME
    return abs(stock.width - piece.width) <= SAME and depth and height


def pad_inset(pad: Pad, practice: Practice) -> tuple[float, str]:
    """Return how much smaller a pad is than its rug on each side [m], and where that comes from."""
    if pad.inset is not None:
        return float(pad.inset), "the job"
    value = practice["rugs.pad_inset"]
    return float(practice.length("rugs.pad_inset")), f"practice rugs.pad_inset ({value.source})"


def pad_size(rug: Rug, pad: Pad, practice: Practice, units: Units, working: Working) -> PadSize:
    """Return the pad for a rug: wanted size (rug less the inset all round), and the made size it is cut from.

    The made size is the smallest one that covers the wanted size; where none does, the pad is cut to measure from the roll.
    """
    inset, source = pad_inset(pad, practice)
    width, length = sorted((float(rug.width), float(rug.length)))
    wanted = (max(width - 2 * inset, 0.0), max(length - 2 * inset, 0.0))
    text = flat_size(*wanted, rug.shape, units)
    working.step(
        "pad wanted",
        "rug less the inset on each side",
        f"{flat_size(width, length, rug.shape, units)} less 2 × {Length(inset).text if pad.inset is None else pad.inset.text}",
        text,
        source=source,
    )
    made = _next_made(wanted, rug.shape, practice)
    if made is None:
        working.step("pad bought", "no made size covers it", text, f"{text}, cut to measure from the roll")
        return PadSize(*wanted, text, f"{text}, cut to measure", False)
    bought = flat_size(*made, rug.shape, units)
    working.step(
        "pad bought",
        "the smallest made size that covers it",
        text,
        bought,
        rounding="up to the next made size, so that it can be cut down; never pieced",
        source="practice rugs.made_sizes_*",
    )
    return PadSize(*made, text, bought, True)


def _next_made(wanted: tuple[float, float], shape: str, practice: Practice) -> tuple[float, float] | None:
    if shape == "round":
        sizes = [(float(d), float(d)) for d in practice.length_list("rugs.made_sizes_round")]
    else:
        keys = ("rectangle", "square", "runner")
        sizes = [
            (float(min(s)), float(max(s))) for k in keys for s in practice.size_list(f"rugs.made_sizes_{k}")
        ]
    covering = [s for s in sizes if s[0] >= wanted[0] - SAME and s[1] >= wanted[1] - SAME]
    return min(covering, key=lambda s: (s[0] * s[1], s), default=None)


def pad_price(job: Job, pad: Pad, size: PadSize, before: Pad | None, working: Working) -> Priced:
    """Return the price of a pad: the job's, else the one stock item that covers its size."""
    stale = before is not None and before.price is not None and before.price == pad.price
    if pad.price is not None and not stale:
        return Priced(pad.price, "job")

    def fits(stock: Stock) -> bool:
        thick = stock.thickness is None or abs(stock.thickness - pad.thickness) <= SAME
        if stock.width is None:
            return thick and stock.per_area is not None
        return thick and _same_sides((stock.width, stock.length or stock.width), (size.width, size.length))

    found = from_stock(job, "pad", fits, area=size.width * size.length, working=working)
    if found.price is None and stale:
        return Priced(None, "the price in the job is that of the one it replaces")
    return found
