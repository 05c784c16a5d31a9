"""Every seat has a surface within reach.

Why: A seat without a place for a cup, a book or a lamp is not sat in for long.
Source: practice values seating.surface_reach (how far) and seating.surface_above_seat (how high).
Fails: from a person's place (their slice of the piece, the arm with the end places) to the nearest edge of
    every surface it is more than seating.surface_reach. Surfaces are tables of all kinds, ottomans, benches
    and stools, and low storage, none higher above the seat than seating.surface_above_seat. A fault where no
    place of the piece has one, taste where some have. What is measured is how many places have none.
Passes exactly: at either value.
Silent: for seats that are no upholstery (dining and desk chairs stand at their table) and for pieces that
    seat nobody.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from halfdrop.audit.bought import added, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import turned_together
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import groups, pieces_of, places, seat_height
from halfdrop.base.tolerance import at_most
from halfdrop.geometry.plane import Array, closest
from halfdrop.room import StandingPiece
from halfdrop.room.reach import place_shapes
from halfdrop.room.things import STORAGE, SURFACES

GRADE = Grade.FAULT
PRACTICE = ("seating.surface_reach", "seating.surface_above_seat")

_KINDS = SURFACES | STORAGE | {"bench", "stool"}
#: Air between a seat and a table set beside it [m].
_AIR = 0.05


def _surfaces(case: RoomCase, piece: StandingPiece) -> list[StandingPiece]:
    """Return what a person on this piece may put a cup on."""
    top = seat_height(case, piece) + case.length("seating.surface_above_seat")
    return [
        p
        for p in case.room.floor_pieces.values()
        if p.type in _KINDS and p is not piece and at_most(p.height, top)
    ]


def _gaps(case: RoomCase, piece: StandingPiece, surfaces: list[StandingPiece]) -> Array:
    """Return how far each place of a piece is from the nearest of these surfaces [m]; infinite where there is
    none.
    """
    shapes = np.array(place_shapes(piece, places(case, piece)))
    if not surfaces:
        return np.full(len(shapes), np.inf)
    tops = np.array([s.footprint for s in surfaces])
    return np.asarray(shapely.distance(shapes[:, None], tops[None, :]).min(axis=1))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each piece with a place that has no surface."""
    wanted = case.length("seating.surface_reach")
    for piece in (p for group in groups(case) for p in group.pieces if places(case, p)):
        surfaces = _surfaces(case, piece)
        gaps = _gaps(case, piece, surfaces)
        bare = int(sum(not at_most(float(g), wanted) for g in gaps))
        if not bare:
            continue
        far = float(gaps.max())
        some = "One place" if bare == 1 else f"{bare} places"
        who = f"{some} of the {piece.name}" if bare < len(gaps) else f"The {piece.name}"
        if np.isfinite(far):
            worst = place_shapes(piece, places(case, piece))[int(np.argmax(gaps))]
            near = min(surfaces, key=lambda s: (round(float(s.footprint.distance(worst)), 6), s.id))
            p, q, _ = closest(worst, near.footprint)
            verb = "is" if bare in (1, len(gaps)) else "are"
            said = f"{who} {verb} {case.say(far)} from the nearest surface"
            marks = [(p, q)]
        else:
            said, marks = f"{who} has no surface near it", []
        yield case.finding(
            rule_id(__name__),
            GRADE if bare == len(gaps) else Grade.TASTE,
            (piece,),
            f"{said}; one within {case.say(wanted, 'down')} is wanted, for a cup and a book.",
            measured=bare,
            wanted=0,
            quantity="count",
            sense="at most",
            practice="seating.surface_reach",
            marks=marks,
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move a table that stands in the room to the seat, or add one."""
    (piece,) = pieces_of(case, finding)[:1]
    for table in case.room.floor_pieces.values():
        if table.type not in ("side table", "coffee table"):
            continue
        for spot in _spots(case, piece, table.type, table.width, table.depth):
            turn = piece.angle - table.angle
            patch = turned_together(case, [table], table.center, turn, spot - table.center)
            if patch:
                yield Proposal("move", f"Move the {table.name} to the {piece.name}.", patch)
    for kind in ("side table", "coffee table"):
        for offer in offers_of(case, kind):
            if offer.size[2] > seat_height(case, piece) + case.length("seating.surface_above_seat"):
                continue
            for spot in _spots(case, piece, kind, offer.size[0], offer.size[1]):
                patch = added(case, offer, spot, piece.angle, piece.model.group)
                title = (
                    f"Add {offer.called} {'beside' if kind == 'side table' else 'before'} the {piece.name}."
                )
                yield Proposal("add", title, patch, offer.price, offer.unpriced(case))


def _spots(case: RoomCase, piece: StandingPiece, kind: str, width: float, depth: float) -> Iterator[Array]:
    """Yield centers for a table at a piece: beside either arm, at the front, middle and back; or before the
    seat.
    """
    if kind == "coffee table":
        low, high = (
            case.length("seating.coffee_gap_target_low"),
            case.length("seating.coffee_gap_target_high"),
        )
        seats = places(case, piece)
        front = np.mean([s.front for s in seats], axis=0)
        for gap in ((low + high) / 2, low, high):
            yield front + piece.front * (gap + depth / 2)
        return
    x = piece.width / 2 + width / 2 + _AIR
    slack = (piece.depth - depth) / 2
    for y in (0.0, slack, -slack, slack + 0.15):
        yield piece.at(x, y)
        yield piece.at(-x, y)
