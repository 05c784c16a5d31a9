"""A work on a bare wall hangs at the height of the eye.

Why: A picture is looked at by a person who stands, or sits, before it; hung higher it floats up to the ceiling and nobody
    comes near it.
Source: practice values art.center_low and art.center_high, less art.seated_lower in a dining room or a study; of what is
    taller than art.tall_from, the bottom lies between art.tall_bottom_low and art.tall_bottom_high.
Fails: the middle of a work, or of a group taken as one, lies below the least or above the most; of a tall one, its bottom does.
Passes exactly: at either value.
Silent: over a piece, where the gap goes first (art.over-piece); over a door or a window; for objects such as a clock or a
    plate, which have no middle to look at.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.eye_height import eye_span
from halfdrop.art.places import WRITTEN
from halfdrop.art.tall_work import is_tall
from halfdrop.art.wall_face import ArtWall, Unit, sits
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rehang import high, moved_to, other_places, over_opening, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least, at_most

GRADE = Grade.FAULT
PRACTICE = (
    "art.center_low", "art.center_high", "art.seated_lower", "art.tall_from", "art.tall_bottom_low", "art.tall_bottom_high",
)  # fmt: skip


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work or group too high or too low."""
    for wall, unit in units_hung(case):
        if (
            unit.below is not None
            or over_opening(wall, unit)
            or all(w.model.kind == "object" for w in unit.works)
        ):
            continue
        low, most, at, what = _wanted(case, wall, unit)
        if at_least(at, low, WRITTEN) and at_most(at, most, WRITTEN):
            continue
        up = at > most
        wanted = most if up else low
        part = "bottom" if what == "tall" else "middle"
        why = "what hangs higher than the eye is passed by" if up else "what hangs lower is looked down on"
        if what == "seated":
            why = "people sit here, and look from their chairs"
        yield case.finding(
            rule_id(__name__),
            GRADE,
            unit.works,
            f"The {unit.name} has its {part} {high(case, at)} above the floor; {high(case, low)} to {high(case, most)} is "
            f"wanted: {why}.",
            measured=at,
            wanted=wanted,
            sense="at most" if up else "at least",
            practice={"tall": ("art.tall_bottom_low", "art.tall_bottom_high")}.get(
                what, ("art.center_low", "art.center_high")
            )[up],
            anchor=unit.works[0].center,
        )


def _wanted(case: RoomCase, wall: ArtWall, unit: Unit) -> tuple[float, float, float, str]:
    """Return least, most and what is there [m above the floor], and which case it is."""
    floor = wall.face.floor(unit.box.center[0])
    if is_tall(unit.box.height, case.practice):
        low, most = case.length("art.tall_bottom_low"), case.length("art.tall_bottom_high")
        return low, most, unit.box.y0 - floor, "tall"
    seated = sits(case.room)
    low, most = eye_span(case.practice, seated)
    return low, most, unit.box.center[1] - floor, "seated" if seated else "eye"


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Re-hang it straight up or down, else elsewhere."""
    wall, unit = unit_of(case, finding)
    low, most, at, what = _wanted(case, wall, unit)
    x, y = unit.box.center
    for to in ((low + most) / 2 if what == "tall" else low, low, most):
        patch = moved_to(case, wall, unit, x, y + to - at)
        if patch:
            way = "lower" if to < at else "higher"
            part = "bottom" if what == "tall" else "middle"
            title = f"Hang the {unit.name} {case.say(abs(to - at))} {way}, its {part} at {high(case, to)}."
            yield Proposal("move", title, patch)
    yield from other_places(case, unit)
