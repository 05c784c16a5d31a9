"""Which wall a room looks at, and where on it."""

from __future__ import annotations

from halfdrop.job.model import AtWall
from halfdrop.room import ResolvedRoom
from halfdrop.room.walls import Wall


def focal_of(room: ResolvedRoom) -> tuple[str, float] | None:
    """Return the wall of a room's focal point and the point's place on it, from its start [m]; None where it has none.

    An opening, a fitting at a wall or a piece at a wall tells its wall; what stands free in the room tells none.

    Checked by: tests/walls/test_paper.py.
    """
    if room.model.wishes.focal is None:
        return None
    kind, _, name = room.model.wishes.focal.partition("/")
    wall: Wall | None = None
    if kind == "openings":
        opening = room.openings[name]
        wall, point = opening.wall, (opening.start + opening.end) / 2
    elif kind == "fittings":
        wall, point = room.fittings[name].wall, room.fittings[name].center
    else:
        piece = room.pieces[name]
        point = piece.center
        if isinstance(piece.model.at, AtWall):
            wall = room.wall(piece.model.at.wall)
    if wall is None:
        return None
    return wall.name, min(max(float(wall.along(point)), 0.0), wall.length)
