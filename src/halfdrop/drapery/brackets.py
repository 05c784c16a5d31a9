"""Brackets and center supports: by span, and by load with the panels drawn back."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.units import format_mass
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_SPAN, _CLOSE, _HEAVY, _LOAD, _BEND = (
    "drapery.bracket_spacing",
    "drapery.bracket_spacing_wide",
    "drapery.heavy_from",
    "drapery.bracket_load",
    "drapery.bracket_bend",
)

#: Most brackets that are tried; a load that wants more wants another rod.
_MOST = 60


@dataclass(frozen=True)
class BracketsAnswer:
    """Where the brackets go.

    Attributes
    ----------
    at : tuple of float
        From the rod's left end [m].
    span : float
        Widest span [m].
    load : float
        Most that any one carries [kg].
    allowed : float
        What one may carry [kg].
    working : Working
        The steps.
    """

    at: tuple[float, ...]
    span: float
    load: float
    allowed: float
    working: Working

    @property
    def holds(self) -> bool:
        """Whether none carries more than it may."""
        return self.load <= self.allowed + 1e-9


def brackets_for(
    rod: float,
    mass: float,
    per_area: float,
    practice: Practice,
    *,
    rod_mass: float = 0.0,
    stacks: tuple[float, float] = (0.0, 0.0),
    capacity: float | None = None,
    inset: float = 0.05,
    bends: Sequence[float] = (),
) -> BracketsAnswer:
    """Return brackets as many as span and load want: evenly spaced on a straight rod; on a bent one, a support to each side of a bend.

    Each bracket carries what hangs nearer to it than to any other. The load is reckoned twice: panels drawn shut, spread over the
    rod; and drawn back, all of it in the stacks at the ends. The greater counts.

    Parameters
    ----------
    rod : float
        End to end [m].
    mass : float
        Of the panels [kg].
    per_area : float
        Of a square of all layers [kg/m²]; from `drapery.heavy_from` on the spans are closer.
    practice : Practice
        `drapery.bracket_spacing`, `drapery.bracket_spacing_wide`, `drapery.heavy_from`, `drapery.bracket_load`, `drapery.bracket_bend`.
    rod_mass : float
        Of the rod itself [kg].
    stacks : (float, float)
        Width of the stack at the left and at the right end [m]; the mass is shared by their widths.
    capacity : float, optional
        What the maker allows on one bracket [kg].
    inset : float
        First bracket from the rod's end [m].
    bends : sequence of float
        Where the rod bends, from its left end [m]: a bay's corners.

    Where even brackets side by side would not carry it, those of the spans are returned, and `holds` is False.

    Caution: into a stud or solid wall, or with a fixing rated for the load; the maker's figure goes before.

    Source: spans are common practice, from memory; loads by lever arms. Checked by: tests/drapery/test_brackets.py.
    """
    say = Words(practice)
    key = _CLOSE if per_area >= practice.number(_HEAVY) else _SPAN
    spacing = float(practice.length(key))
    allowed = float(practice.mass(_LOAD)) if capacity is None else capacity
    held = _held(rod, sorted(bends), inset, float(practice.length(_BEND)) if bends else 0.0)
    gaps = [b - a for a, b in itertools.pairwise(held)]
    spans = [max(1, math.ceil(gap / spacing - 1e-9)) for gap in gaps]
    by_span, more = list(spans), True
    while True:
        at = _between(held, spans)
        shares = _shares(at, rod, mass, rod_mass, stacks)
        load = max(shares)
        if load <= allowed + 1e-9 or not more:
            break
        if sum(spans) + 1 >= _MOST:  # more would not help: as many as the spans want, and `holds` is False
            spans, more = by_span, False
        else:
            spans[_beside(shares.index(load), gaps, spans)] += 1
    count = len(at)
    working = Working("Brackets")
    legs = "; ".join(say(gap) for gap in gaps)
    if bends:
        near = say(practice.length(_BEND))
        working.step("held first", "both ends, and each side of a bend", f"{len(bends)} × {near} to either side",
                     "; ".join(say(x) for x in held), source=say.cited(_BEND))  # fmt: skip
    working.step("by span", "rod between the outer brackets ÷ widest span, up, and one more" if not bends
                 else "each length between those ÷ widest span, up; all of them, and one more",
                 f"{legs} ÷ {say(spacing)}", f"{sum(by_span) + 1}", rounding="up", source=say.cited(key))  # fmt: skip
    cited = say.cited(_LOAD) if capacity is None else "as its maker allows"
    working.step("by load", "as many as keep each within what it may carry, shut and drawn back",
                 f"{format_mass(mass + rod_mass, say.units)}; one takes {format_mass(allowed, say.units)}",
                 f"{count}, the fullest carries {format_mass(load, say.units)}" + ("" if more else ": too much"), source=cited)  # fmt: skip
    evenly = "evenly between those, from the left end" if bends else "evenly, from the left end"
    working.step("where", evenly, "", "; ".join(say(x) for x in at))
    return BracketsAnswer(at, max(b - a for a, b in itertools.pairwise(at)), load, allowed, working)


def _held(rod: float, bends: Sequence[float], inset: float, near: float) -> list[float]:
    """Return what is held whatever the load: both ends, and both sides of each bend; a leg too short for two has one [m]."""
    ends = [0.0, *bends, rod]
    inset = min(inset, rod / 4)
    out = []
    for leg, (a, b) in enumerate(itertools.pairwise(ends)):
        first, last = leg == 0, leg == len(ends) - 2
        low, high = a + (inset if first else near), b - (inset if last else near)
        if high - low >= inset:
            out += [low, high]
        elif first:
            out.append(min(inset, b / 2))
        else:
            out.append(max(rod - inset, (a + b) / 2) if last else (a + b) / 2)
    return out


def _between(held: Sequence[float], spans: Sequence[int]) -> tuple[float, ...]:
    """Return every bracket: those held first, and so many even spans between each two [m]."""
    pairs = zip(itertools.pairwise(held), spans, strict=True)
    return (*(a + (b - a) * i / count for (a, b), count in pairs for i in range(count)), held[-1])


def _beside(fullest: int, gaps: Sequence[float], spans: Sequence[int]) -> int:
    """Return which length gets one span more: of those beside the fullest bracket, the one of the widest spans."""
    of = [i for i, count in enumerate(spans) for _ in range(count)]
    near = {of[max(0, fullest - 1)], of[min(fullest, len(of) - 1)]}
    return max(sorted(near), key=lambda i: gaps[i] / spans[i])


def _shares(
    at: tuple[float, ...], rod: float, mass: float, rod_mass: float, stacks: tuple[float, float]
) -> list[float]:
    """Return what each bracket carries at most, shut or drawn back [kg]."""
    ends = [0.0, *((a + b) / 2 for a, b in itertools.pairwise(at)), rod]
    spans = list(itertools.pairwise(ends))
    shut = [mass * (b - a) / rod for a, b in spans]
    both = sum(stacks)
    if both <= 0:
        back = shut
    else:
        left, right = stacks
        back = [mass * (_common(a, b, 0.0, left) + _common(a, b, rod - right, rod)) / both for a, b in spans]
    return [max(s, d) + rod_mass * (b - a) / rod for s, d, (a, b) in zip(shut, back, spans, strict=True)]


def _common(a: float, b: float, c: float, d: float) -> float:
    """Return how much two spans have in common [m]."""
    return max(0.0, min(b, d) - max(a, c))
