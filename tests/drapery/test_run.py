"""Openings that read as one: on a wall, around a corner, in a bay, in rooms walked either way round."""

from __future__ import annotations

from typing import Any, Literal

import pytest

from halfdrop.base.errors import InputError
from halfdrop.drapery import Run, run_of
from halfdrop.job.model import Room
from tests.drapery.homes import PLAIN, one, panels, window
from tests.drapery.tables import IN

#: A bay of three walls, 3 ft, 6 ft and 3 ft, at 45 degrees, in the wall opposite AB.
BAY: dict[str, Any] = {
    **PLAIN,
    "survey": {
        "corners": "A B C D E F G H",
        "walls": {
            "AB": "20 ft", "BC": "14 ft", "CD": "64.544 in", "DE": "36 in", "EF": "60 in", "FG": "36 in",
            "GH": "64.544 in", "HA": "14 ft",
        },
        "angles": {"C": "90°", "D": "225°", "E": "135°", "F": "135°", "G": "225°", "H": "90°"},
        "square": {"A": True, "B": True},
        "heights": {"center": "8 ft"},
    },
}  # fmt: skip


def _run(
    openings: dict[str, Any],
    names: str,
    base: dict[str, Any] = PLAIN,
    walked: Literal["clockwise", "counterclockwise"] = "counterclockwise",
) -> Run:
    survey = {**base["survey"], "round": walked}
    room = Room.model_validate(
        {**base, "survey": survey, "openings": openings, "treatments": {"t": panels(names)}}
    )
    return run_of(one(room), room.treatments["t"])


@pytest.mark.parametrize(("walked", "left", "right"), [("counterclockwise", 108, 72), ("clockwise", 72, 108)])
def test_left_and_right_are_those_of_one_who_faces_the_wall(walked: Any, left: int, right: int) -> None:
    """A window 6 ft from A and 9 ft from B: walked counterclockwise, who faces AB has B on the left hand."""
    run = _run({"w": window()}, "w", walked=walked)
    assert (run.width / IN, run.left / IN, run.right / IN) == pytest.approx((60, left, right), abs=0.02)
    assert (run.head / IN, run.sill / IN, run.frame / IN) == pytest.approx((80, 24, 80))


def test_a_pair_of_windows_on_a_wall_reads_as_one() -> None:
    """Two windows of 30 in with 20 in between are one run of 80 in, without a bend; the higher trim counts."""
    both = {
        "a": window(along="5 ft", width="30 in", trim="3 in"),
        "b": window(along="110 in", width="30 in", height="50 in"),
    }
    run = _run(both, "b a")
    assert run.width / IN == pytest.approx(80)
    assert [tuple(round(x / IN) for x in span) for span in run.spans] == [(0, 30), (50, 80)]
    assert (run.bends, round(run.frame / IN)) == ((), 83)


def test_a_corner_window_is_unfolded_around_its_corner() -> None:
    """12 in of AB and 18 in of BC beside corner B: one run of 30 in with a bend 18 in from its left."""
    both = {"a": window(along="228 in", width="12 in"), "b": window("BC", along="0 in", width="18 in")}
    run = _run(both, "a b")
    assert run.width / IN == pytest.approx(30, abs=0.05)
    assert [x / IN for x in run.bends] == pytest.approx([18], abs=0.05)
    assert (run.left / IN, run.right / IN) == pytest.approx((150, 228), abs=0.05)


@pytest.mark.parametrize("walked", ["counterclockwise", "clockwise"])
def test_a_bay_is_one_run_with_two_bends(walked: Any) -> None:
    """Three windows, 30, 50 and 30 in, each centered on its wall: 36 + 60 + 36 less 3 in at each end is 126 in."""
    three = {
        "l": window("DE", along="3 in", width="30 in"),
        "m": window("EF", along="5 in", width="50 in"),
        "r": window("FG", along="3 in", width="30 in"),
    }
    run = _run(three, "l m r", BAY, walked)
    assert run.width / IN == pytest.approx(126, abs=0.2)
    assert [x / IN for x in run.bends] == pytest.approx([33, 93], abs=0.2)
    assert (run.left / IN, run.right / IN) == pytest.approx((3, 3), abs=0.2)


def test_openings_that_overlap_are_refused() -> None:
    """Two windows 10 in over each other."""
    with pytest.raises(InputError, match="overlap by 254 mm"):
        _run({"a": window(), "b": window(along="122 in", width="30 in")}, "a b")
