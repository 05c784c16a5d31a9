"""Papers and scales."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drawing.paper import IMPERIAL, METRIC, largest_scale, paper, scale


def test_papers_lie_or_stand() -> None:
    """A paper lies unless it is asked to stand; names are read in any case, with blanks or hyphens."""
    assert (paper("A3").width, paper("A3").height) == (420.0, 297.0)
    assert (paper("a3 portrait").width, paper("a3-portrait").height) == (297.0, 420.0)
    assert paper("Tabloid") == paper("tabloid landscape")
    assert (paper("ARCH C").width, paper("ARCH C").name) == (609.6, "ARCH C")
    assert paper("phone").width < paper("phone").height


def test_an_unknown_paper_gets_a_near_match() -> None:
    """A typing slip is told with the name it was near to."""
    with pytest.raises(InputError) as caught:
        paper("tablod")
    assert "tabloid" in (caught.value.hint or "")


@pytest.mark.parametrize(
    ("text", "ratio"),
    [
        ('1/4" = 1\'-0"', 1 / 48),
        ("1/4 in", 1 / 48),
        ("¼″ = 1′-0″", 1 / 48),
        ("1/8\"=1'", 1 / 96),
        ('1 1/2" = 1\'-0"', 1 / 8),
        ('3/4" = 1\'-0"', 1 / 16),
        ('1" = 1\'-0"', 1 / 12),
        ("1:50", 1 / 50),
        ("1 : 20", 1 / 20),
        ("1:75", 1 / 75),
    ],
)
def test_scales_are_read_as_the_trade_writes_them(text: str, ratio: float) -> None:
    """Inches to the foot and plain ratios are both read."""
    assert scale(text).ratio == pytest.approx(ratio)


@pytest.mark.parametrize("known", [*IMPERIAL, *METRIC])
def test_a_scales_name_is_read_back(known: object) -> None:
    """What a sheet prints in its strip can be typed again."""
    assert scale(known.name) == known  # type: ignore[attr-defined]


@pytest.mark.parametrize("text", ["", "1:0", "2:1", '1/0" = 1\'-0"', "1:5000", "quarter", "0\" = 1'"])
def test_what_is_no_scale_is_told(text: str) -> None:
    """Nonsense is refused with an example."""
    with pytest.raises(InputError) as caught:
        scale(text)
    assert "1:50" in (caught.value.hint or "")


@given(st.floats(1, 12), st.floats(1, 12), st.sampled_from(["imperial", "metric"]))
def test_the_scale_fits_and_the_next_larger_does_not(width: float, height: float, units: str) -> None:
    """The scale chosen is the largest standard one that fits the space."""
    chosen = largest_scale((width, height), (270, 200), units)  # type: ignore[arg-type]
    assert width * 1000 * chosen.ratio <= 270 + 1e-6
    assert height * 1000 * chosen.ratio <= 200 + 1e-6
    family = IMPERIAL if units == "imperial" else METRIC
    larger = [s for s in family if s.ratio > chosen.ratio]
    assert all(width * 1000 * s.ratio > 270 or height * 1000 * s.ratio > 200 for s in larger)


def test_a_room_too_large_is_told() -> None:
    """A hall of 400 m does not fit a letter sheet at any scale, and the hint names a larger paper."""
    with pytest.raises(InputError, match="does not fit") as caught:
        largest_scale((400.0, 30.0), (180, 140), "imperial")
    assert "--paper" in (caught.value.hint or "")
