"""Prices and quantities: from the document where it gives them, else from its stock list, never guessed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.formats import format_area, format_length, format_money
from halfdrop.base.tolerance import SAME
from halfdrop.base.units import Money
from halfdrop.base.working import Working
from halfdrop.buying.words import flat_size
from halfdrop.job.model import Job, Pad, Piece, Rug, Stock
from halfdrop.practice import Practice

#: A count this near to a whole one is that one: arithmetic noise never buys a whole unit more.
NOISE = 1e-6
NOT_STOCKED = "not in the stock list"
OLD_PRICE = "the price in the job is that of the one it replaces"


@dataclass(frozen=True)
class Priced:
    """The price of one unit, where it was read, how many are bought, and of what: `piece`, `sq ft`."""

    price: Money | None
    source: str
    quantity: int = 1
    unit: str = "piece"


@dataclass(frozen=True)
class PadLine:
    """What is bought for under a rug: its size as printed, its price, and how it is cut."""

    size: str
    priced: Priced
    cut: str


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
            job,
            "rug",
            lambda s: _is_rug(s, thing),
            thing.name,
            float(thing.width) * float(thing.length),
            working,
        )
    else:
        found = from_stock(job, "piece", lambda s: _is_piece(s, thing), thing.name)
    return Priced(None, OLD_PRICE) if stale and found.source == NOT_STOCKED else found


def from_stock(
    job: Job,
    kind: Literal["rug", "pad", "anchor", "piece"],
    fits: Callable[[Stock], bool],
    name: str | None = None,
    area: float | None = None,
    working: Working | None = None,
) -> Priced:
    """Return the price of the one item of the stock list that fits; of several, the one of the same name.

    An item priced by area is bought in whole units of it.
    """
    known = [s for s in job.stock.values() if s.kind == kind and fits(s)]
    named = [s for s in known if name is not None and s.name == name]
    if len(named) == 1:
        known = named
    if not known:
        return Priced(None, NOT_STOCKED)
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
    return Priced(item.price, "stock list", count, _unit(format_area(float(item.per_area), units)))


def _unit(area: str) -> str:
    """Return what is counted where a thing is sold by the area: `1 sq ft` counts square feet, `4 m²` cuts of it."""
    return area.removeprefix("1 ") if area.startswith("1 ") else f"cut of {area}"


def _same_sides(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return all(abs(x - y) <= SAME for x, y in zip(sorted(a), sorted(b), strict=True))


def _is_rug(stock: Stock, rug: Rug) -> bool:
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


def pad_line(job: Job, rug: Rug, before: Rug | None, practice: Practice, working: Working) -> PadLine:
    """Return what is bought for under a rug.

    The pad wanted is the rug less its inset all round. It is cut from the smallest made size that covers it;
    where the stock list sells it by area, or no made size covers it, it is cut to measure.
    """
    pad, units = rug.pad, job.job.units
    assert pad is not None
    inset, source = pad_inset(pad, practice)
    width, length = sorted((float(rug.width), float(rug.length)))
    wanted = (max(width - 2 * inset, 0.0), max(length - 2 * inset, 0.0))
    text = flat_size(*wanted, rug.shape, units)
    name = flat_size(width, length, rug.shape, units)
    less = f"{name} less 2 × {format_length(inset, units)}"
    working.step("pad wanted", "rug less the inset on each side", less, text, source=source)
    made = _next_made(wanted, rug.shape, practice)
    stale = before is not None and before.pad is not None and before.pad.price == pad.price
    if pad.price is not None and not stale:
        priced, by_area = Priced(pad.price, "job"), False
    else:
        by_area = made is None or not _pads(job, pad, made)
        size = made if made is not None and not by_area else None
        area = wanted[0] * wanted[1]
        priced = from_stock(job, "pad", lambda s: s in _pads(job, pad, size), None, area, working)
        by_area = priced.price is not None and by_area
        if stale and pad.price is not None and priced.source == NOT_STOCKED:
            priced = Priced(None, OLD_PRICE)
    if made is None or by_area:
        return PadLine(text, priced, f"Cut to measure, {text}, once the rug lies.")
    bought = flat_size(*made, rug.shape, units)
    working.step(
        "pad bought", "the smallest made size that covers it", text, bought,
        rounding="up to the next made size, so that it can be cut down; never pieced",
        source="practice rugs.made_sizes",
    )  # fmt: skip
    return PadLine(bought, priced, f"Cut down to {text} once the rug lies.")


def _pads(job: Job, pad: Pad, size: tuple[float, float] | None) -> list[Stock]:
    """Return the pads of the stock list of this thickness: of a made size, or (None) those sold by area."""
    found = []
    for item in job.stock.values():
        thick = item.thickness is None or abs(item.thickness - pad.thickness) <= SAME
        if item.kind != "pad" or not thick:
            continue
        if size is None:
            fits = item.width is None and item.per_area is not None
        else:
            fits = item.width is not None and _same_sides((item.width, item.length or item.width), size)
        if fits:
            found.append(item)
    return found


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
