"""What hangs in a room, as the rules of drapery see it."""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.hung import cloths_of as cloths_of
from halfdrop.audit.hung import hung_in as hung_in
from halfdrop.base.tolerance import at_least
from halfdrop.drapery import AsHung, fullness_key


def panels_in(case: RoomCase) -> Iterator[AsHung]:
    """Give the panels of the room that hang in front: not sheers behind, not shades."""
    for hung in hung_in(case).values():
        if hung.kind == "panels" and hung.treatment.behind is None:
            yield hung


def above_frame(case: RoomCase, hung: AsHung) -> tuple[float, float]:
    """Return how far a rod is above its frame, and how far it is to be [m]; as much as the ceiling leaves, where that is less."""
    least, span = case.length("drapery.rod_above_frame"), hung.place.span
    frame = span.low - least
    return hung.height - frame, min(least, span.high - frame)


def short_sides(case: RoomCase, hung: AsHung) -> dict[str, tuple[float, float]]:
    """Return each given side on which a rod is short: how far past the opening it goes, and how far it is to go [m]."""
    if hung.treatment.mount == "inside":
        return {}
    least, run = case.length("drapery.extension_least"), hung.run
    found = {}
    for side, past, wall in (("left", -hung.left, run.left), ("right", hung.right - run.width, run.right)):
        wanted = min(least, max(0.0, wall - hung.finial))
        if side in hung.given and not at_least(past, wanted):
            found[side] = (past, wanted)
    return found


def glass_covered(hung: AsHung, *, full: bool = False) -> tuple[float, float]:
    """Return how much glass open panels cover, and how much glass there is [m]; `full`: if they had all the cloth they want."""
    glass = sum(b - a for a, b in hung.run.spans)
    stack, ends = hung.place.stack, (hung.left, hung.right)
    drawn = [panel.drawn for panel in hung.panels]
    if full and stack is not None:
        each = min(stack.total, ends[1] - ends[0]) / len(drawn)
        drawn = [(a, a + each) if a <= ends[0] + 1e-9 else (b - each, b) for a, b in drawn]
    covered = sum(max(0.0, min(right, b) - max(left, a)) for left, right in drawn for a, b in hung.run.spans)
    return covered, glass


def too_flat(case: RoomCase, hung: AsHung) -> tuple[float, str, float] | None:
    """Return what fullness a treatment has at the least, the key of what its heading wants, and that; None where nothing is given."""
    heading = hung.treatment.heading
    if hung.fullness is None or heading is None or "fullness" not in hung.given:
        return None
    cloth = cloths_of(case).get(hung.treatment.fabric or "")
    key = fullness_key(heading, cloth.kind if cloth else "medium")
    aim = case.practice.number(key)
    return case.practice.number("drapery.fullness_share_least") * aim, key, aim


def is_sheer(case: RoomCase, hung: AsHung) -> bool:
    """Return whether its cloth is a sheer, which is there to cover the glass."""
    cloth = cloths_of(case).get(hung.treatment.fabric or "")
    return cloth is not None and cloth.kind == "sheer"


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
