"""What hangs on the walls of a room, as the rules read it: once for all of them."""

from __future__ import annotations

import itertools

from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import ArtWall, Mark, Unit, art_wall
from halfdrop.audit.case import RoomCase
from halfdrop.audit.hung import hung_in
from halfdrop.room.elevation import elevation_of
from halfdrop.room.face import Elevation


def wall_with_art(case: RoomCase, wall: str) -> ArtWall:
    """Return one wall with its art, by its name as the survey walks it."""
    return case.memo(f"art on {wall}", lambda: _wall(case, wall))


def _wall(case: RoomCase, wall: str) -> ArtWall:
    face = elevation_of(case.room, wall, case.practice)
    return art_wall(case.room, wall, case.practice, cloth_on(case, face), face=face)


def cloth_on(case: RoomCase, face: Elevation) -> list[Mark]:
    """Return what hangs at the openings of a face, drawn shut, rod and finials too."""
    found = []
    for key, hung in sorted(hung_in(case).items()):
        ends = [hung.left - hung.finial, hung.right + hung.finial]
        low = min((min(panel.hem) for panel in hung.panels), default=hung.top)
        stops = [ends[0], *(b for b in hung.run.bends if ends[0] < b < ends[1]), ends[1]]
        for a, b in itertools.pairwise(stops):
            wall, _ = hung.run.wall_at((a + b) / 2)
            if not face.has(wall.name):
                continue
            stretch = face.stretch_of(wall.name)
            x = sorted((stretch.x(hung.at(a)), stretch.x(hung.at(b))))
            rect = Rect(x[0], min(low, hung.height), x[1], hung.height)
            found.append(Mark(case.room.treatments[key].name, hung.path, "treatment", rect))
    return found


def walls_hung(case: RoomCase) -> list[ArtWall]:
    """Return the walls that art hangs on, in the survey's walking order."""
    names = {w.wall.name for w in case.room.art.values()}
    return [wall_with_art(case, wall.name) for wall in case.room.walls if wall.name in names]


def units_hung(case: RoomCase) -> list[tuple[ArtWall, Unit]]:
    """Return what hangs, each with its wall."""
    return [(wall, unit) for wall in walls_hung(case) for unit in wall.units]
