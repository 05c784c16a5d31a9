"""Screens: the published example of distance by angle, and back."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from halfdrop.practice import load_practice
from halfdrop.room.viewing import look_up, screen_angle, screen_distance

TABLE = Path(__file__).parents[1] / "published" / "screen_distance.csv"
INCH = 0.0254


def _rows() -> list[dict[str, str]]:
    with TABLE.open(encoding="utf-8") as file:
        lines = [line for line in file if not line.startswith("#")]
    return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['angle_deg']} degrees")
def test_distance_as_published(row: dict[str, str]) -> None:
    """A 65 in screen fills 30°, 40° and 20° from the distances of the worked example (printed to 0.1 in)."""
    got = screen_distance(float(row["diagonal_in"]) * INCH, math.radians(float(row["angle_deg"])))
    assert got / INCH == pytest.approx(float(row["distance_in"]), abs=0.06)


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['angle_deg']} degrees")
def test_angle_is_the_inverse(row: dict[str, str]) -> None:
    """From the distance the same angle comes back."""
    diagonal, angle = float(row["diagonal_in"]) * INCH, math.radians(float(row["angle_deg"]))
    assert screen_angle(diagonal, screen_distance(diagonal, angle)) == pytest.approx(angle)


def test_practice_factors_are_those_angles() -> None:
    """The factors 1.2, 1.6 and 2.5 of practice are its angles 40°, 30° and 20°, rounded."""
    us = load_practice("us")
    for name, factor in (("max", "near"), ("target", "target"), ("min", "far")):
        exact = screen_distance(1.0, us.angle(f"seating.screen_angle_{name}"))
        assert us.number(f"seating.screen_factor_{factor}") == pytest.approx(exact, abs=0.035)


@pytest.mark.parametrize("angle", [0.0, -0.2, math.pi])
def test_an_impossible_angle(angle: float) -> None:
    """An angle no screen fills is an error."""
    with pytest.raises(ValueError, match="between 0 and π"):
        screen_distance(1.0, angle)


def test_look_up() -> None:
    """A middle 1 m above the eye, 1 m off, is 45° up; one below is down."""
    assert look_up(2.1, 1.1, 1.0) == pytest.approx(math.pi / 4)
    assert look_up(0.6, 1.1, 2.0) < 0
