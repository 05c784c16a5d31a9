"""Where a rod goes in its room: one line of heads, what is on the wall, sheers behind."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.drapery import place_of, span_of
from tests.drapery.homes import US, job, panels, resolved, window
from tests.drapery.tables import IN

LINEN = {"linen": {"name": "linen", "width": "54 in"}}


def _height(treatments: dict[str, Any], key: str, **room: Any) -> float:
    whole = job({"r": {"treatments": treatments, **room}}, LINEN)
    found = resolved(whole)["r"]
    place = place_of(found, found.model.treatments[key], f"rooms/r/treatments/{key}", "medium", US)
    return place.height / IN


def test_two_windows_of_different_heights_get_one_line() -> None:
    """Heads at 74 and 80 in under 8 ft aim at 85 and 88 in; both hang at one height that either may have."""
    openings = {"low": window(height="50 in"), "high": window(wall="CD")}
    treatments = {"a": panels("low"), "b": panels("high")}
    a, b = (_height(treatments, key, openings=openings) for key in "ab")
    assert a == b
    assert 84 <= a <= 94


def test_a_window_too_tall_for_the_line_keeps_its_own() -> None:
    """Over a head at 92 in of 8 ft no rod hangs lower than 94 in: the other window keeps its aim."""
    openings = {"low": window(), "high": window(wall="CD", height="68 in")}
    treatments = {"a": panels("low"), "b": panels("high")}
    assert _height(treatments, "a", openings=openings) == pytest.approx(88)
    assert _height(treatments, "b", openings=openings) == pytest.approx(94)


def test_what_is_designed_takes_the_line_of_what_hangs() -> None:
    """One pair hangs at 90 in, where its window may have it: the new one beside it goes to 90 in too."""
    openings = {"w": window(), "v": window(wall="CD")}
    treatments = {"old": panels("w", hardware={"height": "90 in"}), "new": panels("v")}
    assert _height(treatments, "new", openings=openings) == pytest.approx(90)


def test_a_rod_on_the_frame_sets_no_line() -> None:
    """A pair hung too low is no measure for the others."""
    openings = {"w": window(), "v": window(wall="CD")}
    treatments = {"old": panels("w", hardware={"height": "81 in"}), "new": panels("v")}
    assert _height(treatments, "new", openings=openings) == pytest.approx(88)


def test_sheers_hang_a_little_below_the_cloth_before_them() -> None:
    """Half an inch below the rod before them, by practice."""
    treatments = {"front": panels("w", hardware={"height": "90 in"}), "back": panels("w", behind="front")}
    assert _height(treatments, "back", openings={"w": window()}) == pytest.approx(89.5)


@pytest.mark.parametrize(("bottom", "tall", "expected"), [("86 in", "4 in", 86), ("84.5 in", "4 in", 88.5)])
def test_a_rod_goes_round_what_is_on_the_wall(bottom: str, tall: str, expected: float) -> None:
    """A register above the window: the rod goes below or above it, where it is nearer to its aim of 88 in."""
    register = {
        "kind": "register",
        "wall": "AB",
        "along": "8 ft",
        "width": "14 in",
        "bottom": bottom,
        "height": tall,
    }
    height = _height({"t": panels()}, "t", openings={"w": window()}, fittings={"duct": register})
    assert height == pytest.approx(expected)


def test_a_register_beside_the_rod_is_in_nobody_s_way() -> None:
    """On the same wall but past the rod's end it changes nothing."""
    register = {
        "kind": "register",
        "wall": "AB",
        "along": "0 in",
        "width": "10 in",
        "bottom": "86 in",
        "height": "4 in",
    }
    height = _height({"t": panels()}, "t", openings={"w": window()}, fittings={"duct": register})
    assert height == pytest.approx(88)


def test_nothing_is_said_where_openings_overlap() -> None:
    """Two openings that overlap leave no run: no span is made up."""
    openings = {"w": window(), "v": window(along="7 ft")}
    whole = job({"r": {"treatments": {"t": panels("w v")}, "openings": openings}}, LINEN)
    assert span_of(resolved(whole)["r"], "t", US) is None


HIGH = {"heights": {"A": "8 ft", "B": "8 ft", "C": "10 ft", "D": "10 ft"}}


@pytest.mark.parametrize(("wall", "ceiling"), [("AB", 96), ("CD", 120)])
def test_under_a_slope_each_wall_has_its_own_ceiling(wall: str, ceiling: float) -> None:
    """From 8 ft over AB the ceiling rises to 10 ft over CD: each rod is halfway from its frame to the ceiling over it."""
    from tests.drapery.homes import PLAIN

    height = _height(
        {"t": panels()}, "t", openings={"w": window(wall=wall)}, survey={**PLAIN["survey"], **HIGH}
    )
    assert height == pytest.approx((80 + ceiling) / 2)


@pytest.mark.parametrize(("y", "expected"), [("0 in", 83 + 7 / 2), ("6 ft", 88)])
def test_a_beam_lowers_the_rod_only_where_it_is_at_the_wall(y: str, expected: float) -> None:
    """A beam at 93 in against the wall leaves 80 to 93 in; one in the middle of the room leaves the wall alone."""
    beam = {
        "kind": "beam",
        "at": {"x": "10 ft", "y": y},
        "width": "16 ft",
        "depth": "6 in",
        "bottom": "93 in",
        "height": "3 in",
    }
    height = _height({"t": panels()}, "t", openings={"w": window()}, fittings={"beam": beam})
    assert height == pytest.approx(expected)


def test_a_crown_lowers_the_ceiling_by_its_height() -> None:
    """Where the room's crown is painted there is one: the rod goes halfway to its underside."""
    from halfdrop.job.model import Job
    from tests.drapery.homes import PLAIN

    crown = {**PLAIN, "openings": {"w": window()}, "treatments": {"t": panels()},
             "finishes": {"trim": {"on": "trim", "paint": "white", "parts": {"crown": True}}}}  # fmt: skip
    paints = {"white": {"name": "white"}}
    found = Job.model_validate(
        {"halfdrop": 1, "job": {"name": "Crown"}, "fabrics": LINEN, "paints": paints, "rooms": {"r": crown}}
    )
    room = resolved(found)["r"]
    place = place_of(room, room.model.treatments["t"], "rooms/r/treatments/t", "medium", US)
    assert place.height == pytest.approx((80 * IN + 96 * IN - US.length("walls.crown_height")) / 2)
