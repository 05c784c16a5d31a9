"""What a length of cloth costs: to the step of sale, or in whole bolts."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal

from halfdrop.base.money import minor_digits
from halfdrop.base.units import Money
from halfdrop.drapery.cloth import Cloth
from halfdrop.job.treatments import Fabric


def units_of(cloth: Cloth, length: float) -> float:
    """Return how many units of sale a length comes to, the motif placed: yards or meters to the step, or whole bolts.

    Source: our own. Checked by: tests/drapery/test_alter.py.
    """
    if not cloth.unit:
        return float(math.ceil((length + cloth.rules.place) / max(b.length for b in cloth.bolts) - 1e-9))
    step = cloth.rules.step or cloth.unit
    return math.ceil((length + cloth.rules.place) / step - 1e-6) * step / cloth.unit


def price_of_units(fabric: Fabric, units: float) -> Money | None:
    """Return the price of so many units of sale, to the currency's smallest coin; None where the cloth has no price.

    Source: our own. Checked by: tests/drapery/test_alter.py.
    """
    if fabric.price is None:
        return None
    coin = Decimal(1).scaleb(-minor_digits(fabric.price.currency))
    amount = fabric.price.amount * Decimal(str(round(units, 6)))
    return Money(amount.quantize(coin, ROUND_HALF_UP), fabric.price.currency)
