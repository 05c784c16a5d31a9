"""Free clusters."""

from __future__ import annotations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from halfdrop.art import Candidate, Rect, Work, cluster
from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice

US = load_practice("us")
IN = 0.0254
SIZES = ((24, 30), (16, 20), (11, 14), (12, 12), (8, 10))
FIVE = tuple(Work(f"{w}x{h}", w * IN, h * IN) for w, h in SIZES)
WALL, AIM = Rect(0.0, 0.0, 144 * IN, 96 * IN), (72 * IN, 57 * IN)
THERMOSTAT = ("thermostat", Rect.about(AIM, 5 * IN, 5 * IN))

WORKS = st.lists(st.tuples(st.integers(8, 30), st.integers(8, 30)), min_size=2, max_size=6).map(
    lambda sizes: tuple(Work(str(i), w * IN, h * IN) for i, (w, h) in enumerate(sizes))
)
FITTINGS = st.lists(st.tuples(st.integers(40, 104), st.integers(40, 70)), max_size=2).map(
    lambda at: [(f"switch {i}", Rect.about((x * IN, y * IN), 3 * IN, 5 * IN)) for i, (x, y) in enumerate(at)]
)


def _places(found: tuple[Candidate, ...]) -> list[list[float]]:
    return [[round(v, 7) for r in c.group.rects for v in (r.x0, r.y0, r.x1, r.y1)] for c in found]


@settings(max_examples=8, phases=[Phase.generate])
@given(WORKS, FITTINGS, st.integers(0, 5))
def test_gaps_are_even_and_all_is_clear(
    works: tuple[Work, ...], fittings: list[tuple[str, Rect]], seed: int
) -> None:
    """Each frame is one gap from another, none nearer to any; all keep clear of fittings and within the wall."""
    for one in cluster(works, AIM, US, wall=WALL, obstacles=fittings, seed=seed):
        rects = one.group.rects
        gap = 2.5 * IN
        for i, a in enumerate(rects):
            others = [b for j, b in enumerate(rects) if j != i]
            assert min(max(a.apart(b)) for b in others) >= gap - 1e-6
            assert min(a.gap(b) for b in others) == pytest.approx(gap, abs=1e-6)
            assert a.within(WALL.grown(-4 * IN)) or a.y0 >= -1e-9
            assert a.x0 >= 4 * IN - 1e-6
            assert max(a.x1 - (WALL.x1 - 4 * IN), a.y1 - (WALL.y1 - 4 * IN)) <= 1e-6
            assert all(max(a.apart(f)) >= 2 * IN - 1e-6 for _, f in fittings)
        assert [(r.width, r.height) for r in rects] == [pytest.approx((w.width, w.height)) for w in works]
        if not fittings:
            assert one.group.box.center == pytest.approx(AIM)


@settings(max_examples=4, phases=[Phase.generate])
@given(WORKS, st.integers(50, 70), st.integers(45, 69))
def test_a_mirrored_wall_gives_the_mirrored_clusters(works: tuple[Work, ...], x: int, y: int) -> None:
    """A switch left of the middle and the same switch right of it give mirror images, candidate by candidate."""
    left = [("switch", Rect.about((x * IN, y * IN), 3 * IN, 5 * IN))]
    right = [("switch", left[0][1].mirrored(AIM[0]))]
    a = cluster(works, AIM, US, wall=WALL, obstacles=left)
    b = cluster(works, AIM, US, wall=WALL, obstacles=right)
    assert _places(a) == _places(
        tuple(Candidate(c.group.mirrored(AIM[0]), c.score, c.uneven, c.off) for c in b)
    )
    assert [c.score for c in a] == pytest.approx([c.score for c in b])


def test_the_same_seed_gives_the_same_clusters_and_several_that_differ() -> None:
    """Twice the same input gives the same places; three candidates differ and stand in the order of their scores."""
    one, two = (cluster(FIVE, AIM, US, wall=WALL, seed=3) for _ in range(2))
    assert _places(one) == _places(two)
    assert len(one) == 3
    assert len({tuple(p) for p in _places(one)}) == 3
    assert [c.score for c in one] == sorted(c.score for c in one)
    assert _places(cluster(FIVE, AIM, US, wall=WALL, seed=4)) != _places(one)


def test_five_works_hang_round_a_thermostat() -> None:
    """With a thermostat where the middle is wanted, the five hang round it, within 3 in of that middle, and balance."""
    best = cluster(FIVE, AIM, US, wall=WALL, obstacles=[THERMOSTAT])[0]
    box = best.group.box
    assert box.x0 < THERMOSTAT[1].x0
    assert box.x1 > THERMOSTAT[1].x1
    assert box.y0 < THERMOSTAT[1].y0 < THERMOSTAT[1].y1 < box.y1
    assert best.off <= 3 * IN
    assert best.group.imbalance < 0.15


def test_a_dark_work_moves_the_weight() -> None:
    """The same frames balance elsewhere where one of them weighs more on the eye."""
    heavy = (Work("24x30", 24 * IN, 30 * IN, tone=4.0), *FIVE[1:])
    best = cluster(heavy, AIM, US, wall=WALL)[0]
    plain = tuple(h.rect for h in best.group.hung)
    assert best.group.heavy[0] != pytest.approx(
        sum(r.width * r.height * r.center[0] for r in plain) / sum(r.width * r.height for r in plain)
    )


def test_the_width_over_a_sofa_is_kept_to() -> None:
    """With 63 in wanted the best cluster is within a sixth of it, and wider than the one on a bare wall of 50 in."""
    wide = cluster(FIVE, AIM, US, wall=WALL, width=63 * IN)[0].group.box.width
    assert abs(wide / (63 * IN) - 1) < 1 / 6


def test_what_has_no_place_is_refused() -> None:
    """A wall narrower than its widest work, 25 works, and 0 candidates are faults."""
    with pytest.raises(
        InputError, match=r"no cluster of 5 works was found on 30 in × 96 in of wall clear of thermostat"
    ):
        cluster(FIVE, (15 * IN, 57 * IN), US, wall=Rect(0, 0, 30 * IN, 96 * IN), obstacles=[THERMOSTAT])
    with pytest.raises(InputError, match="allowed are 1 to 24"):
        cluster([Work(str(i), 0.1, 0.1) for i in range(25)], AIM, US, wall=WALL)
    with pytest.raises(InputError, match="allowed are 1 to 12"):
        cluster(FIVE, AIM, US, wall=WALL, candidates=0)
