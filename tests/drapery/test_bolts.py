"""The bolt plan: never short, in phase, within the bolt, one lot a room, and how near the least there is."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.drapery.bolts import BoltKind, BoltPlan, BoltRules, Cut, faults, plan_bolts
from halfdrop.drapery.bolts.bound import bound
from halfdrop.drapery.bolts.cut import LaidCut, meters
from halfdrop.drapery.bolts.task import Task, task_of
from tests.drapery.tables import CM, IN, US, YARD

SMALL = settings(max_examples=60, deadline=None, derandomize=True, database=None)


def _cuts(*lengths: float, room: str = "r", line: float | None = 0.2, half: bool = False) -> list[Cut]:
    return [Cut(f"{room}/{i}", room, x, line, half and i % 2 == 1) for i, x in enumerate(lengths)]


@st.composite
def tasks(draw: st.DrawFn, most: int = 12) -> tuple[list[Cut], list[BoltKind], BoltRules]:
    """Draw cuts of a few rooms, bolts that hold them, and a cloth."""
    repeat = draw(st.sampled_from([0.0, 0.32, 0.64, 27 * IN, 0.1]))
    half = repeat > 0 and draw(st.booleans())
    cuts = []
    for w in range(draw(st.integers(1, 4))):
        length = draw(st.integers(40, 300)) * CM
        line = draw(st.sampled_from([0.2, 0.15, None]))
        count = draw(st.integers(1, most // 4))
        cuts += [Cut(f"w{w}/{i}", f"room{w // 2}", length, line, half and i % 2 == 1) for i in range(count)]
    lots = draw(st.sampled_from([("",), ("k", "m")]))
    bolts = [BoltKind(f"b{lot}", draw(st.integers(8, 30)) * 1.0, lot) for lot in lots]
    rules = BoltRules(repeat, draw(st.sampled_from([0.0, repeat])), draw(st.sampled_from([0.0, 0.25 * YARD])),
                      draw(st.booleans()))  # fmt: skip
    return cuts, bolts, rules


@SMALL
@given(tasks())
def test_no_plan_is_ever_wrong(task: tuple[list[Cut], list[BoltKind], BoltRules]) -> None:
    """Cloth never short, no cut across a bolt's end, matched cuts in phase, one lot a room; the bound is a bound."""
    cuts, bolts, rules = task
    plan = plan_bolts(cuts, bolts, rules, US, effort=0.3)
    assert faults(plan, cuts) == []
    assert plan.paid >= sum(c.length for c in cuts) - 1e-4
    assert plan.bound <= plan.paid + 1e-9
    assert plan == plan_bolts(cuts, bolts, rules, US, effort=0.3)


def _least(task: Task, order: tuple[int, ...], at: tuple[int, int] | None = None) -> int:
    """Return the least that one order of cuts buys on bolts of one kind: before each cut a new bolt may be begun.

    `at` is where in the pattern the cloth of the bolt in hand starts, and where its last cut ends.
    """
    bolt = task.bolts[0]
    if not order:
        return 0 if at is None else task.paid(bolt, at[1] - at[0])
    kind, rest = task.kinds[order[0]], order[1:]
    phase = kind.phase or 0
    if at is None:
        origin = phase if task.place >= task.repeat else 0
        return _least(task, rest, (origin, phase + kind.length))
    ways = [task.paid(bolt, at[1] - at[0]) + _least(task, order)]
    end = at[1] + task.wait(at[1], phase) + kind.length
    if end - at[0] <= task.room_of(bolt):
        ways.append(_least(task, rest, (at[0], end)))
    return min(ways)


@SMALL
@given(
    st.lists(st.integers(50, 280), min_size=1, max_size=6),
    st.sampled_from([0.0, 0.32, 0.64]),
    st.booleans(),
    st.booleans(),
    st.sampled_from([4.0, 5.0, 30.0]),
    st.booleans(),
)
def test_small_plans_are_the_least_of_all_orders(
    lengths: list[int], repeat: float, half: bool, whole: bool, bolt: float, kept: bool
) -> None:
    """Against every order of up to six cuts: the plan buys no more than the best of them, the bound no more than the plan."""
    cuts = [Cut(f"c{i}", "r", x * CM, 0.2, half and i % 2 == 1) for i, x in enumerate(lengths)]
    rules = BoltRules(repeat, repeat if kept else 0.0, 0.0, whole)
    task = task_of(cuts, [BoltKind("b", bolt)], rules)
    numbers = [k for k, kind in enumerate(task.kinds) for _ in kind.cuts]
    best = min(_least(task, order) for order in set(permutations(numbers)))
    plan = plan_bolts(cuts, [BoltKind("b", bolt)], rules, US)
    assert plan.paid == pytest.approx(meters(best), abs=1e-9)
    assert plan.bound == pytest.approx(plan.paid, abs=1e-9)
    assert bound(task) <= best


@SMALL
@given(
    st.lists(st.tuples(st.integers(60, 280), st.integers(1, 3)), min_size=1, max_size=4),
    st.integers(10, 70),
    st.booleans(),
    st.integers(2, 5),
)
def test_a_repeat_divided_never_buys_more(
    windows: list[tuple[int, int]], repeat: int, half: bool, by: int
) -> None:
    """Straight cloth by any whole number, half-drop cloth by an odd one: every plan for the whole repeat serves its part."""
    if half and by % 2 == 0:
        by += 1
    whole = round(repeat * by * CM, 6)  # so that repeat and part are whole steps of the plan
    cuts = [c for n, (x, k) in enumerate(windows) for c in _cuts(*[x * CM] * k, room=f"w{n}", half=half)]
    bolts = [BoltKind("b", 40.0)]
    one = plan_bolts(cuts, bolts, BoltRules(whole, whole), US)
    part = plan_bolts(cuts, bolts, BoltRules(repeat * CM, repeat * CM), US)
    assert one.gap == part.gap == 0
    assert part.paid <= one.paid + 1e-4


def test_the_last_of_a_bolt_is_bought_as_it_is_and_the_bound_knows() -> None:
    """44.9 m of a 45 m bolt, sold by the quarter yard: the next quarter would be 45.03 m, but the bolt ends, and 45 m are paid."""
    plan = plan_bolts(
        [Cut("a", "r", 44.9, None, False)], [BoltKind("b", 45.0)], BoltRules(0.0, 0.0, YARD / 4, False), US
    )
    assert (plan.paid, plan.bound) == (pytest.approx(45.0), pytest.approx(45.0))
    assert faults(plan, [c.cut for b in plan.bolts for c in b.cuts]) == []


@pytest.mark.parametrize("repeat", [25.2 * IN, 0.10007, 0.64003, 0.333333])
def test_a_repeat_of_any_length_keeps_its_phase_to_the_bolts_end(repeat: float) -> None:
    """A repeat that is no whole number of the plan's steps drifts by less than a third of a millimeter over 45 m."""
    cuts = _cuts(*[2.74] * 15, half=True)
    plan = plan_bolts(cuts, [BoltKind("b", 45.0)], BoltRules(repeat, repeat, 0.0, False), US, effort=0.0)
    assert faults(plan, cuts) == []
    for bolt in plan.bolts:
        for piece in bolt.cuts:
            turns = (piece.start - bolt.motif + (piece.cut.line or 0.0)) / repeat - 0.5 * piece.cut.half
            assert abs(turns - round(turns)) * repeat < 0.3e-3


def test_half_the_repeat_of_a_half_drop_may_buy_more() -> None:
    """Why only odd parts: 220 cm at 64 alternates by itself in 3½ repeats; at 32 it waits half a repeat once."""
    cuts, bolts = _cuts(2.2, 2.2, 2.2, 2.2, half=True), [BoltKind("b", 40.0)]
    one = plan_bolts(cuts, bolts, BoltRules(0.64), US)
    part = plan_bolts(cuts, bolts, BoltRules(0.32), US)
    assert part.paid - one.paid == pytest.approx(0.16)


def test_a_short_window_is_cut_from_what_a_long_one_leaves() -> None:
    """Three drops of 3 m leave 1 m of a 10 m bolt: a 0.9 m drop of another room comes out of it, and no second bolt is bought."""
    cuts = _cuts(3.0, 3.0, 3.0, room="a", line=None) + _cuts(0.9, room="b", line=None)
    plan = plan_bolts(cuts, [BoltKind("b", 10.0)], BoltRules(whole_bolts=True), US)
    assert (len(plan.bolts), plan.paid, plan.gap) == (1, 10.0, 0.0)


def test_the_hand_count_can_run_short_where_the_plan_does_not() -> None:
    """Seven drops of 3 m are 21 m, and 3 bolts of 7 m hold 21 m; but each holds two drops, so four bolts are bought."""
    plan = plan_bolts(_cuts(*[3.0] * 7, line=None), [BoltKind("b", 7.0)], BoltRules(whole_bolts=True), US)
    assert plan.cut_length == pytest.approx(21.0)
    assert (len(plan.bolts), plan.paid) == (4, 28.0)


def test_the_pieces_of_a_room_come_from_one_lot() -> None:
    """Two lots of 10 m, two rooms of 2 × 4 m: a room a lot, though six metres of each would serve either."""
    cuts = _cuts(4.0, 4.0, room="a", line=None) + _cuts(4.0, 4.0, room="b", line=None)
    bolts = [BoltKind("one", 10.0, "K7", 1), BoltKind("two", 10.0, "K8", 1)]
    plan = plan_bolts(cuts, bolts, BoltRules(), US)
    assert {bolt.kind.lot: {p.cut.room for p in bolt.cuts} for bolt in plan.bolts} in (
        {"K7": {"a"}, "K8": {"b"}},
        {"K7": {"b"}, "K8": {"a"}},
    )


def test_a_bolt_begins_anywhere_in_its_pattern() -> None:
    """A repeat is kept at each bolt's beginning, within which the first cut finds its place; the next is whole repeats on."""
    plan = plan_bolts(_cuts(2.0, 2.0, line=0.2), [BoltKind("b", 30.0)], BoltRules(0.64, 0.64), US)
    bolt = plan.bolts[0]
    first, second = bolt.cuts
    assert first.start == pytest.approx(0.64)
    assert bolt.motif == pytest.approx(0.2)
    assert second.start - first.start == pytest.approx(4 * 0.64)
    assert plan.paid == pytest.approx(0.64 + 2.56 + 2.0)


def test_a_bolt_that_begins_at_a_motif_line_waits_for_the_first_cut() -> None:
    """Where nothing is kept, a hem line 20 cm up the cut makes the first cut begin 44 cm in."""
    plan = plan_bolts(_cuts(2.0, line=0.2), [BoltKind("b", 30.0)], BoltRules(0.64), US)
    assert plan.bolts[0].cuts[0].start == pytest.approx(0.44)
    assert plan.bolts[0].motif == 0


def test_what_no_bolt_holds_is_refused() -> None:
    """A drop longer than the longest bolt, and more drops than the bolts there are."""
    with pytest.raises(InputError, match="lies on no bolt"):
        plan_bolts(_cuts(9.0), [BoltKind("b", 8.0)], BoltRules(), US)
    with pytest.raises(InputError, match="do not hold"):
        plan_bolts(_cuts(5.0, 5.0), [BoltKind("b", 8.0, count=1)], BoltRules(), US)


def test_no_cut_takes_no_cloth() -> None:
    """An empty order is an empty plan."""
    plan = plan_bolts([], [BoltKind("b", 8.0)], BoltRules(), US)
    assert (plan.bolts, plan.paid, plan.bound, plan.gap) == ((), 0.0, 0.0, 0.0)


def test_the_working_says_what_is_bought_and_how_near_the_least_it_is() -> None:
    """A person reads cuts, what is bought, and that it is the least."""
    working = plan_bolts(
        _cuts(2.0, 2.0), [BoltKind("b", 30.0)], BoltRules(0.64, 0.64, 0.25 * YARD), US
    ).working
    assert [s.what for s in working.steps] == ["cuts", "bought", "least there is"]
    assert working.steps[-1].result == "this is the least"


def _good() -> tuple[BoltPlan, list[Cut]]:
    cuts = _cuts(2.0, 2.0, room="a")
    return plan_bolts(cuts, [BoltKind("b", 30.0)], BoltRules(0.64, 0.64, 0.25 * YARD), US), cuts


@pytest.mark.parametrize(
    ("shift", "paid", "kind", "word"),
    [
        (0.01, 0.0, None, "out of phase"),
        (-0.64, 0.0, None, "begins at"),
        (0.0, -1.0, None, "are bought of"),
        (0.0, 0.0, BoltKind("b", 4.0), "the bolt at"),
    ],
)
def test_the_judge_sees_a_plan_that_is_wrong(
    shift: float, paid: float, kind: BoltKind | None, word: str
) -> None:
    """A second cut moved out of phase or over the first, too little bought, a bolt too short: each is named."""
    plan, cuts = _good()
    bolt = plan.bolts[0]
    moved = (bolt.cuts[0], LaidCut(bolt.cuts[1].cut, bolt.cuts[1].start + shift))
    spoilt = replace(bolt, cuts=moved, paid=bolt.paid + paid, kind=kind or bolt.kind)
    assert any(word in fault for fault in faults(replace(plan, bolts=(spoilt,)), cuts))


def test_the_judge_misses_no_cut() -> None:
    """A cut that is wanted and not laid, and a room of two lots."""
    plan, cuts = _good()
    assert "2 cuts are laid, 3 are wanted" in faults(plan, [*cuts, Cut("x", "a", 1.0)])
    bolt = plan.bolts[0]
    twice = (
        replace(bolt, cuts=bolt.cuts[:1]),
        replace(bolt, kind=BoltKind("c", 30.0, "K"), cuts=bolt.cuts[1:]),
    )
    assert any("2 lots" in fault for fault in faults(replace(plan, bolts=twice), cuts))
