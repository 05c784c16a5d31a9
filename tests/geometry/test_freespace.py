"""The widest way: against floors worked out by hand, and against rasters of random rooms."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import ndimage
from shapely.affinity import rotate, translate
from shapely.geometry import Point, Polygon, box

from halfdrop.geometry.freespace import FreeSpace, free_space
from halfdrop.geometry.plane import xy

INCH = 0.0254


def _width(space: FreeSpace, a: tuple[float, float], b: tuple[float, float]) -> float:
    return space.way(space.faces_at(xy(*a)), space.faces_at(xy(*b))).width


def test_slot_between_two_boxes_is_their_distance() -> None:
    """Two cabinets 36 in apart, each against its wall, leave a way of 36 in, to the last digit."""
    gap = 36 * INCH
    room = box(0, 0, 6, 4)
    one, two = box(2.5, 0, 3, 2 - gap / 2), box(2.5, 2 + gap / 2, 3, 4)
    space = free_space(room, [one, two])
    assert _width(space, (1, 2), (5, 2)) == pytest.approx(gap, abs=1e-12)
    way = space.way(space.faces_at(xy(1, 2)), space.faces_at(xy(5, 2)))
    narrow = min(way.gates, key=lambda g: g.width)
    assert (narrow.a, narrow.b) == (0, 1)
    assert abs(narrow.p[1] - narrow.q[1]) == pytest.approx(gap)


def test_slot_between_two_round_tables() -> None:
    """Between two round tables the way is the distance of their centers less both radii."""
    room = box(0, 0, 8, 3)
    tables = [Point(4, 0.4).buffer(0.6, 64), Point(4, 2.4).buffer(0.7, 64)]
    assert _width(free_space(room, tables), (1, 1.5), (7, 1.5)) == pytest.approx(2.0 - 1.3, abs=1e-3)


def test_turn_in_a_passage_is_as_wide_as_its_narrower_leg() -> None:
    """Round an L-turn a disk passes that passes each leg: the inner corner takes nothing off."""
    turn = Polygon([(0, 0), (5, 0), (5, 0.9), (1.2, 0.9), (1.2, 5), (0, 5)])
    space = free_space(turn, [])
    assert _width(space, (4.5, 0.45), (0.6, 4.5)) == pytest.approx(0.9, abs=1e-12)


def test_corner_of_a_piece_in_a_turn_pinches_at_the_slant() -> None:
    """A piece in the outer corner of a turn pinches it by the distance of its corner to the inner one."""
    turn = Polygon([(0, 0), (5, 0), (5, 1.2), (1.2, 1.2), (1.2, 5), (0, 5)])
    plant = box(0, 0, 0.5, 0.5)
    assert _width(free_space(turn, [plant]), (4.5, 0.6), (0.6, 4.5)) == pytest.approx(math.hypot(0.7, 0.7))


def test_the_wider_of_two_ways_counts() -> None:
    """An island with 0.7 m on one side and 1.1 m on the other is passed on the wider."""
    room = box(0, 0, 6, 3)
    island = box(2, 0.7, 4, 1.9)
    assert _width(free_space(room, [island]), (0.5, 1.5), (5.5, 1.5)) == pytest.approx(1.1)


def test_touching_pieces_leave_no_way() -> None:
    """Pieces that touch, or stand against each other as nearly as a number can, close a way."""
    room = box(0, 0, 6, 3)
    for slit in (0.0, 1e-15, 1e-12, 1e-9, 1e-7):
        row = [box(2, 0, 2.5, 1.5), box(2, 1.5 + slit, 2.5, 3)]
        assert _width(free_space(room, row), (1, 1), (5, 1)) <= 1e-6


@given(st.floats(0, 360))
@settings(max_examples=200, deadline=None)
def test_a_piece_against_a_wall_leaves_no_slit_behind(angle: float) -> None:
    """However the room lies, a cabinet against the wall is passed in front, not by a slit of rounding."""
    room, cabinet = (rotate(s, angle, origin=(1, 7)) for s in (box(0, 0, 6, 1.2), box(2, 0, 3, 0.4)))
    a, b = (rotate(Point(*p), angle, origin=(1, 7)) for p in ((1, 0.6), (5, 0.6)))
    assert _width(free_space(room, [cabinet]), (a.x, a.y), (b.x, b.y)) == pytest.approx(0.8, abs=1e-9)


@given(st.floats(0, 360))
@settings(max_examples=200, deadline=None)
def test_a_piece_from_wall_to_wall_shuts_the_way(angle: float) -> None:
    """However the room lies, a row flush against one wall and a hair past the other leaves no way behind it."""
    room, row = (rotate(s, angle, origin=(1, 7)) for s in (box(0, 0, 6, 3), box(2, 0, 2.5, 3.002)))
    a, b = (rotate(Point(*p), angle, origin=(1, 7)) for p in ((1, 1.5), (5, 1.5)))
    assert _width(free_space(room, [row]), (a.x, a.y), (b.x, b.y)) == 0


def test_l_shaped_piece_is_not_filled() -> None:
    """The corner inside an L-shaped sofa is floor: a way into it is as wide as its mouth."""
    room = box(0, 0, 8, 8)
    sofa = Polygon([(2, 2), (6, 2), (6, 6), (5, 6), (5, 3), (2, 3)])
    table = box(2.6, 3.5, 4.5, 4.5)
    space = free_space(room, [sofa, table])
    assert _width(space, (2.2, 3.2), (7, 7)) > 1
    assert _width(space, (4.8, 3.3), (7, 7)) == pytest.approx(
        0.5
    )  # between the table and the sofa's two legs


def test_cap_changes_no_narrower_way() -> None:
    """Gates left out above the cap change no way narrower than it, and a wider way comes out as inf."""
    room = box(0, 0, 6, 4)
    pieces = [box(2, 0, 2.5, 3.1), box(4, 1, 4.4, 4)]
    full, capped = free_space(room, pieces), free_space(room, pieces, cap=0.95)
    assert _width(capped, (0.5, 0.5), (5.5, 0.5)) == pytest.approx(_width(full, (0.5, 0.5), (5.5, 0.5)))
    assert _width(capped, (3, 1), (5.5, 0.5)) == math.inf


def test_an_open_edge_pinches_nothing() -> None:
    """A bench across part of a doorway leaves the rest of it, however shallow the doorway is drawn."""
    room = Polygon([(0, 0), (4, 0), (4, 1), (4.05, 1), (4.05, 2.5), (4, 2.5), (4, 4), (0, 4)])
    bench = box(3.6, 1.45, 4, 3)
    assert _width(free_space(room, [bench], open_edges={3}), (4.02, 1.2), (1, 1)) == pytest.approx(0.45)


def test_disk_touches_a_zone_only_where_it_fits() -> None:
    """A strip beside a bed 600 mm wide is touched by a disk of 600 mm, not by one of 602 mm."""
    room = box(0, 0, 4, 4)
    bed = box(0.6, 0, 4, 2)
    space = free_space(room, [bed])
    strip = box(0, 0, 0.6, 1.0)
    assert space.faces_touching(strip, 0.600)
    assert not space.faces_touching(strip, 0.602)
    assert space.widest_touching(strip, 0.8) == pytest.approx(0.6, abs=2e-3)


def _random_room(seed: int, n: int, size: float) -> tuple[Polygon, list[Polygon]]:
    rng = np.random.default_rng(seed)
    room = box(0, 0, size, size)
    if seed % 2:
        room = room.difference(box(size * 0.6, size * 0.5, size, size))
    pieces = []
    for _ in range(n):
        w, d = rng.uniform(0.3, 1.6, 2)
        shape = box(-w / 2, -d / 2, w / 2, d / 2) if rng.random() < 0.7 else Point(0, 0).buffer(w / 2, 16)
        turn = rng.choice((0.0, 90.0, rng.uniform(0, 180)))
        pieces.append(translate(rotate(shape, turn, origin=(0, 0)), *rng.uniform(0, size, 2)))
    return room, pieces


def _raster_widest(
    room: Polygon, pieces: list[Polygon], a: tuple[float, float], b: tuple[float, float], h: float
) -> float:
    """Return the widest way on a raster of step h, by thresholds on the distance to what is not floor."""
    x0, y0, x1, y1 = room.bounds
    xs, ys = np.arange(x0 - 2 * h, x1 + 2 * h, h), np.arange(y0 - 2 * h, y1 + 2 * h, h)
    floor = room.difference(shapely.union_all(pieces))
    free = shapely.contains_xy(floor, *np.meshgrid(xs, ys))
    clearance = ndimage.distance_transform_edt(free) * h
    at = [(round((p[1] - ys[0]) / h), round((p[0] - xs[0]) / h)) for p in (a, b)]
    low, high = 0.0, 2 * min(clearance[at[0]], clearance[at[1]])
    for _ in range(14):
        middle = (low + high) / 2
        parts, _ = ndimage.label(clearance >= middle / 2, structure=np.ones((3, 3)))
        joined = parts[at[0]] == parts[at[1]] != 0
        low, high = (middle, high) if joined else (low, middle)
    return low


@pytest.mark.parametrize("seed", range(24))
def test_random_rooms_agree_with_a_raster(seed: int) -> None:
    """In random rooms with turned and overlapping pieces the widest way is the raster's, within its error.

    Distance on the raster is from the middle of a free cell to that of the nearest cell not free: wrong by a
    cell's diagonal at most on each side, and its paths run from cell to cell.
    """
    h, size = 0.02, 5.0
    room, pieces = _random_room(seed, 7, size)
    floor = room.difference(shapely.union_all(pieces))
    places = [
        (x, y)
        for x in np.arange(0.4, size, 0.7)
        for y in np.arange(0.4, size, 0.7)
        if floor.contains(Point(x, y)) and floor.boundary.distance(Point(x, y)) > 0.2
    ]
    space = free_space(room, pieces)
    compared = 0
    for a, b in zip(places, places[5:], strict=False):
        own = 2 * min(floor.boundary.distance(Point(*a)), floor.boundary.distance(Point(*b)))
        exact = min(_width(space, a, b), own)
        assert exact == pytest.approx(_raster_widest(room, pieces, a, b, h), abs=2 * math.sqrt(2) * h + 0.01)
        compared += 1
    assert compared


@given(st.integers(0, 10_000), st.integers(2, 9))
@settings(max_examples=60, deadline=None)
def test_never_wider_than_a_disk_that_passes(seed: int, n: int) -> None:
    """A disk a hair narrower than the way found passes, one a hair wider does not (by eroding the floor)."""
    room, pieces = _random_room(seed, n, 5.0)
    floor = room.difference(shapely.union_all(pieces))
    space = free_space(room, pieces)
    wide = [Point(x, y) for x in (0.7, 2.5, 4.3) for y in (0.7, 2.3) if floor.contains(Point(x, y))]
    wide = [p for p in wide if floor.boundary.distance(p) > 0.3]
    for a, b in itertools.pairwise(wide):
        width = _width(space, (a.x, a.y), (b.x, b.y))
        if width >= 0.6:
            continue  # the places' own room is narrower than the way
        wider = floor.buffer(-(width + 4e-3) / 2, quad_segs=64)
        assert not any(part.intersects(a) and part.intersects(b) for part in shapely.get_parts(wider))
        if width > 0.01:
            narrower = floor.buffer(-(width - 4e-3) / 2, quad_segs=64)
            assert any(part.intersects(a) and part.intersects(b) for part in shapely.get_parts(narrower))


def test_a_floor_wholly_stood_on_has_no_way() -> None:
    """A piece as large as the room, or larger, leaves no floor: no faces, no gates, no way, and no error."""
    for margin in (0.0, 1.0):
        space = free_space(box(0, 0, 3, 3), [box(-margin, -margin, 3 + margin, 3 + margin)])
        assert not space.faces
        assert not space.gates
        assert space.way(space.faces_at(xy(1, 1)), space.faces_at(xy(2, 2))).width == 0
        assert not space.faces_touching(box(0, 0, 1, 1), 0.5)
