"""Every seat, bed, front and window is come to on a way wide enough.

Why: One person, walking straight, should come to each seat, to the bed's sides that are used, before each cupboard
    and to each window, from every door.
Source: practice values circulation.secondary and circulation.window_access, and in a room to sleep in
    circulation.bedroom_path or, where an elder lives here, circulation.bedroom_path_elder. The width is that of the
    widest disk that gets through, worked out exactly (geometry/freespace.py).
Fails: the widest way from a door to one of these passes a gap between a piece and something else that is narrower
    than the value, or none comes near enough. The last steps to a seat may be sideways: a disk as wide as the way has
    to touch the floor before the seat somewhere (circulation.sit_depth deep), so that the reach between a sofa and
    its table is no way. One finding a gap.
Passes exactly: at the value.
Silent: where a main way passes the same gap (circulation.main-way speaks), or a hazard wants as much of it
    (hazards.exit-path or hazards.stair-head speaks); for a gap that the house makes; for a
    window that a piece stands before (circulation.window-reach); for a bed's side too tight to be one at all
    (circulation.bed-sides); for single chairs at a table (circulation.dining-chairs).
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
PRACTICE = (
    "circulation.secondary",
    "circulation.window_access",
    "circulation.bedroom_path",
    "circulation.bedroom_path_elder",
)

remedies = way_remedies


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each pinch that only secondary ways pass, and each place that no way comes to."""
    found = ways(case)
    for pinch in found.pinches:
        if not is_main(pinch) and not told_as_hazard(case, pinch):
            yield pinch_finding(case, rule_id(__name__), GRADE, pinch, "to walk there")
    shut = (s for s in found.shut if s.place.kind != "window" and not main_way(s.place, s.key))
    for place in shut_once(shut):
        yield shut_finding(case, rule_id(__name__), GRADE, place, "to walk there")
