"""What a rule sees: one resolved room, the job round it, the practice it is judged by."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Literal, Protocol, TypeVar

from halfdrop.audit.finding import XY, Finding, Grade, Quantity
from halfdrop.base.formats import RoundTo, Units, format_angle, format_area, format_length
from halfdrop.geometry.plane import Array
from halfdrop.job.model import Job
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom, Wall

T = TypeVar("T")


class Subject(Protocol):
    """What a finding can be about: a piece, a rug, a fitting, an opening, what hangs at one."""

    @property
    def id(self) -> str:
        """Its id in the room."""

    @property
    def path(self) -> str:
        """Its path in the document."""

    @property
    def center(self) -> Array:
        """Where a note about it points on the plan [m]."""


class RoomCase:
    """One room before its judges.

    Attributes
    ----------
    job : Job
        The whole job, for people, stock, delivery path.
    room : ResolvedRoom
        The room as shapes on the plan.
    practice : Practice
        The values wanted.
    units : {"imperial", "metric"}
        For messages.
    """

    def __init__(self, job: Job, room: ResolvedRoom, practice: Practice) -> None:
        self.job = job
        self.room = room
        self.practice = practice
        self.units: Units = job.job.units
        self._memo: dict[str, Any] = {}

    def memo(self, key: str, compute: Callable[[], T]) -> T:
        """Return what `compute` returns, computed once for this room however many rules ask for it."""
        if key not in self._memo:
            self._memo[key] = compute()
        found: T = self._memo[key]
        return found

    def keep(self, other: RoomCase, key: str) -> None:
        """Take over what was computed for this room before a change that leaves it as it is."""
        if key in other._memo:
            self._memo[key] = other._memo[key]

    def length(self, key: str) -> float:
        """Return a practice length [m]."""
        return float(self.practice.length(key))

    def say(self, x: float, round_to: RoundTo = "nearest") -> str:
        """Print a length for a message, in the job's units."""
        return format_length(x, self.units, round_to=round_to, feet=abs(x) >= 1.2192)

    def say_area(self, x: float) -> str:
        """Print an area for a message."""
        return format_area(x, self.units)

    def say_angle(self, x: float) -> str:
        """Print an angle for a message."""
        return format_angle(x)

    def finding(
        self,
        rule: str,
        grade: Grade,
        subjects: Iterable[Subject],
        message: str,
        *,
        measured: float | None = None,
        wanted: float | None = None,
        quantity: Quantity = "length",
        sense: Literal["at least", "at most"] = "at least",
        sigma: float | None = None,
        practice: str | None = None,
        anchor: Array | XY | None = None,
        marks: Iterable[tuple[Array | XY, Array | XY]] = (),
        caution: str = "",
        name: str | None = None,
    ) -> Finding:
        """Make a finding about things of this room.

        Parameters
        ----------
        rule : str
            The rule's id (`rule_id(__name__)`).
        subjects : iterable of Subject
            What it is about; the first is the one to act on, and where its note points unless `anchor` is given.
        message : str
            Measured first, then wanted, then why.
        name : str, optional
            Stands in for the subjects' ids in the finding's id, where they do not tell it apart.
        """
        things = list(subjects)
        value = self.practice[practice] if practice else None
        if anchor is None:
            anchor = things[0].center if things else self.room.survey.xy.mean(axis=0)
        what = name if name is not None else "+".join(thing.id for thing in things)
        return Finding(
            id=f"{self.room.id}/{rule}" + (f"/{what}" if what else ""),
            rule=rule,
            grade=grade,
            room=self.room.id,
            subjects=tuple(t.path for t in things) or (self.room.path,),
            message=message,
            measured=measured,
            wanted=wanted,
            quantity=quantity,
            sense=sense,
            sigma=sigma,
            practice=practice,
            source=value.source if value else "",
            sure=value.sure if value else "",
            origin=value.origin if value else "",
            anchor=_pair(anchor),
            marks=tuple((_pair(p), _pair(q)) for p, q in marks),
            caution=caution,
        )

    def wall_name(self, wall: Wall) -> str:
        """Return what a message calls a wall."""
        return f"wall {wall.name}"


def _pair(p: Array | XY) -> XY:
    return (float(p[0]), float(p[1]))
