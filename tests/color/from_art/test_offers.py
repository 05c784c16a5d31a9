"""What each place is offered of a library."""

from __future__ import annotations

import numpy as np
import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art.offers import APART, MOST, offers
from halfdrop.color.lab import lch_of_lab
from halfdrop.color.library import library_of_csv
from halfdrop.practice import load_practice
from tests.color.from_art.rooms import library, living, picture

PRACTICE = load_practice("us")
SWATCHES = library()


def test_open_places_are_offered_and_kept_ones_are_not() -> None:
    """Every place that may change has offers, at most so many, the cheapest first; what stays has none."""
    found = offers(picture(), SWATCHES, living(), "balanced", PRACTICE)
    assert set(found) == {place.key for place in living() if not place.kept}
    for offered in found.values():
        assert 1 <= len(offered) <= MOST
        costs = [offer.cost for offer in offered]
        assert costs == sorted(costs)


def test_no_two_offers_are_doubles_and_large_pieces_have_light_and_dark() -> None:
    """Of four thousand swatches the offers lie apart; a sofa may be pale or dark, and is near neutral either way."""
    offered = offers(picture(), SWATCHES, living(), "quiet", PRACTICE)["pieces/sofa"]
    labs = np.array([SWATCHES.swatches[offer.swatch].lab for offer in offered])
    apart = delta_e(labs[:, None], labs[None]) + np.eye(len(labs)) * 100
    assert apart.min() >= APART
    assert labs[:, 0].min() <= PRACTICE.number("color.dark_to")
    assert labs[:, 0].max() >= 75
    assert np.median(lch_of_lab(labs)[:, 1]) <= PRACTICE.number("color.neutral_to")


def test_what_is_outside_a_role_costs_more() -> None:
    """Of a red and a grey alone, a sofa is offered both, the grey first; a wall of a quiet scheme too."""
    two = library_of_csv("name,srgb\nRed,#d01818\nGrey,#c9c7c2\n")
    found = offers(picture(), two, living(), "quiet", PRACTICE)
    for key in ("pieces/sofa", "surfaces/walls", "surfaces/ceiling"):
        assert [two.swatches[offer.swatch].name for offer in found[key]] == ["Grey", "Red"]


def test_nothing_to_start_from_is_refused() -> None:
    """A picture without colors gives no offers."""
    with pytest.raises(InputError, match="no colors to start from"):
        offers([], SWATCHES, living(), "bold", PRACTICE)
