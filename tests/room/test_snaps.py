"""Suggestions: what a thing is nearly doing, and no more."""

from __future__ import annotations

import math

import numpy as np
import pytest

from halfdrop.room.snaps import PULL, snaps
from tests.room.furnished import free, furnished, piece


def kinds(room, name: str = "s", **more):
    return {(s.kind, s.to.rsplit("/", 1)[1]): s for s in snaps(room, room.pieces[name], **more)}


def sofa(at: dict[str, str], **more):
    return piece("sofa", "2 m", "90 cm", at, **more)


def test_a_sofa_five_centimetres_off_a_wall_may_go_flush() -> None:
    """Its move is exactly the gap, square to the wall."""
    found = kinds(furnished(pieces={"s": sofa({"wall": "AB", "along": "1 m", "off": "5 cm"})}))
    snap = found["flush", "AB"]
    assert snap.by == pytest.approx(np.array((0.0, -0.05)), abs=1e-6)


def test_a_sofa_near_a_practice_distance_may_stand_at_it() -> None:
    """With 8 cm as an offset, 5 cm off the wall is 3 cm short of it; the value's key comes along."""
    room = furnished(pieces={"s": sofa({"wall": "AB", "along": "1 m", "off": "5 cm"})})
    snap = kinds(room, offsets=[(0.08, "seating.wall_pull_off")])["set off", "AB"]
    assert snap.by == pytest.approx(np.array((0.0, 0.03)), abs=1e-6)
    assert snap.practice == "seating.wall_pull_off"
    assert snap.distance == 0.08


def test_a_sofa_a_few_degrees_out_may_stand_square() -> None:
    """Four degrees out is turned back by four; half a degree is square already; twenty is meant."""
    for turn, suggested in (("4°", True), ("0.3°", False), ("20°", False), ("94°", True)):
        found = kinds(furnished(pieces={"s": sofa(free("3 m", "0.7 m"), turn=turn)}))
        squares = [s for (kind, _), s in found.items() if kind == "square"]
        assert bool(squares) is suggested, turn
        if suggested:
            assert squares[0].turn == pytest.approx(math.radians(-4), abs=1e-3)


def test_a_sofa_nearly_under_the_middle_of_a_window_may_be_centered_on_it() -> None:
    """The move runs along the wall and brings middle under middle."""
    window = {
        "kind": "window",
        "wall": "AB",
        "along": "1 m",
        "width": "1.2 m",
        "height": "1 m",
        "sill": "90 cm",
    }
    room = furnished(
        openings={"w": window}, pieces={"s": sofa({"wall": "AB", "along": "65 cm", "off": "10 cm"})}
    )
    snap = kinds(room)["centered", "w"]
    assert snap.by == pytest.approx(np.array((-0.05, 0.0)), abs=1e-6)


def test_a_coffee_table_may_be_centered_on_its_sofa_and_its_rug() -> None:
    """What a table is a little off from: the middle of the sofa behind it, or of the rug it stands on."""
    room = furnished(
        pieces={
            "s": sofa(free("3 m", "0.6 m")),
            "t": piece("coffee table", "1 m", "50 cm", free("3.04 m", "1.8 m")),
        },
        rugs={"g": {"width": "3 m", "length": "2 m", "at": free("2.95 m", "1.8 m")}},
    )
    found = kinds(room, "t")
    assert found["centered", "s"].by == pytest.approx(np.array((-0.04, 0.0)), abs=1e-6)


def test_a_chair_may_stand_in_line_with_its_neighbor() -> None:
    """Two chairs side by side, one 4 cm back, may have their fronts in line."""
    chair = lambda at: piece("armchair", "80 cm", "80 cm", at)  # noqa: E731
    room = furnished(pieces={"s": chair(free("2 m", "2.04 m")), "n": chair(free("3.2 m", "2 m"))})
    snap = kinds(room)["in line", "n"]
    assert snap.by == pytest.approx(np.array((0.0, -0.04)), abs=1e-6)


def test_a_thing_that_stands_as_it_should_is_left_alone() -> None:
    """Flush, square and centered: nothing is suggested; nor is anything far."""
    room = furnished(pieces={"s": sofa({"wall": "AB", "along": "2 m", "off": "0"})})
    assert snaps(room, room.pieces["s"]) == ()
    far = furnished(pieces={"s": sofa(free("2.6 m", "1.7 m"))})
    assert snaps(far, far.pieces["s"]) == ()


def test_no_suggestion_pulls_farther_than_it_may() -> None:
    """Every suggested move is a small one, and the least comes first."""
    table = piece("side table", "50 cm", "50 cm", free("1.5 m", "0.4 m"))
    room = furnished(pieces={"s": sofa({"wall": "AB", "along": "1.95 m", "off": "9 cm"}), "t": table})
    found = snaps(room, room.pieces["s"])
    assert found
    assert [s.reach for s in found] == sorted(s.reach for s in found)
    assert all(s.reach <= PULL for s in found)
