"""Leaders never cross, whatever the anchors."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.drawing.leaders import Item, arrange, crosses
from halfdrop.drawing.notes import Column, Note, place_notes

MARKS = st.lists(
    st.tuples(st.floats(0, 300), st.floats(0, 250), st.floats(6, 40)), min_size=1, max_size=14, unique=True
)


@given(MARKS)
@settings(max_examples=300, deadline=None)
def test_no_two_leaders_cross(marks: list[tuple[float, float, float]]) -> None:
    """Over marks anywhere and notes of any height no two leaders touch."""
    items = [Item((x, y), h, 2.2) for x, y, h in marks]
    stands = arrange(items, 320.0, 10.0, 270.0)
    leaders = [s.leader for s in stands if s.leader]
    assert not any(crosses(a, b) for a, b in combinations(leaders, 2))


@given(MARKS)
@settings(max_examples=150, deadline=None)
def test_a_leader_leaves_level_and_bends_once(marks: list[tuple[float, float, float]]) -> None:
    """Each leader starts level at its own note, and turns at most once, upright to its mark."""
    items = [Item((x, y), h, 2.2) for x, y, h in marks]
    for item, stand in zip(items, arrange(items, 320.0, 10.0, 270.0), strict=True):
        if not stand.leader:
            continue
        start, bend = stand.leader[0], stand.leader[1]
        assert start[1] == bend[1] == pytest.approx(stand.top + item.port)
        assert len(stand.leader) <= 3
        assert stand.leader[-1][1] == pytest.approx(item.mark[1])
        assert abs(stand.leader[-1][0] - item.mark[0]) <= 1.5


@given(MARKS)
@settings(max_examples=150, deadline=None)
def test_notes_stand_clear_of_each_other(marks: list[tuple[float, float, float]]) -> None:
    """No note overlaps the next, and those that fit stay within the column."""
    items = [Item((x, y), h, 2.2) for x, y, h in marks]
    stands = arrange(items, 320.0, 10.0, 270.0)
    rows = sorted((s.top, s.top + i.height) for s, i in zip(stands, items, strict=True))
    assert all(above[1] <= below[0] + 1e-6 for above, below in pairwise(rows))
    if sum(i.height for i in items) <= 260 / len(items):
        assert rows[-1][1] <= 270 + 1e-6


def test_an_order_that_would_cross_is_exchanged() -> None:
    """A mark near the margin whose upright would cut the leader of one farther in takes the upper place."""
    far, near = Item((20.0, 100.0), 30.0, 2.0), Item((280.0, 100.5), 30.0, 2.0)
    above = [Item((150.0, 99.0), 60.0, 2.0)]
    stands = arrange([far, near, *above], 300.0, 0.0, 260.0)
    leaders = [s.leader for s in stands]
    assert all(leaders)
    assert not any(crosses(a, b) for a, b in combinations(leaders, 2))


def test_marks_of_one_upright_get_lanes() -> None:
    """Two marks one above the other do not share an upright."""
    items = [Item((100.0, 80.0), 30.0, 2.0), Item((100.0, 90.0), 30.0, 2.0), Item((100.0, 100.0), 30.0, 2.0)]
    stands = arrange(items, 300.0, 0.0, 200.0)
    assert all(s.leader for s in stands)
    assert not any(crosses(a.leader, b.leader) for a, b in combinations(stands, 2))


@given(st.lists(st.tuples(st.floats(20, 290), st.floats(15, 240)), min_size=2, max_size=12))
@settings(max_examples=100, deadline=None)
def test_few_leaders_are_given_up(marks: list[tuple[float, float]]) -> None:
    """Notes of one height all get a leader, unless two marks stand on one another."""
    spread = [(x, y) for k, (x, y) in enumerate(marks) if all(abs(x - u) > 3 for u, _ in marks[:k])]
    stands = arrange([Item(mark, 18.0, 2.0) for mark in spread], 320.0, 10.0, 270.0)
    assert all(stand.leader for stand in stands)


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(0, 250)), min_size=1, max_size=10))
@settings(max_examples=100, deadline=None)
def test_leaders_cut_short_at_their_marks_do_not_cross_either(anchors: list[tuple[float, float]]) -> None:
    """What is drawn, after a leader is stopped at its ring, still crosses nothing."""
    notes = [Note(k + 1, "fault", "Wanted: more room to pass.", (0.0, 0.0)) for k in range(len(anchors))]
    margin = place_notes(notes, anchors, Column(330.0, 10.0, 80.0, 250.0))
    leaders = [p.leader for p in margin.placed if p.leader]
    assert not any(crosses(a, b) for a, b in combinations(leaders, 2))
