"""The working: the steps of one calculation, so that a person can check it by hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Step:
    """One line of a working.

    Attributes
    ----------
    what : str
        What is computed, in words ("rug length wanted").
    formula : str
        The formula in words or symbols ("table + 2 × pull-out").
    values : str
        The formula with its numbers, in the job's units ("72 in + 2 × 24 in").
    result : str
        The result, rounded and printed.
    rounding : str
        Direction and step of rounding, and why; empty where nothing was rounded.
    source : str
        Where formula or value comes from.
    """

    what: str
    formula: str
    values: str
    result: str
    rounding: str = ""
    source: str = ""


@dataclass
class Working:
    """The ordered steps of one calculation, under a title."""

    title: str
    steps: list[Step] = field(default_factory=list)

    def step(
        self, what: str, formula: str, values: str, result: str, *, rounding: str = "", source: str = ""
    ) -> None:
        """Add a step."""
        self.steps.append(Step(what, formula, values, result, rounding, source))

    def to_json(self) -> dict[str, Any]:
        """Return the working as a JSON-compatible object."""
        return {"title": self.title, "steps": [vars(step) for step in self.steps]}
