"""Shades at their openings: the smallest width inside, past the opening outside, how far they gather."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.base.errors import InputError
from halfdrop.drapery import Shade, cloth_takeoff, place_of, shade_of
from tests.drapery.homes import US, job, resolved, window
from tests.drapery.tables import IN

TAPED = {"top": "60 in", "middle": "59 13/16 in", "bottom": "59 7/8 in"}


def _shade(**treatment: Any) -> Shade:
    whole = job({"r": {"openings": {"w": window()}, "treatments": {"t": {"openings": "w", **treatment}}}}, {})
    room = resolved(whole)["r"]
    model = room.model.treatments["t"]
    place = place_of(room, model, "rooms/r/treatments/t", "medium", US)
    return shade_of(model, place.run, place.height, US)


def test_a_roman_inside_takes_the_smallest_of_three_widths() -> None:
    """60, 59 13/16 and 59 7/8 in: it is 59 3/4 in wide, rounded down to go in, and as long as to the sill."""
    shade = _shade(kind="roman", mount="inside", measured={"width": TAPED})
    assert (shade.width / IN, shade.length / IN, shade.top / IN) == pytest.approx((59.75, 56, 80))
    assert shade.fits


def test_a_roman_outside_goes_past_the_opening() -> None:
    """2 in past each side and above: 64 in wide, 58 in long."""
    shade = _shade(kind="roman", mount="outside")
    assert (shade.width / IN, shade.length / IN, shade.top / IN) == pytest.approx((64, 58, 82))


def test_a_roller_inside_is_ordered_by_the_opening_and_hangs_narrower() -> None:
    """Ordered 59 3/4 in, its cloth is 1 1/8 in narrower: the maker takes it off, and nobody twice."""
    shade = _shade(kind="roller", mount="inside", measured={"width": TAPED})
    assert (shade.width / IN, shade.cloth / IN) == pytest.approx((59.75, 58.625))
    assert shade.folds == 0


def test_an_opening_out_of_square_takes_no_shade_inside() -> None:
    """60 in above and 59 1/4 in below is 3/4 in out: it does not fit inside."""
    taped = {"top": "60 in", "middle": "60 in", "bottom": "59 1/4 in"}
    assert not _shade(kind="roller", mount="inside", measured={"width": taped}).fits
    assert not _shade(kind="roman", mount="inside", measured={"depth": "1 in"}).fits


def test_raised_it_gathers_less_than_it_hangs() -> None:
    """A roman raised is its flat top and half a fold; a roller its tube."""
    roman, roller = _shade(kind="roman", mount="inside"), _shade(kind="roller", mount="inside")
    assert 0 < roman.stack < roman.length / 3
    assert roller.stack / IN == pytest.approx(3)


def test_a_window_too_small_for_a_fold_is_said() -> None:
    """Eight inches are no roman shade."""
    whole = job(
        {
            "r": {
                "openings": {"w": window(height="8 in")},
                "treatments": {"t": {"openings": "w", "kind": "roman", "mount": "inside"}},
            }
        },
        {},
    )
    room = resolved(whole)["r"]
    place = place_of(room, room.model.treatments["t"], "rooms/r/treatments/t", "medium", US)
    with pytest.raises(InputError, match="no room for a fold"):
        shade_of(room.model.treatments["t"], place.run, place.height, US)


def test_the_take_off_cuts_a_roman_to_its_deduction() -> None:
    """The cloth of a roman inside is cut for the width it comes to, not for the opening's: 61 in long with hem and board."""
    linen = {"name": "linen", "width": "66 in"}
    roman = {
        "openings": "w",
        "kind": "roman",
        "mount": "inside",
        "fabric": "linen",
        "arrives": True,
        "measured": {"width": TAPED},
    }
    whole = job({"r": {"openings": {"w": window()}, "treatments": {"t": roman}}}, {"linen": linen})
    (line,) = cloth_takeoff(whole, resolved(whole), US)["linen"].lines
    assert [piece.length / IN for piece in line.pieces] == pytest.approx([61])
    assert any("59¾" in step.result for step in line.working.steps)
