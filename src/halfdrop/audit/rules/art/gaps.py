"""The frames of a group hang at even gaps, near enough to read as one.

Why: A group is read as one picture; a gap wider than its fellows breaks it, and where every gap is wide there are only single
    pictures.
Source: practice values art.gap_slack, art.gap_apart.
Fails: of the shortest gaps that join all frames of a group, widest less narrowest is more than art.gap_slack: fault. Or one of
    them is wider than art.gap_apart: taste.
Passes exactly: at each value.
Silent: for single works; for a gap that a switch, a thermostat or another fitting keeps open.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import ArtWall, Unit
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.regroup import laid_anew
from halfdrop.audit.rehang import unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_most

GRADE = Grade.FAULT
PRACTICE = ("art.gap_slack", "art.gap_apart")


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each group with uneven gaps, or whose frames hang too far apart."""
    slack, apart = case.length("art.gap_slack"), case.length("art.gap_apart")
    for wall, unit in units_hung(case):
        gaps = joining_gaps(wall, unit)
        if not gaps:
            continue
        span = max(gaps) - min(gaps)
        if not at_most(span, slack):
            yield _said(
                case, unit, GRADE, span, slack, "art.gap_slack",
                f"The {unit.name} has gaps of {case.say(min(gaps))} to {case.say(max(gaps))} between its frames, "
                f"{case.say(span)} at odds; {case.say(slack)} at most is wanted, so that it reads as one.",
            )  # fmt: skip
        elif not at_most(max(gaps), apart):
            yield _said(
                case, unit, Grade.TASTE, max(gaps), apart, "art.gap_apart",
                f"The {unit.name} has gaps of {case.say(max(gaps))} between its frames; {case.say(apart)} at most is wanted, "
                "or they are single pictures.",
            )  # fmt: skip


def _said(
    case: RoomCase, unit: Unit, grade: Grade, measured: float, wanted: float, key: str, message: str
) -> Finding:
    return case.finding(
        rule_id(__name__), grade, unit.works, message, measured=measured, wanted=wanted, sense="at most", practice=key,
        name=unit.id, anchor=unit.works[0].center,
    )  # fmt: skip


def joining_gaps(wall: ArtWall, unit: Unit) -> list[float]:
    """Return the shortest gaps that join all frames of a group [m], less those that a fitting keeps open; 0 where frames overlap."""
    rects = unit.rects
    edges = sorted((a.gap(b), i, j) for (i, a), (j, b) in itertools.combinations(enumerate(rects), 2))
    joined = list(range(len(rects)))
    found = []
    for gap, i, j in edges:
        if joined[i] != joined[j]:
            old, new = joined[i], joined[j]
            joined = [new if k == old else k for k in joined]
            if not _kept_open(wall, rects[i], rects[j]):
                found.append(gap)
    return found


def _kept_open(wall: ArtWall, a: Rect, b: Rect) -> bool:
    """Return whether a fitting lies between two frames."""
    dx, dy = a.apart(b)
    if dx <= 0 and dy <= 0:
        return False
    if dx > 0:
        lane = Rect(min(a.x1, b.x1), min(a.y0, b.y0), max(a.x0, b.x0), max(a.y1, b.y1))
    else:
        lane = Rect(min(a.x0, b.x0), min(a.y1, b.y1), max(a.x1, b.x1), max(a.y0, b.y0))
    return any(max(lane.apart(m.rect)) < 0 for m in wall.marks)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Lay the group anew about the same middle: as a row, a grid, a stack or a cluster."""
    wall, unit = unit_of(case, finding)
    yield from laid_anew(case, wall, unit)
