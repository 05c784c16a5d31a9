"""The shopping list of a scheme."""

from __future__ import annotations

from halfdrop.audit.auditor import Auditor
from halfdrop.buying.lines import ShoppingList
from halfdrop.buying.shopping import shopping_list
from halfdrop.services.jobs import OpenJob


def shopping(
    job: OpenJob, scheme: str | None, *, room: str | None = None, after: Auditor | None = None
) -> ShoppingList:
    """Return what has to be bought, moved and let go for a scheme.

    Parameters
    ----------
    job : OpenJob
    scheme : str or None
        None lists only what the job as found already marks as arriving.
    room : str, optional
        Only this room.
    after : Auditor, optional
        The job under the scheme, where it is at hand.

    Raises
    ------
    InputError
        Where the scheme or the room is not known.
    """
    job.room_ids(room)
    after = after if after is not None else job.under(scheme)
    return shopping_list(
        job.found.job,
        after.job,
        after.practice,
        job.found.job.schemes[scheme].steps if scheme is not None else (),
        found_rooms={i: c.room for i, c in job.found.cases.items()},
        proposed_rooms={i: c.room for i, c in after.cases.items()},
        only=room,
    )
