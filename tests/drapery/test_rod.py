"""Rod length and rod height: the stack off the glass, the head between frame and ceiling, one line in a room."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.drapery import RodHeight, one_line, rod_for, rod_height
from halfdrop.drapery.stack import stack_back
from tests.drapery.tables import IN, US


def test_the_stack_clears_the_glass() -> None:
    """A 60 in window stacks 31 in by the table: a 91 in rod, 15½ in past each side, no glass covered."""
    rod = rod_for(60 * IN, stack_back(60 * IN, US), US)
    assert rod.length / IN == pytest.approx(91)
    assert (rod.left / IN, rod.right / IN) == pytest.approx((15.5, 15.5))
    assert rod.covered == 0


def test_a_one_way_draw_stacks_on_its_own_side() -> None:
    """Drawn to the left: 24 in there, and the least extension on the right."""
    rod = rod_for(60 * IN, stack_back(60 * IN, US, one_way=True), US, draw="left")
    assert (rod.left / IN, rod.right / IN) == pytest.approx((24, 3))


def test_fixed_panels_need_no_stack() -> None:
    """6 in past each side."""
    rod = rod_for(60 * IN, None, US, draw="fixed")
    assert (rod.left / IN, rod.right / IN) == pytest.approx((6, 6))


def test_a_wall_that_ends_leaves_glass_covered_and_says_how_much() -> None:
    """10 in of wall on the right where 15½ are wanted: the rod ends there and 5½ in of glass stay covered."""
    rod = rod_for(60 * IN, stack_back(60 * IN, US), US, room_right=10 * IN)
    assert rod.right / IN == pytest.approx(10)
    assert rod.covered / IN == pytest.approx(5.5)
    assert rod.working.steps[-1].what == "glass still covered"


@given(st.floats(0.3, 5), st.floats(0, 2), st.floats(0, 2))
def test_the_rod_never_runs_past_its_wall(glass: float, left: float, right: float) -> None:
    """Whatever the wall leaves, the rod stays in it, and what it lacks of the stack is told as glass covered."""
    stack = stack_back(glass, US)
    rod = rod_for(glass, stack, US, room_left=left, room_right=right)
    assert rod.left <= left
    assert rod.right <= right
    lacks = max(0.0, stack.total / 2 - left) + max(0.0, stack.total / 2 - right)
    assert rod.covered == pytest.approx(lacks, abs=4e-4)


@pytest.mark.parametrize(
    ("frame", "ceiling", "above", "height"),
    [
        (80, 96, 0, 88),  # halfway: 8 in above the frame
        (80, 90, 0, 86),  # halfway is 5 in; 6 in is aimed for
        (80, 87, 0, 85),  # 2 in below the ceiling
        (80, 96, 7, 87),  # the heading stands 7 in above the rod
        (80, 84, 0, 82),  # no room: as high as it goes
    ],
)
def test_the_rod_lies_between_frame_and_ceiling(frame: int, ceiling: int, above: int, height: int) -> None:
    """Half the way up, 6 in above the frame at least where the ceiling lets it, 2 in below the ceiling."""
    answer = rod_height(frame * IN, ceiling * IN, US, stands_above=above * IN)
    assert answer.height / IN == pytest.approx(height)
    assert answer.fits == (frame != 80 or ceiling != 84)


def test_the_rod_goes_round_what_is_in_the_way() -> None:
    """A grille from 87 to 90 in: 88 in is taken, below it is nearer than above."""
    answer = rod_height(80 * IN, 96 * IN, US, obstacles=[(87 * IN, 90 * IN)])
    assert answer.height / IN == pytest.approx(87)
    higher = rod_height(80 * IN, 96 * IN, US, obstacles=[(82 * IN, 89 * IN)])
    assert higher.height / IN == pytest.approx(89)


def test_one_line_of_heads_where_windows_allow() -> None:
    """Heads at 80 and 82 in under a 96 in ceiling get one rod line; a dormer's window keeps its own."""
    heights = {
        "a": rod_height(80 * IN, 96 * IN, US),
        "b": rod_height(82 * IN, 96 * IN, US),
        "dormer": rod_height(60 * IN, 70 * IN, US),
    }
    line = one_line(heights)
    assert line["a"] == line["b"]
    assert heights["b"].low <= line["a"] <= heights["a"].high
    assert line["dormer"] == heights["dormer"].height


@given(st.lists(st.tuples(st.floats(1, 3), st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=5))
def test_a_line_never_leaves_what_a_window_allows(spans: list[tuple[float, float, float]]) -> None:
    """Each window's rod lies within its own least and most."""
    heights = {}
    for i, (low, more, share) in enumerate(spans):
        answer = rod_height(low, low + 1, US)
        heights[str(i)] = RodHeight(low + share * more, low, low + more, answer.working)
    for i, line in one_line(heights).items():
        assert heights[i].low - 2e-4 <= line <= heights[i].high + 2e-4
