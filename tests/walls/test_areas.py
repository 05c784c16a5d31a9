"""Wall and ceiling areas, and openings off them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.practice import load_practice
from halfdrop.walls import Face, Hole, ceiling_area, flat_deductions, wall_areas

US = load_practice("us")
FT = 0.3048


def _hole(kind: str, start: float, width: float, bottom: float, height: float) -> Hole:
    return Hole(f"rooms/r/openings/{kind}-{start:g}", kind, start, start + width, bottom, bottom + height)


def test_two_windows_and_a_door_take_off_forty_one_and_a_half() -> None:
    """Example 10: two windows of 4 by 3 ft and a door of 2.5 by 7 ft are 41.5 sq ft. Source: paint page, common practice."""
    holes = (
        _hole("window", 0.5 * FT, 4 * FT, 3 * FT, 3 * FT),
        _hole("window", 5 * FT, 4 * FT, 3 * FT, 3 * FT),
        _hole("door", 9.2 * FT, 2.5 * FT, 0, 7 * FT),
    )
    answer = wall_areas([Face("AB", 12 * FT, 8 * FT, 8 * FT, holes)], US)
    assert (answer.gross - answer.net) / FT**2 == pytest.approx(41.5)
    said = [step.result for step in answer.working.steps if step.what.startswith("less")]
    assert said == ["−12 sq ft", "−12 sq ft", "−17.5 sq ft"]
    assert answer.working.steps[-1].values == "96 sq ft − 41.5 sq ft"


def test_the_flat_rule_differs_from_the_tape() -> None:
    """One door at 20 and two windows at 15 sq ft are 50, where the tape says 41.5."""
    area, working = flat_deductions(1, 2, US)
    assert area / FT**2 == pytest.approx(50)
    assert "walls.door_deduction" in working.steps[0].source


def test_a_sloping_wall_counts_by_its_mean_height() -> None:
    """8 ft at one end and 10 ft at the other over 12 ft: 108 sq ft."""
    assert wall_areas([Face("AB", 12 * FT, 8 * FT, 10 * FT)], US).gross / FT**2 == pytest.approx(108)


def test_a_band_takes_off_only_what_lies_in_it() -> None:
    """A dado 3 ft high: a window from 2 ft up takes 1 ft off it, a window from 3 ft up nothing."""
    low, high = (
        _hole("window", 1 * FT, 4 * FT, 2 * FT, 3 * FT),
        _hole("window", 6 * FT, 4 * FT, 3 * FT, 3 * FT),
    )
    answer = wall_areas([Face("AB", 12 * FT, 8 * FT, 8 * FT, (low, high))], US, top=3 * FT)
    assert answer.net / FT**2 == pytest.approx(36 - 4)
    assert [path for path, _ in answer.walls[0].deductions] == [low.path]


def test_a_sloping_ceiling_is_larger_than_its_floor() -> None:
    """A rise of 3 in 4 makes 20 m² of floor 25 m² of ceiling; a level one stays 20."""
    assert ceiling_area(20, US, rise=0.75)[0] == pytest.approx(25)
    assert ceiling_area(20, US)[0] == 20


@given(
    st.floats(1, 10),
    st.floats(2, 4),
    st.floats(0, 1),
    st.floats(0.2, 0.9),
    st.floats(0, 1.5),
    st.floats(0.3, 1),
)
def test_bands_add_up_to_the_wall(
    length: float, height: float, split: float, wide: float, sill: float, tall: float
) -> None:
    """Painted below and papered above a rail, the two nets are the net of the whole wall."""
    hole = _hole("window", 0.05 * length, wide * length, sill, min(tall, height - sill))
    face = Face("AB", length, height, height, (hole,))
    rail = max(split * height, 0.01)
    low, high = wall_areas([face], US, top=rail).net, wall_areas([face], US, bottom=rail).net
    assert math.isclose(low + high, wall_areas([face], US).net, rel_tol=1e-9, abs_tol=1e-9)
