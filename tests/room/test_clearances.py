"""Live dimensions: the gap on each side, measured as a tape is held."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate

from halfdrop.room.clearances import all_clearances, clearances, opening_clearances
from tests.room.furnished import free, furnished, piece


def by_side(room, path: str, **more):
    things = {t.path: t for t in (*room.pieces.values(), *room.rugs.values())}
    return {c.side: c for c in clearances(room, things[path], **more)}


def test_a_piece_in_the_middle_has_four_walls() -> None:
    """A 2 × 1 m table in the middle of 6 × 4 m stands 2 m off the short walls and 1.5 m off the long ones."""
    room = furnished(pieces={"t": piece("dining table", "2 m", "1 m", free("3 m", "2 m"))})
    found = by_side(room, "rooms/r/pieces/t")
    assert {s: c.to.rsplit("/", 1)[1] for s, c in found.items()} == {
        "front": "CD",
        "back": "AB",
        "left": "DA",
        "right": "BC",
    }
    assert {s: round(c.length, 3) for s, c in found.items()} == {
        "front": 1.5,
        "back": 1.5,
        "left": 2.0,
        "right": 2.0,
    }
    for c in found.values():
        assert float(np.hypot(*(c.q - c.p))) == pytest.approx(c.length, abs=1e-9)
        assert c.sigma > 0


def test_a_neighbor_comes_before_the_wall_behind_it() -> None:
    """A chair in front of the table is what the table's gap is measured to; beside it, the wall is."""
    pieces = {
        "t": piece("dining table", "2 m", "1 m", free("3 m", "1 m")),
        "c": piece("dining chair", "50 cm", "50 cm", free("3.5 m", "2.15 m")),
    }
    front = by_side(furnished(pieces=pieces), "rooms/r/pieces/t")["front"]
    assert front.to == "rooms/r/pieces/c"
    assert front.length == pytest.approx(0.4, abs=1e-6)
    assert 3.25 - 1e-6 <= front.p[0] <= 3.75 + 1e-6
    pieces["c"]["at"] = free("4.4 m", "2.15 m")
    assert by_side(furnished(pieces=pieces), "rooms/r/pieces/t")["front"].to.endswith("/CD")


def test_a_thing_off_every_side_is_told_by_the_shortest_way() -> None:
    """A stool diagonally off a corner is no gap of any side; nearer than all of them, it is told as `near`."""
    pieces = {
        "t": piece("dining table", "1 m", "1 m", free("3 m", "2 m")),
        "s": piece("stool", "40 cm", "40 cm", free("4 m", "3 m")),
    }
    near = by_side(furnished(pieces=pieces), "rooms/r/pieces/t")["near"]
    assert near.to == "rooms/r/pieces/s"
    assert near.length == pytest.approx(math.hypot(0.3, 0.3), abs=1e-6)


def test_a_round_table_is_measured_where_it_is_widest() -> None:
    """A round table 1 m across, 1 m from the wall at its widest, is 1 m from the wall."""
    room = furnished(pieces={"t": piece("dining table", "1 m", "1 m", free("1.5 m", "2 m"), shape="round")})
    assert by_side(room, "rooms/r/pieces/t")["left"].length == pytest.approx(1.0, abs=1e-3)


def test_a_rug_is_measured_to_the_walls_past_the_furniture() -> None:
    """A rug under a sofa has its bare floor told, not the gap to the sofa."""
    room = furnished(
        rugs={"g": {"width": "3 m", "length": "2 m", "at": free("3 m", "2 m")}},
        pieces={"s": piece("sofa", "2 m", "90 cm", free("3 m", "3.2 m"), turn="180°")},
    )
    found = by_side(room, "rooms/r/rugs/g")
    assert {round(c.length, 3) for c in found.values()} == {1.0, 1.5}
    assert all("/walls/" in c.to for c in found.values())


def test_what_moves_along_and_what_stands_on_it_do_not_count() -> None:
    """A lamp on a table has no gaps; two things moved together have none to each other."""
    pieces = {
        "t": piece("side table", "50 cm", "50 cm", free("3 m", "2 m")),
        "l": piece("table lamp", "20 cm", "20 cm", free("3 m", "2 m"), on="t"),
        "c": piece("armchair", "80 cm", "80 cm", free("3.8 m", "2 m")),
    }
    room = furnished(pieces=pieces)
    paths = [f"rooms/r/pieces/{i}" for i in pieces]
    found = all_clearances(room, paths)
    assert {c.origin for c in found} == {paths[0], paths[2]}
    assert all("/walls/" in c.to for c in found)


def test_a_window_is_measured_along_its_wall() -> None:
    """From each jamb to the corner, or to the next opening before it."""
    window = {"kind": "window", "wall": "AB", "width": "1 m", "height": "1 m", "sill": "90 cm"}
    room = furnished(openings={"w": {**window, "along": "1 m"}, "v": {**window, "along": "3.5 m"}})
    found = {c.side: c for c in opening_clearances(room, room.openings["w"])}
    assert found["left"].length == pytest.approx(1.0, abs=1e-6)
    assert found["right"].length == pytest.approx(1.5, abs=1e-6)
    assert found["right"].to == "rooms/r/openings/v"


@settings(max_examples=60)
@given(
    x=st.floats(1.2, 4.8), y=st.floats(1.0, 3.0), turn=st.integers(0, 359),
    ox=st.floats(0.5, 5.5), oy=st.floats(0.5, 3.5), other=st.integers(0, 359),
)  # fmt: skip
def test_a_thing_moved_by_its_gap_touches_and_no_more(x, y, turn, ox, oy, other) -> None:
    """Whatever stands where: moved along a side by its gap it touches what the gap was to, and enters nothing."""
    pieces = {
        "t": piece("coffee table", "110 cm", "60 cm", free(f"{x:.3f} m", f"{y:.3f} m"), turn=f"{turn}°"),
        "c": piece("armchair", "80 cm", "70 cm", free(f"{ox:.3f} m", f"{oy:.3f} m"), turn=f"{other}°"),
    }
    room = furnished(pieces=pieces)
    table, chair = room.pieces["t"], room.pieces["c"]
    if table.footprint.intersects(chair.footprint) or not room.outline.covers(table.footprint):
        return
    ways = {"front": table.front, "back": -table.front, "right": table.right, "left": -table.right}
    for side, c in by_side(room, table.path).items():
        if side == "near":
            assert c.length == pytest.approx(table.footprint.distance(chair.footprint), abs=1e-9)
            continue
        there = translate(table.footprint, *(ways[side] * c.length))
        inside = there.buffer(-3e-3)
        assert not inside.intersects(chair.footprint)
        assert room.outline.buffer(1e-6).covers(inside)
        target = chair.footprint if c.to == chair.path else room.outline.exterior
        assert there.distance(target) < 3e-3
