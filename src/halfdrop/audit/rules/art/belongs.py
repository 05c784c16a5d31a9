"""A work belongs to something: it is centered on a piece, or on its stretch of wall.

Why: A picture that stands off the middle of all that is round it looks as if it had been hung where the nail was.
Source: practice value art.center_slack.
Fails: the middle of a work, or of a group taken as one, is farther than art.center_slack from the middle of the piece it hangs over:
    taste; on a bare wall from the middle of its stretch, of a piece that stands below, of a window or door it hangs over, or of what
    hangs there all together: fault.
Passes exactly: at the value.
Silent: for objects; over a crib; where it belongs to one of those.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.places import WRITTEN
from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import ArtWall, Unit
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.regroup import joined
from halfdrop.audit.rehang import moved_to, other_places, right_height, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_most

GRADE = Grade.FAULT
PRACTICE = ("art.center_slack",)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work or group off every middle."""
    slack = case.length("art.center_slack")
    for wall, unit in units_hung(case):
        if unit.below_kind == "cot" or all(w.model.kind == "object" for w in unit.works):
            continue
        off, name = min(_middles(case, wall, unit), key=lambda m: (round(m[0], 6), m[1]))
        if at_most(off, slack, WRITTEN):
            continue
        over = unit.below.thing if unit.below is not None else None
        yield case.finding(
            rule_id(__name__),
            GRADE if over is None else Grade.TASTE,
            (*unit.works, over) if over is not None else unit.works,
            f"The {unit.name} hangs {case.say(off)} off the middle of {name}; {case.say(slack)} at most is wanted"
            + (
                ", so that the two are read together."
                if over is not None
                else ": it belongs to nothing there."
            ),
            measured=off,
            wanted=slack,
            sense="at most",
            practice="art.center_slack",
            anchor=unit.works[0].center,
        )


def _middles(case: RoomCase, wall: ArtWall, unit: Unit) -> Iterator[tuple[float, str]]:
    """Yield how far a unit is off each middle it may belong to [m], and what that is; works in one place count together too."""
    if unit.below is not None:
        piece = unit.below
        mates = [u.box for u in wall.units if u.below is not None and u.below.path == piece.path]
        middle, name = (piece.left + piece.right) / 2, f"the {piece.thing.name}"
        for boxes_of in ([unit.box], mates):
            yield abs(Rect.round_all(boxes_of).center[0] - middle), name
        return
    low, high = wall.stretch(unit.box)
    mates = [u.box for u in wall.units if u is unit or (u.below is None and low < u.box.center[0] < high)]
    where = f"its stretch of wall {wall.name}"
    for boxes_of in ([unit.box], mates):
        yield abs(Rect.round_all(boxes_of).center[0] - (low + high) / 2), where
    for seen in wall.face.pieces:
        if seen.left < unit.box.center[0] < seen.right and seen.top <= unit.box.y0:
            yield abs(unit.box.center[0] - (seen.left + seen.right) / 2), f"the {seen.thing.name}"
    for mark in wall.marks:
        if (
            mark.kind == "opening"
            and mark.rect.x0 < unit.box.center[0] < mark.rect.x1
            and unit.box.y0 >= mark.rect.y1 - 1e-6
        ):
            yield abs(unit.box.center[0] - mark.rect.center[0]), f"the {mark.name}"


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Bring it to the nearest middle, hang it with others as one, or elsewhere."""
    wall, unit = unit_of(case, finding)
    if unit.below is not None:
        x, name = (unit.below.left + unit.below.right) / 2, f"the {unit.below.thing.name}"
    else:
        low, high = wall.stretch(unit.box)
        x, name = (low + high) / 2, f"its stretch of wall {wall.name}"
    to = right_height(case, wall, unit)
    for y in (unit.box.center[1], *([to] if abs(to - unit.box.center[1]) > 0.01 else [])):
        patch = moved_to(case, wall, unit, x, y)
        if patch:
            by = abs(x - unit.box.center[0])
            lift = f" and {case.say(abs(y - unit.box.center[1]))} {'higher' if y > unit.box.center[1] else 'lower'}"
            more = lift if y != unit.box.center[1] else ""
            kind = "move" if not more else "rehang"
            yield Proposal(
                kind, f"Hang the {unit.name} {case.say(by)} over{more}, on the middle of {name}.", patch
            )
    yield from joined(case, wall, unit)
    yield from other_places(case, unit)
