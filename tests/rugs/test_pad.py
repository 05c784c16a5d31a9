"""Pads."""

from __future__ import annotations

import pytest

from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from halfdrop.rugs import pad_for

US = load_practice("us")
IN = 0.0254


def test_a_pad_is_an_inch_smaller_all_round() -> None:
    """Under a 96 by 120 in rug lies a 94 by 118 in pad."""
    pad = pad_for(96 * IN, 120 * IN, US)
    assert (pad.width, pad.length) == pytest.approx((94 * IN, 118 * IN))
    assert pad.working.steps[0].values == "96 in × 120 in − 2 × 1 in"


@pytest.mark.parametrize(
    ("pile", "undercut", "thickness", "kind", "short"),
    [
        (0.5, None, 0.25, "felt", 0),
        (0.25, None, 0.125, "grip", 0),
        (0.5, 1.25, 0.25, "felt", 0),
        (0.5, 1.24, 0.125, "grip", 0),
        (0.5, 1.125, 0.125, "grip", 0),
        (0.5, 1.0, 0.125, "grip", 0.125),
    ],
)
def test_pile_and_door_decide_the_thickness(
    pile: float, undercut: float | None, thickness: float, kind: str, short: float
) -> None:
    """Felt under pile, grip under a flat weave or a low door; a door too low for both is told in full."""
    pad = pad_for(96 * IN, 120 * IN, US, pile=pile * IN, undercut=undercut and undercut * IN)
    assert pad.thickness == pytest.approx(thickness * IN)
    assert pad.kind == kind
    assert pad.door_short == pytest.approx(short * IN)


def test_the_door_that_is_too_low_is_in_the_working() -> None:
    """An undercut of 1 in leaves no room over a half inch pile: the door is ⅛ in short."""
    pad = pad_for(96 * IN, 120 * IN, US, pile=0.5 * IN, undercut=1 * IN)
    assert pad.working.steps[-1].values == "1 in − ½ in − ½ in"
    assert pad.working.steps[-1].result == "0 in: the door is ⅛ in short"


def test_pile_not_given_is_taken_from_practice() -> None:
    """Without a pile the rug counts as 3/8 in thick, so it takes felt; a house may say otherwise."""
    assert pad_for(2, 3, US).kind == "felt"
    assert pad_for(2, 3, load_practice("us", {"rugs.pile_default": "1/8 in"})).kind == "grip"


def test_a_mat_smaller_than_its_insets_takes_no_pad() -> None:
    """Nothing is left of the pad."""
    with pytest.raises(InputError, match="takes no pad 1 in smaller on each side"):
        pad_for(2 * IN, 20 * IN, US)
