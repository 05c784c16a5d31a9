"""The room is not fuller than it holds.

Why: Where furniture takes too much of the floor no way is wide enough and every piece loses.
Source: practice value scale.footprint_high: nobody publishes one, it is our choice.
Fails: the floor under pieces (together, what overlaps counted once) over the room's floor is above the value.
    Taste.
Passes exactly: at the value.
Silent: for rugs, for what stands on another piece, and for fittings.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import removed, with_what_it_carries
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import listed
from halfdrop.base.tolerance import at_most
from halfdrop.room import StandingPiece

GRADE = Grade.TASTE
PRACTICE = ("scale.footprint_high",)
#: Two shares of the floor nearer than this are the same.
_SAME = 1e-5
#: At most this many pieces are proposed to leave.
_LEAVE = 3


def _share(case: RoomCase, without: tuple[StandingPiece, ...] = ()) -> float:
    shapes = [p.footprint for p in case.room.floor_pieces.values() if p not in without]
    return float(unary_union(shapes).area) / case.room.area


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding where the room is too full."""
    share, wanted = _share(case), case.practice.number(PRACTICE[0])
    if at_most(share, wanted, _SAME):
        return
    yield case.finding(
        rule_id(__name__),
        GRADE,
        (),
        f"Furniture stands on {share:.0%} of the floor; at most {wanted:.0%} is wanted, so that people get "
        "round it.",
        name="floor",
        measured=share,
        wanted=wanted,
        quantity="ratio",
        sense="at most",
        practice=PRACTICE[0],
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Take out as few pieces as will do, the smallest first; never one the client keeps."""
    wanted = case.practice.number(PRACTICE[0])
    free = [
        p
        for p in case.room.floor_pieces.values()
        if not any(q.model.keep for q in with_what_it_carries(case, p))
    ]
    free.sort(key=lambda p: (round(p.footprint.area, 4), p.id))
    for count in range(1, _LEAVE + 1):
        found = False
        for some in combinations(free, count):
            if at_most(_share(case, some), wanted, _SAME):
                found = True
                patch = [
                    op for p in some for q in reversed(with_what_it_carries(case, p)) for op in removed(q)
                ]
                yield Proposal("remove", f"Take {listed(some)} out of the room.", patch)
        if found:
            return
