"""The choice of colors: the least cost there is, told with its bound."""

from __future__ import annotations

from itertools import product

import pytest

from halfdrop.color.from_art import STYLES, Style
from halfdrop.color.from_art.offers import offers
from halfdrop.color.from_art.program import choose
from halfdrop.practice import load_practice
from tests.color.from_art.rooms import library, living, picture

PRACTICE = load_practice("us")


@pytest.mark.parametrize("style", STYLES)
def test_it_is_the_least_of_every_choice(style: Style) -> None:
    """In a room of four open places with three offers each, no one of the 81 choices costs less."""
    places = [p for p in living() if p.key.split("/")[1] in ("walls", "floor", "sofa", "pair", "four")]
    swatches = library(600)
    few = {key: found[:3] for key, found in offers(picture(), swatches, places, style, PRACTICE).items()}
    chosen = choose(places, few, picture(), swatches, PRACTICE)
    assert chosen is not None
    assert chosen.gap == 0
    costs = []
    for one in product(*few.values()):
        fixed = {key: [offer] for key, offer in zip(few, one, strict=True)}
        made = choose(places, fixed, picture(), swatches, PRACTICE)
        assert made is not None
        costs.append(made.cost)
    # a choice alone has no swatch that stays unused, so families are of fewer colors: never dearer than in the whole program
    assert min(costs) <= chosen.cost + 1e-6
    fixed = {key: [offer] for key, offer in chosen.offers.items()}
    alone = choose(places, fixed, picture(), swatches, PRACTICE)
    assert alone is not None
    assert alone.cost == pytest.approx(min(costs), abs=25)


def test_a_choice_differs_from_the_one_before() -> None:
    """Told of an earlier choice, the program changes another family on a quarter of what is open, at least."""
    from halfdrop.color.ciede2000 import delta_e

    places, swatches = living(), library()
    offered = offers(picture(), swatches, places, "balanced", PRACTICE)
    first = choose(places, offered, picture(), swatches, PRACTICE)
    assert first is not None
    before = {key: swatches.swatches[offer.swatch].lab for key, offer in first.offers.items()}
    second = choose(places, offered, picture(), swatches, PRACTICE, before=[before])
    assert second is not None
    area = {place.key: place.area for place in places}
    apart = [
        area[key]
        for key, offer in second.offers.items()
        if delta_e(before[key], swatches.swatches[offer.swatch].lab) >= PRACTICE.number("color.family_apart")
    ]
    wanted = float(PRACTICE.number("color.scheme_apart"))
    assert sum(apart) >= wanted * sum(area[key] for key in before) * 0.99
