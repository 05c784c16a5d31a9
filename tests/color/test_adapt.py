"""Chromatic adaptation: white to white, there and back, and partly."""

from __future__ import annotations

import numpy as np
import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.adapt import adapted, degree_of_adaptation
from halfdrop.color.white import D65, white_point

A = white_point("A")


def test_white_goes_to_white_and_comes_back() -> None:
    """The old white becomes the new one; back again changes nothing."""
    assert adapted(A, A) == pytest.approx(D65, abs=1e-9)
    xyz = np.array([[20.0, 30, 10], [60, 50, 40]])
    assert adapted(adapted(xyz, A), D65, A) == pytest.approx(xyz, abs=1e-9)


def test_no_adaptation_changes_nothing_and_half_lies_between() -> None:
    """Degree 0 leaves the color; half leaves white warm by half of each response."""
    assert adapted(A, A, degree=0.0) == pytest.approx(A, abs=1e-9)
    half = adapted(A, A, degree=0.5)
    assert half == pytest.approx((A + D65) / 2, abs=1e-9)


def test_the_degree_grows_with_light_and_falls_in_the_dark() -> None:
    """CIE 248 at 318.31 cd/m²: D = 0.9944; an evening at 10 cd/m² settles less, a dim surround less still."""
    assert degree_of_adaptation(318.31) == pytest.approx(0.9944, abs=1e-4)
    assert degree_of_adaptation(10) < degree_of_adaptation(32) < 1
    assert degree_of_adaptation(10, "dark") < degree_of_adaptation(10, "dim") < degree_of_adaptation(10)


def test_what_cannot_be_is_refused() -> None:
    """A degree over 1, a light without light, a luminance below 0."""
    with pytest.raises(InputError, match="allowed is 0 to 1"):
        adapted(A, A, degree=1.2)
    with pytest.raises(InputError, match="no positive response"):
        adapted(A, [0, 0, 0])
    with pytest.raises(InputError, match="allowed is 0 and above"):
        degree_of_adaptation(-1)
