"""Works side by side on one wall run level.

Why: Two pictures whose middles miss each other by a hand look like a slip, whichever of the two is right.
Source: practice value art.level_slack.
Fails: of the works and groups on one bare wall neither the middles, nor the tops, nor the bottoms lie within
    art.level_slack of each other.
Passes exactly: at the value.
Silent: with fewer than two; over pieces, which have heights of their own; over doors and windows; for objects, and for what is
    taller than art.tall_from.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.eye_height import eye_span
from halfdrop.art.places import WRITTEN
from halfdrop.art.tall_work import is_tall
from halfdrop.art.wall_face import ArtWall, Unit, sits
from halfdrop.audit.art_case import walls_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.rehang import high, moved_to, over_opening, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_most

GRADE = Grade.FAULT
PRACTICE = ("art.level_slack",)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each wall whose works are at odds."""
    slack = case.length("art.level_slack")
    for wall in walls_hung(case):
        units = _judged(case, wall)
        if len(units) < 2:
            continue
        middles = [u.box.center[1] - wall.face.floor(u.box.center[0]) for u in units]
        spans = [_span(middles), _span([u.box.y0 for u in units]), _span([u.box.y1 for u in units])]
        if any(at_most(span, slack) for span in spans):
            continue
        works = [w for u in units for w in u.works]
        names = ", ".join(f"the {u.name}" for u in units)
        yield case.finding(
            rule_id(__name__),
            GRADE,
            works,
            f"On wall {wall.name} {names} hang with their middles {_list(case, middles)} above the floor, {case.say(spans[0])} apart; "
            f"{case.say(slack)} at most is wanted, or one looks slipped.",
            measured=spans[0],
            wanted=slack,
            sense="at most",
            practice="art.level_slack",
            anchor=units[0].works[0].center,
        )


def _list(case: RoomCase, heights: list[float]) -> str:
    *most, last = (high(case, h) for h in heights)
    return f"{', '.join(most)} and {last}"


def _span(values: list[float]) -> float:
    return max(values) - min(values)


def _judged(case: RoomCase, wall: ArtWall) -> list[Unit]:
    """Return the units that should run level."""
    return [
        u
        for u in wall.units
        if u.below is None
        and not is_tall(u.box.height, case.practice)
        and not over_opening(wall, u)
        and not all(w.model.kind == "object" for w in u.works)
    ]


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Bring all to one height: that of one of them, or the least of practice."""
    wall, _ = unit_of(case, finding)
    units = _judged(case, wall)
    low, most = eye_span(case.practice, sits(case.room))
    now = [u.box.center[1] - wall.face.floor(u.box.center[0]) for u in units]
    for to in dict.fromkeys([*(round(h, 4) for h in sorted(now) if low <= h <= most), low, most]):
        patch: Patch = []
        for unit, at in zip(units, now, strict=True):
            if abs(at - to) > WRITTEN:
                patch += moved_to(case, wall, unit, unit.box.center[0], unit.box.center[1] + to - at)
        if patch:
            yield Proposal(
                "move", f"Hang all on wall {wall.name} with their middles at {high(case, to)}.", patch
            )
