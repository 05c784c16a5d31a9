"""Groups laid out afresh in the arrangements the trade knows: round a low table before the main seat.

A formation puts the main seat before the low table, the other seats opposite it, at the table's two ends, or at one end, and the
group's rug under them all. Every other place in the room is left alone. The proof decides which of them stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Proposal
from halfdrop.audit.moves import Movable, arranged
from halfdrop.audit.rules.seating.together import listed, low_table, main_piece, rugs_of
from halfdrop.geometry.plane import Array, heading, left_of
from halfdrop.room import LyingRug, StandingPiece
from halfdrop.room.groups import SeatingGroup

Spot = tuple[Movable, Array, float]

#: Space between two seats side by side, for an elbow or a small table [m]; common practice, no source.
BESIDE = 0.35
#: How far a rug that does not reach round the group lies behind the main seat's front legs [m]; common practice.
UNDER = 0.15
#: How far the main seat is tried from where it stands: off its wall, and along it [m].
OFF = (0.10, 0.25, 0.40, 0.55, 0.70, 0.85, 1.00, 1.20)
ALONG = (0.0, -0.3, 0.3, -0.6, 0.6, -1.0, 1.0)
#: More groups than this many seats are laid out by a person.
MOST = 5


def formations(case: RoomCase, group: SeatingGroup) -> Iterator[Proposal]:
    """Yield whole arrangements of a group, the main seat moved least first; kind `arrange`."""
    table = low_table(group)
    main = main_piece(case, group)
    others = sorted((p for p in group.pieces if p.id != main.id), key=lambda p: p.id)
    if table is None or not others or len(group.pieces) > MOST:
        return
    rugs = [r for r in rugs_of(case, group) if r.model.shape != "round"]
    fronts = [main.front, -main.front]
    tries = sorted(
        ((off, along, k) for k in range(2) for off in OFF for along in ALONG),
        key=lambda t: (t[2], t[0] + abs(t[1]), t),
    )
    for off, along, k in tries:
        front = fronts[k]
        moved = main.center + main.front * off + left_of(main.front) * along
        for others_at in (_ends, _opposite, _one_end):
            spots = _laid(case, main, table, others, rugs, moved, front, others_at)
            patch = arranged(case, spots) if spots else []
            if patch:
                yield Proposal(
                    "arrange",
                    f"Set {listed([main, *others])} round the {table.name}, "
                    f"the {main.name} {case.say(off)} farther off the wall.",
                    patch,
                )


Layout = Callable[[list[StandingPiece], Array, Array, float, float, float, float], list[Spot]]


def _laid(
    case: RoomCase,
    main: StandingPiece,
    table: StandingPiece,
    others: list[StandingPiece],
    rugs: list[LyingRug],
    moved: Array,
    front: Array,
    others_at: Layout,
) -> list[Spot]:
    """Return where everything stands when the main seat's middle is at `moved`; empty where the layout has no use for it."""
    low, high = (case.length(f"seating.coffee_gap_target_{end}") for end in ("low", "high"))
    angle = heading(front) - np.pi / 2
    # The table's long side lies along the main seat's front.
    long_side = table.width >= table.depth - 1e-9
    table_angle = angle if long_side else angle + np.pi / 2
    deep, wide = (table.depth, table.width) if long_side else (table.width, table.depth)
    facing = case.length("seating.facing_min")
    gap = (
        float(np.clip((facing - deep) / 2, (low + high) / 2, high))
        if others_at is _opposite
        else (low + high) / 2
    )
    middle = moved + front * (main.depth / 2 + gap + deep / 2)
    spots: list[Spot] = [(main, moved, angle), (table, middle, table_angle)]
    seats = others_at(others, middle, front, deep, wide, max(gap, facing - deep - gap), gap)
    if not seats:
        return []
    spots += seats
    legs = gap + deep / 2 + main.leg_setback
    for rug in rugs:  # in the middle, or as far under the main seat's front legs as it must be to reach them
        reach = float(np.ptp(rug.corners @ front)) / 2
        spots.append((rug, middle - front * max(legs + UNDER - reach, 0.0), rug.angle))
    return spots


def _row(pieces: list[StandingPiece], origin: Array, toward: Array) -> list[Spot]:
    """Stand pieces side by side, fronts on a line through `origin`, looking along `toward`."""
    across = left_of(toward)
    total = sum(p.width for p in pieces) + BESIDE * (len(pieces) - 1)
    at = -total / 2
    row: list[Spot] = []
    for piece in pieces:
        center = origin - toward * (piece.depth / 2) + across * (at + piece.width / 2)
        row.append((piece, center, heading(toward) - np.pi / 2))
        at += piece.width + BESIDE
    return row


def _opposite(
    others: list[StandingPiece], middle: Array, front: Array, deep: float, wide: float, far: float, gap: float
) -> list[Spot]:
    """All others in a row across the table, looking at the main seat."""
    return _row(others, middle + front * (deep / 2 + far), -front)


def _ends(
    others: list[StandingPiece], middle: Array, front: Array, deep: float, wide: float, far: float, gap: float
) -> list[Spot]:
    """Half of them at each end of the table, drawn forward so that they look past the main seat's corner."""
    if len(others) < 2:
        return []
    side = left_of(front)
    half = (len(others) + 1) // 2
    # The one that stands farther to the left goes left: nobody carries a chair across the room for nothing.
    order = sorted(others, key=lambda p: (-round(float((p.center - middle) @ side), 4), p.id))
    ahead = middle + front * 0.15
    left = _row(order[:half], ahead + side * (wide / 2 + gap), -side)
    return left + _row(order[half:], ahead - side * (wide / 2 + gap), side)


def _one_end(
    others: list[StandingPiece], middle: Array, front: Array, deep: float, wide: float, far: float, gap: float
) -> list[Spot]:
    """One seat alone at the end of the table nearer to it."""
    if len(others) != 1:
        return []
    side = left_of(front)
    if float((others[0].center - middle) @ side) < 0:
        side = -side
    return _row(others, middle + front * 0.15 + side * (wide / 2 + gap), -side)
