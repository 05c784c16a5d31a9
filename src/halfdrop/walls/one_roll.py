"""One roll of patterned paper: where the next length may begin, and the best way to cut it at given prices."""

from __future__ import annotations

import math
from bisect import insort
from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.geometry.plane import Array
from halfdrop.walls.cuts import Cut

#: Steps a metre where there is a pattern, and where any place will do.
_FINE, _COARSE = 1_000_000, 100_000
#: Lengths are rounded up to whole steps; a roll takes up to this many steps more, so that what fills it exactly
#: fits: a tenth of a millimetre at most, under `base.tolerance.SAME`.
_SLACK = 10


@dataclass(frozen=True)
class Kind:
    """Lengths alike: as long, and beginning at the same place in the pattern [steps]."""

    length: int
    phase: int


@dataclass(frozen=True)
class Roll:
    """A roll in whole steps.

    Attributes
    ----------
    length, repeat : int
        Usable length and repeat; repeat 0 where any place will do.
    phase : int or None
        Phase of the pattern at its beginning; None where the first length begins at once.
    scale : int
        Steps a metre.
    """

    length: int
    repeat: int
    phase: int | None
    scale: int

    @classmethod
    def of(cls, length: float, repeat: float, phase: float | None) -> Roll:
        """Return a roll [m]."""
        scale = _FINE if repeat else _COARSE
        at = None if phase is None or not repeat else round(phase * scale)
        return cls(math.floor(length * scale) + _SLACK, round(repeat * scale), at, scale)

    def kind(self, cut: Cut) -> Kind:
        """Return the kind of a length: rounded up, so that it is never short."""
        phase = round(cut.phase * self.scale) % self.repeat if self.repeat else 0
        return Kind(math.ceil(cut.length * self.scale - 1e-3), phase)

    def wait(self, kind: Kind, at: int, phase: int) -> int:
        """Return how much is let go by at a place before a length is in phase; `phase` is the roll's at 0 [steps]."""
        return (kind.phase - phase - at) % self.repeat if self.repeat else 0


def places(roll: Roll, way: Sequence[Kind]) -> tuple[tuple[int, ...], int]:
    """Return where each of a sequence of lengths begins on a roll, and where the last ends [steps]."""
    at = 0
    phase = roll.phase if roll.phase is not None else way[0].phase
    starts = []
    for kind in way:
        starts.append(at + roll.wait(kind, at, phase))
        at = starts[-1] + kind.length
    return tuple(starts), at


def best_way(roll: Roll, kinds: Sequence[Kind], prices: Array) -> tuple[float, tuple[Kind, ...]]:
    """Return the way to cut a roll that is worth most, and its worth.

    Parameters
    ----------
    roll : Roll
    kinds : sequence of Kind
        What may be cut, any number of each.
    prices : Array (n,)
        Worth of one of each, 0 or more.

    A label is a place, a last kind and a worth; a label is dropped where an earlier or equal place is worth as much:
    whoever stands earlier can wait.
    """
    worth: float = 0.0
    way: tuple[Kind, ...] = ()
    paid = [(kind, float(price)) for kind, price in zip(kinds, prices, strict=True) if price > 1e-12]
    firsts = {kind.phase: None for kind, _ in paid} if roll.repeat and roll.phase is None else {0: None}
    for origin in firsts:
        phase = roll.phase if roll.phase is not None else origin
        value, found = _longest(roll, paid, phase)
        if value > worth + 1e-12:
            worth, way = value, found
    return worth, way


def _longest(roll: Roll, paid: Sequence[tuple[Kind, float]], phase: int) -> tuple[float, tuple[Kind, ...]]:
    """Return the sequence worth most on a roll whose pattern begins at `phase`."""
    labels: dict[int, tuple[float, int, Kind | None]] = {0: (0.0, -1, None)}
    open_ = [0]
    best, best_at, most = 0.0, 0, -1.0
    while open_:
        at = open_.pop(0)
        value = labels[at][0]
        if value <= most:
            continue
        most = value
        if value > best:
            best, best_at = value, at
        for kind, price in paid:
            end = at + roll.wait(kind, at, phase) + kind.length
            if end > roll.length:
                continue
            if end not in labels:
                labels[end] = (value + price, at, kind)
                insort(open_, end)
            elif labels[end][0] < value + price:
                labels[end] = (value + price, at, kind)
    way: list[Kind] = []
    at = best_at
    while at:
        _, before, last = labels[at]
        if last is not None:
            way.append(last)
        at = before
    return best, tuple(reversed(way))
