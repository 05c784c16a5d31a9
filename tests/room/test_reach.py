"""Reach: forward from a seat's front edge, and each place's share of its piece."""

from __future__ import annotations

import pytest
from shapely.geometry import box
from shapely.ops import unary_union

from halfdrop.geometry.plane import xy
from halfdrop.job.model import Piece
from halfdrop.practice import load_practice
from halfdrop.room.groups import Seat, seats_of
from halfdrop.room.reach import place_shapes, reach_forward
from halfdrop.room.things import StandingPiece
from tests.room.standing import standing

SEAT = Seat(None, xy(0, 0), xy(0, -0.4), xy(0, 1))  # type: ignore[arg-type]


def test_straight_ahead() -> None:
    """A table's edge 0.4 m before the front edge is 0.4 m away."""
    reach = reach_forward([SEAT], box(-0.6, 0.4, 0.6, 1.0), 0.56)
    assert reach is not None
    assert reach.gap == pytest.approx(0.4)


def test_a_shift_is_tried_out() -> None:
    """The same table moved 0.1 m nearer is 0.3 m away."""
    reach = reach_forward([SEAT], box(-0.6, 0.4, 0.6, 1.0), 0.56, xy(0, -0.1))
    assert reach is not None
    assert reach.gap == pytest.approx(0.3)


def test_beside_and_behind_do_not_lie_before() -> None:
    """What stands beside the seat, or behind it, does not lie before it."""
    assert reach_forward([SEAT], box(0.5, -0.5, 1.0, 0.05), 0.56) is None
    assert reach_forward([SEAT], box(-0.5, -2.0, 0.5, -1.0), 0.56) is None


@pytest.mark.parametrize("more", [{}, {"return": {"hand": "left", "length": "2 m", "width": "90 cm"}}])
def test_places_share_the_whole_piece(more: dict[str, object]) -> None:
    """The places of a sofa, straight or with a return, cover its footprint and no more."""
    sofa: StandingPiece = standing(
        Piece.model_validate(
            {
                "type": "sofa",
                "width": "2.4 m",
                "depth": "95 cm",
                "height": "80 cm",
                "at": {"x": "2 m", "y": "2 m"},
                **more,
            }
        )
    )
    shapes = place_shapes(sofa, seats_of(sofa, load_practice("us")))
    assert len(shapes) == 3
    assert sum(s.area for s in shapes) == pytest.approx(sofa.footprint.area)
    assert unary_union(shapes).symmetric_difference(sofa.footprint).area < 1e-9
