"""Places where a work would hang rightly."""

from __future__ import annotations

import pytest

from halfdrop.art.places import clear_move, height_at, keep_off, spots
from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import pieces_below
from tests.art.walls import FACE, SOFA, US, at, wall_of

WIDE = [Rect(0.0, 0.0, 1.3, 0.9)]


def test_a_wide_work_goes_over_the_sofa_at_its_middle_and_its_gap() -> None:
    """1.3 m is two thirds of 2 m: the place over the sofa is centered on it, and the gap is that of practice."""
    wall = wall_of({}, pieces={"sofa": SOFA})
    found = list(spots([wall], WIDE, US))
    over = next(s for s in found if s.over is not None)
    assert over.said == "over the sofa"
    assert over.rects[0].center[0] == pytest.approx(2.5, abs=1e-3)
    assert over.rects[0].y0 - 0.8 == pytest.approx(height_at(0.9, over.over, US, False).gap)


def test_a_work_too_narrow_for_a_piece_is_not_put_over_it() -> None:
    """40 cm over a sofa of 2 m would look left over."""
    wall = wall_of({}, pieces={"sofa": SOFA})
    assert all(s.over is None for s in spots([wall], [Rect(0, 0, 0.4, 0.4)], US))


def test_a_stretch_that_has_a_work_is_taken_unless_that_leaves() -> None:
    """One bare wall, one work on it: no place, but where that work is to go."""
    art = {"heron": {**FACE, "at": at("2.2 m")}}
    wall = wall_of(art)
    assert not list(spots([wall], WIDE, US))
    free = list(spots([wall], WIDE, US, without={"heron"}))
    assert [s.said for s in free] == ["on wall CD"]
    assert free[0].rects[0].center == pytest.approx((2.5, 1.4478), abs=2e-3)


def test_every_spot_is_clear_of_all_that_is_there() -> None:
    """A thermostat in the middle of the wall leaves no place there without moving, so none is offered."""
    fittings = {
        "t": {
            "kind": "thermostat",
            "wall": "CD",
            "along": "2.45 m",
            "width": "10 cm",
            "bottom": "1.4 m",
            "height": "10 cm",
        }
    }
    wall = wall_of({}, fittings=fittings)
    assert not list(spots([wall], WIDE, US))
    move = clear_move(wall, [Rect.about((2.5, 1.45), 0.4, 0.4)], US)
    assert move is not None
    moved = Rect.about((2.5, 1.45), 0.4, 0.4).moved(*move)
    assert all(moved.gap(rect) >= 0.0508 - 1e-6 for _, rect in keep_off(wall, US))


def test_nothing_goes_over_a_crib() -> None:
    """A crib is no place."""
    crib = {
        "type": "crib",
        "width": "1.4 m",
        "depth": "75 cm",
        "height": "1 m",
        "at": {"wall": "CD", "along": "1.8 m", "off": "0"},
    }
    wall = wall_of({}, pieces={"crib": crib})
    assert [s.thing.id for s in pieces_below(wall.face)] == ["crib"]
    assert all(s.over is None for s in spots([wall], [Rect(0, 0, 1.0, 0.6)], US))
