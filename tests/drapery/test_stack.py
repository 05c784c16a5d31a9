"""Stack-back by each published rule, and the spread between them."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.drapery.stack import (
    stack_back,
    stack_flat,
    stack_half,
    stack_of_rod,
    stack_per_width,
    stack_percent,
    stack_table,
    stack_third,
)
from halfdrop.practice import load_practice
from tests.drapery.tables import IN, US, rows

TABLE = [(int(r["window"]), int(r["stack"]), int(r["rod_printed"])) for r in rows("stack")]


@pytest.mark.parametrize(("window", "stack", "rod"), TABLE)
def test_the_table_comes_out_row_by_row(window: int, stack: int, rod: int) -> None:
    """Each row to the inch; rod = window + stack, but the row for 90 in is misprinted: 127 where the sum is 128."""
    answer = stack_table(window * IN, US)
    assert answer.length / IN == pytest.approx(stack)
    assert window + stack == (128 if window == 90 else rod)
    assert stack_table(window * IN, US, one_way=True).length / IN == pytest.approx(stack - 7)


def test_the_straight_line_through_the_table_is_what_practice_holds() -> None:
    """Least squares give 13.5 + 0.297 × window, and the largest miss is 2.9 in."""
    x, y = np.array([r[0] for r in TABLE]), np.array([r[1] for r in TABLE])
    slope, fixed = np.polyfit(x, y, 1)
    assert slope == pytest.approx(US.number("drapery.stack_table_slope"), abs=5e-4)
    assert fixed * IN == pytest.approx(float(US.length("drapery.stack_table_width_fixed")), abs=0.05 * IN)
    assert max(abs(fixed + slope * x - y)) == pytest.approx(2.9, abs=0.05)


@pytest.mark.parametrize(
    "row", rows("stack_rules"), ids=lambda row: f"{row['rule']} {row['window']} {row['make']}"
)
def test_each_rule_by_its_name(row: dict[str, str]) -> None:
    """48 in by the sixth on each side is a 64 in rod, as printed; the others at 60 in."""
    window, make = float(row["window"]) * IN, row["make"]
    named: Any = make
    answer = {
        "third": lambda: stack_third(window, US),
        "half": lambda: stack_half(window, US),
        "flat": lambda: stack_flat(window, US),
        "percent": lambda: stack_percent(window, named, US, pile=row["pile"] == "yes"),
    }[row["rule"]]()
    assert answer.length / IN == pytest.approx(float(row["stack"]), abs=0.02)
    assert (window + answer.length) / IN == pytest.approx(float(row["rod"]), abs=0.02)


def test_the_rules_disagree_and_the_spread_is_shown() -> None:
    """At 60 in they say 9 to 31 in; the table is taken, the others stay beside it."""
    answer = stack_back(60 * IN, US, widths=4)
    assert answer.method == "table"
    assert answer.total / IN == pytest.approx(31)
    inches = {name: round(x / IN, 1) for name, x in answer.spread.items()}
    assert inches == {"table": 31, "third": 20, "percent": 9, "half": 30, "flat": 9, "per width": 22}
    assert answer.working.steps[-1].result == "9 in to 31 in"


def test_practice_chooses_and_a_wave_has_its_own_share() -> None:
    """A house that works by the third rule gets it; a wave stacks by its share of the rod whatever the house does."""
    house = load_practice("us", {"drapery.stack_method": "third"})
    assert stack_back(60 * IN, house).total / IN == pytest.approx(20, abs=0.01)
    assert stack_back(60 * IN, house, heading="wave").total == pytest.approx(60 * IN * 0.125 / 0.875)


def test_a_share_of_the_rod_is_solved_for_the_rod() -> None:
    """Window 73 in, share 0.27: rod 100 in, stack 27 in."""
    assert stack_of_rod(73 * IN, US).length / IN == pytest.approx(27)


def test_a_width_of_cloth_stacks_five_and_a_half_inches() -> None:
    """Four widths: 22 in."""
    assert stack_per_width(4, US).length / IN == pytest.approx(22)


@given(st.floats(0.1, 8), st.floats(0.01, 1))
def test_a_wider_window_never_stacks_less(window: float, more: float) -> None:
    """By every rule, past the table's ends too."""
    a, b = stack_back(window, US), stack_back(window + more, US)
    assert all(a.spread[rule] <= b.spread[rule] + 1e-12 for rule in a.spread)
