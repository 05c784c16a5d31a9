"""Lay all cuts of one cloth on bolts: a quick plan first, then the program, with the bound beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.drapery.bolts.bound import bound
from halfdrop.drapery.bolts.check import faults
from halfdrop.drapery.bolts.cut import BoltKind, BoltPlan, BoltRules, Cut, LaidBolt, LaidCut, meters
from halfdrop.drapery.bolts.greedy import Filled, greedy, paid
from halfdrop.drapery.bolts.task import Task, task_of
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

#: How much the solver may work, in its own measure (about seconds on a small machine).
EFFORT = 4.0


def plan_bolts(
    cuts: Sequence[Cut],
    bolts: Sequence[BoltKind],
    rules: BoltRules,
    practice: Practice,
    *,
    effort: float = EFFORT,
) -> BoltPlan:
    """Return where each cut of one cloth comes from, so that the least is bought.

    No cut crosses a bolt's end, matched cuts begin in phase, the pieces of a room come from one lot. The same input gives the
    same plan on every machine.

    Parameters
    ----------
    cuts : sequence of Cut
        All pieces of the cloth, across the whole job.
    bolts : sequence of BoltKind
        What there is.
    rules : BoltRules
        Repeat, what is kept to find the motif, how the cloth is sold.
    practice : Practice
        For the units of the working.
    effort : float
        Most work of the solver, in its own measure; 0 takes the quick plan.

    Raises
    ------
    InputError
        Where a cut is longer than the longest bolt, or the bolts there are do not hold all cuts.

    Source: our own. Checked by: tests/drapery/test_bolts.py.
    """
    plan = _planned(tuple(cuts), tuple(bolts), rules, practice, effort)
    return replace(plan, working=Working(plan.working.title, list(plan.working.steps)))


@lru_cache(maxsize=128)
def _planned(
    cuts: tuple[Cut, ...], bolts: tuple[BoltKind, ...], rules: BoltRules, practice: Practice, effort: float
) -> BoltPlan:
    """Return the plan; the same cloth is counted for the take-off, the shopping list, each trade's sheet and the book."""
    say = Words(practice)
    task = task_of(cuts, bolts, rules)
    _fits(task, say)
    plan = greedy(task) if cuts else []
    if plan is None:
        raise _too_little(task, say)
    least, most = bound(task), paid(task, plan)
    how = "the quick plan meets the bound"
    if most > least and effort > 0:
        from halfdrop.drapery.bolts.exact import solve  # here, since the solver is slow to load

        solved = solve(task, plan, most, effort)
        how = "the quick plan; the program is too large to be tried"
        if solved is not None:
            anywhere = any(k.phase is None for k in task.kinds) and task.repeat
            least = least if anywhere else max(least, solved.bound)
            how = "the quick plan; the program found none that buys less"
            if paid(task, solved.plan) < most:
                plan, most, how = solved.plan, paid(task, solved.plan), "the program's plan"
    elif most > least:
        how = "the quick plan"
    result = _told(task, plan, least, how, say)
    wrong = faults(result, cuts)
    if wrong:
        raise AssertionError(f"bolt plan: {wrong[0]}")
    return result


def _fits(task: Task, say: Words) -> None:
    """Raise where a single cut finds no bolt."""
    longest = max((task.room_of(b) for b in task.bolts), default=0)
    for kind in task.kinds:
        if kind.length + task.first_wait(kind.phase or 0) > longest:
            raise InputError(
                f"a cut of {say(meters(kind.length))} for {kind.cuts[0].id} lies on no bolt; "
                f"the longest holds {say(meters(longest))}",
                hint="ask for a longer bolt, or hang the treatment with a join",
            )


def _too_little(task: Task, say: Words) -> InputError:
    wanted = sum(kind.count * kind.length for kind in task.kinds)
    held = sum(task.room_of(b) * (b.count or 1) for b in task.bolts)
    lots = " in one lot for each room" if len(task.lots) > 1 else ""
    return InputError(
        f"the bolts of this cloth do not hold its cuts{lots}: {say(meters(wanted))} of cuts, {say(meters(held))} of cloth",
        hint="give another bolt under the fabric's `bolts`, or one without `count`",
    )


def _told(task: Task, plan: list[Filled], least: int, how: str, say: Words) -> BoltPlan:
    """Return the plan in meters, with its working; alike cuts are handed out room by room."""
    waiting = [list(kind.cuts) for kind in task.kinds]
    numbers: dict[BoltKind, int] = {}
    bolts = []
    for filled in plan:
        numbers[filled.bolt] = numbers.get(filled.bolt, 0) + 1
        shift = task.place - filled.origin
        laid = tuple(LaidCut(waiting[k].pop(0), meters(shift + start)) for k, start in filled.laid)
        bought = task.paid(filled.bolt, filled.used)
        used = meters(task.place + filled.used)
        motif = meters(shift % task.repeat) if task.repeat else 0.0
        bolts.append(LaidBolt(filled.bolt, numbers[filled.bolt], laid, motif, used, meters(bought)))
    total, lower = paid(task, plan), least
    working = Working("Bolt plan")
    cuts = sum(kind.count * kind.length for kind in task.kinds)
    working.step(
        "cuts", "every cut of the cloth", f"{sum(k.count for k in task.kinds)} cuts", say(meters(cuts))
    )
    working.step("bought", "each bolt to the step of sale", " + ".join(say(b.paid) for b in bolts) or "0",
                 say(meters(total)), rounding="up, so that cloth is never short")  # fmt: skip
    gap = 100 * (total - lower) / lower if lower else 0.0
    working.step("least there is", "cuts, or cuts to the next motif line, and each bolt's beginning",
                 say(meters(lower)), "this is the least" if total == lower else f"at most {gap:.1f}% above it",
                 source=how)  # fmt: skip
    return BoltPlan(tuple(bolts), task.rules, meters(total), meters(lower), working)
