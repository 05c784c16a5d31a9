"""Stack-back by a workroom's table: pinch pleats in cloth of middle weight, drawn both ways."""

from __future__ import annotations

import itertools

from halfdrop.base.units import INCH
from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_FIXED, _SLOPE, _ONE_WAY = (
    "drapery.stack_table_width_fixed",
    "drapery.stack_table_slope",
    "drapery.stack_table_one_way",
)

#: Window and total stack [in]. Rod = window + stack; the row for 90 in is printed with a rod of 127, where the sum is 128.
TABLE: tuple[tuple[int, int], ...] = (
    (24, 21), (30, 23), (36, 25), (42, 26), (48, 29), (54, 30), (60, 31), (66, 32), (72, 34), (78, 36), (84, 37),
    (90, 38), (96, 39), (100, 44), (106, 46), (112, 48), (119, 49), (125, 51), (131, 53), (137, 55), (144, 56), (150, 58),
)  # fmt: skip


def stack_table(window: float, practice: Practice, *, one_way: bool = False) -> LengthAnswer:
    """Return the total stack [m] of panels that clear a window, between the table's rows by straight lines.

    Narrower than 24 in and wider than 150 in the straight line through all rows goes on, from the table's last row; a one-way
    draw takes 7 in less.

    Source: common practice (a workroom's table). Checked by: tests/published/drapery_stack.csv.
    """
    say = Words(practice)
    inches = window / INCH
    (first, low), (last, high) = TABLE[0], TABLE[-1]
    slope = practice.number(_SLOPE)
    if inches <= first:
        stack, how = low + slope * (inches - first), say.cited(_FIXED, _SLOPE)
    elif inches >= last:
        stack, how = high + slope * (inches - last), say.cited(_FIXED, _SLOPE)
    else:
        stack, how = _between(inches), "common practice (a workroom's table)"
    total = stack * INCH - (float(practice.length(_ONE_WAY)) if one_way else 0.0)
    return one_step("Stack", "table", max(total, 0.0), "row of the window" + (" − one way" if one_way else ""),
                    f"window {say(window)}", how, practice)  # fmt: skip


def _between(inches: float) -> float:
    for (a, p), (b, q) in itertools.pairwise(TABLE):
        if inches <= b:
            return p + (q - p) * (inches - a) / (b - a)
    raise AssertionError(f"{inches} in is past the table")
