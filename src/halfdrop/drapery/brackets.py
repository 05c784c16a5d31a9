"""Brackets and center supports: by span, and by load with the panels drawn back."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from halfdrop.base.units import format_mass
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_SPAN, _CLOSE, _HEAVY, _LOAD = (
    "drapery.bracket_spacing",
    "drapery.bracket_spacing_wide",
    "drapery.heavy_from",
    "drapery.bracket_load",
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
) -> BracketsAnswer:
    """Return brackets evenly spaced, as many as span and load want.

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
        `drapery.bracket_spacing`, `drapery.bracket_spacing_wide`, `drapery.heavy_from`, `drapery.bracket_load`.
    rod_mass : float
        Of the rod itself [kg].
    stacks : (float, float)
        Width of the stack at the left and at the right end [m]; the mass is shared by their widths.
    capacity : float, optional
        What the maker allows on one bracket [kg].
    inset : float
        First bracket from the rod's end [m].

    Where even brackets side by side would not carry it, those of the spans are returned, and `holds` is False.

    Caution: into a stud or solid wall, or with a fixing rated for the load; the maker's figure goes before.

    Source: spans are common practice, from memory; loads by lever arms. Checked by: tests/drapery/test_brackets.py.
    """
    say = Words(practice)
    key = _CLOSE if per_area >= practice.number(_HEAVY) else _SPAN
    spacing = float(practice.length(key))
    allowed = float(practice.mass(_LOAD)) if capacity is None else capacity
    inner = max(rod - 2 * inset, 0.0)
    count = max(2, math.ceil(inner / spacing - 1e-9) + 1)
    by_span = count
    more = True
    while True:
        at = tuple(inset + inner * i / (count - 1) for i in range(count))
        load = max(_shares(at, rod, mass, rod_mass, stacks))
        if load <= allowed + 1e-9 or not more:
            break
        if count == _MOST:  # more would not help: as many as the spans want, and `holds` is False
            count, more = by_span, False
        else:
            count += 1
    working = Working("Brackets")
    working.step("by span", "rod between the outer brackets ÷ widest span, up, and one more",
                 f"{say(inner)} ÷ {say(spacing)}", f"{by_span}", rounding="up", source=say.cited(key))  # fmt: skip
    cited = say.cited(_LOAD) if capacity is None else "as its maker allows"
    working.step("by load", "as many as keep each within what it may carry, shut and drawn back",
                 f"{format_mass(mass + rod_mass, say.units)}; one takes {format_mass(allowed, say.units)}",
                 f"{count}, the fullest carries {format_mass(load, say.units)}" + ("" if more else ": too much"), source=cited)  # fmt: skip
    working.step("where", "evenly, from the left end", "", "; ".join(say(x) for x in at))
    return BracketsAnswer(at, inner / (count - 1), load, allowed, working)


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
