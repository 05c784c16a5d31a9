"""Ceiling heights, floor level, plumb."""

from __future__ import annotations

import math

import pytest

from halfdrop.survey.height import fit_plane, heights

PLACES = {"A": (0.0, 0.0), "B": (4.0, 0.0), "C": (4.0, 3.0), "D": (0.0, 3.0), "center": (2.0, 1.5)}


def test_the_least_height_is_named_with_its_place() -> None:
    """Mean, spread and the least clear height of four corners and the middle."""
    result = heights({"A": 2.45, "B": 2.44, "C": 2.42, "D": 2.43, "center": 2.41}, {}, {}, PLACES)
    assert result.mean == pytest.approx(2.43)
    assert (result.least, result.least_at) == (2.41, "center")
    assert (result.most, result.most_at) == (2.45, "A")
    assert result.spread == pytest.approx(0.04)


def test_a_tilted_ceiling_is_recovered_exactly() -> None:
    """A plane that rises 20 mm a meter along x and falls 10 mm along y has that slope and no remainder."""
    taped = {k: 2.4 + 0.02 * x - 0.01 * y for k, (x, y) in PLACES.items()}
    slope = heights(taped, {}, {}, PLACES).ceiling
    assert slope is not None
    assert slope.rise == pytest.approx(math.hypot(0.02, 0.01))
    assert slope.towards == pytest.approx(math.atan2(-0.01, 0.02))
    assert slope.rms == pytest.approx(0, abs=1e-12)


def test_points_on_a_line_and_free_names_span_no_plane() -> None:
    """Two places, three on one line, or places that nobody can find on the plan give no plane."""
    assert fit_plane({"A": 2.4, "B": 2.5}, PLACES) is None
    assert fit_plane({"A": 2.4, "center": 2.5, "C": 2.6}, PLACES) is None
    assert fit_plane({"A": 2.4, "B": 2.5, "by the stove": 2.6}, PLACES) is None


def test_floor_and_plumb_give_the_fall_and_the_worst_lean() -> None:
    """The floor falls from its highest to its lowest point; the wall that leans most counts, either way."""
    result = heights({"A": 2.4}, {"A": 0.0, "B": -0.012, "C": 0.004}, {"AB": 0.006, "CD": -0.009}, PLACES)
    assert result.fall == pytest.approx(0.016)
    assert (result.high_at, result.low_at) == ("C", "B")
    assert (result.lean, result.lean_wall) == (-0.009, "CD")
    assert result.lean_angle == pytest.approx(math.atan2(-0.009, 2.4))


def test_nothing_taped_gives_nothing() -> None:
    """A room without heights, levels or plumb has none, rather than zeros."""
    result = heights({}, {}, {}, PLACES)
    assert result.mean is None
    assert result.fall is None
    assert result.lean is None
