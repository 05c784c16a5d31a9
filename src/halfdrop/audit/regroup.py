"""Patches that hang works as one: beside each other with those that wait, or a group laid anew."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from halfdrop.art.above_piece import gap_keys
from halfdrop.art.cluster import cluster
from halfdrop.art.grid import grid
from halfdrop.art.group import Group
from halfdrop.art.places import clear_move, height_at, keep_off
from halfdrop.art.rect import Rect
from halfdrop.art.row import row
from halfdrop.art.stack import stack
from halfdrop.art.wall_face import ArtWall, Unit, kind_below, sits
from halfdrop.art.work import Work
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch, Proposal
from halfdrop.audit.rehang import place_of, rehung, waiting
from halfdrop.base.errors import InputError
from halfdrop.job.naming import art_name
from halfdrop.room.face import Seen


def joined(case: RoomCase, wall: ArtWall, unit: Unit) -> Iterator[Proposal]:
    """Yield rows of a work or row with one, two or three works that wait, about the same middle."""
    ready = waiting(case)
    own = [(w.id, w.model) for w in sorted(unit.works, key=lambda w: unit.rects[unit.works.index(w)].x0)]
    for count in range(1, min(3, len(ready)) + 1):
        comes = ready[:count]
        half = (count + 1) // 2
        order = [*comes[half:], *own, *comes[:half]]
        frames = [Work(key, float(w.width), float(w.height)) for key, w in order]
        flat = row(frames, (unit.box.center[0], 0.0), case.practice)
        over = unit.below
        height = height_at(flat.box.height, over, case.practice, sits(case.room))
        floor = wall.face.floor(unit.box.center[0]) if over is None else 0.0
        rects = [r.moved(0.0, height.center + floor) for r in flat.rects]
        move = clear_move(wall, rects, case.practice, over, {key for key, _ in order})
        if move is None:
            continue
        group = unit.group or next(
            f"{unit.id}{end}" for end in ("-row", "-row-2") if f"{unit.id}{end}" not in _groups(case)
        )
        patch: Patch = []
        for (key, work), rect in zip(order, rects, strict=True):
            path = f"/{case.room.path}/art/{key}"
            patch.append(
                {
                    "op": "add",
                    "path": f"{path}/at",
                    "value": place_of(case, wall, rect.moved(*move), case.room.art.get(key)),
                }
            )
            if work.group != group:
                patch.append({"op": "add", "path": f"{path}/group", "value": group})
        names = " and ".join(f"the {art_name(key, work)}" for key, work in comes)
        yield Proposal("group", f"Hang {names} in a row with the {unit.name}, as one.", patch)


def _groups(case: RoomCase) -> set[str]:
    return {w.group for w in case.room.model.art.values() if w.group is not None}


def laid_anew(case: RoomCase, wall: ArtWall, unit: Unit) -> Iterator[Proposal]:
    """Yield a group laid anew about its middle in each form it can take, at its right height."""
    ordered = sorted(
        zip(unit.works, unit.rects, strict=True), key=lambda p: (round(p[1].center[0], 3), -p[1].center[1])
    )
    works = [Work(w.id, w.width, w.height) for w, _ in ordered]
    down = [Work(w.id, w.width, w.height) for w, r in sorted(ordered, key=lambda p: -p[1].center[1])]
    x, over = unit.box.center[0], unit.below
    floor = wall.face.floor(x) if over is None else 0.0
    ids = {w.name for w in works}
    for form, made in (("row", row), ("stack", stack), ("grid", grid)):
        try:
            flat = made(down if form == "stack" else works, (x, 0.0), case.practice)
        except InputError:
            continue
        height = height_at(flat.box.height, over, case.practice, sits(case.room)).center + floor
        rects = [r.moved(0.0, height) for r in flat.rects]
        move = clear_move(wall, rects, case.practice, over, ids)
        if move is not None:
            patch = _laid(case, wall, flat, [r.moved(*move) for r in rects], over)
            yield Proposal(
                form, f"Hang the {unit.name} anew as a {form}, {case.say(flat.gap)} between frames.", patch
            )
    height = height_at(unit.box.height, over, case.practice, sits(case.room)).center + floor
    low = over.top + case.length(gap_keys(kind_below(over))[0]) if over else wall.free.y0
    free = Rect(wall.free.x0, low, wall.free.x1, wall.free.y1)
    try:
        found = cluster(
            works, (x, height), case.practice, wall=free, obstacles=keep_off(wall, case.practice, over, ids)
        )
    except InputError:
        return
    for one in found:
        patch = _laid(case, wall, one.group, list(one.group.rects), over)
        yield Proposal(
            "cluster",
            f"Hang the {unit.name} anew as a cluster, {case.say(one.group.gap)} between frames.",
            patch,
        )


def _laid(case: RoomCase, wall: ArtWall, group: Group, rects: Sequence[Rect], over: Seen | None) -> Patch:
    return rehung(case, wall, [case.room.art[h.work.name] for h in group.hung], rects, over)
