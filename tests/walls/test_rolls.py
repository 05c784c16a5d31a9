"""The roll plan: on the roll, in phase, no fewer pieces than wanted, and the least or its gap told."""

from __future__ import annotations

from itertools import pairwise, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.walls import Cut, RollPlan, plan_rolls


def cut(n: int, length: float, phase: float = 0.0) -> Cut:
    """One length."""
    return Cut(f"c{n}", n, "whole", 0.0, length, length, phase)


def _sound(plan: RollPlan, cuts: list[Cut], length: float, repeat: float) -> None:
    """Every length lies on a roll once, none over another or past the end, all of a roll in one phase."""
    laid = [one for roll in plan.rolls for one in roll]
    assert sorted(one.cut.id for one in laid) == sorted(c.id for c in cuts)
    for roll in plan.rolls:
        for a, b in pairwise(roll):
            assert a.end <= b.start + 1e-5
        assert roll[-1].end <= length - plan.held_back + SAME
        assert roll[0].start >= 0
        if repeat:
            marks = [(one.start - one.cut.phase) % repeat for one in roll]
            for mark in marks:
                off = (mark - marks[0]) % repeat
                assert min(off, repeat - off) < 1e-5
    assert plan.gap >= 0


wanted = st.lists(
    st.tuples(st.sampled_from([2.6, 2.4, 0.9, 0.5, 1.2]), st.sampled_from([0.0, 0.5, 0.25])),
    min_size=1,
    max_size=24,
)
repeats = st.sampled_from([0.0, 0.3, 0.64, 0.53])


def _cuts(rows: list[tuple[float, float]], repeat: float) -> list[Cut]:
    return [cut(n, length, share * repeat) for n, (length, share) in enumerate(rows)]


@given(wanted, repeats, st.booleans())
def test_nothing_crosses_an_end_and_all_is_in_phase(
    rows: list[tuple[float, float]], repeat: float, aligned: bool
) -> None:
    """The plan is sound for any mix of whole strips and short lengths."""
    cuts = _cuts(rows, repeat)
    plan = plan_rolls(cuts, 10.05, repeat=repeat, aligned=aligned)
    _sound(plan, cuts, 10.05, repeat)
    assert plan.held_back == (0.0 if aligned else repeat)


@given(wanted, repeats)
def test_more_paper_is_never_bought_for_less_wall(rows: list[tuple[float, float]], repeat: float) -> None:
    """One length fewer, or every length 5 cm shorter at its foot, has a bound no higher than the plan; same with longer rolls."""
    plan = plan_rolls(_cuts(rows, repeat), 10.05, repeat=repeat)
    assert plan_rolls(_cuts(rows[1:], repeat), 10.05, repeat=repeat).bound <= plan.count
    shorter = [(length - 0.05, share) for length, share in rows]
    assert plan_rolls(_cuts(shorter, repeat), 10.05, repeat=repeat).bound <= plan.count
    assert plan_rolls(_cuts(rows, repeat), 15.0, repeat=repeat).bound <= plan.count


@given(wanted, st.sampled_from([0.3, 0.64, 0.53]), st.sampled_from([2, 3, 4]))
def test_a_repeat_divided_never_takes_more(rows: list[tuple[float, float]], repeat: float, by: int) -> None:
    """What is in phase with a repeat is in phase with a whole part of it: the divided one is proven to need no more.

    Lengths of one phase (straight match) for any divisor; the plan with gap 0 takes no more rolls either.
    """
    cuts = _cuts([(length, 0.0) for length, _ in rows], repeat)
    whole = plan_rolls(cuts, 10.05, repeat=repeat)
    part = plan_rolls(cuts, 10.05, repeat=repeat / by)
    assert part.bound <= whole.count
    if part.gap == 0:
        assert part.count <= whole.count


@given(wanted, st.sampled_from([0.3, 0.64]))
def test_half_drop_divided_by_three_never_takes_more(rows: list[tuple[float, float]], repeat: float) -> None:
    """Half a repeat is half a third of it and a whole third more, so an odd divisor keeps half-drop strips in phase."""
    halves = [(length, 0.5 if share else 0.0) for length, share in rows]
    whole = plan_rolls(_cuts(halves, repeat), 10.05, repeat=repeat)
    part = plan_rolls(_cuts(halves, repeat / 3), 10.05, repeat=repeat / 3)
    assert part.bound <= whole.count


def _fits(cuts: tuple[Cut, ...], length: float, repeat: float) -> bool:
    """Whether some order of the lengths lies on one roll, tried one by one."""
    for order in permutations(cuts):
        at = 0.0
        mark = order[0].phase
        for one in order:
            if repeat:
                wait = (one.phase - mark - at) % repeat
                at += 0.0 if repeat - wait < 1e-7 else wait
            at += one.length
        if at <= length + 1e-7:
            return True
    return False


def _fewest(cuts: list[Cut], length: float, repeat: float) -> int:
    """The least number of rolls by trying every partition: for six lengths at most."""
    best = len(cuts)

    def put(n: int, rolls: list[tuple[Cut, ...]]) -> None:
        nonlocal best
        if len(rolls) >= best:
            return
        if n == len(cuts):
            best = len(rolls)
            return
        for i, roll in enumerate(rolls):
            if _fits((*roll, cuts[n]), length, repeat):
                put(n + 1, [*rolls[:i], (*roll, cuts[n]), *rolls[i + 1 :]])
        put(n + 1, [*rolls, (cuts[n],)])

    put(0, [])
    return best


@given(st.lists(st.tuples(st.sampled_from([1.3, 0.9, 0.55, 2.1]), st.sampled_from([0.0, 0.5])), min_size=1, max_size=6),
       st.sampled_from([0.0, 0.37, 0.64]))  # fmt: skip
def test_small_plans_are_the_least_there_is(rows: list[tuple[float, float]], repeat: float) -> None:
    """Against every partition and order tried by hand, on rolls of 3.2 m: the plan takes as many rolls, and says so."""
    cuts = _cuts(rows, repeat)
    plan = plan_rolls(cuts, 3.2 + repeat, repeat=repeat)
    assert plan.count == _fewest(cuts, 3.2, repeat)
    assert plan.gap == 0


def test_short_lengths_come_out_of_the_ends_of_rolls() -> None:
    """Nine strips of 2.6 m take three rolls of 10.05 m; three lengths of 1.2 m and three of 0.9 m fit in their ends."""
    cuts = (
        [cut(n, 2.6) for n in range(9)]
        + [cut(n, 1.2) for n in range(9, 12)]
        + [cut(n, 0.9) for n in range(12, 15)]
    )
    plan = plan_rolls(cuts, 10.05)
    assert (plan.count, plan.gap) == (3, 0)


def test_a_repeat_held_back_may_cost_a_strip_that_the_formula_counts() -> None:
    """Cuts of 2.5 m with a repeat of 0.5 m: four on a roll of 10.05 m that begins at the mark, three where it may not."""
    cuts = [cut(n, 2.5) for n in range(4)]
    assert plan_rolls(cuts, 10.05, repeat=0.5, aligned=True).count == 1
    assert plan_rolls(cuts, 10.05, repeat=0.5).count == 2


def test_a_and_b_strips_follow_each_other() -> None:
    """2.2 m strips with a half-drop of 0.64 m, A and B in turn every 2.24 m: four a roll, where A alone takes 2.56 m."""
    mixed = [cut(n, 2.2, 0.32 * (n % 2)) for n in range(8)]
    assert plan_rolls(mixed, 10.05, repeat=0.64).count == 2
    alike = [cut(n, 2.2) for n in range(8)]
    assert plan_rolls(alike, 10.05, repeat=0.64).count == 3


def test_a_length_no_roll_holds_is_refused() -> None:
    """The message gives length, roll and what is held back."""
    with pytest.raises(
        InputError, match=r"a strip of 9\.80 m does not lie on a roll of 10\.05 m with 0\.64 m held back"
    ):
        plan_rolls([cut(0, 9.8)], 10.05, repeat=0.64)


def test_what_fills_a_roll_exactly_fits() -> None:
    """Four strips of 99 in are 396 in, a roll of 33 ft; four of 98 15/16 in too: sixteenths of an inch cost nothing."""
    for inches in (99, 98.9375):
        plan = plan_rolls([cut(n, inches * 0.0254) for n in range(8)], 4 * inches * 0.0254)
        assert (plan.count, plan.gap) == (2, 0)


def test_nothing_wanted_takes_no_roll() -> None:
    """An empty plan is proven."""
    assert plan_rolls([], 10.05).count == plan_rolls([], 10.05).gap == 0
