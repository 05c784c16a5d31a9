"""What hangs in a room, as the rules of drapery see it."""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.hung import cloths_of as cloths_of
from halfdrop.audit.hung import hung_in as hung_in
from halfdrop.drapery import AsHung


def panels_in(case: RoomCase) -> Iterator[AsHung]:
    """Give the panels of the room that hang in front: not sheers behind, not shades."""
    for hung in hung_in(case).values():
        if hung.kind == "panels" and hung.treatment.behind is None:
            yield hung


def is_sheer(case: RoomCase, hung: AsHung) -> bool:
    """Return whether its cloth is a sheer, which is there to cover the glass."""
    cloth = cloths_of(case).get(hung.treatment.fabric or "")
    return cloth is not None and cloth.kind == "sheer"


def named(hung: AsHung) -> str:
    """Return what a message calls it, as the middle of a sentence: `west pair`, `bay curtains`."""
    return hung.name


def begins(hung: AsHung) -> str:
    """Return what a message calls it, as the beginning of a sentence: `The west pair`."""
    return f"The {hung.name}"


def many(hung: AsHung) -> bool:
    """Return whether its name is a plural: `bay curtains`, `sheers`, `panels`."""
    last = hung.name.rsplit(" ", 1)[-1]
    return last.endswith("s") and not last.endswith("ss")


def verb(hung: AsHung, one: str, more: str) -> str:
    """Return a verb that goes with its name: `hangs`, `hang`."""
    return more if many(hung) else one
