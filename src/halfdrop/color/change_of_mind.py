"""What a change of mind about a piece's color may be expected to cost."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.practice import Practice


@dataclass(frozen=True)
class ChangeOfMind:
    """Expected costs over the horizon, in the money of the price.

    Attributes
    ----------
    years : int
        The horizon.
    price : float
        Of the piece.
    tired : (float, float)
        Chance that one has tired of it by then: in the loud color, in a quiet one.
    loses : (float, float)
        What a change of mind costs if it comes in the first year and in the last: price less resale, in the loud color.
    loud, quiet : float
        Expected cost of a change of mind in the loud color, and in a quiet one.
    accents, accents_expected : float
        What cushions and a throw in the loud color cost, and what tiring of them may be expected to cost.
    """

    years: int
    price: float
    tired: tuple[float, float]
    loses: tuple[float, float]
    loud: float
    quiet: float
    accents: float
    accents_expected: float

    @property
    def more(self) -> float:
        """What the loud color may be expected to cost more than a quiet piece with loud cushions."""
        return self.loud - self.quiet - self.accents_expected


def change_of_mind(price: float, practice: Practice) -> ChangeOfMind:
    """Return what a change of mind about a piece may be expected to cost.

    In each year one tires of it with one chance, if one has not before. Then it is sold for what it fetches that year and
    bought anew at its price; the second one stays. Cushions and a throw fetch nothing.

    Parameters
    ----------
    price : float
        Of the piece, above 0.
    practice : Practice
        `color.mind_horizon` [years], `color.tire_loud`, `color.tire_quiet`, `color.resale_first`, `color.resale_yearly`,
        `color.resale_loud`, `color.accents_cost`.

    Raises
    ------
    InputError
        Where the price is not above 0.

    Source: expected value over a geometric waiting time, our own model; its values are assumptions.
    Checked by: tests/color/test_change_of_mind.py.
    """
    if not price > 0:
        raise InputError(f"price is {price:g}; allowed is above 0")
    years = int(practice.number("color.mind_horizon"))
    loud, quiet = (float(practice.number(f"color.tire_{how}")) for how in ("loud", "quiet"))
    less = float(practice.number("color.resale_loud"))
    accents = price * float(practice.number("color.accents_cost"))
    return ChangeOfMind(
        years, price,
        (1 - (1 - loud) ** years, 1 - (1 - quiet) ** years),
        (price - less * resale(price, 1, practice), price - less * resale(price, years, practice)),
        sum(chance_in(t, loud) * (price - less * resale(price, t, practice)) for t in range(1, years + 1)),
        sum(chance_in(t, quiet) * (price - resale(price, t, practice)) for t in range(1, years + 1)),
        accents,
        accents * (1 - (1 - loud) ** years),
    )  # fmt: skip


def resale(price: float, year: int, practice: Practice) -> float:
    """Return what a quiet piece fetches in a year, 1 being the first.

    Checked by: tests/color/test_change_of_mind.py.
    """
    first, yearly = (float(practice.number(key)) for key in ("color.resale_first", "color.resale_yearly"))
    return price * first * yearly ** (year - 1)


def chance_in(year: int, chance: float) -> float:
    """Return the chance that one tires in just this year, 1 being the first.

    Checked by: tests/color/test_change_of_mind.py.
    """
    return chance * (1 - chance) ** (year - 1)
