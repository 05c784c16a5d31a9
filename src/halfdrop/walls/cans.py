"""The cheapest cans that hold enough: exact, by dynamic programming over what is still wanted."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from heapq import heappop, heappush

from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_money
from halfdrop.base.units import Money
from halfdrop.base.volume import Volume
from halfdrop.base.working import Working
from halfdrop.practice.words import Words

#: Steps a cubic metre: gallons, quarts and litres are whole steps. What is short by less than 0.01 mL is not short.
_SCALE = 10**12
_NOISE = 10**4
#: More cans than this of one paint are an order to a maker, not a shopping list.
MOST = 400


@dataclass(frozen=True)
class CanSize:
    """A can that can be bought: its name, what it holds [m³], what it costs."""

    id: str
    size: Volume
    price: Money | None = None


@dataclass(frozen=True)
class CansAnswer:
    """Cans to buy.

    Attributes
    ----------
    cans : tuple of (CanSize, int)
        How many of each, the largest first; none of size 0.
    volume : float
        What they hold together [m³].
    cost : Money or None
        None where no can has a price.
    by : {"price", "volume"}
        What was made least: the price, or where no can has one the volume bought.
    """

    cans: tuple[tuple[CanSize, int], ...]
    volume: float
    cost: Money | None
    by: str
    working: Working


_Cost = tuple[Decimal, int, int]  # price, steps bought, cans: compared in this order


def cheapest_cans(wanted: float, sizes: Sequence[CanSize], say: Words, *, what: str = "paint") -> CansAnswer:
    """Return the cans that hold a volume at the least price.

    Where prices tie, the least left over, then the fewest cans. Where some cans have no price only the priced ones
    are bought; where none has, the least volume, then the fewest cans.

    Parameters
    ----------
    wanted : float
        0 or more [m³].
    sizes : sequence of CanSize
        Each above 0.
    say : Words
        For the working.

    Raises
    ------
    InputError
        Where there is no size, prices are in several currencies, or more than 400 of the smallest can would be needed.

    Source: exact; computed here.

    Checked by: tests/walls/test_cans.py.
    """
    working = Working("Cans")
    if wanted <= 0:
        return CansAnswer((), 0.0, None, "volume", working)
    priced = [can for can in sizes if can.price is not None]
    pool = sorted(priced or sizes, key=lambda can: (-can.size, can.id))
    if not pool:
        raise InputError(f"{what} has no can sizes", hint="give it `cans`, each with its `size`")
    currencies = sorted({can.price.currency for can in priced if can.price is not None})
    if len(currencies) > 1:
        raise InputError(
            f"the cans of {what} are priced in {' and '.join(currencies)}", hint="give them in one currency"
        )
    steps = {can.id: round(can.size * _SCALE) for can in pool}
    need = math.ceil(wanted * _SCALE) - _NOISE
    if need > MOST * min(steps.values()):
        raise InputError(
            f"{say.volume(wanted)} of {what} would take more than {MOST} of the smallest can, {pool[-1].size.text}",
            hint="give it larger cans",
        )
    counts = _least(need, pool, steps)
    bought = tuple((can, counts[can.id]) for can in pool if counts.get(can.id))
    volume = sum(float(can.size) * n for can, n in bought)
    cost = None
    if priced:
        amount = sum((can.price.amount * n for can, n in bought if can.price is not None), Decimal(0))
        cost = Money(amount, currencies[0])
    listed = ", ".join(f"{c.size.text}" + (f" at {format_money(c.price)}" if c.price else "") for c in pool)
    working.step(
        "cans", "least price, then least left over" if priced else "least volume, then fewest cans",
        f"{say.volume(wanted)} from {listed}",
        " + ".join(f"{n} × {can.size.text}" for can, n in bought) + (f", {format_money(cost)}" if cost else ""),
        rounding="up to whole cans", source="exact; computed here",
    )  # fmt: skip
    return CansAnswer(bought, volume, cost, "price" if priced else "volume", working)


def _least(need: int, pool: Sequence[CanSize], steps: Mapping[str, int]) -> dict[str, int]:
    """Return how many of each can; labels are what is bought so far, least cost first to be settled."""
    best: dict[int, tuple[_Cost, int, str]] = {0: ((Decimal(0), 0, 0), -1, "")}
    waiting = [0]
    goal: tuple[_Cost, int] | None = None
    while waiting:
        have = heappop(waiting)
        cost = best[have][0]
        if have >= need:
            if goal is None or cost < goal[0]:
                goal = cost, have
            continue
        for can in pool:
            after = have + steps[can.id]
            price = can.price.amount if can.price is not None else Decimal(0)
            paid = (cost[0] + price, after, cost[2] + 1)
            if after not in best:
                heappush(waiting, after)
            elif best[after][0] <= paid:
                continue
            best[after] = (paid, have, can.id)
    counts: dict[str, int] = {}
    at = goal[1] if goal is not None else 0
    while at:
        _, before, name = best[at]
        counts[name] = counts.get(name, 0) + 1
        at = before
    return counts
