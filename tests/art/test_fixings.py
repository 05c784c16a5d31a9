"""Fixings, mass, cable zones and cautions."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.art import (
    HookPoint,
    Rect,
    built_up,
    fixings_for,
    framed_all_in,
    hanging_cautions,
    in_cable_zone,
    sheet_per_area,
    working_load,
    zone_notes,
)
from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from tests.walls.published import rows

US, METRIC = load_practice("us"), load_practice("metric")
IN, LB, FT = 0.0254, 0.45359237, 0.3048


@pytest.mark.parametrize("row", rows("art_fixings.csv"), ids=lambda row: row["key"])
def test_loads_are_the_least_of_what_is_published(row: dict[str, str]) -> None:
    """The inch set holds the least published load to the pound; the metric set never lets a fixing carry more than that."""
    least = float(row["least_lb"]) * LB
    assert US.mass(row["key"]) == pytest.approx(least)
    assert METRIC.mass(row["key"]) <= least + 1e-9
    assert METRIC.mass(row["key"]) <= float(row["most_kg"])


@pytest.mark.parametrize("row", rows("art_mass.csv"), ids=lambda row: row["case"])
def test_masses_come_out_to_the_printed_digit(row: dict[str, str]) -> None:
    """2.5 mm glass is 6.25 kg/m² or 1.28 lb/sq ft; so for acrylic, mirror and framed prints."""
    if row["thick_mm"]:
        found = sheet_per_area(row["case"], US, float(row["thick_mm"]) / 1000)
        assert sheet_per_area(row["case"], US) == pytest.approx(found)
    else:
        answer = framed_all_in(1.0, 1.0, US)
        found = answer.least if row["case"] == "framed least" else answer.mass
    digits = len(row["lb_ft2"].partition(".")[2])
    assert found == pytest.approx(float(row["kg_m2"]))
    assert f"{found / LB * FT**2:.{digits}f}" == row["lb_ft2"]


def test_a_mass_from_its_parts_adds_up() -> None:
    """A 0.6 × 0.8 m print under 2.5 mm glass: frame 1.13 kg, glass 3 kg, backing 1.44 kg; within the all-in span."""
    found = built_up(0.6, 0.8, US, glazing="glass")
    frame = (0.48 - 0.54 * 0.74) * 0.02 * 700
    assert found.mass == pytest.approx(frame + 0.48 * 6.25 + 0.48 * 3)
    span = framed_all_in(0.6, 0.8, US)
    assert span.least <= found.mass <= span.mass
    assert built_up(0.6, 0.8, US, glazing="mirror").mass > found.mass
    assert built_up(0.6, 0.8, US, glazing="none").mass < built_up(0.6, 0.8, US, glazing="acrylic").mass
    with pytest.raises(InputError, match="does not go round"):
        built_up(0.05, 0.8, US)
    with pytest.raises(InputError, match="no glazing is called `glas`"):
        built_up(0.6, 0.8, US, glazing="glas")


def test_the_safety_factor_depends_on_what_the_figure_is() -> None:
    """A hook printed 50 lb carries 25 lb; a fixing that fails at 100 lb carries 25 lb; a working load is what it is."""
    assert working_load(50.0, "printed", US) == 25.0
    assert working_load(100.0, "ultimate", US) == 25.0
    assert working_load(25.0, "working", US) == 25.0
    answer = fixings_for(20 * LB, "stud", US, rated=(50 * LB, "printed"))
    assert answer.choice is not None
    assert answer.choice.factor == pytest.approx(1.25)
    assert answer.choice.said == "1.2"
    assert fixings_for(26 * LB, "stud", US, rated=(50 * LB, "printed")).choice is None


def test_the_lightest_that_holds_is_chosen_and_a_pound_more_takes_the_next() -> None:
    """In plasterboard 12 lb goes on a threaded anchor, a little more on a 30 lb hook; 51 lb on nothing, which is said."""
    at = fixings_for(12 * LB, "plasterboard", US).choice
    over = fixings_for(12.1 * LB, "plasterboard", US).choice
    assert at is not None
    assert over is not None
    assert (at.name, over.name) == ("self-drilling threaded anchor", "picture hook printed 30 lb")
    none = fixings_for(51 * LB, "plasterboard", US)
    assert none.choice is None
    assert none.notes[0].startswith(
        "One hook pulls with 51 lb; a fixing in plasterboard carries 50 lb at most."
    )
    assert fixings_for(51 * LB, "plasterboard", US, pull=0.5).choice is not None


def test_over_people_each_fixing_carries_the_whole() -> None:
    """Two hooks with half the pull each, over a bed: each is chosen for all of it."""
    assert fixings_for(10.0, "brick", US, pull=0.5).load == pytest.approx(5.0)
    assert fixings_for(10.0, "brick", US, pull=0.5, over_people=True).load == pytest.approx(10.0)


def test_old_plaster_and_tile_take_no_hammered_hook() -> None:
    """No picture hook is offered in plaster on lath, brick or tile."""
    for wall in ("plaster on lath", "brick", "tile"):
        assert not any("picture hook" in f.name for f in fixings_for(1.0, wall, US).all)
    with pytest.raises(InputError, match="no wall is called `brik`"):
        fixings_for(1.0, "brik", US)
    with pytest.raises(InputError, match="allowed is above 0"):
        fixings_for(0.0, "brick", US)


@given(st.floats(0.1, 60.0), st.floats(0.0, 20.0), st.sampled_from(["plasterboard", "stud", "brick", "tile"]))
def test_more_mass_never_takes_a_weaker_fixing(mass: float, more: float, wall: str) -> None:
    """The choice grows with the mass, and what is chosen carries it."""
    light, heavy = fixings_for(mass, wall, US), fixings_for(mass + more, wall, US)
    if heavy.choice is None:
        return
    assert light.choice is not None
    assert light.choice.working <= heavy.choice.working
    assert heavy.choice.working >= heavy.load - 1e-9


def test_cable_zones_run_up_down_and_across() -> None:
    """A hook 6 in beside the line of a switch is clear; a millimeter nearer, or on its level, it is not."""
    plate = Rect.about((1.0, 1.2), 0.07, 0.12)
    edge = 1.0 + 0.035 + 6 * IN
    assert not in_cable_zone(edge, 1.8, plate, US)
    assert in_cable_zone(edge - 0.001, 1.8, plate, US)
    assert in_cable_zone(2.0, 1.2, plate, US)
    assert len(zone_notes((HookPoint("a", 1.0, 1.8), HookPoint("b", 2.0, 1.8)), [("switch", plate)], US)) == 1


def test_cautions_say_the_weight_the_drill_and_the_sleeper() -> None:
    """Weight on a wall and drilling are always said; glass and beds where they are; estimated masses as such."""
    plain = hanging_cautions(5.0, METRIC)
    assert plain[0].startswith("Weight on a wall: 5 kg ")
    assert any(c.startswith("Drilling: ") for c in plain)
    assert not any("cot" in c or c.startswith("Mirrors") for c in plain)
    full = hanging_cautions(5.0, METRIC, below="cot", glass=True, estimated=True)
    assert "The mass is estimated" in full[0]
    assert any("nothing at all within reach of a cot" in c for c in full)
    assert any(c.startswith("Mirrors and glass: ") for c in full)
