"""Cuts with repeats, by each hand rule."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery import allowances, cut_length
from halfdrop.drapery.lining import lining_for
from halfdrop.drapery.repeats import (
    CutsAnswer,
    consecutive,
    hand_cuts,
    per_order,
    per_panel,
    plain_cuts,
    straight,
)
from halfdrop.practice import Practice
from tests.drapery.tables import CM, IN, UNIT, US, YARD, rows

RULES: dict[str, Callable[[float, float, int, Practice], CutsAnswer]] = {
    "plain": lambda plain, repeat, count, practice: plain_cuts(plain, count, practice),
    "straight": straight,
    "per panel": per_panel,
    "per order": per_order,
    "consecutive": consecutive,
}


@pytest.mark.parametrize("row", rows("cuts"), ids=lambda row: row["example"])
def test_the_worked_examples_come_out(row: dict[str, str]) -> None:
    """Plain cut, matched cut, total, and yards to the printed digit (12.67 where a page prints 12.6, cut off)."""
    unit, count = UNIT[row["unit"]], int(row["cuts"])
    plain = (float(row["finished"]) + float(row["allowance"])) * unit
    assert plain / unit == pytest.approx(float(row["plain"]))
    answer = RULES[row["rule"]](plain, float(row["repeat"]) * unit, count, US)
    assert answer.method == row["rule"]
    assert answer.cut / unit == pytest.approx(float(row["cut"]))
    assert answer.total / unit == pytest.approx(float(row["total"]))
    if row["repeats"]:
        assert answer.repeats == pytest.approx(float(row["repeats"]))
    if row["yards"]:
        assert f"{answer.total / YARD:.2f}" == row["yards"]


def test_the_waste_of_a_matched_cut_is_told() -> None:
    """96 in with a 27 in repeat: 3.56 repeats, 4 taken, 108 in, 12 in of waste."""
    step = straight(96 * IN, 27 * IN, 1, US).working.steps[0]
    assert step.values == "96 in ÷ 27 in = 3.56; 4 × 27 in"
    assert (step.result, step.rounding) == ("108 in", "up, 12 in of waste")


def test_the_error_that_multiplies_by_the_number_of_repeats_is_not_made() -> None:
    """A page multiplies by how many repeats there are; the length of the repeat is what is multiplied."""
    assert straight(96 * IN, 27 * IN, 1, US).cut == pytest.approx(4 * 27 * IN)


def test_the_lining_has_its_own_allowance() -> None:
    """The contract workroom's 64 in panel: 74 in of lining."""
    lining = lining_for(64 * IN, 136 * IN, 54 * IN, US)
    assert lining.cut / IN == pytest.approx(74)
    assert lining.total / IN == pytest.approx(222)


def test_hem_and_heading_by_kind() -> None:
    """8 and 8 in for pleated floor-length cloth, 10 for a sheer's hem; a rod pocket takes the rod, turn and ease."""
    pleated = allowances("triple pinch", "clear", US)
    assert cut_length(92 * IN, pleated, US).length / IN == pytest.approx(108)
    pocket = allowances("rod pocket", "clear", US, kind="sheer", diameter=1 * IN)
    assert (pocket.hem / IN, pocket.heading / IN) == pytest.approx((10, 2))
    assert allowances("pencil", "sill", US).hem / IN == pytest.approx(6)
    own = allowances("pencil", "clear", US, hem=0.2, head=0.05, trim=True)
    assert own.total == pytest.approx(0.25 + 2 * IN)


def _phases(cut: float, extra: float, repeat: float, count: int) -> list[float]:
    """Return where in the pattern each of the consecutive cuts begins, `extra` taken after the first half of them."""
    starts = [i * cut + (extra if i >= (count + 1) // 2 else 0.0) for i in range(count)]
    return [round(s / repeat * 2) % 2 for s in starts]


@given(st.floats(0.3, 4), st.floats(0.05, 1), st.integers(2, 9))
def test_consecutive_cuts_hold_the_drop_and_serve_both_halves(
    plain: float, repeat: float, count: int
) -> None:
    """Each cut holds the drop, the two halves are served as evenly as can be, and no rule takes less."""
    answer = consecutive(plain, repeat, count, US)
    assert answer.cut >= plain - 1e-5
    assert answer.cut - plain < repeat / 2 + 1e-5
    odd = sum(_phases(answer.cut, answer.extra, repeat, count))
    assert odd in (count // 2, (count + 1) // 2)
    assert answer.total <= per_panel(plain, repeat, count, US).total + 1e-9
    assert answer.total <= per_order(plain, repeat, count, US).total + 1e-9


@given(st.floats(0.3, 4), st.floats(0.05, 1), st.integers(1, 9), st.integers(2, 7))
def test_a_repeat_divided_never_takes_more(plain: float, repeat: float, count: int, by: int) -> None:
    """Straight cloth with a repeat of a part takes no more; half-drop cloth neither, where the part is an odd one."""
    assert straight(plain, repeat / by, count, US).cut <= straight(plain, repeat, count, US).cut + 1e-6
    if by % 2:
        assert (
            consecutive(plain, repeat / by, count, US).cut <= consecutive(plain, repeat, count, US).cut + 1e-6
        )


def test_half_drop_cloth_with_half_the_repeat_may_take_more() -> None:
    """220 cm at 64 takes 224 each, alternating by itself; at 32 it takes 224 as well, and half a repeat once."""
    assert consecutive(2.2, 0.64, 4, US).total / CM == pytest.approx(896)
    assert consecutive(2.2, 0.32, 4, US).total / CM == pytest.approx(912)


def test_cloth_decides_the_rule_and_practice_the_half_drop() -> None:
    """Plain without a match, whole repeats for a straight one, practice's method for a half-drop, or one that is named."""
    assert hand_cuts(2.2, 0.64, None, 4, US).method == "plain"
    assert hand_cuts(2.2, 0.64, "straight", 4, US).method == "straight"
    assert hand_cuts(2.2, 0.64, "half-drop", 4, US).method == "consecutive"
    assert hand_cuts(2.2, 0.64, "half-drop", 4, US, method="per panel").total == pytest.approx(4 * 2.88)


@pytest.mark.parametrize("rule", ["straight", "per panel", "per order", "consecutive"])
def test_nothing_is_not_matched(rule: str) -> None:
    """No cut, no repeat: refused."""
    with pytest.raises(InputError, match="cannot be matched"):
        RULES[rule](2.0, 0.0, 3, US)
