"""The plan's task in whole steps: like cuts counted together, what one cut takes before the next may begin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from halfdrop.drapery.bolts.cut import BoltKind, BoltRules, Cut, down, nearest, up


@dataclass(frozen=True)
class Kind:
    """Cuts that are alike: `phase` is where in the repeat they begin [steps], None where anywhere will do."""

    length: int
    phase: int | None
    room: str
    cuts: tuple[Cut, ...]

    @property
    def count(self) -> int:
        """How many."""
        return len(self.cuts)


@dataclass(frozen=True)
class Task:
    """Kinds of cuts, kinds of bolts, and the cloth's rules, in steps.

    Attributes
    ----------
    kinds : tuple of Kind
        Longest first. Where there is but one lot, rooms are counted together.
    bolts : tuple of BoltKind
        What there is.
    rules : BoltRules
        The cloth's.
    """

    kinds: tuple[Kind, ...]
    bolts: tuple[BoltKind, ...]
    rules: BoltRules

    @cached_property
    def repeat(self) -> int:
        """The repeat, an even number of steps; 0 for plain cloth."""
        return 2 * nearest(self.rules.repeat / 2)

    @cached_property
    def place(self) -> int:
        """What is kept at a bolt's beginning."""
        return up(self.rules.place)

    @cached_property
    def sale(self) -> int:
        """The step of sale, 1 where there is none."""
        return max(1, nearest(self.rules.step))

    @cached_property
    def phases(self) -> tuple[int, ...]:
        """The phases that cuts begin at."""
        return tuple(sorted({k.phase for k in self.kinds if k.phase is not None}))

    @cached_property
    def lots(self) -> tuple[str, ...]:
        """The dye lots there are."""
        return tuple(sorted({b.lot for b in self.bolts}))

    def room_of(self, bolt: BoltKind) -> int:
        """Return what a bolt holds after its beginning [steps]."""
        return down(bolt.length) - self.place

    def paid(self, bolt: BoltKind, used: int) -> int:
        """Return what is bought of a bolt of which `used` is cut, its beginning not counted [steps].

        Never more than the bolt holds: the last of a bolt is sold as it is.
        """
        whole = down(bolt.length)
        if self.rules.whole_bolts:
            return whole
        return min(whole, -(-(used + self.place) // self.sale) * self.sale)

    def wait(self, end: int, phase: int) -> int:
        """Return the cloth lost between an end [steps] and the next place where a cut of that phase may begin."""
        return (phase - end) % self.repeat if self.repeat else 0

    def first_wait(self, phase: int) -> int:
        """Return the cloth lost after a bolt's beginning before its first cut.

        A bolt begins anywhere in its pattern. Where a repeat is kept for that, the first cut's own place is found within it.
        """
        return 0 if self.place >= self.repeat else phase

    def step(self, kind: Kind, phase: int) -> int:
        """Return the cloth from the beginning of a cut to the beginning of the next one, at another phase."""
        assert kind.phase is not None
        return kind.length + self.wait(kind.phase + kind.length, phase)

    def least_step(self, kind: Kind) -> int:
        """Return the least cloth from the beginning of a cut to that of any next one."""
        if kind.phase is None:
            return kind.length
        return min(self.step(kind, phase) for phase in self.phases)


def task_of(cuts: Sequence[Cut], bolts: Sequence[BoltKind], rules: BoltRules) -> Task:
    """Return the task in steps: lengths rounded up, bolts down."""
    several = len({b.lot for b in bolts}) > 1
    repeat = 2 * nearest(rules.repeat / 2)
    found: dict[tuple[int, int | None, str], list[Cut]] = {}
    for cut in cuts:
        phase = None
        if cut.line is not None and repeat:
            phase = (repeat // 2 * cut.half - nearest(cut.line)) % repeat
        elif not repeat:
            phase = 0
        found.setdefault((up(cut.length), phase, cut.room if several else ""), []).append(cut)
    order = sorted(found, key=lambda k: (-k[0], -1 if k[1] is None else k[1], k[2]))
    return Task(tuple(Kind(*key, tuple(found[key])) for key in order), tuple(bolts), rules)
