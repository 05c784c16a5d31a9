"""What is seen of walls, trim, ceiling, floor and rugs [m²]: each less what covers it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import union_all
from shapely.affinity import translate
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from halfdrop.color.inventory.part import Cover
from halfdrop.job.finishes import Finish
from halfdrop.job.part import corners_of
from halfdrop.practice import Practice
from halfdrop.room import LyingRug, ResolvedRoom
from halfdrop.room.elevation import elevation_of
from halfdrop.room.face import Elevation

#: Fittings that stand on the floor and cover it.
_ON_FLOOR = frozenset({"closet", "counter", "bath", "shower", "column", "stair head"})


@dataclass(frozen=True)
class Bare:
    """What is seen of a wall's face, and how that came about.

    Attributes
    ----------
    wall : str
    seen, trim : BaseGeometry
        On the elevation [m]: of the wall, of its baseboard and casings.
    gross, holes, hidden : float
        The face, its openings with their trim, and what stands or hangs before it [m²].
    face : Elevation
    """

    wall: str
    seen: BaseGeometry
    trim: BaseGeometry
    gross: float
    holes: float
    hidden: float
    face: Elevation


def bare_walls(room: ResolvedRoom, covers: Sequence[Cover], practice: Practice) -> tuple[Bare, ...]:
    """Return what is seen of each wall, in walking order.

    A wall's face less its openings, trim, works, cloth, and the silhouettes of what stands within `elevation.reach` of it.

    Source: our own geometry, no source. Checked by: tests/color/test_inventory.py.
    """
    return tuple(_bare(room, wall.name, covers, practice) for wall in room.walls)


def _bare(room: ResolvedRoom, wall: str, covers: Sequence[Cover], practice: Practice) -> Bare:
    face = elevation_of(room, wall, practice)
    stretch = face.stretches[0]
    holes = union_all([seen.box for seen in face.openings])
    trim = _trim(face, practice).difference(holes)
    before = [s.box for s in (*face.art, *face.pieces) if s.off >= 0.0]
    before += [s.box for s in face.fittings if s.top - s.bottom > 0.3]
    for cover in covers:
        if cover.wall == wall:
            left, right = sorted((stretch.x(cover.start), stretch.x(cover.end)))
            ground = face.floor((left + right) / 2)
            before.append(box(left, ground + cover.bottom, right, ground + cover.top))
    hides = union_all(before)
    plain = face.outline.difference(holes).difference(trim)
    seen = plain.difference(hides)
    return Bare(
        wall, seen, trim.difference(hides), float(face.outline.area),
        float(face.outline.area - plain.area), float(plain.area - seen.area), face,
    )  # fmt: skip


def _trim(face: Elevation, practice: Practice) -> BaseGeometry:
    """Return baseboard and casings on the elevation, openings not yet cut out."""
    high, usual = (float(practice.length(f"walls.{key}")) for key in ("baseboard_height", "casing_width"))
    parts: list[BaseGeometry] = [face.outline.difference(translate(face.outline, 0.0, high))]
    for seen in face.openings:
        trim = getattr(seen.thing.model, "trim", None)
        wide = float(trim) if trim is not None else usual
        low = seen.bottom - wide if getattr(seen.thing.model, "kind", "") == "window" else seen.bottom
        parts.append(box(seen.left - wide, low, seen.right + wide, seen.top + wide))
    return union_all(parts).intersection(face.outline)


def band_of(bare: Bare, finish: Finish) -> BaseGeometry | None:
    """Return the band of a wall's elevation that a finish covers; None where it covers none of this wall."""
    if finish.walls is not None and set(corners_of(bare.wall)) not in [
        set(corners_of(p)) for p in finish.walls
    ]:
        return None
    whole: Polygon = bare.face.outline
    low = float(finish.bottom) if finish.bottom is not None else 0.0
    band: BaseGeometry = whole.intersection(translate(whole, 0.0, low)) if low > 0 else whole
    if finish.top is not None:
        band = band.difference(translate(whole, 0.0, float(finish.top)))
    return band


def seen_floor(room: ResolvedRoom) -> tuple[float, float, float]:
    """Return the floor seen, the rugs on it, and what stands on it [m²]."""
    stands = _standing(room)
    rugs = union_all([rug.footprint for rug in room.rugs.values()]).intersection(room.outline)
    covered = stands.intersection(room.outline)
    seen = room.outline.difference(rugs).difference(covered)
    return float(seen.area), float(rugs.area), float(covered.difference(rugs).area)


def seen_rug(room: ResolvedRoom, rug: LyingRug) -> tuple[float, float]:
    """Return what is seen of a rug, and what of it lies under pieces or another rug [m²]."""
    over = [r.footprint for r in room.rugs.values() if r.model.over == rug.id]
    hides = union_all([_standing(room), *over])
    seen = rug.footprint.difference(hides)
    return float(seen.area), float(rug.footprint.area - seen.area)


def _standing(room: ResolvedRoom) -> BaseGeometry:
    shapes = [p.footprint for p in room.floor_pieces.values()]
    shapes += [f.footprint for f in room.fittings.values() if f.model.kind in _ON_FLOOR]
    return union_all(shapes)
