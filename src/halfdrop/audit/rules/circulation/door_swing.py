"""A door opens far enough before it meets anything.

Why: A leaf that meets a chest is a door one squeezes through, and a dent in the chest; two leaves that meet jam.
Source: practice value circulation.door_open_least; the sweep is the leaf's own width about its hinge.
Fails: a piece stands in the quarter circle that a leaf sweeps into the room, so that the leaf opens less than the
    value; the sweeps of two doors' leaves overlap.
Passes exactly: where the leaf meets the piece just at the value.
Silent: for sliding and pocket doors, for leaves that open out of the room, for what the house itself puts there, for
    rugs (a rug has rules of its own).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

import numpy as np
import shapely
from shapely.geometry import Polygon

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import making_room, pieces_in, taking_out, the, turning
from halfdrop.base.tolerance import SAME_ANGLE, at_least
from halfdrop.geometry.plane import Array, heading
from halfdrop.room import StandingPiece, WallOpening

GRADE = Grade.FAULT
PRACTICE = ("circulation.door_open_least",)

#: Two sweeps that share less than this do not clash [m²].
SHARED = 1e-3


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each piece that stops a leaf, and for each two doors whose leaves clash."""
    room = case.room
    doors = [o for o in room.openings.values() if o.swing is not None]
    wanted = float(case.practice.angle(PRACTICE[0]))
    for door in doors:
        for piece in room.floor_pieces.values():
            if not piece.footprint.intersects(door.swing):
                continue
            met = _met(door, piece)
            if met is None or at_least(met[0], wanted, SAME_ANGLE):
                continue
            angle, point, hinge = met
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (piece, door),
                f"The {door.name} opens {case.say_angle(angle)} before it meets {the(piece)}; "
                f"{case.say_angle(wanted)} is wanted, to walk through it without a sidestep.",
                measured=angle,
                wanted=wanted,
                quantity="angle",
                sigma=room.sigma(door, piece, hinge, point) / max(float(np.hypot(*(point - hinge))), 0.05),
                practice=PRACTICE[0],
                anchor=point,
                marks=((hinge, point),),
            )
    for one, other in combinations(doors, 2):
        assert one.swing is not None
        assert other.swing is not None
        both = one.swing.intersection(other.swing)
        if both.area > SHARED:
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (one, other),
                f"The {one.name} and the {other.name} swing through the same floor and can meet; one of them hung "
                "on its other side, or opening out, would end it. That is a joiner's work: decide it with the client.",
                anchor=shapely.get_coordinates(both.centroid)[0],
            )


def _met(door: WallOpening, piece: StandingPiece) -> tuple[float, Array, Array] | None:
    """Return the least angle from shut at which a leaf meets a piece [rad], where, and the hinge."""
    best: tuple[float, Array, Array] | None = None
    for hinge, shut, opened in door.leaves:
        radius = float(np.hypot(*(shut - hinge)))
        sweep = _signed(heading(opened - hinge) - heading(shut - hinge))
        for point in _within(piece.footprint, hinge, radius):
            angle = _signed(heading(point - hinge) - heading(shut - hinge)) * math.copysign(1.0, sweep)
            if -1e-9 <= angle <= abs(sweep) and (best is None or angle < best[0] - 1e-12):
                best = (max(angle, 0.0), point, hinge)
        if piece.footprint.contains(shapely.points(hinge + (shut - hinge) * 0.5)):
            best = (0.0, (hinge + shut) / 2, hinge)
    return best


def _within(shape: Polygon, center: Array, radius: float) -> list[Array]:
    """Return the corners of a shape within a circle, and where its edges cross the circle."""
    ring = shapely.get_coordinates(shape.exterior)
    found = [p for p in ring[:-1] if 1e-6 < float(np.hypot(*(p - center))) <= radius]
    for a, b in pairwise(ring):
        d, f = b - a, a - center
        qa, qb, qc = float(d @ d), 2 * float(d @ f), float(f @ f) - radius**2
        root = qb * qb - 4 * qa * qc
        if qa == 0 or root < 0:
            continue
        for sign in (-1, 1):
            t = (-qb + sign * math.sqrt(root)) / (2 * qa)
            if 0 <= t <= 1:
                found.append(a + t * d)
    return found


def _signed(angle: float) -> float:
    return (angle + math.pi) % (2 * math.pi) - math.pi


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the piece out of the sweep, turn it, or take it out; clashing doors are a person's to decide."""
    for piece in pieces_in(case, finding):
        door = case.room.openings[finding.subjects[1].split("/")[-1]]
        assert door.swing is not None
        yield from making_room(case, piece, door.swing)
        yield from turning(case, piece)
        yield from taking_out(case, piece)
