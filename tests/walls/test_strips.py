"""Strips: the trade's formula to the printed digit, and what it promises."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from halfdrop.walls import area_method, strip_method, strips_round
from tests.walls.published import rows

US, METRIC = load_practice("us"), load_practice("metric")
IN, FT = 0.0254, 0.3048


@pytest.mark.parametrize("row", rows("walls_strips.csv"), ids=lambda r: r["case"])
def test_the_published_strips_come_out(row: dict[str, str]) -> None:
    """Strips, cut, strips a roll and rolls of each worked example, to the printed digit."""
    unit = IN if row["unit"] == "in" else 1.0
    match: Any = row["match"]
    answer = strip_method(
        float(row["run"]) * unit,
        float(row["height"]) * unit,
        (float(row["roll_width"]) * unit, float(row["roll_length"]) * unit),
        US if unit == IN else METRIC,
        match=match,
        repeat=float(row["repeat"]) * unit,
        trim=float(row["trim"]) * unit,
    )
    assert answer.strips == int(row["strips"])
    assert answer.cut.length / unit == pytest.approx(float(row["cut"]), abs=1e-9)
    assert answer.per_roll == int(row["per_roll"])
    assert answer.rolls == int(row["rolls"])


def test_the_half_step_example_needs_what_it_prints() -> None:
    """2.1 m and 10 cm of trim are 2.20 m; the cut is called a half step."""
    answer = strip_method(4.2, 2.1, (0.53, 10.05), METRIC, match="half-drop", repeat=0.64, trim=0.1)
    assert answer.cut.needed == pytest.approx(2.2)
    assert answer.cut.step == "half step"


def test_whole_repeats_win_where_they_are_shorter() -> None:
    """2.56 m needed are four repeats of 0.64 m; a half step would take 2.88 m."""
    answer = strip_method(4.2, 2.46, (0.53, 10.05), METRIC, match="half-drop", repeat=0.64, trim=0.1)
    assert (answer.cut.step, answer.cut.length) == ("whole repeats", pytest.approx(2.56))


def test_fourteen_metres_take_twenty_seven_strips() -> None:
    """14 m / 0.53 m = 26.4, rounded up."""
    assert strips_round(14, 0.53) == 27


def test_the_area_method_runs_a_roll_short_of_the_strips() -> None:
    """The same room, 12 by 15 ft, repeat 15 in: 10 double rolls by area, 11 by strips."""
    by_area = area_method(54 * FT, 8 * FT, US, deduct=60 * FT**2, repeat=15 * IN)
    by_strips = strip_method(54 * FT, 8 * FT, (20.5 * IN, 33 * FT), US, match="straight", repeat=15 * IN)
    assert (by_area.rolls, by_strips.rolls) == (10, 11)


def test_a_strip_longer_than_the_roll_is_refused() -> None:
    """A stairwell of 11 m takes no roll of 10.05 m."""
    with pytest.raises(InputError, match="is longer than a roll"):
        strip_method(3, 11, (0.53, 10.05), METRIC)


def test_one_strip_that_just_fits_is_cut_though_its_repeat_does_not() -> None:
    """9.9 m needed with a repeat of 0.64 m: whole repeats make 10.24 m, but the roll's one strip needs no next one."""
    assert strip_method(1, 9.8, (0.53, 10.05), METRIC, match="straight", repeat=0.64, trim=0.1).per_roll == 1


@given(
    run=st.floats(0.5, 30), height=st.floats(1.5, 3.2), more=st.floats(0, 2), repeat=st.sampled_from([0, 0.15, 0.53, 0.64]),
    match=st.sampled_from(["straight", "half-drop"]),
)  # fmt: skip
def test_strips_are_never_short_and_never_fewer_for_more_wall(
    run: float, height: float, more: float, repeat: float, match: Any
) -> None:
    """Strips cover the run, a cut covers the height, a roll holds its strips, and a longer or higher wall takes no fewer rolls."""
    here = strip_method(run, height, (0.53, 10.05), METRIC, match=match, repeat=repeat)
    assert here.strips * 0.53 >= run - 1e-6
    assert here.cut.length >= height + 0.1 - 1e-6
    assert here.per_roll * here.cut.length <= 10.05 + 1e-6 or here.per_roll == 1
    assert here.rolls * here.per_roll >= here.strips
    longer = strip_method(run + more, height, (0.53, 10.05), METRIC, match=match, repeat=repeat)
    higher = strip_method(run, height + more, (0.53, 10.05), METRIC, match=match, repeat=repeat)
    assert longer.rolls >= here.rolls
    assert higher.rolls >= here.rolls
