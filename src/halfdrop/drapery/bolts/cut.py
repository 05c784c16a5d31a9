"""Cuts, bolts and the plan that lays one on the other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from halfdrop.base.working import Working

#: Steps of the plan in one meter: 1/1600 mm, so that 1/32 in, 1/10 in and 1/2 mm are whole steps and half a repeat is one too.
STEPS = 1_600_000
#: A length this near to a whole step is that step [steps]: arithmetic noise buys no cloth.
_NOISE = 1e-3


def up(length: float) -> int:
    """Return a length [m] in steps, rounded up: cloth is never short."""
    return math.ceil(length * STEPS - _NOISE)


def down(length: float) -> int:
    """Return a length [m] in steps, rounded down: a bolt never holds more than it does."""
    return math.floor(length * STEPS + _NOISE)


def nearest(length: float) -> int:
    """Return a length [m] in the nearest step."""
    return round(length * STEPS)


def meters(steps: int) -> float:
    """Return steps as a length [m]."""
    return float(Fraction(steps, STEPS))


@dataclass(frozen=True)
class Cut:
    """One piece cut straight across the bolt.

    Attributes
    ----------
    id : str
        Which piece of what: `rooms/living/treatments/front/3`.
    room : str
        Whose room; the pieces of one room come from one dye lot.
    length : float
        Along the bolt [m].
    line : float or None
        From its start to the line that must fall on the pattern's motif line [m]; None where pattern does not matter.
    half : bool
        Whether that line falls half a repeat further, as every second width of a half-drop cloth does.
    across : tuple of float
        Widths of the pieces it is parted into, side by side from one selvage [m]; empty where it is one piece of full width.
    """

    id: str
    room: str
    length: float
    line: float | None = None
    half: bool = False
    across: tuple[float, ...] = ()


@dataclass(frozen=True)
class BoltKind:
    """Bolts that are alike.

    Attributes
    ----------
    id : str
        Its id in the cloth's `bolts`.
    length : float
        What one holds [m].
    lot : str
        Its dye lot; the empty text is the lot that is ordered.
    count : int or None
        How many there are; None for as many as wanted.
    """

    id: str
    length: float
    lot: str = ""
    count: int | None = None


@dataclass(frozen=True)
class BoltRules:
    """How one cloth is cut and sold.

    Attributes
    ----------
    repeat : float
        Of the pattern, along the bolt [m]; 0 for a plain cloth.
    place : float
        Kept at the start of each bolt to find the motif [m]: a bolt begins anywhere in its pattern.
    step : float
        The cloth is sold in steps of this [m].
    whole_bolts : bool
        Whether a bolt is paid whole.
    """

    repeat: float = 0.0
    place: float = 0.0
    step: float = 0.0
    whole_bolts: bool = False


@dataclass(frozen=True)
class LaidCut:
    """A cut in its place: `start` is how far from the bolt's beginning [m]."""

    cut: Cut
    start: float

    @property
    def end(self) -> float:
        """Where it ends [m]."""
        return self.start + self.cut.length


@dataclass(frozen=True)
class LaidBolt:
    """One bolt with what is cut from it, in order.

    Attributes
    ----------
    kind : BoltKind
        Which bolt.
    number : int
        The how-manyth of its kind, from 1.
    cuts : tuple of LaidCut
        From its beginning on.
    motif : float
        From its beginning to the first motif line the plan reckons with [m]. The bolt in hand has its first line elsewhere within
        a repeat: where a repeat is kept at the beginning, all cuts move back together by what it comes sooner.
    used, paid : float
        From its beginning to the last cut's end; what is bought of it [m].
    """

    kind: BoltKind
    number: int
    cuts: tuple[LaidCut, ...]
    motif: float
    used: float
    paid: float

    @property
    def offcut(self) -> float:
        """What is left over of what is bought [m]."""
        return self.paid - self.used


@dataclass(frozen=True)
class BoltPlan:
    """All cuts of one cloth on bolts.

    Attributes
    ----------
    bolts : tuple of LaidBolt
        Those used.
    rules : BoltRules
        How the cloth is cut and sold.
    paid : float
        What is bought in all [m].
    bound : float
        No plan buys less [m].
    working : Working
        The steps.
    """

    bolts: tuple[LaidBolt, ...]
    rules: BoltRules
    paid: float
    bound: float
    working: Working

    @property
    def gap(self) -> float:
        """How much the plan may be above the least there is, as a share of the bound; 0 where it is the least."""
        return (self.paid - self.bound) / self.bound if self.bound > 0 else 0.0

    @property
    def cut_length(self) -> float:
        """All cuts together [m]."""
        return sum(laid.cut.length for bolt in self.bolts for laid in bolt.cuts)
