"""The area method: its published examples, misprints told."""

from __future__ import annotations

import pytest

from halfdrop.practice import load_practice
from halfdrop.walls import area_method
from halfdrop.walls.area_method import yield_key
from tests.walls.published import rows

US = load_practice("us")
IN, FT = 0.0254, 0.3048


@pytest.mark.parametrize("row", rows("walls_area_method.csv"), ids=lambda r: r["case"])
def test_the_published_areas_come_out(row: dict[str, str]) -> None:
    """Gross, net, exact singles and rolls; where the page prints another figure, the right one is shown here."""
    answer = area_method(
        2 * (float(row["width"]) + float(row["length"])) * FT,
        float(row["height"]) * FT,
        US,
        deduct=float(row["deduct"]) * FT**2,
        usable=float(row["usable"]) * FT**2,
        singles_per_roll=int(row["singles_per_roll"]),
    )
    assert answer.gross / FT**2 == pytest.approx(float(row["gross"]))
    assert answer.net / FT**2 == pytest.approx(float(row["net"]))
    assert f"{answer.singles_exact:.2f}" == row["exact"]
    assert (answer.singles, answer.rolls) == (int(row["singles"]), int(row["rolls"]))
    wrong = round(float(row["printed"]), 1) != round(answer.singles_exact, 1)
    assert wrong == row["note"].startswith("the page")


def test_an_extra_double_roll_makes_fourteen_singles() -> None:
    """Example 3 adds one double roll to its 12 singles: 14."""
    answer = area_method(44 * FT, 8 * FT, US, usable=30 * FT**2)
    assert answer.singles + 2 == 14


def test_rounding_fourteen_and_a_bit_down_leaves_the_room_short() -> None:
    """14 single rolls at 25 sq ft cover 350 sq ft; the walls are 352."""
    answer = area_method(44 * FT, 8 * FT, US, usable=25 * FT**2, singles_per_roll=1)
    assert answer.net > 14 * 25 * FT**2
    assert answer.rolls * 25 * FT**2 >= answer.net


@pytest.mark.parametrize(
    ("repeat", "key"),
    [(0, "6"), (6, "6"), (6.1, "12"), (12, "12"), (15, "18"), (18, "18"), (19, "23"), (25, "23")],
)
def test_the_yield_falls_with_the_repeat(repeat: float, key: str) -> None:
    """25, 22, 20 and 18 sq ft of a single roll can be used, by the repeat."""
    assert yield_key(repeat * IN) == f"walls.yield_to_{key}"
    wanted = {"6": 25, "12": 22, "18": 20, "23": 18}[key]
    assert US.area(yield_key(repeat * IN)) == pytest.approx(wanted * FT**2)


def test_example_1_takes_its_yield_from_the_table() -> None:
    """A repeat of 15 in yields 20 sq ft, so the table gives the example's figures unasked."""
    answer = area_method(54 * FT, 8 * FT, US, deduct=60 * FT**2, repeat=15 * IN)
    assert (f"{answer.singles_exact:.1f}", answer.rolls) == ("18.6", 10)
