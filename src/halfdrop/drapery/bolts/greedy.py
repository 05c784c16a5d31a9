"""A plan at once: fill bolt after bolt with the cut that fits best."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from halfdrop.drapery.bolts.cut import BoltKind
from halfdrop.drapery.bolts.task import Task


@dataclass
class Filled:
    """A bolt being filled, along its pattern [steps].

    Attributes
    ----------
    bolt : BoltKind
        Which.
    laid : list of (int, int)
        The kinds laid, by number, each with where in the pattern it starts; a motif line is at 0.
    origin : int
        Where in the pattern the cloth after the bolt's beginning starts.
    end : int
        Where the last cut ends.
    """

    bolt: BoltKind
    laid: list[tuple[int, int]] = field(default_factory=list)
    origin: int = 0
    end: int = 0

    @property
    def used(self) -> int:
        """What is cut, waits with it [steps]."""
        return self.end - self.origin

    def wait(self, task: Task, k: int) -> int:
        """Return the cloth lost before a cut of kind `k`."""
        phase = task.kinds[k].phase
        if phase is None:
            return 0
        return task.wait(self.end, phase) if self.laid else task.first_wait(phase)

    def lay(self, task: Task, k: int) -> None:
        """Lay a cut of kind `k` after the others."""
        kind = task.kinds[k]
        if not self.laid and kind.phase is not None:
            self.origin = kind.phase - task.first_wait(kind.phase)
            self.end = self.origin
        start = self.end + self.wait(task, k)
        self.laid.append((k, start))
        self.end = start + kind.length


#: A choice among cuts that fit: by their wait and length, the least is taken.
_Choice = Callable[[int, int], tuple[int, int]]
_CHOICES: tuple[_Choice, ...] = (
    lambda wait, length: (-length, wait),
    lambda wait, length: (wait, -length),
    lambda wait, length: (wait - length, 0),
)


def greedy(task: Task) -> list[Filled] | None:
    """Return the cheapest of a few quick plans, or None where none of them lays every cut."""
    plans = []
    for choice in _CHOICES:
        for longest_first in (True, False):
            plan = _plan(task, choice, longest_first)
            if plan is not None:
                plans.append(plan)
    return min(plans, key=lambda plan: paid(task, plan)) if plans else None


def paid(task: Task, plan: list[Filled]) -> int:
    """Return what a plan buys [steps]."""
    return sum(task.paid(f.bolt, f.used) for f in plan)


def _plan(task: Task, choice: _Choice, longest_first: bool) -> list[Filled] | None:
    if len(task.lots) == 1:
        return _fill(task, choice, longest_first, task.lots[0], set(range(len(task.kinds))))
    need: dict[str, int] = {}
    for kind in task.kinds:
        need[kind.room] = need.get(kind.room, 0) + kind.count * task.least_step(kind)
    chosen: dict[str, str] = {}
    plans: dict[str, list[Filled]] = {lot: [] for lot in task.lots}
    for room in sorted(need, key=lambda r: (-need[r], r)):
        tried = []
        for lot in task.lots:
            rooms = {r for r, at in chosen.items() if at == lot} | {room}
            numbers = {i for i, k in enumerate(task.kinds) if k.room in rooms}
            plan = _fill(task, choice, longest_first, lot, numbers)
            if plan is not None:
                tried.append((paid(task, plan) - paid(task, plans[lot]), lot, plan))
        if not tried:
            return None
        _, lot, plan = min(tried, key=lambda t: t[:2])
        chosen[room], plans[lot] = lot, plan
    return [filled for lot in task.lots for filled in plans[lot]]


def _fill(
    task: Task, choice: _Choice, longest_first: bool, lot: str, numbers: set[int]
) -> list[Filled] | None:
    """Fill the bolts of one lot with cuts; None where they do not hold them."""
    left = {i: task.kinds[i].count for i in sorted(numbers)}
    sign = -1 if longest_first else 1
    stock = sorted(
        (b for b in task.bolts if b.lot == lot), key=lambda b: (b.count is None, sign * b.length, b.id)
    )
    plan: list[Filled] = []
    for bolt in stock:
        number = 0
        while any(left.values()) and (bolt.count is None or number < bolt.count):
            filled = _one(task, choice, bolt, left)
            if not filled.laid:
                break
            plan.append(filled)
            number += 1
    return None if any(left.values()) else plan


def _one(task: Task, choice: _Choice, bolt: BoltKind, left: dict[int, int]) -> Filled:
    """Fill one bolt: pieces with a pattern first, what may lie anywhere after them."""
    filled, room = Filled(bolt), task.room_of(bolt)
    for anywhere in (False, True):
        while True:
            fits = []
            for i, count in left.items():
                kind = task.kinds[i]
                if not count or (kind.phase is None) != anywhere:
                    continue
                wait = filled.wait(task, i)
                if filled.used + wait + kind.length <= room:
                    fits.append((*choice(wait, kind.length), i))
            if not fits:
                break
            *_, i = min(fits)
            filled.lay(task, i)
            left[i] -= 1
    return filled
