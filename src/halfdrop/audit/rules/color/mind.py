"""What a change of mind about a loud piece may be expected to cost, told and worked out."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from halfdrop.audit.case import RoomCase
from halfdrop.base.formats import format_money
from halfdrop.base.units import Money
from halfdrop.base.working import Working
from halfdrop.color.change_of_mind import ChangeOfMind, change_of_mind, resale
from halfdrop.color.inventory import Part
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def of_100(price: Money | None) -> float:
    """Return a price as a number; 100 where none is known."""
    return float(price.amount) if price is not None and price.amount > 0 else 100.0


def _printer(price: Money | None) -> Callable[[float], str]:
    """Return how sums are said: in the price's money to whole units, or as so many of each 100 it costs."""
    if price is None or price.amount <= 0:
        return lambda x: f"{x:.0f} of each 100"
    return lambda x: format_money(Money(Decimal(round(x)), price.currency), cents=False)


def said_of(case: RoomCase, part: Part) -> str:
    """Say in one sentence what a loud piece may be expected to cost, against a quiet one and cushions."""
    price = case.room.pieces[part.path.split("/")[3]].model.price
    found, say = change_of_mind(of_100(price), case.practice), _printer(price)
    each = "" if price is not None and price.amount > 0 else ", of each 100 it costs"
    digits = say if not each else lambda x: f"{x:.0f}"
    return (
        f"Over {found.years} years a change of mind may be expected to cost {digits(found.loud)} against "
        f"{digits(found.quiet)} for a quiet one{each}; the same color on cushions and a throw costs {digits(found.accents)}."
    )


def weighed(name: str, found: ChangeOfMind, price: Money | None, practice: Practice) -> Working:
    """Return the working: chance, resale by year, expected cost loud and quiet, and on cushions; every assumption named."""
    say, cite = _printer(price), Words(practice).cited
    work = Working(f"A change of mind about the {name}")
    work.step("price", "as the job has it" if price is not None else "not in the job: told of each 100 it costs", "",
              format_money(price) if price is not None else "100")  # fmt: skip
    loud, quiet = practice.number("color.tire_loud"), practice.number("color.tire_quiet")
    work.step(f"chance of tiring within {found.years} years", "1 − (1 − chance in a year)^years",
              f"loud 1 − {1 - loud:g}^{found.years}; quiet 1 − {1 - quiet:g}^{found.years}",
              f"loud {found.tired[0]:.0%}, quiet {found.tired[1]:.0%}",
              source=cite("color.tire_loud", "color.tire_quiet", "color.mind_horizon"))  # fmt: skip
    years = sorted({1, min(3, found.years), min(5, found.years), found.years})
    less = practice.number("color.resale_loud")
    worth = {y: resale(found.price, y, practice) for y in years}
    work.step("resale by year", "price × first × yearly^(year − 1), less for a loud one",
              "; ".join(f"year {y}: quiet {say(worth[y])}" for y in years),
              "; ".join(f"year {y}: loud {say(less * worth[y])}" for y in years),
              source=cite("color.resale_first", "color.resale_yearly", "color.resale_loud"))  # fmt: skip
    formula = "sum over the years of chance in that year × (price − resale in that year)"
    work.step("expected cost in the loud color", formula,
              f"between {say(found.loses[1])} if it comes late and {say(found.loses[0])}"
              if found.loses[1] < found.loses[0] else f"between {say(found.loses[0])} if it comes early and {say(found.loses[1])}",
              say(found.loud), source="expected value over a geometric waiting time; the second one is taken to stay")  # fmt: skip
    work.step("expected cost in a quiet one", formula, "", say(found.quiet))
    work.step("the same color on cushions and a throw", "share of the price; expected: × chance of tiring, nothing fetched",
              f"{say(found.accents)} × {found.tired[0]:.0%}", f"{say(found.accents)}, expected {say(found.accents_expected)}",
              source=cite("color.accents_cost"))  # fmt: skip
    work.step("the loud piece costs more by", "loud − quiet − cushions expected",
              f"{say(found.loud)} − {say(found.quiet)} − {say(found.accents_expected)}", say(found.more))  # fmt: skip
    return work
