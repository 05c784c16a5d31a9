"""Fullness, flat widths by named method, and widths of cloth."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery import fullness_for
from halfdrop.drapery.widths import count_widths, flat_after, flat_as_built, flat_lump, flat_uk, uk_ease
from halfdrop.job.treatments import Heading
from tests.drapery.tables import CM, IN, METRIC, UNIT, US, rows


@pytest.mark.parametrize("row", rows("widths"), ids=lambda row: row["example"])
def test_the_worked_examples_come_out(row: dict[str, str]) -> None:
    """Flat width, widths to the printed digit, and how many are cut."""
    unit = UNIT[row["unit"]]
    rod, added, fullness = float(row["rod"]) * unit, float(row["added"]) * unit, float(row["fullness"])
    flat = {
        "lump": lambda: flat_lump(rod, fullness, US),
        "as built": lambda: flat_as_built(rod, added, 0.0, fullness, US),
        "after": lambda: flat_after(rod, added, fullness, METRIC),
    }[row["method"]]()
    assert flat.method == row["method"]
    assert flat.length / unit == pytest.approx(float(row["flat"]), abs=1e-9)
    method: Any = row["rounding"]
    answer = count_widths(flat.length, float(row["usable"]) * unit, US, method=method)
    assert f"{answer.exact:.{row['places']}f}" == row["exact"]
    assert (answer.widths, answer.per_panel) == (float(row["widths"]), float(row["per_panel"]))
    assert answer.cuts == float(row["widths"])


def test_the_error_that_forgets_the_width_of_the_cloth_is_not_made() -> None:
    """A page takes 1.5 m × 1.5 = 2.25 for 3 drops of cloth 150 cm wide; 2.25 m ÷ 1.5 m is 1.5, which is 2."""
    flat = flat_as_built(1.5, 0.0, 0.0, 1.5, METRIC)
    assert count_widths(flat.length, 1.5, METRIC, method="whole").widths == 2


@pytest.mark.parametrize("row", rows("uk_ease"), ids=lambda row: row["pole"])
def test_the_ease_grows_with_the_pole(row: dict[str, str]) -> None:
    """4 cm and 0.025 of the pole is the printed table, row by row, to the digit."""
    assert uk_ease(float(row["pole"]) * CM, METRIC) / CM == pytest.approx(float(row["ease"]), abs=1e-9)


def test_both_curtains_of_a_pair_get_the_ease() -> None:
    """A 200 cm pole: 2 × (100 + 9) × 2 = 436 cm."""
    assert flat_uk(2.0, 2.0, METRIC).length == pytest.approx(4.36)


def test_overlap_and_returns_count_before_or_after_the_fullness() -> None:
    """12 in more on a 56 in rod: made full it is 24 in more cloth, added flat 12."""
    before = flat_as_built(56 * IN, 7 * IN, 5 * IN, 2.0, US)
    after = flat_after(56 * IN, 12 * IN, 2.0, US)
    assert before.length / IN == pytest.approx(136)
    assert after.length / IN == pytest.approx(124)
    assert before.working.steps[0].values == "(56 in + 7 in + 5 in) × 2"


def test_every_heading_has_its_fullness() -> None:
    """Each heading of the document is in practice, and a sheer is fuller than any of them."""
    for heading in get_args(Heading):
        assert 1.0 <= fullness_for(heading, US) < fullness_for(heading, US, "sheer") == 3.0
    assert fullness_for("double pinch", US) == 2.25


@given(st.floats(0.1, 20), st.floats(0.5, 3.2), st.sampled_from([1, 2]), st.sampled_from(["half", "whole"]))
def test_the_cloth_is_never_narrower_than_wanted(
    flat: float, usable: float, panels: int, method: Any
) -> None:
    """Widths times usable width hold the flat width, in each panel too; a whole width less would not."""
    answer = count_widths(flat, usable, US, panels=panels, method=method)
    assert answer.widths * usable >= flat - 1e-5
    assert answer.per_panel * panels == answer.widths
    assert answer.cuts >= answer.widths > 0
    assert (
        answer.widths == (1 if panels == 1 or method == "whole" else answer.widths)
        or (answer.widths - 1) * usable < flat + 1e-5
    )


def test_nothing_is_not_counted() -> None:
    """No width, no panels: refused."""
    with pytest.raises(InputError):
        count_widths(0.0, 1.4, US)
    with pytest.raises(InputError):
        count_widths(1.0, 1.4, US, panels=3)
