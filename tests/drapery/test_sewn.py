"""Ties, cushions and valances."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery.sewn import cushion_strips, strips, tie_strips, valance_strips
from tests.drapery.tables import IN, US


def test_two_cushions_take_two_strips() -> None:
    """Two 20 in cushions are four pieces of 22 in: two lie across 54 in, two strips of 22 in."""
    answer = cushion_strips(20 * IN, 20 * IN, 2, 54 * IN, US)
    assert (answer.across, answer.strips) == (2, 2)
    assert answer.total / IN == pytest.approx(44)


def test_ties_lie_the_way_that_takes_less() -> None:
    """Four ties 24 × 4 in are 26 × 10 in as cut: on their side five lie across 54 in, one strip of 26; upright two strips of 10."""
    answer = tie_strips(24 * IN, 4 * IN, 4, 54 * IN, US)
    assert (answer.across, answer.strips, answer.cut / IN) == (2, 2, pytest.approx(10))
    assert tie_strips(24 * IN, 4 * IN, 12, 54 * IN, US, turn=False).total / IN == pytest.approx(60)


def test_a_valance_takes_whole_widths_of_its_depth() -> None:
    """91 in at a fullness of 2 over 54 in: four widths, 14 in deep with 10 in of hem and heading."""
    answer = valance_strips(91 * IN, 14 * IN, 54 * IN, US)
    assert (answer.strips, answer.cut / IN) == (4, pytest.approx(24))


def test_a_piece_wider_than_the_cloth_is_refused() -> None:
    """It is joined first."""
    with pytest.raises(InputError, match="does not lie across"):
        strips("Bolster", 2.0, 0.5, 1, 1.4, US)


@given(st.floats(0.1, 1.3), st.floats(0.1, 1.3), st.integers(1, 40), st.booleans())
def test_the_strips_hold_every_piece(width: float, length: float, count: int, turn: bool) -> None:
    """As many as are wanted, no strip too many; turning never takes more."""
    answer = strips("Pieces", width, length, count, 1.4, US, turn=turn)
    assert answer.strips * answer.across >= count
    assert (answer.strips - 1) * answer.across < count
    assert answer.total <= strips("Pieces", width, length, count, 1.4, US).total + 1e-12
