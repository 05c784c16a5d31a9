"""Brackets by span and by load, and the weight they carry."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.drapery import Layer, brackets_for, weigh
from halfdrop.drapery.weight import cloth_weight
from tests.drapery.tables import IN, METRIC, US


def test_cloth_is_weighed_layer_by_layer() -> None:
    """10 m² of 300 g/m² and 10 m² of lining at 130: 4.3 kg, 430 g/m² together."""
    weight = weigh([Layer("face", 10.0, 0.3), Layer("lining", 10.0, cloth_weight("lining", METRIC))], METRIC)
    assert weight.mass == pytest.approx(4.3)
    assert weight.per_area == pytest.approx(0.43)
    assert weight.working.steps[0].values == "10 m² × 300 g/m²"
    assert weight.working.steps[-1].result == "4.3 kg"


def test_a_light_rod_is_held_by_its_span() -> None:
    """A 91 in rod has 87 in between its outer brackets: two spans of 48 in, so three brackets, evenly."""
    answer = brackets_for(91 * IN, 4.0, 0.3, US, inset=2 * IN)
    assert [x / IN for x in answer.at] == pytest.approx([2, 45.5, 89])
    assert answer.holds


def test_heavy_cloth_has_closer_brackets() -> None:
    """From 450 g/m² spans are 36 in: four brackets on the same rod."""
    assert len(brackets_for(91 * IN, 4.0, 0.45, US, inset=2 * IN).at) == 4


def test_drawn_back_the_ends_carry_most() -> None:
    """24 kg in two stacks of 15½ in puts 12 kg on each end bracket; where 10 are allowed, more brackets share the stack."""
    shut = brackets_for(91 * IN, 24.0, 0.4, US)
    back = brackets_for(91 * IN, 24.0, 0.4, US, stacks=(15.5 * IN, 15.5 * IN))
    assert len(back.at) > len(shut.at)
    assert back.holds
    strong = brackets_for(91 * IN, 24.0, 0.4, US, stacks=(15.5 * IN, 15.5 * IN), capacity=15.0)
    assert strong.load == pytest.approx(12.0)
    assert len(strong.at) == 3


def test_too_great_a_load_is_told() -> None:
    """A ton of cloth hangs from no such brackets: those of the spans are named, and that they do not hold."""
    answer = brackets_for(2.0, 1000.0, 0.4, US)
    assert not answer.holds
    assert len(answer.at) == 3
    assert answer.working.steps[1].result.endswith("too much")


def test_a_bent_rod_is_held_to_each_side_of_its_bends() -> None:
    """A bay of 30, 60 and 30 in: supports 4 in to each side of both corners, the middle wall's 52 in in two spans of 26."""
    answer = brackets_for(120 * IN, 4.0, 0.3, US, inset=2 * IN, bends=(30 * IN, 90 * IN))
    assert [x / IN for x in answer.at] == pytest.approx([2, 26, 34, 60, 86, 94, 118])
    assert "each side of a bend" in answer.working.steps[0].formula


def test_a_leg_too_short_for_two_supports_has_one() -> None:
    """A wall of 8 in between two corners is held once, in its middle; a first leg of 5 in by its end alone."""
    between = brackets_for(80 * IN, 4.0, 0.3, US, inset=2 * IN, bends=(36 * IN, 44 * IN))
    assert [x / IN for x in between.at] == pytest.approx([2, 32, 40, 48, 78])
    first = brackets_for(80 * IN, 4.0, 0.3, US, inset=2 * IN, bends=(5 * IN,))
    assert first.at[0] == pytest.approx(2 * IN)
    assert first.at[1] == pytest.approx(9 * IN)


@given(st.floats(2, 8), st.lists(st.floats(0.02, 0.98), max_size=4), st.floats(0.5, 60), st.floats(0.05, 0.8))
def test_on_any_bent_rod_spans_and_loads_are_kept(
    rod: float, shares: list[float], mass: float, per_area: float
) -> None:
    """Wherever a rod bends: brackets in order and on it, no span wider than practice, and each side of a bend held near by."""
    bends = sorted(share * rod for share in shares)
    answer = brackets_for(rod, mass, per_area, US, capacity=20.0, bends=bends)
    most = US.length("drapery.bracket_spacing_wide" if per_area >= 0.45 else "drapery.bracket_spacing")
    assert list(answer.at) == sorted(answer.at)
    assert 0 < answer.at[0] <= 0.05 + 1e-9
    assert rod - 0.05 - 1e-9 <= answer.at[-1] < rod
    assert answer.span <= most + 1e-9
    for bend in bends:
        assert min(abs(x - bend) for x in answer.at) <= 8 * IN


@given(st.floats(0.5, 8), st.floats(0.5, 60), st.floats(0.05, 0.8), st.floats(0, 0.4), st.floats(0, 0.4))
def test_no_span_and_no_load_is_more_than_allowed(
    rod: float, mass: float, per_area: float, left: float, right: float
) -> None:
    """Whatever hangs: spans within practice, loads within what one bracket may carry, both ends held, and all of the mass."""
    answer = brackets_for(rod, mass, per_area, US, stacks=(left, right), capacity=20.0)
    most = US.length("drapery.bracket_spacing_wide" if per_area >= 0.45 else "drapery.bracket_spacing")
    assert answer.span <= most + 1e-9
    assert answer.holds == (answer.load <= 20.0 + 1e-9)
    assert answer.holds or mass > 20
    assert answer.load * len(answer.at) >= mass - 1e-9
    assert answer.at[0] == pytest.approx(0.05)
    assert answer.at[-1] == pytest.approx(rod - 0.05)
