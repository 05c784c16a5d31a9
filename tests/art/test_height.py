"""How high one work hangs, and how wide it is against what is below."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.art import eye_span, hang_above, hang_at_eye, hang_tall, is_tall, width_share
from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from tests.walls.published import rows

US, METRIC = load_practice("us"), load_practice("metric")
IN = 0.0254


def test_the_worked_examples_come_out_to_the_printed_digit() -> None:
    """A 56 × 36 in work 8 in over a sofa has its middle at 60 in and 0.667 of the sofa's width; gallery height is 57 in."""
    sofa, wall = rows("art_height.csv")
    found = hang_above(float(sofa["frame_height"]) * IN, float(sofa["piece_top"]) * IN, US)
    assert found.gap == pytest.approx(float(sofa["gap"]) * IN)
    assert round(found.center / IN, 3) == float(sofa["center"])
    assert found.conflicts == ()
    share = width_share(float(sofa["frame_width"]) * IN, float(sofa["piece_width"]) * IN, US)
    assert round(share.share, 3) == float(sofa["width_ratio"])
    assert share.verdict == "as wanted"
    bare = hang_at_eye(float(wall["frame_height"]) * IN, US)
    assert round(bare.center / IN, 3) == float(wall["center"])
    assert round((bare.top / IN) - float(wall["drop"]), 3) == float(wall["hook"])


@pytest.mark.parametrize(
    ("height", "top", "gap", "center", "said"),
    [
        (30, 34, 8, 57, 0),  # all met at the aim
        (36, 30, 9, 57, 0),  # the gap moves within what is wanted
        (40, 36, 6, 62, 2),  # too high for the eye at the least gap: the gap wins
        (30, 30, 12, 57, 2),  # the gap opens past what is wanted, to meet the eye
        (20, 30, 12, 52, 3),  # and no further than the most
    ],
)
def test_where_gap_and_eye_quarrel_it_is_resolved_and_said(
    height: int, top: int, gap: int, center: int, said: int
) -> None:
    """The gap moves within its span, opens to 12 in, and then the eye's height gives way; each is said."""
    found = hang_above(height * IN, top * IN, US)
    assert found.gap == pytest.approx(gap * IN)
    assert found.center == pytest.approx(center * IN)
    assert len(found.conflicts) == said
    assert (found.heights_that_meet is None) == (said == 0)


def test_the_heights_that_would_meet_both_do() -> None:
    """What is offered instead of a 20 in work over a 30 in sofa meets gap and eye, at both ends of the span."""
    meet = hang_above(20 * IN, 30 * IN, US).heights_that_meet
    assert meet is not None
    for height in meet:
        assert hang_above(height, 30 * IN, US).conflicts == ()
    assert hang_above(meet[0] - 0.002, 30 * IN, US).conflicts != ()
    assert hang_above(meet[1] + 0.002, 30 * IN, US).conflicts != ()


@given(
    st.floats(0.1, 1.5),
    st.floats(0.3, 1.5),
    st.sampled_from(["sofa", "console", "mantel"]),
    st.sampled_from([US, METRIC]),
)
def test_a_work_never_touches_the_piece_and_higher_pieces_lift_it(
    height: float, top: float, below: str, practice: object
) -> None:
    """The gap is between its least and the most; raising the piece never lowers the work; conflicts and misses go together."""
    found = hang_above(height, top, practice, below=below)  # type: ignore[arg-type]
    assert found.gap is not None
    least = practice.length(f"art.gap_{below}_low")  # type: ignore[attr-defined]
    assert least - 1e-9 <= found.gap <= practice.length("art.gap_most") + 1e-9  # type: ignore[attr-defined]
    assert found.bottom == pytest.approx(top + found.gap)
    assert hang_above(height, top + 0.1, practice, below=below).center >= found.center - 1e-9  # type: ignore[arg-type]
    low, high = eye_span(practice)  # type: ignore[arg-type]
    high_gap = practice.length(f"art.gap_{below}_high")  # type: ignore[attr-defined]
    met = low - 1e-8 <= found.center <= high + 1e-8 and found.gap <= high_gap + 1e-8
    assert met == (not found.conflicts)


def test_seated_rooms_hang_lower_and_a_wish_outside_practice_is_said() -> None:
    """Where people sit the middle is 3 in lower; a middle at 66 in is hung, and said to be 6 in above practice."""
    assert hang_at_eye(24 * IN, US, seated=True).center == pytest.approx(54 * IN)
    found = hang_at_eye(24 * IN, US, center=66 * IN)
    assert found.center == pytest.approx(66 * IN)
    assert found.conflicts == ("The middle is at 66 in, 6 in above the 57 in to 60 in of practice.",)


def test_a_tall_work_hangs_by_its_bottom() -> None:
    """From over 60 in a work stands 8 to 18 in over the floor: 72 in at 18 in and its middle at 54 in, which is said."""
    assert not is_tall(60 * IN, US)
    assert is_tall(61 * IN, US)
    found = hang_tall(72 * IN, US)
    assert found.bottom == pytest.approx(18 * IN)
    assert found.center == pytest.approx(54 * IN)
    assert len(found.conflicts) == 1
    assert hang_tall(90 * IN, US).bottom == pytest.approx(12 * IN)


@pytest.mark.parametrize(
    ("width", "verdict"),
    [(41, "too narrow"), (42, "narrow"), (50.4, "as wanted"), (63, "as wanted"), (63.1, "wide")],
)
def test_width_against_an_84_in_sofa(width: float, verdict: str) -> None:
    """Half is the least, 0.6 to 0.75 is wanted; the limits themselves pass."""
    assert width_share(width * IN, 84 * IN, US).verdict == verdict


def test_what_cannot_be_is_refused() -> None:
    """A piece nobody knows, a gap below 0 and a wall without width are faults."""
    with pytest.raises(InputError, match="no gap is known over a `soaf`") as caught:
        hang_above(0.5, 0.8, US, below="soaf")
    assert caught.value.hint == "did you mean `sofa`?"
    with pytest.raises(InputError, match="allowed is 0 or more"):
        hang_above(0.5, 0.8, US, gap=-0.1)
    with pytest.raises(InputError, match="allowed is above 0"):
        width_share(1.0, 0.0, US)
