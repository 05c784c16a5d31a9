"""A kept rug over a larger base."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.practice import load_practice
from halfdrop.rugs import Box, layer_base

US, METRIC = load_practice("us"), load_practice("metric")
IN = 0.0254


def _kept(width: float, length: float) -> Box:
    return Box.sized(width * IN, length * IN)


@pytest.mark.parametrize(
    ("kept", "base", "margins", "share"),
    [
        ((60, 96), "8 × 10 ft", (18, 12), 0.5),
        ((72, 108), "9 × 12 ft", (18, 18), 0.5),
        ((96, 120), "10 × 14 ft", (12, 24), 4 / 7),
    ],
)
def test_the_base_is_computed(
    kept: tuple[int, int], base: str, margins: tuple[int, int], share: float
) -> None:
    """A 5 × 8 lies over an 8 × 10, a 6 × 9 over a 9 × 12, an 8 × 10 over a 10 × 14."""
    answer = layer_base(_kept(*kept), US)
    assert answer.base is not None
    assert answer.base.size.name("imperial") == base
    assert answer.margins == pytest.approx((margins[0] * IN, margins[1] * IN))
    assert answer.share == pytest.approx(share)
    assert answer.working.steps[-1].result.startswith(f"{base}, plain, natural fiber; ")


def test_no_made_size_does_it_and_it_says_why() -> None:
    """A 4 × 6 shows too little over a 5 × 8 and is too small a share of a 6 × 9."""
    answer = layer_base(_kept(48, 72), US)
    assert answer.base is None
    assert answer.limited == (
        "5 × 8 ft lying 60 in × 96 in: 6 in shows at the sides, wanted at least 10 in",
        "6 × 9 ft lying 72 in × 108 in: the kept rug is 0.44 of it, wanted at least 0.5",
    )


def test_the_largest_rug_has_no_base() -> None:
    """Nothing is made that is larger than a 12 × 15 on all sides."""
    assert layer_base(_kept(144, 180), US).limited == (
        "no made size is larger than the kept rug on all sides",
    )


def test_the_base_has_to_do_the_job() -> None:
    """A base that does not reach the legs is refused; where the kept rug may move, it reaches."""
    legs = Box(-55 * IN, -50 * IN, 40 * IN, 50 * IN)
    assert layer_base(_kept(60, 96), US, needed=legs, movable=False).base is None
    moved = layer_base(_kept(60, 96), US, needed=legs)
    assert moved.lies is not None
    assert moved.top is not None
    assert moved.lies.covers(legs)
    assert moved.top.center == pytest.approx(moved.lies.center)
    assert layer_base(_kept(60, 96), US, needed=Box.sized(3.0, 3.0)).base is None


def test_the_base_keeps_the_bare_floor() -> None:
    """A room that has no place for the 8 × 10 has none for the layer."""
    assert layer_base(_kept(60, 96), US, room=_kept(95, 119)).base is None
    assert layer_base(_kept(60, 96), US, room=_kept(96, 120)).base is not None
    assert layer_base(_kept(60, 96), US, room=_kept(96, 119), movable=False).base is None


def test_the_share_decides_by_a_hundredth() -> None:
    """A 5 × 8 is half of an 8 × 10; with 0.51 wanted at least it no longer does."""
    assert layer_base(_kept(60, 96), US.shifted("rugs.layer_share_min", 0.01)).base is None


def test_the_margin_decides_by_a_millimeter() -> None:
    """12 in shows at the ends of the 8 × 10; with a millimeter more wanted it no longer does."""
    at_limit = US.shifted("rugs.layer_margin_min", 2 * IN)
    assert layer_base(_kept(60, 96), at_limit).base is not None
    assert layer_base(_kept(60, 96), at_limit.shifted("rugs.layer_margin_min", 0.001)).base is None


def test_a_round_rug_counts_by_its_circle() -> None:
    """A 6 ft round rug is 28 sq ft: over half of a 6 × 9, but it shows nothing at the sides; so none does."""
    assert layer_base(_kept(72, 72), US, shape="round").base is None
    assert layer_base(_kept(96, 96), US, shape="round").base is None


@given(st.floats(0.5, 4.0), st.floats(0.5, 5.0), st.sampled_from([US, METRIC]))
def test_every_base_offered_keeps_share_and_margins(width: float, length: float, practice: object) -> None:
    """Whatever is kept: a base that is offered shows enough and not too much of itself."""
    top = Box.sized(width, length)
    answer = layer_base(top, practice)  # type: ignore[arg-type]
    if answer.base is None:
        assert answer.limited
        return
    assert answer.share is not None
    assert answer.margins is not None
    assert answer.lies is not None
    assert 0.5 - 1e-9 <= answer.share <= 0.67 + 1e-9
    assert all(0.25 - 1e-6 <= m <= 0.6096 + 1e-6 for m in answer.margins)
    assert answer.lies.covers(top)
