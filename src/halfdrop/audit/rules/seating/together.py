"""What the seating rules share: the groups of a room, their places, and moves of things that go together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Literal

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding
from halfdrop.audit.moves import Movable
from halfdrop.geometry.plane import Array, heading, left_of, turned
from halfdrop.room import LyingRug, StandingPiece, Wall
from halfdrop.room.groups import Seat, SeatingGroup, rug_serves, seating_groups, seats_of
from halfdrop.room.talk import Talk, talk_between

#: Practice keys of the gap between people, by region; a region without its own takes the North American ones.
_REGIONS = {"northern Europe": "_northern_europe", "Mediterranean": "_mediterranean"}
#: A wall is behind a piece when the piece looks away from it within 60° (cosine).
BEHIND = 0.5
#: A move shorter than this is none [m].
LEAST = 1e-3


def groups(case: RoomCase) -> list[SeatingGroup]:
    """Return the room's seating groups, worked out once."""
    return case.memo("seating groups", lambda: seating_groups(case.room, case.practice))


def places(case: RoomCase, piece: StandingPiece) -> list[Seat]:
    """Return a piece's places, worked out once."""
    return case.memo(f"places {piece.id}", lambda: seats_of(piece, case.practice))


def group_of(case: RoomCase, piece_id: str) -> SeatingGroup:
    """Return the group that a piece sits in."""
    return next(g for g in groups(case) if any(p.id == piece_id for p in g.pieces))


def main_piece(case: RoomCase, group: SeatingGroup) -> StandingPiece:
    """Return the group's main seat: the one with most places, the widest of those."""
    return min(group.pieces, key=lambda p: (-len(places(case, p)), -round(p.width, 4), p.id))


def talk(case: RoomCase, a: Iterable[Seat], b: Iterable[Seat]) -> Talk | None:
    """Return the nearest talk between two pieces' places, by the practice's people."""
    return talk_between(
        list(a), list(b), case.length("seating.person_width"), case.length("seating.knee_reach")
    )


def person_gap(case: RoomCase, end: Literal["min", "max"]) -> tuple[str, float]:
    """Return the practice key and value [m] of the least or the most between people, in the practice's
    region.
    """
    key = f"seating.person_gap_{end}" + _REGIONS.get(case.practice.text("seating.region"), "")
    return key, case.length(key)


def seat_height(case: RoomCase, piece: StandingPiece) -> float:
    """Return a seat's height [m]: as the document says, else by practice for its type."""
    if piece.model.seat_height is not None:
        return float(piece.model.seat_height)
    return case.length(f"furniture.{piece.type.replace(' ', '_')}.seat_height")


def back_wall(case: RoomCase, piece: StandingPiece) -> tuple[float, Wall] | None:
    """Return the gap to the nearest wall behind a piece [m], and that wall."""
    gaps = []
    for wall in case.room.walls:
        gap = case.room.wall_gap(piece, wall) if float(wall.inward @ piece.front) > BEHIND else None
        if gap is not None:
            gaps.append((gap, wall))
    return min(gaps, key=lambda g: (round(g[0], 6), g[1].name), default=None)


def table_spot(case: RoomCase, lead: StandingPiece, table: StandingPiece) -> Array:
    """Return where the middle of a low table belongs before a seat [m]: in the midst of the target gap."""
    gap = (case.length("seating.coffee_gap_target_low") + case.length("seating.coffee_gap_target_high")) / 2
    front = np.mean([s.front for s in places(case, lead)], axis=0)
    return np.asarray(front + lead.front * (gap + float(np.ptp(table.corners @ lead.front)) / 2))


def round_the_table(
    case: RoomCase, lead: StandingPiece, table: StandingPiece | None, middle: Array, depth: float
) -> Iterator[tuple[Array, float]]:
    """Yield places for a seat `depth` deep round a low table whose middle is at `middle`, looking in.

    Middle of the seat [m] and angle of its front [rad]: at the ends first, then at the corners, then opposite the
    main seat. Without a table the seats stand as far from that middle as facing seats do.
    """
    gap = (case.length("seating.coffee_gap_target_low") + case.length("seating.coffee_gap_target_high")) / 2
    facing = case.length("seating.facing_min") / 2
    for side in (-np.pi / 2, np.pi / 2, -np.pi / 4, np.pi / 4, 0.0):
        way = turned(lead.front, side)
        reach = float(np.ptp(table.corners @ way)) / 2 + gap if table is not None else facing
        for off in (reach, reach + 0.1, reach + 0.25):
            for along in (0.0, -0.25, 0.25, -0.5, 0.5):
                yield middle + way * (off + depth / 2) + left_of(way) * along, heading(-way) - np.pi / 2


def low_table(group: SeatingGroup) -> StandingPiece | None:
    """Return the group's first coffee table."""
    return next((t for t in group.tables if t.type == "coffee table"), None)


def rugs_of(case: RoomCase, group: SeatingGroup) -> list[LyingRug]:
    """Return the rugs that lie for a group."""
    ids = {p.id for p in group.pieces}
    found = []
    for rug in case.room.rugs.values():
        owner = rug_serves(case.room, rug, groups(case))
        if isinstance(owner, SeatingGroup) and {p.id for p in owner.pieces} == ids:
            found.append(rug)
    return found


def tables_at(group: SeatingGroup, pieces: Iterable[StandingPiece]) -> list[StandingPiece]:
    """Return the group's tables that stand nearer to these pieces than to the group's others."""
    mine = {p.id for p in pieces}

    def nearest(table: StandingPiece) -> str:
        return min(
            group.pieces, key=lambda p: (round(float(p.footprint.distance(table.footprint)), 6), p.id)
        ).id

    return [t for t in group.tables if nearest(t) in mine]


def pieces_of(case: RoomCase, finding: Finding) -> list[StandingPiece]:
    """Return the pieces among a finding's subjects, in order."""
    keys = [path.split("/") for path in finding.subjects]
    return [
        case.room.pieces[k[3]] for k in keys if len(k) == 4 and k[2] == "pieces" and k[3] in case.room.pieces
    ]


def listed(things: Iterable[Movable]) -> str:
    """Name things in a sentence: `the sofa, the chair and the bench`."""
    names = [f"the {t.name}" for t in things]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def unit(v: Array) -> Array | None:
    """Return a vector's direction, or None where it has none."""
    size = float(np.hypot(*v))
    return v / size if size > LEAST else None


def ways_of(piece: StandingPiece, toward: Array | None = None) -> Iterator[Array]:
    """Yield directions to try for a piece: toward a point's direction where given, then its own four."""
    if toward is not None:
        yield toward
    yield from (piece.front, -piece.front, piece.right, -piece.right)


def least_move(clears: Callable[[float], bool], most: float = 3.0, pace: float = 0.05) -> float | None:
    """Return the least distance at which `clears` holds [m], to 0.1 mm within its pace; None up to `most`
    where it never does.
    """
    high = next((k * pace for k in range(1, int(most / pace) + 1) if clears(k * pace)), None)
    if high is None:
        return None
    low = high - pace
    while high - low > 1e-4:
        middle = (low + high) / 2
        low, high = (low, middle) if clears(middle) else (middle, high)
    return high
