"""A main way is wide enough.

Why: From door to door, and from each door to where people sit together, two hands are full and somebody comes the
    other way; below the value one turns sideways.
Source: practice values circulation.main, and in a room to sleep in circulation.bedroom_path or, where an elder lives
    here, circulation.bedroom_path_elder. The width is that of the widest disk that gets through, worked out exactly
    (geometry/freespace.py).
Fails: the widest way from a door to another door or to the main seating group (in a room for meals alone, to the
    table) passes a gap between a piece and something else that is narrower than the value, or there is no way. One
    finding a gap, however many ways pass it.
Passes exactly: at the value.
Silent: where a hazard wants as much of the same gap (hazards.exit-path or hazards.stair-head speaks); for a gap
    that the house makes (two walls, a wall and a radiator); at a doorway for what its clear width takes
    off; in a room without doors; for what is low enough to step over.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.pinches import (
    is_main,
    pinch_finding,
    shut_finding,
    shut_once,
    way_remedies,
)
from halfdrop.audit.rules.circulation.shared import ways
from halfdrop.audit.rules.hazards.told import told_as_hazard
from halfdrop.room.ways import main_way

GRADE = Grade.FAULT
PRACTICE = ("circulation.main", "circulation.bedroom_path", "circulation.bedroom_path_elder")

remedies = way_remedies


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each pinch of a main way, and each door or group that no way comes to."""
    found = ways(case)
    for pinch in found.pinches:
        if is_main(pinch) and not told_as_hazard(case, pinch):
            yield pinch_finding(case, rule_id(__name__), GRADE, pinch, "on a main way")
    for shut in shut_once(s for s in found.shut if main_way(s.place, s.key)):
        yield shut_finding(case, rule_id(__name__), GRADE, shut, "on a main way")
