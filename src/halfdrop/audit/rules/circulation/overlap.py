"""No two pieces stand in each other.

Why: What overlaps on the plan does not fit in the room: one of the two was measured or placed wrong, or never fits.
Source: practice values circulation.fit_slack, and dining.knee_space for a chair under a table.
Fails: two pieces on the floor, or a piece and a fitting, overlap by more than the slack (the least push that parts
    them); a seat stands farther under a table than there is room for knees.
Passes exactly: at the slack; at the knee room.
Silent: for what stands on another piece; for a seat under a table or a desk by up to the knee room; for what is low
    enough to stand under a table; for a screen or a mirror that hangs above what stands below it.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry import Polygon

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import making_room, pieces_in, taking_out, the, turning
from halfdrop.base.tolerance import at_most
from halfdrop.room import FixedFitting, StandingPiece, Thing
from halfdrop.room.things import TABLES

GRADE = Grade.FAULT
PRACTICE = ("circulation.fit_slack", "dining.knee_space")

#: What a person draws up to a table, its knees under it.
_DRAWN_UP = frozenset({"dining chair", "desk chair", "bench", "stool"})
#: A table's top and apron take this much of its height [m]; common practice, no source.
_TOP = 0.10


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each two things that stand in each other."""
    room = case.room
    things = [*room.floor_pieces.values(), *(f for f in room.blocks.values() if isinstance(f, FixedFitting))]
    shapes = np.array([t.footprint for t in things], dtype=object)
    slack = case.length("circulation.fit_slack")
    tree = shapely.STRtree(shapes)
    first, second = tree.query(shapes, predicate="intersects")
    for i, j in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        one, other = things[i], things[j]
        if i >= j or not isinstance(one, StandingPiece) or _parted_by_height(one, other):
            continue
        wanted, key = slack, "circulation.fit_slack"
        seat = _drawn_up(one, other)
        if seat is not None:
            wanted, key = case.length("dining.knee_space"), "dining.knee_space"
            one, other = (one, other) if seat is one else (other, one)
        depth = _depth(one, other, seat is not None)
        if at_most(depth, wanted):
            continue
        assert isinstance(one, StandingPiece)
        if (
            seat is None
            and isinstance(other, StandingPiece)
            and (one.model.keep, one.id) > (other.model.keep, other.id)
        ):
            one, other = other, one
        tell = (
            f"under {the(other)}; {case.say(wanted, 'down')} is the room there is for knees"
            if seat is not None
            else f"in {the(other)}; {case.say(wanted, 'down')} is all a tape explains, and both cannot stand there"
        )
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (one, other),
            f"{the(one).capitalize()} stands {case.say(depth)} {tell}.",
            measured=depth,
            wanted=wanted,
            sense="at most",
            sigma=room.sigma(one, other, one.center, other.center),
            practice=key,
            anchor=shapely.get_coordinates(one.footprint.intersection(other.footprint).centroid)[0],
        )


def _drawn_up(one: Thing, other: Thing) -> Thing | None:
    """Return which of two pieces is a seat drawn up to the other, a table."""
    for seat, table in ((one, other), (other, one)):
        if not isinstance(seat, StandingPiece) or not isinstance(table, StandingPiece):
            continue
        if (
            seat.type in _DRAWN_UP
            and table.type in TABLES
            and float((table.center - seat.center) @ seat.front) > 0
        ):
            return seat
    return None


def _parted_by_height(one: StandingPiece, other: Thing) -> bool:
    """Return whether one hangs above or stands under the other."""
    low, high = _span(one), _span(other)
    if low[1] <= high[0] + 1e-6 or high[1] <= low[0] + 1e-6:
        return True
    for table, under in ((one, other), (other, one)):
        if (
            isinstance(table, StandingPiece)
            and table.type in TABLES
            and _span(under)[1] <= table.height - _TOP
        ):
            return True
    return False


def _span(thing: Thing) -> tuple[float, float]:
    """Return between which heights a thing is [m]."""
    if isinstance(thing, FixedFitting):
        low = float(thing.model.bottom or 0.0)
        return low, low + float(thing.model.height or 2.0)
    assert isinstance(thing, StandingPiece)
    hung = thing.model.center_height if thing.type in ("screen", "mirror") else None
    low = max(float(hung) - thing.height / 2, 0.0) if hung is not None else 0.0
    return low, low + thing.height


def _depth(one: Thing, other: Thing, drawn_up: bool) -> float:
    """Return the least push that parts two things [m]; of a seat drawn up, how far it is under the table."""
    assert isinstance(one, StandingPiece)
    if drawn_up:
        under = shapely.get_coordinates(one.footprint.intersection(other.footprint)) @ one.front
        return float(np.ptp(under))
    parts = [(a, b) for a in _convex(one) for b in _convex(other) if a.intersects(b)]
    return max((_push(a, b) for a, b in parts), default=0.0)


def _convex(thing: Thing) -> list[Polygon]:
    """Return convex shapes that make up a footprint: itself, or the two legs of an L."""
    ret = thing.model.ret if isinstance(thing, StandingPiece) else None
    if ret is None or not isinstance(thing, StandingPiece):
        return [thing.footprint]
    w, back, front = thing.width / 2, -thing.depth / 2, float(thing.model.depth) - thing.depth / 2
    low, high = (-w, float(ret.width) - w) if ret.hand == "left" else (w - float(ret.width), w)
    return [thing.box(-w, w, back, front), thing.box(low, high, front, thing.depth / 2)]


def _push(a: Polygon, b: Polygon) -> float:
    """Return the least push that parts two convex shapes: square to one of their sides (the separating axis theorem)."""
    rings = [shapely.get_coordinates(shape.exterior) for shape in (a, b)]
    sides = np.vstack([np.diff(ring, axis=0) for ring in rings])
    normals = np.column_stack((-sides[:, 1], sides[:, 0])) / np.hypot(*sides.T)[:, None]
    (low_a, high_a), (low_b, high_b) = (
        ((r @ normals.T).min(axis=0), (r @ normals.T).max(axis=0)) for r in rings
    )
    return max(float(np.minimum(high_a - low_b, high_b - low_a).min()), 0.0)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move one clear of the other, turn it, or take it out."""
    pieces = pieces_in(case, finding)
    things: list[Thing] = [*pieces, *(f for f in case.room.fittings.values() if f.path in finding.subjects)]
    for piece in pieces:
        for other in things:
            if other is not piece:
                yield from making_room(case, piece, other.footprint)
    for piece in pieces:
        yield from turning(case, piece)
        yield from taking_out(case, piece)
