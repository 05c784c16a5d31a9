"""Talk: which measure applies to which pair, each by figures set out by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from halfdrop.geometry.plane import turned, xy
from halfdrop.room.groups import Seat
from halfdrop.room.talk import circle_over, moved_seats, talk_between, way_between

PERSON, KNEES = 0.56, 0.10


def _seat(x: float, y: float, degrees: float) -> Seat:
    """Return a place with its head at a point, looking this way from +y, the front edge 0.4 m before the head."""
    facing = turned(xy(0, 1), math.radians(degrees))
    head = xy(x, y)
    return Seat(None, head + 0.4 * facing, head, facing)  # type: ignore[arg-type]


def test_facing_seats_are_measured_front_to_front() -> None:
    """Heads 2.4 m apart, edges 0.4 m before them: 1.6 m from front to front, 1.4 m from knee to knee."""
    spoken = talk_between([_seat(0, 0, 0)], [_seat(0.2, 2.4, 180)], PERSON, KNEES)
    assert spoken is not None
    assert spoken.way == "facing"
    assert spoken.gap == pytest.approx(1.6)
    assert spoken.between == pytest.approx(1.4)


def test_facing_seats_far_aside_are_measured_aslant() -> None:
    """Edges 0.56 m wide, 1.56 m aside and 1 m apart: 1 m aside is left between their ends."""
    spoken = talk_between([_seat(0, 0, 0)], [_seat(1.56, 1.8, 180)], PERSON, KNEES)
    assert spoken is not None
    assert spoken.gap == pytest.approx(math.hypot(1.0, 1.0))


def test_corner_seats_are_measured_shoulder_to_shoulder() -> None:
    """Heads 3-4-5 apart at a corner, less one person's width."""
    spoken = talk_between([_seat(0, 0, 0)], [_seat(0.9, 1.2, 90)], PERSON, KNEES)
    assert spoken is not None
    assert spoken.way == "corner"
    assert spoken.gap == spoken.between == pytest.approx(1.5 - PERSON)


def test_neighbors_side_by_side_are_measured_shoulder_to_shoulder() -> None:
    """Two seats that look one way, 1.2 m apart."""
    spoken = talk_between([_seat(0, 0, 0)], [_seat(1.2, 0, 0)], PERSON, KNEES)
    assert spoken is not None
    assert spoken.way == "beside"
    assert spoken.gap == pytest.approx(1.2 - PERSON)


@pytest.mark.parametrize(
    ("other", "why"),
    [
        (_seat(0, -2, 180), "back to back"),
        (_seat(0, 2, 0), "one behind the other, as in a theater"),
        (_seat(1, 1, -90), "at a corner, looking away"),
    ],
)
def test_backs_do_not_talk(other: Seat, why: str) -> None:
    """Where one has their back to the other there is no measure."""
    assert talk_between([_seat(0, 0, 0)], [other], PERSON, KNEES) is None, why


def test_the_nearest_pair_of_places_counts() -> None:
    """Of a sofa's three places and one chair the nearest place that can talk is taken."""
    sofa = [_seat(x, 0, 0) for x in (-0.6, 0.0, 0.6)]
    spoken = talk_between(sofa, [_seat(1.5, 1.2, 90)], PERSON, KNEES)
    assert spoken is not None
    assert spoken.gap == pytest.approx(1.5 - PERSON)
    assert tuple(spoken.p) == pytest.approx((0.6, 0.0))


def test_nobody_to_talk() -> None:
    """A piece without places talks to nobody."""
    assert talk_between([], [_seat(0, 0, 0)], PERSON, KNEES) is None


@pytest.mark.parametrize(
    ("degrees", "way"), [(0, "beside"), (45, "beside"), (90, "corner"), (135, "facing"), (180, "facing")]
)
def test_the_way_follows_the_angle(degrees: float, way: str) -> None:
    """Quarter and half quarter turns fall clear of the bounds at 60° and 120°."""
    assert way_between(_seat(0, 0, 0), _seat(1, 1, degrees)) == way


def test_circle_over_a_group() -> None:
    """Heads at the corners of a 3 × 4 rectangle sit in a circle of diameter 5 about its middle."""
    seats = [_seat(x, y, 0) for x in (0, 3) for y in (0, 4)]
    diameter, center = circle_over(seats)
    assert diameter == pytest.approx(5.0)
    assert tuple(center) == pytest.approx((1.5, 2.0), abs=1e-3)
    assert circle_over(moved_seats(seats, np.array((7.0, -2.0))))[0] == pytest.approx(5.0)
