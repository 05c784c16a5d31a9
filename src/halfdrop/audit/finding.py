"""What the audit reports, and the remedies it offers."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any, Literal

from halfdrop.base.units import Money
from halfdrop.base.working import Working

XY = tuple[float, float]
Quantity = Literal["length", "ratio", "angle", "count", "area"]
Patch = list[dict[str, Any]]


class Grade(StrEnum):
    """How grave a finding is."""

    HAZARD = "hazard"
    FAULT = "fault"
    TASTE = "taste"

    @property
    def rank(self) -> int:
        """0 for the gravest."""
        return list(Grade).index(self)


@dataclass(frozen=True)
class Proof:
    """What was done to prove a remedy: it was applied to a copy and the room was audited again.

    Attributes
    ----------
    cleared : tuple of str
        Ids of findings gone; the finding's own is among them.
    lesser : tuple of str
        Ids of new findings of a lower grade that it brings (never one of the same or a higher grade).
    trials : int
        How many candidates were tried for this finding before and including this one.
    """

    cleared: tuple[str, ...]
    lesser: tuple[str, ...]
    trials: int


@dataclass(frozen=True)
class Proposal:
    """A candidate remedy of a rule, not yet proven.

    Attributes
    ----------
    kind : str
        What sort of change it is: `move`, `turn`, `size`, `layer`, `pad`, `anchor`, `remove`, …; at most one remedy of
        each kind is offered for a finding, so that the choices differ.
    title : str
        What to do, as told to a person: "Move the sofa 6 in off wall AB."
    patch : list of dict
        RFC 6902 operations on the job document.
    cost : Money or None
        What is bought for it, where prices are known.
    unpriced : tuple of str
        What is bought whose price is not known.
    """

    kind: str
    title: str
    patch: Patch
    cost: Money | None = None
    unpriced: tuple[str, ...] = ()


@dataclass(frozen=True)
class Remedy:
    """A proven proposal."""

    id: str
    kind: str
    title: str
    patch: Patch
    cost: Money | None
    unpriced: tuple[str, ...]
    disturbance: float
    proof: Proof

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "id": self.id,
            "kind": self.kind,
            "title": self.title,
            "patch": self.patch,
            "cost": self.cost.text if self.cost else None,
            "unpriced": list(self.unpriced),
            "disturbance": round(self.disturbance, 3),
            "proof": {
                "cleared": list(self.proof.cleared),
                "lesser": list(self.proof.lesser),
                "trials": self.proof.trials,
            },
        }


@dataclass(frozen=True)
class Finding:
    """One thing the audit found.

    Attributes
    ----------
    id : str
        `<room>/<rule>/<subject ids>`: the same while the same things are at fault.
    rule, grade, room : str, Grade, str
        The rule's id; how grave; the room's id.
    subjects : tuple of str
        Paths in the document of the things concerned, the first being the one to act on.
    message : str
        One or two sentences: measured first, then wanted, then why.
    measured, wanted : float or None
        In SI; None where the fault is not a number.
    quantity, sense : str
        What sort of number, and whether `wanted` is the least or the most.
    sigma : float or None
        Standard error of `measured`, from the survey's covariance and the tape.
    practice : str or None
        Key of the practice value wanted.
    anchor : (x, y)
        Where its note points on the plan [m].
    marks : tuple of segments
        Lines on the plan that show what was measured [m].
    caution : str
        What could hurt someone, deferring to local codes and licensed practice; empty where nothing could.
    remedies : tuple of Remedy
        Proven ones, where they were sought.
    working : tuple of Working
        How the remedies were sized, or why nothing made suits, where the rule computes that; sought with the remedies.
    """

    id: str
    rule: str
    grade: Grade
    room: str
    subjects: tuple[str, ...]
    message: str
    measured: float | None = None
    wanted: float | None = None
    quantity: Quantity = "length"
    sense: Literal["at least", "at most"] = "at least"
    sigma: float | None = None
    practice: str | None = None
    source: str = ""
    sure: str = ""
    origin: str = ""
    anchor: XY = (0.0, 0.0)
    marks: tuple[tuple[XY, XY], ...] = ()
    caution: str = ""
    remedies: tuple[Remedy, ...] = field(default=())
    working: tuple[Working, ...] = field(default=())

    @property
    def shortfall(self) -> float:
        """How far the measured value misses the wanted one (0 or more, in its own unit)."""
        if self.measured is None or self.wanted is None:
            return 0.0
        miss = self.wanted - self.measured if self.sense == "at least" else self.measured - self.wanted
        return max(miss, 0.0)

    @property
    def within_tape(self) -> bool:
        """Whether the tape's error alone could explain the miss (less than two standard errors)."""
        return bool(self.sigma) and self.shortfall < 2 * (self.sigma or 0.0)

    @property
    def certainty(self) -> float:
        """Probability that the true value misses the wanted one, given the tape's error (1 where it has none)."""
        if not self.sigma:
            return 1.0
        return 0.5 * (1 + math.erf(self.shortfall / self.sigma / math.sqrt(2)))

    def with_remedies(self, remedies: tuple[Remedy, ...], working: tuple[Working, ...] = ()) -> Finding:
        """Return it with its remedies, and how they were sized."""
        return replace(self, remedies=remedies, working=working)

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object, lengths in metres."""
        units = {"length": "m", "ratio": "1", "angle": "rad", "count": "1", "area": "m²"}
        return {
            "id": self.id,
            "rule": self.rule,
            "grade": str(self.grade),
            "room": self.room,
            "subjects": list(self.subjects),
            "message": self.message,
            "measured": _rounded(self.measured),
            "wanted": _rounded(self.wanted),
            "unit": units[self.quantity] if self.measured is not None else None,
            "sense": self.sense if self.measured is not None else None,
            "sigma": _rounded(self.sigma),
            "certainty": {"within_tape_error": self.within_tape, "probability": round(self.certainty, 4)},
            "practice": self.practice,
            "source": {"text": self.source, "sure": self.sure, "origin": self.origin},
            "anchor": [_rounded(v) for v in self.anchor],
            "caution": self.caution,
            "remedies": [remedy.to_json() for remedy in self.remedies],
            "working": [working.to_json() for working in self.working],
        }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(float(value), 6)
