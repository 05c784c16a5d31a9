"""Trim by running length."""

from __future__ import annotations

import pytest

from halfdrop.practice import load_practice
from halfdrop.walls import Face, Hole, flat_trim, trim_run

US = load_practice("us")
IN, FT = 0.0254, 0.3048
DOOR = Hole("rooms/r/openings/door", "door", 2 * FT, 4.5 * FT, 0, 7 * FT)
WINDOW = Hole("rooms/r/openings/window", "window", 2 * FT, 6 * FT, 3 * FT, 6 * FT, 4 * IN)
ROOM = tuple(
    Face(name, length * FT, 8 * FT, 8 * FT, holes)
    for name, length, holes in (("AB", 10, (DOOR,)), ("BC", 12, (WINDOW,)), ("CD", 10, ()), ("DA", 12, ()))
)


def test_a_baseboard_stops_at_the_door_and_casings_run_round() -> None:
    """44 ft of wall less a door of 2.5 ft; the door's casing is 16.5 ft, the window's 14 ft, by its own taped face."""
    answer = trim_run(ROOM, US)
    assert answer.runs["baseboard"] / FT == pytest.approx(41.5)
    assert answer.runs["casings"] / FT == pytest.approx(16.5 + 14)
    assert answer.doors == 1
    faces = 41.5 * 0.5 + 16.5 * 3.5 / 12 + 14 * 4 / 12 + 2.5 * 7
    assert answer.area / FT**2 == pytest.approx(faces)


def test_only_what_is_painted_counts() -> None:
    """A crown alone runs all round and stops at nothing."""
    answer = trim_run(ROOM, US, {"baseboard": False, "casings": False, "doors": False, "crown": True})
    assert answer.runs == {"crown": pytest.approx(44 * FT)}
    assert answer.area == pytest.approx(44 * FT * 4 * IN)


def test_the_flat_rule_for_trim() -> None:
    """44 ft × 0.5 ft, a door side of 20 and a window of 7.5 sq ft: 49.5 sq ft. Source: a guide, common practice."""
    assert flat_trim(44 * FT, 1, 1, US)[0] / FT**2 == pytest.approx(49.5)
