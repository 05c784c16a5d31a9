"""What hangs in a room, as the rules read it: once for all of them."""

from __future__ import annotations

from halfdrop.audit.case import RoomCase
from halfdrop.drapery import Cloth, cloth_of
from halfdrop.drapery.as_hung import AsHung, as_hung


def cloths_of(case: RoomCase) -> dict[str, Cloth]:
    """Return the job's cloths, by id."""
    return case.memo(
        "cloths", lambda: {i: cloth_of(i, f, case.practice) for i, f in sorted(case.job.fabrics.items())}
    )


def hung_in(case: RoomCase) -> dict[str, AsHung]:
    """Return what is seen at each window, by the treatment's id; without those of which nothing can be said."""
    return case.memo("hung", lambda: _hung(case))


def _hung(case: RoomCase) -> dict[str, AsHung]:
    found = ((i, as_hung(case.room, i, cloths_of(case), case.practice)) for i in case.room.model.treatments)
    return {i: hung for i, hung in found if hung is not None}
