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
