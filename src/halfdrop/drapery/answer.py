"""One length with the steps that lead to it."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


@dataclass(frozen=True)
class LengthAnswer:
    """A computed length.

    Attributes
    ----------
    length : float
        The answer [m].
    method : str
        The method by name.
    working : Working
        The steps.
    """

    length: float
    method: str
    working: Working


def one_step(
    title: str,
    method: str,
    length: float,
    formula: str,
    values: str,
    source: str,
    practice: Practice,
    *,
    rounding: str = "",
) -> LengthAnswer:
    """Return an answer of one step."""
    working = Working(title)
    working.step(title.lower(), formula, values, Words(practice)(length), rounding=rounding, source=source)
    return LengthAnswer(length, method, working)
