"""The seven verbs: JSON and back, arcs of a bulge, the board that draws them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.drawing.board import Board, Frame, rounded
from halfdrop.drawing.verbs import (
    VERBS,
    Arc,
    Area,
    Begin,
    Dimension,
    End,
    Line,
    Text,
    bulge_arc,
    bulge_points,
    from_json,
    to_json,
)


def test_there_are_seven_verbs() -> None:
    """Every back end has seven things to draw, no more."""
    assert len(VERBS) == 7


def test_json_holds_everything() -> None:
    """Verbs written as JSON and read back are the same verbs."""
    verbs = (
        Begin("A-WALL", "rooms/a/survey"),
        Line(((0.0, 1.0, 0.5), (2.0, 3.0)), "heavy", "slate", "ghost", True),
        Area((((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)),), None, "thin", "graphite"),
        Arc((1.0, 2.0), 3.0, 4.0, 10.0, 20.0, 90.0),
        Text((1.0, 1.0), "12′ 6½″", 3.175, "medium", "pencil", "middle", -90.0),
        Dimension((0.0, 0.0), (5.0, 0.0), (0.0, 9.0), "5′", (2.5, 8.0), 0.0, 3.175),
        End(),
    )
    assert from_json(to_json(verbs)) == verbs


def test_a_quarter_bulge_turns_a_quarter() -> None:
    """A bulge of tan(22.5°) from (1, 0) to (0, 1) is the unit circle's first quarter about the origin."""
    center, radius, start, sweep = bulge_arc((1.0, 0.0), (0.0, 1.0), math.tan(math.pi / 8))
    assert center == pytest.approx((0.0, 0.0), abs=1e-12)
    assert (radius, start, sweep) == pytest.approx((1.0, 0.0, math.pi / 2), abs=1e-12)
    back = bulge_arc((0.0, 1.0), (1.0, 0.0), -math.tan(math.pi / 8))
    assert back[0] == pytest.approx((0.0, 0.0), abs=1e-12)
    assert back[3] == pytest.approx(-math.pi / 2)


def test_rounded_corners_stay_inside_their_box() -> None:
    """A rounded rectangle touches its four sides and no arc leaves it."""
    points = bulge_points(rounded(-2, 2, -1, 1, 0.5), closed=True, step=0.01)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((-2, 2, -1, 1))
    corner = min(math.hypot(x - 2, y - 1) for x, y in points)
    assert corner == pytest.approx(0.5 * (math.sqrt(2) - 1), abs=1e-3)


def test_rounded_corners_keep_their_bulge_on_the_paper() -> None:
    """Where y turns over the bulge changes sign, so that a corner rounds outward on the paper too."""
    board = Board(Frame((100.0, 100.0), 10.0))
    board.box(-2, 2, -1, 1, 0.5)
    area = board.verbs[0]
    assert isinstance(area, Area)
    points = bulge_points(area.rings[0], closed=True, step=0.1)
    assert min(p[0] for p in points) == pytest.approx(80.0)
    assert max(p[1] for p in points) == pytest.approx(110.0)
    assert all(80 - 1e-9 <= x <= 120 + 1e-9 and 90 - 1e-9 <= y <= 110 + 1e-9 for x, y in points)


@given(
    st.floats(-9, 9),
    st.floats(-9, 9),
    st.floats(-7, 7),
    st.floats(1, 60),
    st.tuples(st.floats(0, 400), st.floats(0, 400)),
)
def test_a_frame_runs_both_ways(
    x: float, y: float, angle: float, scale: float, origin: tuple[float, float]
) -> None:
    """A point brought onto the paper and back is where it was."""
    frame = Frame(origin, scale, angle)
    assert frame.inverse(frame(x, y)) == pytest.approx((x, y), abs=1e-9)


def test_a_thing_is_turned_counterclockwise_as_seen() -> None:
    """A quarter turn brings a thing's front from up the sheet to the left."""
    frame = Frame((50.0, 50.0), 10.0).at((0.0, 0.0), math.pi / 2)
    assert frame(0.0, 1.0) == pytest.approx((40.0, 50.0))
