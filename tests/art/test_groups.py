"""Rows, grids and stacks, and moving a group clear."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.art import Group, Rect, Work, facing_gaps, grid, place_clear, row, shortest_move, stack
from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice

US = load_practice("us")
IN = 0.0254
SIDE = st.floats(0.1, 0.9)
WORKS = st.lists(st.tuples(SIDE, SIDE), min_size=1, max_size=6).map(
    lambda sizes: tuple(Work(str(i), w, h) for i, (w, h) in enumerate(sizes))
)
WALL = Rect(0.0, 0.0, 9.0, 9.0)


def _same(a: Group, b: Group) -> None:
    for p, q in zip(a.hung, b.hung, strict=True):
        assert p.work == q.work
        assert (p.rect.x0, p.rect.y0, p.rect.x1, p.rect.y1) == pytest.approx(
            (q.rect.x0, q.rect.y0, q.rect.x1, q.rect.y1), abs=1e-9
        )


@given(WORKS, st.sampled_from(["middle", "top", "bottom"]), st.floats(0.0, 0.3))
def test_a_row_has_one_gap_its_middle_where_wanted_and_a_mirror_image(
    works: tuple[Work, ...], align: str, gap: float
) -> None:
    """Every gap is the gap; the whole is centered; the works in turned order give the mirrored row."""
    found = row(works, (4.0, 1.5), US, gap=gap, align=align)  # type: ignore[arg-type]
    assert found.box.center == pytest.approx((4.0, 1.5))
    sides = [b.x0 - a.x1 for a, b in zip(found.rects, found.rects[1:], strict=False)]
    assert sides == pytest.approx([gap] * (len(works) - 1), abs=1e-9)
    turned = row(works[::-1], (4.0, 1.5), US, gap=gap, align=align).mirrored(4.0)  # type: ignore[arg-type]
    _same(Group("row", turned.hung[::-1], gap, (), found.working), found)


@given(WORKS)
def test_a_stack_has_one_gap_and_one_middle_line(works: tuple[Work, ...]) -> None:
    """Frames from the top down, 2 1/2 in apart, all on one upright line; its mirror image is itself."""
    found = stack(works, (4.0, 1.5), US)
    assert found.box.center == pytest.approx((4.0, 1.5))
    gaps = [a.y0 - b.y1 for a, b in zip(found.rects, found.rects[1:], strict=False)]
    assert gaps == pytest.approx([2.5 * IN] * (len(works) - 1), abs=1e-9)
    _same(found.mirrored(4.0), found)


@given(SIDE, SIDE, st.integers(1, 5), st.integers(1, 4))
def test_a_grid_has_one_gap_across_and_up(width: float, height: float, columns: int, rows: int) -> None:
    """Every frame that faces another is one gap from it, and there are as many as a grid has; it balances."""
    works = [Work(str(i), width, height) for i in range(columns * rows)]
    found = grid(works, (4.0, 1.5), US, columns=columns)
    assert found.box.center == pytest.approx((4.0, 1.5))
    assert list(found.gaps) == pytest.approx([2.5 * IN] * ((columns - 1) * rows + columns * (rows - 1)))
    assert found.imbalance == pytest.approx(0.0, abs=1e-9)


def test_what_is_no_grid_is_refused() -> None:
    """Two sizes, and rows that are not full, are faults; six works without a count make three columns of two."""
    six = [Work(str(i), 0.3, 0.4) for i in range(6)]
    assert grid(six, (0.0, 0.0), US).box.width == pytest.approx(3 * 0.3 + 2 * 2.5 * IN)
    with pytest.raises(InputError, match="all are one size"):
        grid([*six[:5], Work("odd", 0.3, 0.401)], (0.0, 0.0), US)
    with pytest.raises(InputError, match="do not fill rows of 4"):
        grid(six, (0.0, 0.0), US, columns=4)
    with pytest.raises(InputError, match="two works are called `0`"):
        row([six[0], six[0]], (0.0, 0.0), US)


def test_facing_gaps_leave_out_what_a_third_frame_hides() -> None:
    """Of three frames in a row the outer two do not face each other; frames corner to corner do not either."""
    a, b, c = (Rect(x, 0.0, x + 1.0, 1.0) for x in (0.0, 1.2, 2.5))
    assert sorted(facing_gaps([a, b, c])) == pytest.approx([0.2, 0.3])
    assert facing_gaps([a, Rect(1.2, 1.2, 2.0, 2.0)]) == ()


BLOCKS = st.lists(
    st.tuples(st.floats(1.0, 8.0), st.floats(1.0, 8.0), st.floats(0.05, 0.6), st.floats(0.05, 0.6)),
    max_size=4,
).map(lambda rows: [Rect.about((x, y), w, h) for x, y, w, h in rows])


@given(WORKS, BLOCKS)
def test_a_moved_group_is_clear_and_no_shorter_move_is(works: tuple[Work, ...], blocks: list[Rect]) -> None:
    """All frames lie in the wall and clear of all obstacles; none of 1600 moves tried around is both shorter and clear."""
    group = row(works, (4.5, 4.5), US)
    move = shortest_move(group.rects, WALL, blocks, 0.05)
    if move is None:
        return

    def free(dx: float, dy: float) -> bool:
        moved = [r.moved(dx, dy) for r in group.rects]
        inside = all(r.within(WALL) for r in moved)
        return inside and all(max(r.apart(o)) >= 0.05 - 1e-6 for r in moved for o in blocks)

    assert free(*move)
    length = math.hypot(*move)
    if length > 0:
        for angle in np.linspace(0, 2 * math.pi, 40, endpoint=False):
            for part in np.linspace(0.0, 0.99, 40):
                assert not free(part * length * math.cos(angle), part * length * math.sin(angle))


def test_a_group_moved_clear_says_so_and_one_without_a_place_is_refused() -> None:
    """A work over a switch moves the shortest way, 2 in clear, and says by how much; too large a work is refused."""
    switch = ("switch", Rect.about((4.7, 1.5), 0.07, 0.12))
    group = row([Work("a", 0.6, 0.8)], (4.5, 1.5), US)
    moved = place_clear(group, WALL, US, obstacles=[switch])
    assert moved.rects[0].apart(switch[1])[0] == pytest.approx(2 * IN)
    assert moved.notes[0].startswith("The row is moved 7 5⁄16 in to the left from where it was wanted")
    assert place_clear(group, WALL, US).notes == ()
    with pytest.raises(InputError, match="has no place"):
        place_clear(row([Work("a", 8.9, 0.8)], (4.5, 1.5), US), WALL, US)
