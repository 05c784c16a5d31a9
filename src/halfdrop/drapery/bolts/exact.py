"""The plan as an integer program: which cut follows which phase on each bolt, solved by CP-SAT.

On a bolt, cuts with a pattern are a walk: a cut begins at its phase and leads to the phase at which the next begins, at the cost
of the step between. What may lie anywhere comes after them. Every plan in which it does can be pushed together into such a
walk, so the program's bound holds for all of those.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations

from ortools.sat.python import cp_model

from halfdrop.drapery.bolts.bound import bound
from halfdrop.drapery.bolts.cut import BoltKind
from halfdrop.drapery.bolts.greedy import Filled
from halfdrop.drapery.bolts.task import Task

#: More phases than these, or more variables, and the program is left alone: the quick plan and its bound stand.
MOST_PHASES = 5
MOST_VARIABLES = 12_000
#: So few cuts are given a bolt each; so many bolts more than the first plan's are tried.
_FEW, _MORE = 8, 4


@dataclass(frozen=True)
class Solved:
    """What the program found: the plan, and what no plan of its kind buys less than [steps]."""

    plan: list[Filled]
    bound: int


def solve(task: Task, start: list[Filled], most: int, effort: float) -> Solved | None:
    """Return a plan that buys less than `start`, or the proof that it is the least; None where neither was found.

    Parameters
    ----------
    task : Task
        What to lay.
    start : list of Filled
        A plan to begin with.
    most : int
        What `start` buys [steps].
    effort : float
        The solver's own measure of work, the same on every machine.
    """
    bolts, enough = _bolts(task, start, most)
    size = len(bolts) * len(task.kinds) * max(1, len(task.phases))
    if len(task.phases) > MOST_PHASES or size > MOST_VARIABLES:
        return None
    program = _Program(task, bolts)
    program.hint(start)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(program.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    lower = program.lower(solver)
    if enough is not None:
        lower = min(
            lower, bound(task, enough + 1)
        )  # what plans of more bolts than the program has buy at least
    return Solved(program.plan(solver), lower)


def _bolts(task: Task, start: list[Filled], most: int) -> tuple[list[BoltKind], int | None]:
    """Return single bolts for the program, and how many of a kind it has where a better plan might use more still.

    Where bolts are paid whole, a plan as cheap as the first uses no more of a kind than its price pays. Else more bolts may save
    a wait each: so many are tried that a plan of still more is known to buy no less, but only a few more than the first plan's.
    """
    cuts = sum(k.count for k in task.kinds)
    found: list[BoltKind] = []
    enough: int | None = None
    for bolt in task.bolts:
        if bolt.count is not None:
            found += [bolt] * min(bolt.count, cuts)
        elif task.rules.whole_bolts:
            found += [bolt] * min(cuts, most // (task.room_of(bolt) + task.place))
        else:
            number = cuts if cuts <= _FEW else len(start)
            while number < min(cuts, len(start) + _MORE) and bound(task, number + 1) < most:
                number += 1
            found += [bolt] * number
            enough = number if number < cuts else enough
    return found, enough


class _Program:
    """The variables of one task, by bolt."""

    def __init__(self, task: Task, bolts: list[BoltKind]) -> None:
        self.task, self.bolts = task, bolts
        self.model = cp_model.CpModel()
        self.phases = task.phases
        self.go: dict[tuple[int, int, int], cp_model.IntVar] = {}  # bolt, kind, next phase
        self.last: dict[tuple[int, int], cp_model.IntVar] = {}
        self.begin: dict[tuple[int, int], cp_model.IntVar] = {}
        self.free: dict[tuple[int, int], cp_model.IntVar] = {}
        self.used = [self.model.new_bool_var(f"u{b}") for b in range(len(bolts))]
        self.paid: list[cp_model.IntVar] = []
        for b in range(len(bolts)):
            self._bolt(b)
        self._demand()
        self._lots()
        self._alike()
        self.unit = 1 if self._odd() else self.task.sale
        # Where a bolt more costs nothing in itself, as few as can be are begun for what is bought.
        self.tied = 0 if self.task.place or self.task.rules.whole_bolts else len(bolts)
        self.model.minimize(_sum(self.paid) * (self.tied + 1) + (_sum(self.used) if self.tied else 0))

    def _odd(self) -> bool:
        """Whether prices are counted in single steps: whole bolts, or bolts that end within a step of sale."""
        whole = self.task.rules.whole_bolts
        return whole or any((self.task.room_of(b) + self.task.place) % self.task.sale for b in self.bolts)

    def _bolt(self, b: int) -> None:
        task, model, bolt = self.task, self.model, self.bolts[b]
        room = task.room_of(bolt)
        length: list[cp_model.LinearExpr] = []
        for q in self.phases:
            self.begin[b, q] = model.new_bool_var(f"s{b}.{q}")
            length.append(self.begin[b, q] * task.first_wait(q))
        for k, kind in enumerate(task.kinds):
            most = min(kind.count, room // kind.length)
            if kind.phase is None:
                self.free[b, k] = model.new_int_var(0, most, f"f{b}.{k}")
                length.append(self.free[b, k] * kind.length)
                model.add(self.free[b, k] <= most * self.used[b])
                continue
            self.last[b, k] = model.new_bool_var(f"l{b}.{k}")
            length.append(self.last[b, k] * kind.length)
            for q in self.phases:
                self.go[b, k, q] = model.new_int_var(0, most, f"y{b}.{k}.{q}")
                length.append(self.go[b, k, q] * task.step(kind, q))
        used = _sum(length)
        model.add(used <= room * self.used[b])
        if self.phases:
            model.add(_sum(self.begin[b, q] for q in self.phases) <= self.used[b])
            self._walk(b)
        whole = room + task.place
        if task.rules.whole_bolts:
            paid = model.new_int_var(0, whole, f"p{b}")
            model.add(paid == whole * self.used[b])
        elif self._odd():
            paid = model.new_int_var(0, whole, f"p{b}")
            sold = model.new_int_var(0, whole // task.sale + 1, f"n{b}")
            full = model.new_bool_var(f"w{b}")
            model.add(sold * task.sale >= used + task.place * self.used[b]).only_enforce_if(~full)
            model.add(paid >= sold * task.sale).only_enforce_if(~full)
            model.add(paid >= whole).only_enforce_if(full)
        else:
            paid = model.new_int_var(0, whole // task.sale, f"p{b}")
            model.add(paid * task.sale >= used + task.place * self.used[b])
        self.paid.append(paid)

    def _walk(self, b: int) -> None:
        """A walk enters each phase as often as it leaves it, and what is visited hangs together."""
        task, model = self.task, self.model
        numbers = [k for k, kind in enumerate(task.kinds) if kind.phase is not None]
        model.add(_sum(self.last[b, k] for k in numbers) == _sum(self.begin[b, q] for q in self.phases))
        for q in self.phases:
            into = self.begin[b, q] + _sum(self.go[b, k, q] for k in numbers)
            out = _sum(self._count(b, k) for k in numbers if task.kinds[k].phase == q)
            model.add(into == out)
        for some in _parts(self.phases):
            inside = [k for k in numbers if task.kinds[k].phase in some]
            outside = [k for k in numbers if task.kinds[k].phase not in some]
            enter = _sum(self.begin[b, q] for q in some) + _sum(
                self.go[b, k, q] for k in outside for q in some
            )
            most = sum(
                min(task.kinds[k].count, task.room_of(self.bolts[b]) // task.kinds[k].length) for k in inside
            )
            model.add(most * enter >= _sum(self._count(b, k) for k in inside))

    def _count(self, b: int, k: int) -> cp_model.LinearExpr:
        """How many cuts of a kind lie on a bolt."""
        if self.task.kinds[k].phase is None:
            return self.free[b, k]
        return self.last[b, k] + _sum(self.go[b, k, q] for q in self.phases)

    def _demand(self) -> None:
        for k, kind in enumerate(self.task.kinds):
            self.model.add(_sum(self._count(b, k) for b in range(len(self.bolts))) == kind.count)

    def _lots(self) -> None:
        """The pieces of one room come from one lot."""
        task = self.task
        if len(task.lots) == 1:
            return
        for room in sorted({k.room for k in task.kinds}):
            at = {lot: self.model.new_bool_var(f"r{room}.{lot}") for lot in task.lots}
            self.model.add_exactly_one(at.values())
            for k, kind in enumerate(task.kinds):
                if kind.room == room:
                    for b, bolt in enumerate(self.bolts):
                        self.model.add(self._count(b, k) <= kind.count * at[bolt.lot])

    def _alike(self) -> None:
        """Of bolts that are alike the first is the fuller one: the same plan is not looked at twice."""
        for b in range(1, len(self.bolts)):
            if self.bolts[b] == self.bolts[b - 1]:
                self.model.add(self.used[b - 1] >= self.used[b])
                self.model.add(self.paid[b - 1] >= self.paid[b])

    def hint(self, start: list[Filled]) -> None:
        """Tell the solver a plan to begin with."""
        waiting: dict[BoltKind, list[Filled]] = {}
        for filled in start:
            waiting.setdefault(filled.bolt, []).append(filled)
        for same in waiting.values():
            same.sort(key=lambda f: -self.task.paid(f.bolt, f.used))
        values: dict[int, int] = {}
        for b, bolt in enumerate(self.bolts):
            filled = waiting[bolt].pop(0) if waiting.get(bolt) else Filled(bolt)
            self._hint_bolt(b, filled, values)
        groups = (self.go.values(), self.last.values(), self.begin.values(), self.free.values(), self.used)
        for variable in (v for group in groups for v in group):
            self.model.add_hint(variable, values.get(variable.index, 0))

    def _hint_bolt(self, b: int, filled: Filled, values: dict[int, int]) -> None:
        def more(variable: cp_model.IntVar) -> None:
            values[variable.index] = values.get(variable.index, 0) + 1

        if not filled.laid:
            return
        more(self.used[b])
        walk = [k for k, _ in filled.laid if self.task.kinds[k].phase is not None]
        phases = [self.task.kinds[k].phase for k in walk]
        if walk:
            more(self.begin[b, phases[0] or 0])
            more(self.last[b, walk[-1]])
        for k, after in zip(walk, phases[1:], strict=False):
            more(self.go[b, k, after or 0])
        for k, _ in filled.laid:
            if self.task.kinds[k].phase is None:
                more(self.free[b, k])

    def lower(self, solver: cp_model.CpSolver) -> int:
        """Return the proven bound [steps]."""
        both = math.ceil(solver.best_objective_bound - 1e-6)
        return -(-(both - self.tied) // (self.tied + 1)) * self.unit

    def plan(self, solver: cp_model.CpSolver) -> list[Filled]:
        """Return the plan found: each bolt's walk, then what lies anywhere."""
        plan = []
        for b, bolt in enumerate(self.bolts):
            go = {k: [q for q in self.phases for _ in range(solver.value(self.go[b, k, q]))]
                  for k in range(len(self.task.kinds)) if (b, k, self.phases[0] if self.phases else 0) in self.go}  # fmt: skip
            begin = [q for q in self.phases if solver.value(self.begin[b, q])]
            end = [k for k in go if solver.value(self.last[b, k])]
            order = _trail(self.task, begin[0], go) + end if begin else []
            order += [k for (at, k), v in self.free.items() if at == b for _ in range(solver.value(v))]
            if order:
                plan.append(_laid(self.task, bolt, order))
        return plan


def _sum(parts: Iterable[cp_model.LinearExpr]) -> cp_model.LinearExpr:
    """Return a sum of the program's terms."""
    total = cp_model.LinearExpr.sum(list(parts))
    assert isinstance(total, cp_model.LinearExpr)
    return total


def _parts(phases: tuple[int, ...]) -> Iterable[set[int]]:
    """Give every set of phases but the empty one."""
    for size in range(1, len(phases) + 1):
        yield from (set(part) for part in combinations(phases, size))


def _trail(task: Task, begin: int, go: dict[int, list[int]]) -> list[int]:
    """Return the order of cuts that walks every step once (Hierholzer's algorithm), long cuts of a phase first."""
    left: dict[int, list[tuple[int, int]]] = {q: [] for q in task.phases}
    for k, nexts in sorted(go.items(), reverse=True):
        left[task.kinds[k].phase or 0] += [(k, q) for q in nexts]
    stack: list[tuple[int, int | None]] = [(begin, None)]
    order: list[int] = []
    while stack:
        phase, _ = stack[-1]
        if left[phase]:
            k, after = left[phase].pop()
            stack.append((after, k))
        else:
            _, came = stack.pop()
            if came is not None:
                order.append(came)
    return order[::-1]


def _laid(task: Task, bolt: BoltKind, order: list[int]) -> Filled:
    """Push cuts together in their order."""
    filled = Filled(bolt)
    for k in order:
        filled.lay(task, k)
    return filled
