"""What hangs in a room, as the rules read it: once for all of them."""

from __future__ import annotations

import itertools

from shapely import union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.drapery import Cloth, cloth_of
from halfdrop.drapery.as_hung import AsHung, as_hung


def cloths_of(case: RoomCase) -> dict[str, Cloth]:
    """Return the job's cloths, by id."""
    return case.memo(
        "cloths", lambda: {i: cloth_of(i, f, case.practice) for i, f in sorted(case.job.fabrics.items())}
    )


def hung_in(case: RoomCase) -> dict[str, AsHung]:
    """Return what is seen at each window, by the treatment's id; without those of which nothing can be said."""
    return case.memo("hung", lambda: _hung(case))


def _hung(case: RoomCase) -> dict[str, AsHung]:
    found = ((i, as_hung(case.room, i, cloths_of(case), case.practice)) for i in case.room.model.treatments)
    return {i: hung for i, hung in found if hung is not None}


def footprint(hung: AsHung, span: tuple[float, float], reach: float | None = None) -> BaseGeometry:
    """Return the floor under a stretch of cloth [m]: from the wall to the hardware's center line, or as far as `reach`.

    Parameters
    ----------
    hung : AsHung
        What hangs there.
    span : (float, float)
        Left and right edge along its run [m].
    reach : float, optional
        How far it stands off the wall [m].
    """
    depth = max(reach if reach is not None else _depth(hung), 1e-3)
    stops = [span[0], *(b for b in hung.run.bends if span[0] < b < span[1]), span[1]]
    parts = []
    for a, b in itertools.pairwise(stops):
        wall, _ = hung.run.wall_at((a + b) / 2)
        middle, half = hung.at((a + b) / 2), max(b - a, 1e-3) / 2
        along_wall, into = half * wall.direction, depth * wall.inward
        near, far = middle - along_wall, middle + along_wall
        parts.append(Polygon([near, far, far + into, near + into]))
    return union_all(parts)


def _depth(hung: AsHung) -> float:
    return 0.0 if hung.treatment.mount == "inside" else hung.projection
