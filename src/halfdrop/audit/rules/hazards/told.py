"""The pinches that a hazard tells already, so that the circulation rules do not tell the same one twice."""

from __future__ import annotations

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.hazards import exit_path, stair_head
from halfdrop.base.tolerance import at_most
from halfdrop.room.way_floor import owner_key
from halfdrop.room.ways import Pinch


def told_as_hazard(case: RoomCase, pinch: Pinch) -> bool:
    """Return whether a hazard of the way out or of a stair head tells this pinch, wanting as much width or more."""
    wanted = case.memo("pinches told as hazards", lambda: _told(case))
    return at_most(pinch.wanted, wanted.get(_pair(pinch), 0.0))


def _told(case: RoomCase) -> dict[frozenset[str], float]:
    """Return the widest that hazards want of each gap, by the paths of the two things that make it [m]."""
    heads = [f for f in case.room.fittings.values() if f.model.kind == "stair head"]
    out: dict[frozenset[str], float] = {}
    for pinches, _ in (exit_path.found(case), *(stair_head.found(case, head) for head in heads)):
        for pinch in pinches:
            out[_pair(pinch)] = max(pinch.wanted, out.get(_pair(pinch), 0.0))
    return out


def _pair(pinch: Pinch) -> frozenset[str]:
    return frozenset((owner_key(pinch.one), owner_key(pinch.other)))
