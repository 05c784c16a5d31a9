"""A box passes where it truly passes: analytic results, sweeps, brute force, and monotone in every
measure."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import ndimage
from shapely.geometry import Polygon, box

from halfdrop.geometry.corner_turn import longest_round_turn
from halfdrop.geometry.least_width import extents, least_width
from halfdrop.geometry.passing import (
    Answer,
    can_be_raised,
    pass_corridor,
    pass_door,
    pass_lift,
    pass_stairs,
    pass_turn,
)
from halfdrop.geometry.plane import rectangle, turned
from halfdrop.geometry.poses import Box, level_poses, tilted_poses

INCH = 0.0254
TABLE = Path(__file__).parents[1] / "published" / "safety_turn.csv"
ways = st.floats(0.3, 3.0)
sizes = st.floats(0.05, 3.0)
grow = st.floats(0.0, 0.5)


def _turns() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:")
    return list(csv.DictReader(lines[1:]))


@pytest.mark.parametrize("row", _turns(), ids=lambda row: f"{row['a']} to {row['b']}, {row['depth']} deep")
def test_the_table_of_turns(row: dict[str, str]) -> None:
    """The longest that goes round comes out to every digit of the table."""
    length, _ = longest_round_turn(float(row["a"]), float(row["b"]), float(row["depth"]))
    assert length == pytest.approx(float(row["longest"]), abs=5e-7)


@given(ways, ways)
def test_the_ladder(a: float, b: float) -> None:
    """Without depth the longest is the ladder's (a^(2/3) + b^(2/3))^(3/2)."""
    length, angle = longest_round_turn(a, b, 0.0)
    assert length == pytest.approx((a ** (2 / 3) + b ** (2 / 3)) ** 1.5, rel=1e-9)
    assert math.tan(angle) == pytest.approx((a / b) ** (1 / 3), rel=1e-6)


@given(ways, ways, st.floats(0.0, 1.0))
def test_longest_is_the_least_of_a_sweep(a: float, b: float, share: float) -> None:
    """No angle of a fine sweep allows less than the least that the bracketed root gives."""
    d = share * min(a, b)
    t = np.linspace(1e-4, math.pi / 2 - 1e-4, 20001)
    swept = a / np.sin(t) + b / np.cos(t) - d / (np.sin(t) * np.cos(t))
    length, _ = longest_round_turn(a, b, d)
    assert length <= swept.min() + 1e-7
    assert length == pytest.approx(swept.min(), abs=2e-5)


def test_square_in_equal_ways() -> None:
    """In equal ways w a box of depth d turns at 45° with 2 (√2 w − d): 1 m ways and 0.6 m depth take 1.6284
    m."""
    length, angle = longest_round_turn(1.0, 1.0, 0.6)
    assert length == pytest.approx(2 * (math.sqrt(2) - 0.6), abs=1e-9)
    assert angle == pytest.approx(math.pi / 4, abs=1e-9)


@pytest.mark.parametrize(
    ("a", "b", "d"), [(0.9, 1.1, 0.5), (1.0, 1.0, 0.8), (0.8, 1.4, 0.75), (1.2, 0.9, 0.0)]
)
def test_a_rectangle_laid_in_the_turn(a: float, b: float, d: float) -> None:
    """Laid with its ends on both outer walls, a rectangle of that length clears the corner at each angle; 5
    mm more does not."""
    room = box(0, 0, b, 20).union(box(0, 0, 20, a)).buffer(1e-9)
    length, _ = longest_round_turn(a, b, d)

    def clears(span: float, t: float) -> bool:
        foot, head = np.array((span * math.cos(t), 0.0)), np.array((0.0, span * math.sin(t)))
        inward = np.array((math.sin(t), math.cos(t))) * max(d, 1e-9)
        return bool(room.covers(Polygon([foot, head, head + inward, foot + inward])))

    angles = np.linspace(0.02, math.pi / 2 - 0.02, 1500)
    assert all(clears(length - 1e-6, t) for t in angles)
    assert not all(clears(length + 5e-3, t) for t in angles)


@settings(deadline=None, max_examples=20)
@given(st.floats(0.7, 1.3), st.floats(0.7, 1.3), st.floats(0.2, 0.65), st.floats(0.6, 2.4))
def test_turn_against_a_search_of_configurations(a: float, b: float, d: float, span: float) -> None:
    """A flood over positions and angles gets through whenever the answer says so with a grid step to spare,
    and not where it is short."""
    carried = pass_turn(Box(span, d, 5.0, upright_only=True), a, b, 6.0)
    if abs(carried.spare) < 0.12:
        return
    assert _flood(a, b, d, span) == carried.passes


def _flood(a: float, b: float, d: float, span: float) -> bool:
    """Tell whether positions and angles on a grid connect the two ways (walls eased by 12 mm for the grid's
    step)."""
    room = box(0, 0, b, 5).union(box(0, 0, 5, a)).buffer(0.012)
    shapely.prepare(room)
    turns, grid = 36, np.arange(0.0, 3.5, 0.05)
    x, y = np.meshgrid(grid, grid, indexing="ij")
    centers = np.stack((x.ravel(), y.ravel()), axis=1)
    free = np.empty((turns, grid.size, grid.size), dtype=bool)
    for k in range(turns):
        corners = turned(rectangle(span, d), math.pi * k / turns)
        shapes = shapely.polygons(centers[:, None, :] + corners[None])
        free[k] = shapely.covers(room, shapes).reshape(x.shape)
    labels, _ = ndimage.label(np.concatenate((free, free[:1])))
    groups = {int(v): int(v) for v in np.unique(labels) if v}

    def root(v: int) -> int:
        while groups[v] != v:
            v = groups[v]
        return v

    for first, last in zip(labels[0].ravel(), labels[-1].ravel(), strict=True):
        if first and last:
            groups[root(int(first))] = root(int(last))
    starts = {root(int(v)) for v in np.unique(labels[:, grid > 2.9, :]) if v}
    ends = {root(int(v)) for v in np.unique(labels[:, :, grid > 2.9]) if v}
    return bool(starts & ends)


def _carver(p: float, q: float, a: float, b: float) -> bool:
    """Tell whether a p × q rectangle fits into an a × b one (Carver 1957)."""
    p, q, a, b = max(p, q), min(p, q), max(a, b), min(a, b)
    if p <= a:
        return q <= b
    return q <= b and b >= (2 * p * q * a + (p * p - q * q) * math.sqrt(p * p + q * q - a * a)) / (
        p * p + q * q
    )


@given(sizes, sizes, ways, ways)
def test_a_rectangle_in_a_rectangle(p: float, q: float, a: float, b: float) -> None:
    """The least width at a height agrees with Carver's condition for a rectangle in a rectangle."""
    found = least_width(rectangle(p, q), b)
    inside = found is not None and found[0] <= a
    if found is None or abs(found[0] - a) > 1e-6:
        assert inside == _carver(p, q, a, b) or abs(min(p, q) - b) < 1e-6


@given(st.floats(0.4, 1.2), st.floats(0.4, 1.2), st.floats(0.2, 1.0), st.floats(0.3, 2.0))
def test_least_width_is_the_least_of_a_sweep(depth: float, height: float, share: float, limit: float) -> None:
    """For a slanted side no turn of a fine sweep is narrower, and the turn given has the width given."""
    side = Box(2.0, depth, height, share * height).side("width")
    t = np.linspace(0, math.pi, 7201)
    swept = extents(side, t)
    inside = swept[:, 1] <= limit
    found = least_width(side, limit)
    if found is None:
        assert not inside.any()
        return
    at = extents(side, np.array([found[1]]))[0]
    assert at[0] == pytest.approx(found[0], abs=1e-8)
    assert at[1] <= limit + 1e-8
    if inside.any():
        assert found[0] <= swept[inside, 0].min() + 1e-9


def test_diagonal_depth_of_a_sofa() -> None:
    """A sofa 40 in deep, 36 in high with 24 in arms passes on its diagonal depth, 36 × 40 / √(40² + 12²) =
    34.48 in."""
    sofa = Box(84 * INCH, 40 * INCH, 36 * INCH, 24 * INCH)
    answer = pass_door(sofa, 35 * INCH, 80 * INCH)
    assert answer.needs / INCH == pytest.approx(36 * 40 / math.hypot(40, 12), abs=1e-9)
    assert answer.passes
    assert "tilted" in answer.pose
    assert not pass_door(Box(84 * INCH, 40 * INCH, 36 * INCH), 35 * INCH, 80 * INCH).passes


def test_door_names_the_pose() -> None:
    """A bookcase lower than the door goes through upright; a taller one on its back, top first."""
    assert pass_door(Box(0.9, 0.3, 1.8), 0.8, 2.0).pose == "upright, end first"
    answer = pass_door(Box(0.9, 0.8, 2.3), 0.82, 2.0)
    assert answer.passes
    assert answer.pose.endswith("top first")
    assert answer.needs == pytest.approx(0.8)


def test_hand_room_counts_on_each_side() -> None:
    """A 30 in deep piece with an inch of hand room on each side needs 32 in: exactly a 32 in door, not 31
    15/16."""
    piece = Box(84 * INCH, 30 * INCH, 34 * INCH)
    assert pass_door(piece, 32 * INCH, 80 * INCH, hand=INCH).passes
    assert not pass_door(piece, 31.9375 * INCH, 80 * INCH, hand=INCH).passes


def test_upright_only_is_neither_tilted_nor_laid() -> None:
    """What must stay on its feet does not pass a door its top is too high for, though it would pass lying."""
    assert pass_door(Box(0.6, 0.5, 2.1), 0.8, 2.0).passes
    answer = pass_door(Box(0.6, 0.5, 2.1, upright_only=True), 0.8, 2.0)
    assert not answer.passes
    assert answer.measure == "clear height"
    assert answer.needs == pytest.approx(2.1)


def test_low_door_binds_by_height() -> None:
    """Where the door's width is no trouble the height is what fails, and by how much."""
    answer = pass_door(Box(1.0, 1.0, 1.0), 1.2, 0.9)
    assert (answer.measure, answer.has) == ("clear height", 0.9)
    assert answer.spare == pytest.approx(-0.1)


def test_turn_on_end_where_the_ceiling_allows() -> None:
    """A 2.2 m sofa does not turn in 0.9 m ways lying, but on end under a 2.4 m ceiling it does; under 2.1 m
    raised or not at all."""
    sofa = Box(2.2, 0.85, 0.8)
    assert pass_turn(sofa, 0.9, 0.9, 2.4).passes
    assert "on end" in pass_turn(sofa, 0.9, 0.9, 2.4).pose
    assert not pass_turn(sofa, 0.9, 0.9, 2.1).passes


def test_raised_end_shortens_the_plan() -> None:
    """Raised to the height the box is as high as the height, and its length on the plan is what the angle
    leaves."""
    raised = [p for p in tilted_poses(Box(2.2, 0.5, 0.4), 1.5) if "raised" in p.name]
    assert raised
    for pose in raised:
        assert pose.up == 1.5
    flat = next(p for p in raised if p.name.startswith("upright, end first"))
    phi = math.asin(1.5 / math.hypot(2.2, 0.4)) - math.atan2(0.4, 2.2)
    assert 2.2 * math.sin(phi) + 0.4 * math.cos(phi) == pytest.approx(1.5)
    assert flat.along == pytest.approx(2.2 * math.cos(phi) + 0.4 * math.sin(phi))


def test_stairs_by_headroom_square_to_the_slope() -> None:
    """Under 80 in of headroom on a 38° stair a piece has 80 · cos 38° = 63.04 in square to the slope."""
    answer = pass_stairs(Box(1.7, 1.7, 1.7, upright_only=True), 2.0, 80 * INCH, math.radians(38))
    assert answer.has / INCH == pytest.approx(80 * math.cos(math.radians(38)))
    assert answer.measure == "headroom square to the slope"
    assert not answer.passes


def test_landing_is_a_turn() -> None:
    """A stair that passes straight fails at a landing in which the piece cannot be turned."""
    piece = Box(2.3, 0.8, 0.8)
    assert pass_stairs(piece, 0.9, 2.1, math.radians(38)).passes
    answer = pass_stairs(piece, 0.9, 2.1, math.radians(38), 0.9)
    assert not answer.passes
    assert answer.measure.startswith("landing")


def test_lift_takes_a_long_thin_thing_from_corner_to_corner() -> None:
    """A 2.5 m roll leans in a car of 1.1 × 1.4 × 2.1 m; a 2.8 m one is longer than the car's corner to
    corner, 2.75 m."""
    car = (1.1, 1.4, 2.1)
    assert pass_lift(Box(2.5, 0.05, 0.05), 0.8, 2.0, car).passes
    assert not pass_lift(Box(2.8, 0.05, 0.05), 0.8, 2.0, car).passes


def test_lift_needs_door_and_car() -> None:
    """What fits the car fails at the lift's door, and what passes its door fails in the car."""
    piece = Box(0.9, 0.85, 1.0)
    assert pass_lift(piece, 0.9, 2.0, (1.1, 1.4, 2.1)).passes
    assert not pass_lift(piece, 0.8, 2.0, (1.1, 1.4, 2.1)).passes
    assert not pass_lift(piece, 0.9, 2.0, (0.84, 0.84, 2.1)).passes


def test_raised_under_the_ceiling() -> None:
    """A wardrobe 90 in high and 24 in deep swings 93.1 in as it is stood up: too much for 92 in, not for
    96."""
    wardrobe = Box(48 * INCH, 24 * INCH, 90 * INCH)
    assert can_be_raised(wardrobe, 92 * INCH).needs / INCH == pytest.approx(93.145, abs=1e-3)
    assert not can_be_raised(wardrobe, 92 * INCH).passes
    assert can_be_raised(wardrobe, 96 * INCH).passes


dims = st.tuples(st.floats(0.1, 2.5), st.floats(0.1, 1.2), st.floats(0.1, 2.3))


def _every(piece: Box, w: float, h: float, w2: float, hand: float) -> list[Answer]:
    return [
        pass_door(piece, w, h, hand=hand),
        pass_corridor(piece, w, h, hand=hand),
        pass_turn(piece, w, w2, h, hand=hand),
        pass_stairs(piece, w, h, 0.66, w2, hand=hand),
        pass_lift(piece, w, h, (w2, w2 + 0.3, h), hand=hand),
    ]


@settings(deadline=None, max_examples=150)
@given(dims, st.floats(0.6, 1.2), st.floats(1.9, 2.5), st.floats(0.7, 1.8), grow, grow, grow)
def test_a_wider_way_never_stops_a_piece(
    size: tuple[float, float, float], w: float, h: float, w2: float, dw: float, dh: float, dw2: float
) -> None:
    """What passes still passes when any width or height of the way is more."""
    piece = Box(*size)
    before = _every(piece, w, h, w2, 0.02)
    after = _every(piece, w + dw, h + dh, w2 + dw2, 0.02)
    assert all(a.passes for b, a in zip(before, after, strict=True) if b.spare >= 0)


@settings(deadline=None, max_examples=150)
@given(dims, st.tuples(grow, grow, grow), st.floats(0.6, 1.2), st.floats(1.9, 2.5), st.floats(0.7, 1.8))
def test_a_larger_piece_never_passes_where_a_smaller_does_not(
    size: tuple[float, float, float], more: tuple[float, float, float], w: float, h: float, w2: float
) -> None:
    """What does not pass does not pass when it is larger in any measure, nor with more hand room."""
    small, large = Box(*size), Box(*(s + m for s, m in zip(size, more, strict=True)))
    rows = zip(_every(small, w, h, w2, 0.02), _every(large, w, h, w2, 0.02), strict=True)
    assert all(a.passes for a, b in rows if b.spare >= 0)
    rows = zip(_every(small, w, h, w2, 0.0), _every(small, w, h, w2, 0.03), strict=True)
    assert all(a.passes for a, b in rows if b.spare >= 0)


@given(dims)
def test_level_poses_hold_the_same_box(size: tuple[float, float, float]) -> None:
    """Each of the six poses is the same three dimensions, and no two poses are the same way of carrying."""
    poses = list(level_poses(Box(*size)))
    assert len({p.name for p in poses}) == 6
    assert all(sorted((p.along, p.across, p.up)) == sorted(size) for p in poses)


def test_working_can_be_checked_by_hand() -> None:
    """The working shows the sum with its numbers, what is needed rounded up, what there is rounded down."""
    answer = pass_door(Box(84 * INCH, 30 * INCH, 34 * INCH), 31 * INCH, 80 * INCH, hand=INCH)
    working = answer.working("Sofa through the front door", "imperial").to_json()
    assert working["steps"][0]["values"] == "2′ 6″ + 2 × 1″"
    assert working["steps"][0]["result"] == "2′ 8″"
    assert working["steps"][-1]["result"] == "−1″"
    bench = (
        pass_turn(Box(1.5, 0.6, 3.0, upright_only=True), 1.0, 1.0, 3.5).working("Turn", "metric").to_json()
    )
    assert (
        bench["steps"][0]["values"] == "1000 mm / sin 45° + 1000 mm / cos 45° − 600 mm / (sin 45° · cos 45°)"
    )
    assert bench["steps"][-1]["values"] == "1628 mm − 1500 mm"
    assert bench["steps"][-1]["result"] == "128 mm"


@pytest.mark.parametrize("size", [(0.0, 1.0, 1.0), (1.0, -1.0, 1.0)])
def test_a_box_without_size_is_refused(size: tuple[float, float, float]) -> None:
    """A box has three sizes of more than 0, and a stair a pitch under 90°."""
    with pytest.raises(ValueError, match="more than 0"):
        Box(*size)
    with pytest.raises(ValueError, match="less than 90°"):
        pass_stairs(Box(1, 1, 1), 1.0, 2.0, math.pi / 2)
    with pytest.raises(ValueError, match="widths are more than 0"):
        longest_round_turn(0.0, 1.0, 0.1)
