"""The rug that a seating group, a table or a bed wants, whichever it is."""

from __future__ import annotations

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.rugs import bed, dining_chairs, front_legs
from halfdrop.audit.rules.rugs.lying import Owner
from halfdrop.audit.rules.rugs.spots import Want
from halfdrop.room.groups import DiningSet, SeatingGroup


def want_for(case: RoomCase, owner: Owner) -> Want:
    """Return the rug wanted under a group, a table or a bed."""
    if isinstance(owner, SeatingGroup):
        return front_legs.want_of(case, owner)
    return dining_chairs.want_of(case, owner) if isinstance(owner, DiningSet) else bed.want_of(case, owner)
