"""Every surface and thing of a room with what is seen of it and the swatches it wears."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry.base import BaseGeometry

from halfdrop.color.inventory.part import Cover, Part
from halfdrop.color.inventory.shapes import role_of, seen_area
from halfdrop.color.inventory.surfaces import Bare, band_of, bare_walls, seen_floor, seen_rug
from halfdrop.job.colors import Colors
from halfdrop.job.finishes import Finish
from halfdrop.job.model import Job
from halfdrop.job.naming import art_name, fixed_name, in_words
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom


def parts_of(job: Job, room: ResolvedRoom, covers: Sequence[Cover], practice: Practice) -> tuple[Part, ...]:
    """Return every surface and thing of a room: surfaces, pieces, rugs, cloth, cushions, fittings with colors, works.

    Parameters
    ----------
    covers : sequence of Cover
        The cloth that hangs at its openings.
    practice : Practice
        `color.face_seen`, `color.fold_seen`, and what an elevation takes.

    Source: our own geometry, no source. Checked by: tests/color/test_inventory.py.
    """
    bare = bare_walls(room, covers, practice)
    return (
        *_walls(job, room, bare, practice),
        *_other_surfaces(job, room, bare, practice),
        *_pieces(room, practice),
        *_rugs(room, practice),
        *_cloths(job, covers, practice),
        *_small(job, room, practice),
    )


def _worn(job: Job, finish: Finish) -> tuple[Colors, str, bool]:
    """Return the colors of a finish, where they stand, and whether it is patterned."""
    if finish.paper is not None:
        return job.papers[finish.paper].colors or {}, f"papers/{finish.paper}/colors", True
    assert finish.paint is not None
    swatch = job.paints[finish.paint].swatch
    return {swatch: 1.0} if swatch else {}, f"paints/{finish.paint}/swatch", False


def _walls(job: Job, room: ResolvedRoom, bare: Sequence[Bare], practice: Practice) -> list[Part]:
    left: dict[str, BaseGeometry] = {one.wall: one.seen for one in bare}
    found = []
    finishes = [(i, f) for i, f in room.model.finishes.items() if f.on == "walls"]
    for key, finish in reversed(finishes):
        area, over = 0.0, []
        for one in bare:
            band = band_of(one, finish)
            if band is not None:
                over.append(one)
                area += float(left[one.wall].intersection(band).area)
                left[one.wall] = left[one.wall].difference(band)
        colors, fixes, patterned = _worn(job, finish)
        where = f"wall {' and '.join(finish.walls)}" if finish.walls else "walls"
        what = f"{where}, {'papered' if finish.paper else 'painted'}"
        found.append(Part(f"{room.path}/finishes/{key}", what, "walls", area,
                          _how(over, area, practice), colors, patterned=patterned, fixes=fixes))  # fmt: skip
    rest = sum(float(g.area) for g in left.values())
    if rest > 1e-6 or not found:
        path, colors = f"{room.path}/surfaces/walls", room.model.surfaces.walls or {}
        found.append(Part(path, "walls", "walls", rest, _how(bare, rest, practice), colors))
    return found[::-1]


def _how(walls: Sequence[Bare], area: float, practice: Practice) -> str:
    """Say how the area of some walls came about; what is left over is covered otherwise."""
    say = Words(practice)
    gross, holes, hidden = (sum(getattr(b, k) for b in walls) for k in ("gross", "holes", "hidden"))
    said = f"{say.area(gross)} of walls − openings and trim {say.area(holes)} − behind pieces, works and cloth {say.area(hidden)}"
    other = gross - holes - hidden - area
    return said + (f" − covered otherwise {say.area(other)}" if other > 0.01 else "")


def _other_surfaces(job: Job, room: ResolvedRoom, bare: Sequence[Bare], practice: Practice) -> list[Part]:
    say = Words(practice)
    surfaces = room.model.surfaces
    floor, rugs, under = seen_floor(room)
    trim = sum(float(b.trim.area) for b in bare)
    doors = sum(
        float(o.model.width) * float(o.model.height) for o in room.openings.values() if o.model.kind == "door"
    )
    how_floor = f"{say.area(room.area)} − rugs {say.area(rugs)} − under pieces {say.area(under)}"
    how_trim = f"baseboard and casings {say.area(trim)} + doors {say.area(doors)}"
    return [
        _surface(job, room, "ceiling", room.area, f"the floor's {say.area(room.area)}", surfaces.ceiling),
        _surface(job, room, "trim", trim + doors, how_trim, surfaces.trim),
        Part(f"{room.path}/surfaces/floor", "floor", "floor", floor, how_floor, surfaces.floor or {}),
    ]


def _surface(job: Job, room: ResolvedRoom, on: str, area: float, how: str, as_found: Colors | None) -> Part:
    for key, finish in reversed(list(room.model.finishes.items())):
        if finish.on == on:
            colors, fixes, _ = _worn(job, finish)
            return Part(f"{room.path}/finishes/{key}", on, on, area, how, colors, fixes=fixes)
    return Part(f"{room.path}/surfaces/{on}", on, on, area, how, as_found or {})  # type: ignore[arg-type]


def _pieces(room: ResolvedRoom, practice: Practice) -> list[Part]:
    found = []
    for piece in room.pieces.values():
        area, how = seen_area(room, piece, practice)
        model = piece.model
        found.append(Part(piece.path, piece.name, role_of(piece.type), area, how, model.colors or {}, model.keep,
                          model.pattern == "patterned"))  # fmt: skip
    return found


def _rugs(room: ResolvedRoom, practice: Practice) -> list[Part]:
    say = Words(practice)
    found = []
    for rug in room.rugs.values():
        area, under = seen_rug(room, rug)
        how = f"{say.area(area + under)} − under pieces {say.area(under)}"
        model = rug.model
        found.append(Part(rug.path, rug.name, "medium", area, how, model.colors or {}, model.keep,
                          model.pattern == "patterned"))  # fmt: skip
    return found


def _cloths(job: Job, covers: Sequence[Cover], practice: Practice) -> list[Part]:
    say = Words(practice)
    seen = float(practice.number("color.fold_seen"))
    by_path: dict[str, list[Cover]] = {}
    for cover in covers:
        by_path.setdefault(cover.path, []).append(cover)
    found = []
    for path, several in by_path.items():
        first = several[0]
        wide = sum(float(((c.end - c.start) ** 2).sum() ** 0.5) for c in several)
        flat = [
            float(((c.end - c.start) ** 2).sum() ** 0.5) * (c.top - c.bottom) * (1.0 + seen * (c.full - 1.0))
            for c in several
        ]
        how = f"{say(wide)} wide, {say(max(c.top - c.bottom for c in several))} long, folds seen in part"
        fabric = job.fabrics.get(first.fabric or "")
        found.append(Part(
            path, first.what, "medium", sum(flat), how, (fabric.colors if fabric else None) or {}, first.kept,
            bool(fabric and fabric.repeat), f"fabrics/{first.fabric}/colors" if fabric else None,
        ))  # fmt: skip
    return found


def _small(job: Job, room: ResolvedRoom, practice: Practice) -> list[Part]:
    say = Words(practice)
    found = []
    for key, cushion in room.model.cushions.items():
        area = cushion.count * float(cushion.width) * float(cushion.height)
        fabric = job.fabrics[cushion.fabric]
        how = f"{cushion.count} × {say.pair(float(cushion.width), float(cushion.height))}, one face seen"
        name = cushion.name or f"{in_words(key)}{'' if 'cushion' in key else ' cushions'}"
        found.append(Part(f"{room.path}/cushions/{key}", name, "small", area, how, fabric.colors or {},
                          patterned=bool(fabric.repeat), fixes=f"fabrics/{cushion.fabric}/colors"))  # fmt: skip
    for fitting in room.fittings.values():
        if fitting.model.colors is not None:
            high = float(fitting.model.height or 0.0)
            area = fitting.width * high
            found.append(Part(fitting.path, fixed_name(fitting.id, fitting.model), "medium", area,
                              f"front {say.pair(fitting.width, high)}", fitting.model.colors))  # fmt: skip
    for key, work in room.model.art.items():
        if work.at is None:
            continue
        wide, high = float(work.width), float(work.height)
        found.append(Part(f"{room.path}/art/{key}", art_name(key, work), "art", wide * high,
                          say.pair(wide, high), work.colors or {}, work.keep))  # fmt: skip
    return found
