"""Setting-out: the focal wall is centered, strips cover the run once, the mismatch hides where it shows least."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from halfdrop.walls import Face, chains_of, set_out
from tests.walls.rooms import WRAP, all_round, hole, oblong, rooms

METRIC = load_practice("metric")


def test_a_strip_stands_in_the_middle_where_that_leaves_the_wider_ends() -> None:
    """4 m in strips of 0.53 m: a strip in the middle leaves 14.5 cm at each end, a seam 41 cm: a seam it is."""
    out = set_out(all_round(oblong()), 0.53, METRIC, focal="AB")
    assert out.start == "seam"
    assert out.ends == (pytest.approx(0.41), pytest.approx(0.41))
    as_asked = set_out(all_round(oblong()), 0.53, METRIC, focal="AB", start="strip")
    assert as_asked.ends == (pytest.approx(0.145), pytest.approx(0.145))


def test_a_narrow_end_is_told() -> None:
    """On 3.75 m a strip asked for in the middle leaves 2 cm at both ends, under the 8 cm that hang well."""
    out = set_out(all_round(oblong(3.75)), 0.53, METRIC, focal="AB", start="strip")
    assert out.warnings == (
        "The part strip in corner A of wall AB shows 2 cm; 8 cm hangs well.",
        "The part strip in corner B of wall AB shows 2 cm; 8 cm hangs well.",
    )
    assert set_out(all_round(oblong(3.75)), 0.53, METRIC, focal="AB").warnings == ()


def test_the_center_may_be_the_hearth_and_not_the_middle() -> None:
    """Centered 1.2 m along a wall of 4 m, the first seam stands there."""
    out = set_out(all_round(oblong()), 0.53, METRIC, focal="AB", center=1.2)
    first = next(c for c in out.columns if c.index == 0)
    middle = (first.start + first.end) / 2 if out.start == "strip" else first.start
    assert middle == pytest.approx(1.2)


def test_the_mismatch_hides_over_the_door() -> None:
    """Over a door of 2.05 m the seam is 45 cm; in any corner it would be 2.5 m."""
    faces = oblong(holes={"CD": (hole("door", "door", 0.5, 0.8, 0, 2.05),)})
    meet = set_out(all_round(faces), 0.53, METRIC, focal="AB").mismatch
    assert meet is not None
    assert (meet.where, meet.seam) == ("over door door", pytest.approx(0.45))


def test_without_a_door_it_hides_in_the_corner_farthest_from_the_center() -> None:
    """Focal wall AB of 4 m, the corners C and D lie farthest; the first of them by name takes it, or the one asked for."""
    chain = all_round(oblong())
    meet = set_out(chain, 0.53, METRIC, focal="AB").mismatch
    assert meet is not None
    assert meet.where in ("in corner C", "in corner D")
    asked = set_out(chain, 0.53, METRIC, focal="AB", mismatch="B").mismatch
    assert asked is not None
    assert asked.where == "in corner B"


def test_one_wall_alone_has_no_mismatch() -> None:
    """A feature wall of 4.2 m: eight strips, nothing to meet."""
    faces = oblong(width=4.2)
    (chain,) = chains_of(faces, faces[:1], WRAP)
    out = set_out(chain, 0.53, METRIC)
    assert (out.mismatch, chain.closed, len(out.columns)) == (None, False, 9 if out.start == "strip" else 8)


def test_walls_apart_are_runs_of_their_own() -> None:
    """AB and CD are two runs; DA and AB, which meet at A, are one that begins at D."""
    faces = oblong()
    assert [c.name for c in chains_of(faces, (faces[0], faces[2]), WRAP)] == ["AB", "CD"]
    assert [c.name for c in chains_of(faces, (faces[0], faces[3]), WRAP)] == ["DA-AB"]


def test_an_outside_corner_takes_no_wrap() -> None:
    """Paper turns an outside corner without a seam: only the inside one lengthens the run."""
    inside = Face("AB", 2, 2.5, 2.5, inside_end=True), Face("BC", 2, 2.5, 2.5), Face("CA", 2, 2.5, 2.5)
    outside = Face("AB", 2, 2.5, 2.5, inside_end=False), *inside[1:]
    assert [chains_of(f, f[:2], WRAP)[0].length for f in (inside, outside)] == [
        pytest.approx(4.012),
        pytest.approx(4),
    ]


def test_a_focal_wall_or_corner_that_is_not_papered_is_refused() -> None:
    """Each error names the run."""
    with pytest.raises(InputError, match="wall XY is not papered; the run is AB-BC-CD-DA"):
        set_out(all_round(oblong()), 0.53, METRIC, focal="XY")
    with pytest.raises(InputError, match="corner Q is not in the run"):
        set_out(all_round(oblong()), 0.53, METRIC, mismatch="Q")
    with pytest.raises(InputError, match="the wall is 400 cm long"):
        set_out(all_round(oblong()), 0.53, METRIC, focal="AB", center=4.5)


def test_a_place_of_the_run_is_told_from_its_corner() -> None:
    """3 m past the start of a run is 3 m along AB; 5 m is past the wrap and 0.988 m along BC; −1 m is 2 m along DA."""
    chain = all_round(oblong())
    assert chain.locate(3) == ("AB", pytest.approx(3))
    assert chain.locate(5) == ("BC", pytest.approx(1 - WRAP))
    assert chain.locate(-1 - WRAP) == ("DA", pytest.approx(2))


@given(rooms(), st.floats(0.4, 1.0), st.sampled_from([None, "strip", "seam"]))
def test_strips_cover_the_run_once_and_none_is_wider_than_the_roll(
    faces: tuple[Face, ...], width: float, start: str | None
) -> None:
    """Side by side from one end to the other: no gap, no overlap, at most one strip more than the run needs on each way."""
    chain = all_round(faces)
    out = set_out(chain, width, METRIC, start=start)  # type: ignore[arg-type]
    assert sum(c.width for c in out.columns) == pytest.approx(chain.length)
    assert all(0 < c.width <= width + 1e-9 for c in out.columns)
    for a, b in pairwise(out.columns):
        assert (b.start, b.index) == (pytest.approx(a.end), a.index + 1)
    assert len(out.columns) >= chain.length / width - 1e-6
    assert len(out.columns) <= chain.length / width + 2
    assert all(c.width == pytest.approx(width) for c in out.columns[1:-1])
