"""The rod that a remedy buys: from the job's stock where one is long enough."""

from __future__ import annotations

import math

from halfdrop.audit.case import RoomCase
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.base.units import Money
from halfdrop.job.model import Stock


def rod_of(case: RoomCase, length: float) -> Stock | None:
    """Return the cheapest rod of the stock that reaches a length [m]; those without a price last."""
    fits = [
        (math.inf if item.price is None else float(item.price.amount), key, item)
        for key, item in sorted(case.job.stock.items())
        if item.kind == "rod"
        and item.length is not None
        and at_least(float(item.length), length)
        and (item.shortest is None or at_most(float(item.shortest), length))
    ]
    return min(fits, key=lambda f: f[:2])[2] if fits else None


def rod_price(case: RoomCase, kind: str, length: float) -> tuple[Money | None, tuple[str, ...]]:
    """Return what a rod of a length [m] costs, or what stands on the list without a price."""
    rod = rod_of(case, length)
    if rod is not None and rod.price is not None:
        return rod.price, ()
    return None, (f"{rod.name if rod else kind}, {case.say(length, 'up')}",)
