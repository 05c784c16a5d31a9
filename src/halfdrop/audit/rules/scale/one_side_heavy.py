"""Neither half of the room is much heavier than the other.

Why: With all the tall and bulky pieces on one side a room seems to tip, and the other side looks forgotten.
Source: practice value scale.imbalance: nobody publishes one, it is our choice.
Fails: about a line through the middle of the floor along one of the walls' directions, the difference of the
    visual weight on both sides over their sum is above the value. A piece weighs footprint × height, a bed to
    the top of its mattress; one that lies across the line weighs on both sides. The worst line speaks. Taste.
Passes exactly: at the value.
Silent: with fewer than four pieces on the floor; for rugs, fittings and what stands on another piece; for
    baths and halls.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from shapely.affinity import rotate, translate
from shapely.geometry import Polygon

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import turned_together
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_most
from halfdrop.geometry.plane import Array, heading
from halfdrop.room import StandingPiece
from halfdrop.room.things import STORAGE
from halfdrop.room.weight import Balance, balances, visual_height

GRADE = Grade.TASTE
PRACTICE = ("scale.imbalance",)
#: Two imbalances nearer than this are the same.
_SAME = 1e-5
#: Fewer pieces than this have no balance to speak of.
_FEW = 4
#: What may stand elsewhere without its group losing it.
_FREE = STORAGE | {"console", "piano", "plant", "floor lamp", "mirror", "other"}
#: Step of the places tried along a wall, and air left behind a piece [m].
_PACE, _AIR = 0.3, 0.005
#: At most this many places are proposed.
_MOST = 60
_ROOMS = ("living", "dining", "bedroom", "study")


def _worst(case: RoomCase, pieces: Sequence[StandingPiece], shapes: Sequence[Polygon]) -> Balance:
    mattress = case.length("furniture.mattress_top")
    return balances(case.room, shapes, [visual_height(p, mattress) for p in pieces])[0]


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding, about the line on which the room tips most."""
    pieces = list(case.room.floor_pieces.values())
    if len(pieces) < _FEW or not any(case.room.model.use.get(u) for u in _ROOMS):  # type: ignore[call-overload]
        return
    worst = _worst(case, pieces, [p.footprint for p in pieces])
    wanted = case.practice.number(PRACTICE[0])
    if at_most(worst.imbalance, wanted, _SAME):
        return
    heavy = [p for p in pieces if float((p.center - worst.middle) @ worst.heavy) > 0]
    bulky = sorted(heavy, key=lambda p: (-round(p.footprint.area * p.height, 4), p.id))[:3]
    share, most = (1 + worst.imbalance) / 2, (1 + wanted) / 2
    names = " and ".join(f"the {p.name}" for p in bulky[:2])
    yield case.finding(
        rule_id(__name__),
        GRADE,
        bulky,
        f"{share:.1%} of the furniture's bulk stands in one half of the room, {names} first; at most "
        f"{most:.0%} is wanted, "
        "or the room tips.",
        name="half",
        measured=worst.imbalance,
        wanted=wanted,
        quantity="ratio",
        sense="at most",
        practice=PRACTICE[0],
        anchor=worst.middle,
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Stand one piece of storage, a plant or a lamp of the heavy half at a wall of the light one."""
    pieces = list(case.room.floor_pieces.values())
    shapes = [p.footprint for p in pieces]
    wanted = case.practice.number(PRACTICE[0])
    worst = _worst(case, pieces, shapes)
    found = []
    for k, piece in enumerate(pieces):
        if float((piece.center - worst.middle) @ worst.heavy) <= 0 or piece.type not in _FREE:
            continue
        for center, turn in _at_walls(case, piece, worst):
            there = [*shapes]
            move = center - piece.center
            pivot = (float(piece.center[0]), float(piece.center[1]))
            there[k] = translate(
                rotate(shapes[k], turn, origin=pivot, use_radians=True), float(move[0]), float(move[1])
            )
            if at_most(_worst(case, pieces, there).imbalance, wanted, _SAME):
                storage = piece.type not in STORAGE
                found.append((storage, round(float(np.hypot(*move)), 4), piece, turn, move))
    for _, far, piece, turn, move in sorted(found, key=lambda f: (f[0], f[1], f[2].id))[:_MOST]:
        patch = turned_together(case, [piece], piece.center, turn, move)
        if patch:
            yield Proposal(
                "move",
                f"Stand the {piece.name} {case.say(far)} over, in the lighter half of the room.",
                patch,
            )


def _at_walls(case: RoomCase, piece: StandingPiece, worst: Balance) -> Iterator[tuple[Array, float]]:
    """Yield places with the back to a wall of the light half: the middle to be, and the turn to it [rad]."""
    for wall in case.room.walls:
        turn = heading(wall.inward) - math.pi / 2 - piece.angle
        for k in range(int((wall.length - piece.width) / _PACE) + 1):
            along = piece.width / 2 + k * _PACE
            center = wall.start + along * wall.direction + (piece.depth / 2 + _AIR) * wall.inward
            if float((center - worst.middle) @ worst.heavy) < 0:
                yield center, turn
