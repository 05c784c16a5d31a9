"""The roll plan: every length of paper laid on real rolls in phase, with the fewest rolls, and how near to that it is.

A lower bound comes from linear programming over all ways to cut one roll, found one by one (column generation); a
plan from whole numbers of the ways found. Where the two agree the plan is proven the least.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from halfdrop.base.errors import InputError
from halfdrop.geometry.plane import Array
from halfdrop.walls.cuts import Cut
from halfdrop.walls.every_way import every_way
from halfdrop.walls.one_roll import Kind, Roll, best_way, places

_ROUNDS = 400


@dataclass(frozen=True)
class Laid:
    """A length where it lies on its roll [m]."""

    cut: Cut
    start: float

    @property
    def end(self) -> float:
        """Its far end [m]."""
        return self.start + self.cut.length


@dataclass(frozen=True)
class RollPlan:
    """Lengths on rolls.

    Attributes
    ----------
    rolls : tuple of tuple of Laid
        Each roll's lengths in the order they come off it.
    bound : int
        No plan takes fewer rolls than this, by proof.
    held_back : float
        Kept at the beginning of each roll to come into phase [m].
    """

    rolls: tuple[tuple[Laid, ...], ...]
    bound: int
    held_back: float

    @property
    def count(self) -> int:
        """How many rolls."""
        return len(self.rolls)

    @property
    def gap(self) -> int:
        """Rolls over the bound; 0 is the proven least."""
        return self.count - self.bound


def plan_rolls(
    cuts: Sequence[Cut], roll_length: float, *, repeat: float = 0.0, aligned: bool = False
) -> RollPlan:
    """Lay lengths on rolls.

    Parameters
    ----------
    cuts : sequence of Cut
        What is hung, of one paper.
    roll_length : float
        [m].
    repeat : float
        Vertical repeat [m]; 0 where any place on the roll will do.
    aligned : bool
        True where every roll is known to begin at the phase of the first length; by default a whole repeat of each
        roll is held back, since it may begin anywhere in the pattern.

    Raises
    ------
    InputError
        Where one length does not lie on a roll.

    Source: the cutting-stock bound is Gilmore and Gomory's (1961), from memory, unverified.

    Checked by: tests/walls/test_rolls.py.
    """
    if not cuts:
        return RollPlan((), 0, 0.0)
    held = 0.0 if aligned else repeat
    roll = Roll.of(roll_length - held, repeat, cuts[0].phase if aligned else None)
    kinds = Counter(roll.kind(cut) for cut in cuts)
    order = sorted(kinds, key=lambda k: (-k.length, k.phase))
    for kind in order:
        if places(roll, (kind,))[1] > roll.length:
            worst = max(cuts, key=lambda c: c.length)
            raise InputError(
                f"a strip of {worst.length:.2f} m does not lie on a roll of {roll_length:.2f} m"
                + (f" with {held:.2f} m held back to come into phase" if held else ""),
                hint="take a paper with longer rolls, or cover less height (`bottom`, `top`)",
            )
    wanted = np.array([kinds[kind] for kind in order], dtype=float)
    ways = _greedy(roll, order, kinds)
    bound, found = _bound(roll, order, wanted, ways)
    best, _ = (ways, bound) if len(ways) <= bound else _whole(order, wanted, found, ways)
    if len(best) > bound:
        every = every_way(roll, order, [kinds[kind] for kind in order])
        if every is not None:
            best, proven = _whole(order, wanted, every, best)
            bound = max(bound, proven)
    return RollPlan(_lay(roll, best, cuts), min(bound, len(best)), held)


Way = tuple[Kind, ...]


def _greedy(roll: Roll, order: Sequence[Kind], kinds: Counter[Kind]) -> list[Way]:
    """Return a plan: the longest first, each on the roll where least is lost before it."""
    rolls: list[Way] = []
    for kind in order:
        for _ in range(kinds[kind]):
            tried = [(places(roll, (*way, kind))[1], places(roll, way)[1], i) for i, way in enumerate(rolls)]
            fits = [(end - before - kind.length, i) for end, before, i in tried if end <= roll.length]
            if fits:
                _, i = min(fits)
                rolls[i] = (*rolls[i], kind)
            else:
                rolls.append((kind,))
    return rolls


def _bound(roll: Roll, order: Sequence[Kind], wanted: Array, ways: Sequence[Way]) -> tuple[int, list[Way]]:
    """Return the least number of rolls that linear programming allows, and the ways of cutting it found."""
    found = list(dict.fromkeys([*ways, *((kind,) for kind in order)]))
    bound = 0.0
    for _ in range(_ROUNDS):
        table = _table(order, found)
        solved = linprog(np.ones(len(found)), A_ub=-table, b_ub=-wanted, method="highs")
        prices = -np.asarray(solved.ineqlin.marginals)
        worth, way = best_way(roll, order, prices)
        if worth > 0:
            bound = max(bound, float(solved.fun) / max(worth, 1.0))
        if worth <= 1 + 1e-9 or way in found:
            break
        found.append(way)
    return int(np.ceil(bound - 1e-6)), found


def _table(order: Sequence[Kind], ways: Sequence[Way]) -> Array:
    """Return how many of each kind each way of cutting gives."""
    counts = [Counter(way) for way in ways]
    return np.array([[count[kind] for count in counts] for kind in order], dtype=float)


def _whole(
    order: Sequence[Kind], wanted: Array, found: Sequence[Way], ways: list[Way]
) -> tuple[list[Way], int]:
    """Return the plan with the fewest rolls made of whole ways, never worse than the one at hand.

    The number is a bound on every plan made of the ways given.
    """
    solved = milp(
        np.ones(len(found)),
        constraints=LinearConstraint(_table(order, found), wanted, np.inf),
        integrality=np.ones(len(found)),
        bounds=Bounds(0, np.inf),
        options={"node_limit": 2_000},
    )
    proven = 0 if solved.mip_dual_bound is None else int(np.ceil(float(solved.mip_dual_bound) - 1e-6))
    if solved.x is None or round(float(solved.x.sum())) >= len(ways):
        return ways, proven
    counts = [round(float(count)) for count in solved.x]
    return [way for way, count in zip(found, counts, strict=True) for _ in range(count)], proven


def _lay(roll: Roll, ways: Sequence[Way], cuts: Sequence[Cut]) -> tuple[tuple[Laid, ...], ...]:
    """Give every length its place: what a way offers over what is wanted is left on the roll."""
    waiting: dict[Kind, list[Cut]] = {}
    for cut in cuts:
        waiting.setdefault(roll.kind(cut), []).append(cut)
    rank = {cut.id: n for n, cut in enumerate(cuts)}
    rolls = []
    for way in ways:
        taken = [(kind, waiting[kind].pop(0)) for kind in way if waiting[kind]]
        if taken:
            starts, _ = places(roll, [kind for kind, _ in taken])
            rolls.append(
                tuple(Laid(cut, at / roll.scale) for at, (_, cut) in zip(starts, taken, strict=True))
            )
    rolls.sort(key=lambda r: min(rank[laid.cut.id] for laid in r))
    return tuple(rolls)
