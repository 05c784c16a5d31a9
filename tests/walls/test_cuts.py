"""Lengths of paper: what is hung covers the wall, and neighbors are in phase."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box
from shapely.ops import unary_union

from halfdrop.practice import load_practice
from halfdrop.walls import Face, Hole, cuts_of, set_out
from tests.walls.rooms import all_round, hole, oblong, rooms

METRIC = load_practice("metric")


def _wide(width: float) -> tuple[Face, ...]:
    return oblong(holes={"AB": (hole("window", "window", 1.0, width, 0.9, 2.1),)})


def test_a_strip_over_a_window_is_two_short_lengths() -> None:
    """A window 2 m wide takes at least two whole strips of 0.53 m: each is 0.4 m over it and 0.9 m under it, with trim."""
    out = set_out(all_round(_wide(2.0)), 0.53, METRIC, focal="AB")
    cuts = cuts_of(out, trim=0.05)
    above, below = ([c for c in cuts if c.where == w] for w in ("above", "below"))
    assert len(above) == len(below) >= 2
    assert {round(c.length, 6) for c in above} == {0.5}
    assert {round(c.length, 6) for c in below} == {1.0}


def test_an_opening_narrower_than_a_strip_saves_nothing() -> None:
    """A slit of 0.4 m is cut out of whole strips."""
    out = set_out(all_round(_wide(0.4)), 0.53, METRIC, focal="AB")
    cuts = cuts_of(out, trim=0.05)
    assert {c.where for c in cuts} == {"whole"}
    assert len(cuts) == len(out.columns)


def test_an_opening_to_the_ceiling_skips_whole_strips() -> None:
    """A cased opening of 2 m, floor to ceiling: both ways end in its middle, two strips each lie wholly in it and are not cut."""
    faces = oblong(holes={"AB": (hole("cased opening", "arch", 1.0, 2.0, 0, 2.5),)})
    out = set_out(all_round(faces), 0.53, METRIC, focal="CD")
    cuts = cuts_of(out, trim=0.05)
    assert {c.where for c in cuts} == {"whole"}
    assert len(out.columns) - len(cuts) == 4


def test_half_drop_strips_stand_half_a_repeat_lower_by_turns() -> None:
    """Even strips begin 59 cm into the pattern (5 cm of trim before the mark), odd ones 32 cm further: 27 cm."""
    out = set_out(all_round(oblong()), 0.53, METRIC, focal="AB")
    for cut in cuts_of(out, match="half-drop", repeat=0.64, trim=0.05):
        assert cut.phase == pytest.approx(0.27 if cut.column % 2 else 0.59)


def test_the_length_under_a_window_goes_on_where_the_one_over_it_left_off() -> None:
    """The pattern under a sill of 0.9 m is 1.6 m below the ceiling: (1.6 − 0.05) mod 0.64 = 0.27 m."""
    out = set_out(all_round(_wide(2.0)), 0.53, METRIC, focal="AB")
    below = [c for c in cuts_of(out, match="straight", repeat=0.64, trim=0.05) if c.where == "below"]
    assert below
    assert all(c.phase == pytest.approx(0.27) for c in below)


def test_every_second_strip_of_a_reverse_hung_paper_is_turned() -> None:
    """Strip 0 hangs head up, strips 1 and −1 head down; all are cut alike."""
    out = set_out(all_round(oblong()), 0.53, METRIC, focal="AB")
    cuts = cuts_of(out, match="reverse-hung", trim=0.05)
    assert all(c.turned == (c.column % 2 == 1) for c in cuts)
    assert {(round(c.length, 6), c.phase) for c in cuts} == {(2.6, 0.0)}


@given(rooms(), st.sampled_from([0.52, 0.53, 0.7]))
def test_what_is_hung_covers_every_bit_of_wall(faces: tuple[Face, ...], width: float) -> None:
    """Walls less openings, laid flat, lie wholly under the lengths as they hang, trim aside: never short, at any height."""
    chain = all_round(faces)
    out = set_out(chain, width, METRIC)
    columns = {c.index: c for c in out.columns}
    hung = unary_union(
        [
            box(columns[c.column].start + shift, c.bottom, columns[c.column].end + shift, c.top)
            for c in cuts_of(out, trim=0.05)
            for shift in (-chain.length, 0, chain.length)
        ]
    )
    for p in chain.placed:
        # the wall up to the lower of its two heights is a box; above it the ceiling slopes
        low = min(p.face.height_start, p.face.height_end)
        wall = box(p.start, 0, p.end, low)
        for h in p.face.holes:
            wall = wall.difference(box(p.start + h.start, h.bottom, p.start + h.end, h.top))
        assert wall.difference(hung.buffer(2e-4)).area < 1e-6
        for share in (0.0, 0.3, 0.7, 1.0):
            at, roof = p.start + share * p.face.length, p.face.height(share * p.face.length)
            over: Hole | None = next(
                (h for h in p.face.holes if h.start < share * p.face.length < h.end and h.top > roof - 0.01),
                None,
            )
            if over is None:
                assert hung.buffer(2e-4).covers(box(at - 1e-5, roof - 2e-3, at + 1e-5, roof - 1e-3))


@given(rooms(), st.floats(0.1, 0.9), st.sampled_from(["straight", "half-drop"]))
def test_neighbors_are_in_phase_at_every_height(faces: tuple[Face, ...], repeat: float, match: str) -> None:
    """The pattern at one height above the floor is the same in every strip, or half a repeat on in every second one."""
    out = set_out(all_round(faces), 0.53, METRIC)
    for cut in cuts_of(out, match=match, repeat=repeat, trim=0.05):  # type: ignore[arg-type]
        at_floor = cut.phase + cut.top + 0.05
        datum = max(f.highest for f in faces)
        drop = repeat / 2 if match == "half-drop" and cut.column % 2 else 0.0
        off = (at_floor - datum - drop) % repeat
        assert min(off, repeat - off) < 1e-6
