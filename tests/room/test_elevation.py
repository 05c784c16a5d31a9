"""Walls seen face on: left is the viewer's left, heights from the floor, whichever way the room was walked."""

from __future__ import annotations

from typing import Any, Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.job.model import Room
from halfdrop.practice import load_practice
from halfdrop.room import ResolvedRoom, resolve_room
from halfdrop.room.elevation import Elevation, elevation_of, every_elevation
from halfdrop.survey import adjust_survey
from tests.room.furnished import SURVEY, free, piece

PRACTICE = load_practice("metric")
Round = Literal["clockwise", "counterclockwise"]


def _room(
    walked: Round = "counterclockwise", survey: dict[str, Any] | None = None, **parts: Any
) -> ResolvedRoom:
    measures = {**SURVEY, **(survey or {}), "round": walked}
    room = Room.model_validate({"name": "Test", "use": {"living": True}, "survey": measures, **parts})
    return resolve_room("r", room, adjust_survey(room.survey, PRACTICE), PRACTICE)


def _face(walls: str | list[str], walked: Round = "counterclockwise", **parts: Any) -> Elevation:
    return elevation_of(_room(walked, **parts), walls, PRACTICE)


WINDOW = {"kind": "window", "wall": "CD", "along": "1 m", "width": "2 m", "height": "1.2 m", "sill": "0.9 m"}


def test_left_is_the_left_hand_of_one_who_faces_the_wall() -> None:
    """Walked counterclockwise a wall runs to the viewer's left, so what is near its first corner stands at the right."""
    seen = _face("CD", openings={"w": WINDOW}).openings[0]
    assert (seen.left, seen.right) == pytest.approx((3.0, 5.0), abs=1e-3)
    assert (seen.bottom, seen.top) == pytest.approx((0.9, 2.1))


def test_a_room_walked_clockwise_is_seen_the_other_way_round() -> None:
    """Walked clockwise a wall runs to the viewer's right."""
    face = _face("CD", "clockwise", openings={"w": WINDOW})
    assert (face.openings[0].left, face.openings[0].right) == pytest.approx((1.0, 3.0), abs=1e-3)
    assert (face.stretches[0].left_corner, face.stretches[0].right_corner) == ("C", "D")


def test_a_wall_may_be_named_either_way_round() -> None:
    """`DC` is the wall `CD`; `along` counts from the corner that is named first."""
    face = _face("DC")
    assert face.name == "CD"
    assert face.place("CD", 1.0, 2.0) == pytest.approx((3.0, 5.0), abs=1e-3)
    assert face.place("DC", 1.0, 2.0) == pytest.approx((1.0, 3.0), abs=1e-3)


@given(
    st.sampled_from(["AB", "BA", "BC", "CD", "DC", "DA"]),
    st.sampled_from(["clockwise", "counterclockwise"]),
    st.floats(0.0, 3.0),
    st.floats(0.05, 0.9),
)
def test_along_undoes_place(pair: str, walked: Round, along: float, width: float) -> None:
    """A place of the document, seen on the wall and written back, is the same place."""
    face = _face(pair, walked)
    assert face.along(pair, *face.place(pair, along, width)) == pytest.approx(along, abs=1e-9)


@given(st.sampled_from(["AB", "BC", "CD", "DA"]), st.floats(0.01, 3.9))
def test_a_point_of_the_wall_goes_to_the_plan_and_back(pair: str, x: float) -> None:
    """`plan` and `x` undo each other."""
    face = _face(pair)
    point = face.plan(x)
    assert face.stretches[0].x(point) == pytest.approx(x, abs=1e-9)
    assert float(face.stretches[0].wall.off(point)) == pytest.approx(0.0, abs=1e-9)


def test_walls_in_a_row_are_unfolded_from_left_to_right() -> None:
    """BC and CD share corner C: seen from the room CD is at the left of BC."""
    face = _face(["BC", "CD"], openings={"w": WINDOW})
    assert face.name == "BCD"
    assert [s.left_corner for s in face.stretches] == ["D", "C"]
    assert face.width == pytest.approx(10.0, abs=2e-3)
    assert face.stretch_of("BC").left == pytest.approx(6.0, abs=2e-3)


def test_walls_between_the_named_ones_are_shown_too() -> None:
    """Two opposite walls bring one of those between them along; the run stays in one piece."""
    face = _face(["AB", "CD"])
    assert len(face.stretches) == 3
    assert all(
        a.right == pytest.approx(b.left) for a, b in zip(face.stretches, face.stretches[1:], strict=False)
    )


def test_the_ceiling_slopes_between_the_heights_of_its_corners() -> None:
    """2.4 m at C and 3.0 m at D make 2.7 m in the middle of CD."""
    face = _face("CD", survey={"heights": {"C": "2.4 m", "D": "3 m"}})
    assert face.ceiling(face.width / 2) == pytest.approx(2.7)
    assert face.untaped == ()
    assert face.outline.area == pytest.approx(2.7 * face.width)


def test_a_floor_that_falls_carries_what_stands_on_it() -> None:
    """The floor is 0 at the left end; 20 mm lower at the right, a window's sill there hangs as much lower."""
    face = _face("CD", survey={"level": {"C": "-20 mm", "D": "0 mm"}}, openings={"w": WINDOW})
    assert face.floor(0.0) == 0.0
    assert face.floor(face.width) == pytest.approx(-0.02)
    assert face.openings[0].bottom == pytest.approx(0.9 + face.floor(4.0), abs=1e-6)


def test_a_room_without_heights_says_that_its_ceiling_is_not_taped() -> None:
    """The usual ceiling stands in, and the elevation says so."""
    face = _face("CD")
    assert not face.ceiling_taped
    assert face.ceiling(1.0) == pytest.approx(float(PRACTICE.length("elevation.ceiling")))


SOFA = piece("sofa", "2 m", "0.9 m", {"wall": "CD", "along": "1 m", "off": "0"})


def test_a_piece_is_seen_before_the_wall_it_stands_at_only() -> None:
    """A sofa at CD shows its front on CD; on AB, 3 m away, it is not drawn."""
    seen = {s.thing.id: s for s in _face("CD", pieces={"sofa": SOFA}).pieces}
    assert seen["sofa"].side == "front"
    assert (seen["sofa"].left, seen["sofa"].right) == pytest.approx((3.0, 5.0), abs=1e-3)
    assert _face("AB", pieces={"sofa": SOFA}).pieces == ()


def test_a_piece_beside_the_wall_shows_its_side() -> None:
    """A sofa on CD in the corner at C is seen end on from BC, its front to the viewer's right: BC runs from C at the left."""
    sofa = piece("sofa", "2 m", "0.9 m", {"wall": "CD", "along": "0", "off": "0"})
    seen = _face("BC", pieces={"sofa": sofa}).pieces
    assert [s.side for s in seen] == ["right"]
    assert (seen[0].left, seen[0].right) == pytest.approx((0.0, 0.9), abs=2e-3)


def test_what_stands_on_a_piece_stands_as_high() -> None:
    """A lamp of 80 cm on a table of 80 cm reaches 1.6 m, and is drawn after the table."""
    table = piece("side table", "0.6 m", "0.6 m", {"wall": "AB", "along": "1 m", "off": "0"})
    lamp = piece("table lamp", "0.3 m", "0.3 m", {"wall": "AB", "along": "1.1 m", "off": "10 cm"}, on="table")
    seen = _face("AB", pieces={"lamp": lamp, "table": table}).pieces
    assert [s.thing.id for s in seen] == ["table", "lamp"]
    assert (seen[1].bottom, seen[1].top) == pytest.approx((0.8, 1.6))


def test_a_piece_in_the_middle_of_the_room_is_on_no_elevation() -> None:
    """Two meters from every wall is past practice's reach."""
    room = _room(pieces={"t": piece("coffee table", "1 m", "0.5 m", free("3 m", "2 m"))})
    assert all(not face.pieces for face in every_elevation(room, PRACTICE))


def test_a_fitting_without_a_height_stands_at_the_usual_one_and_says_so() -> None:
    """A switch that was not taped upward stands at practice's height; one that was does not."""
    bare = {"kind": "switch", "wall": "AB", "along": "1 m", "width": "8 cm"}
    taped = {**bare, "along": "2 m", "bottom": "1.2 m", "height": "8 cm"}
    seen = {s.thing.id: s for s in _face("AB", fittings={"a": bare, "b": taped}).fittings}
    assert seen["a"].usual
    assert seen["a"].bottom == pytest.approx(float(PRACTICE.length("elevation.switch_bottom")))
    assert not seen["b"].usual
    assert (seen["b"].bottom, seen["b"].top) == pytest.approx((1.2, 1.28))


def test_a_work_hangs_where_the_document_says_from_the_corner_named_first() -> None:
    """60 cm wide, 1 m from C along CD: seen from the room that is 4.4 m to 5 m from D at the left; its bottom is 1.2 m up."""
    work = {"width": "60 cm", "height": "50 cm", "at": {"wall": "CD", "along": "1 m", "bottom": "1.2 m"}}
    seen = _face("CD", art={"w": work, "waits": {"width": "1 m", "height": "1 m"}}).art
    assert [s.thing.id for s in seen] == ["w"]
    assert (seen[0].left, seen[0].right) == pytest.approx((4.4, 5.0), abs=1e-3)
    assert (seen[0].bottom, seen[0].top) == pytest.approx((1.2, 1.7))


def test_turning_the_viewer_round_the_room_covers_every_wall_once() -> None:
    """Every wall has its elevation, as long as the wall."""
    room = _room()
    faces = every_elevation(room, PRACTICE)
    assert [f.name for f in faces] == [w.name for w in room.walls]
    assert np.allclose([f.width for f in faces], [w.length for w in room.walls])


def test_a_name_that_is_no_wall_is_told_with_the_walls_there_are() -> None:
    """AC is a diagonal."""
    with pytest.raises(InputError, match="its walls: AB BC CD DA"):
        _face("AC")
