"""Patches that re-hang works, put others in their place, or hang one more: the words of the rules of art for their remedies."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Sequence

from halfdrop.art.mass import sheet_per_area
from halfdrop.art.places import Spot, clear_move, height_at, middled, spots
from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import ArtWall, Unit, sits
from halfdrop.audit.art_case import units_hung, wall_with_art
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Patch, Proposal
from halfdrop.audit.moves import text
from halfdrop.base.formats import format_length, format_mass, format_size
from halfdrop.base.tolerance import SAME
from halfdrop.job.art import Art
from halfdrop.job.naming import art_name
from halfdrop.job.part import corners_of
from halfdrop.room import HungArt, StandingPiece
from halfdrop.room.face import Seen


def high(case: RoomCase, x: float) -> str:
    """Print a height as those who hang say it: in inches alone, or centimeters [m]."""
    if case.units == "metric":
        return format_length(x, "metric", unit="cm")
    return format_length(x, "imperial", feet=False)


def unit_of(case: RoomCase, finding: Finding) -> tuple[ArtWall, Unit]:
    """Return the work or group that a finding acts on, with its wall."""
    return next((w, u) for w, u in units_hung(case) if any(x.path == finding.subjects[0] for x in u.works))


def rehung(
    case: RoomCase, wall: ArtWall, works: Sequence[HungArt], rects: Sequence[Rect], over: Seen | None
) -> Patch:
    """Return the patch that hangs works at these frames [m] of a wall; what they are said to hang over follows."""
    patch: Patch = []
    piece = over.thing.id if over is not None and over.path.split("/")[-2] == "pieces" else None
    for work, rect in zip(works, rects, strict=True):
        patch.append({"op": "replace", "path": f"/{work.path}/at", "value": place_of(case, wall, rect, work)})
        if work.model.above is not None and work.model.above != piece:
            patch.append(
                {"op": "replace", "path": f"/{work.path}/above", "value": piece}
                if piece
                else {"op": "remove", "path": f"/{work.path}/above"}
            )
    return patch


def place_of(case: RoomCase, wall: ArtWall, rect: Rect, work: HungArt | None = None) -> dict[str, str]:
    """Return a frame's place as the document keeps it; measured from the corner it was measured from, on the same wall."""
    stretch = wall.face.stretch_at(rect.center[0])
    pair = stretch.left_corner + stretch.right_corner
    if (
        work is not None
        and work.model.at is not None
        and set(corners_of(work.model.at.wall)) == set(corners_of(pair))
    ):
        pair = work.model.at.wall
    along = wall.face.along(pair, rect.x0, rect.x1)
    floor = wall.face.floor(rect.center[0])
    return {
        "wall": pair,
        "along": text(case, max(along, 0.0)),
        "bottom": text(case, max(rect.y0 - floor, 0.0)),
    }


def moved_to(case: RoomCase, wall: ArtWall, unit: Unit, x: float, y: float) -> Patch:
    """Return the patch that brings a unit's middle to a point of its wall [m], then the shortest way clear; empty where none is."""
    there = middled(unit.rects, x, y)
    move = clear_move(wall, there, case.practice, unit.below, {w.id for w in unit.works})
    if move is None:
        return []
    return rehung(case, wall, unit.works, [r.moved(*move) for r in there], unit.below)


def right_height(case: RoomCase, wall: ArtWall, unit: Unit) -> float:
    """Return the height of a unit's middle by practice, where it hangs [m above the elevation's floor line]."""
    height = height_at(unit.box.height, unit.below, case.practice, sits(case.room))
    return height.center + (wall.face.floor(unit.box.center[0]) if unit.below is None else 0.0)


def other_places(
    case: RoomCase, unit: Unit, suits: Callable[[Spot], bool] = lambda spot: True
) -> Iterator[Proposal]:
    """Yield each other place of the room where a unit would hang rightly, as it is."""
    walls = [wall_with_art(case, wall.name) for wall in case.room.walls]
    ids = {w.id for w in unit.works}
    for spot in spots(walls, unit.rects, case.practice, seated=sits(case.room), without=ids):
        if suits(spot):
            patch = rehung(case, spot.wall, unit.works, spot.rects, spot.over)
            yield Proposal("place", f"Hang the {unit.name} {spot.said}.", patch)


def singles(case: RoomCase, without: Container[str] = ()) -> list[tuple[ArtWall, Unit]]:
    """Return the works that hang by themselves."""
    return [
        (w, u)
        for w, u in units_hung(case)
        if len(u.works) == 1 and u.group is None and u.works[0].id not in without
    ]


def swapped(case: RoomCase, first: tuple[ArtWall, Unit], second: tuple[ArtWall, Unit]) -> Patch:
    """Return the patch by which two works that hang by themselves change places, each at its own right height there."""
    patch: Patch = []
    for (wall, there), (_, comes) in ((first, second), (second, first)):
        work = comes.works[0]
        height = height_at(work.height, there.below, case.practice, sits(case.room))
        floor = wall.face.floor(there.box.center[0]) if there.below is None else 0.0
        rect = Rect.about((there.box.center[0], height.center + floor), work.width, work.height)
        if clear_move(wall, [rect], case.practice, there.below, {there.works[0].id, work.id}) != (0.0, 0.0):
            return []
        patch += rehung(case, wall, [work], [rect], there.below)
    return patch


def swaps(case: RoomCase, unit: Unit, suits: Callable[[HungArt], bool]) -> Iterator[Proposal]:
    """Yield each work that would rather hang here: it and this one change places."""
    if len(unit.works) != 1:
        return
    here = next((w, u) for w, u in units_hung(case) if u is unit)
    for wall, other in singles(case, {unit.works[0].id}):
        if suits(other.works[0]):
            patch = swapped(case, here, (wall, other))
            if patch:
                yield Proposal("swap", f"Let the {unit.name} and the {other.name} change places.", patch)


def relieved(case: RoomCase, unit: Unit, suits: Callable[[Art], bool]) -> Iterator[Proposal]:
    """Yield each work that waits and would rather hang here, at its own right height; this one waits in its stead."""
    if len(unit.works) != 1:
        return
    wall = next(w for w, u in units_hung(case) if u is unit)
    for key, model in waiting(case):
        if not suits(model):
            continue
        width, tall = float(model.width), float(model.height)
        height = height_at(tall, unit.below, case.practice, sits(case.room))
        floor = wall.face.floor(unit.box.center[0]) if unit.below is None else 0.0
        rect = Rect.about((unit.box.center[0], height.center + floor), width, tall)
        if clear_move(wall, [rect], case.practice, unit.below, {unit.works[0].id}) == (0.0, 0.0):
            comes = {
                "op": "add",
                "path": f"/{case.room.path}/art/{key}/at",
                "value": place_of(case, wall, rect),
            }
            title = (
                f"Hang the {art_name(key, model)} where the {unit.name} hangs, which waits for another place."
            )
            yield Proposal("exchange", title, [*taken_down(case, unit.works), comes])


def taken_down(case: RoomCase, works: Sequence[HungArt]) -> Patch:
    """Return the patch that takes works off the wall; they wait for a place."""
    patch: Patch = []
    for work in works:
        patch.append({"op": "remove", "path": f"/{work.path}/at"})
        patch += [
            {"op": "remove", "path": f"/{work.path}/{key}"}
            for key in ("above", "group")
            if getattr(work.model, key)
        ]
    return patch


def waiting(case: RoomCase) -> list[tuple[str, Art]]:
    """Return the works of a room that wait for a place, the largest first."""
    found = [(key, work) for key, work in case.room.model.art.items() if work.at is None]
    return sorted(found, key=lambda f: (-float(f[1].width) * float(f[1].height), f[0]))


def over_opening(wall: ArtWall, unit: Unit) -> bool:
    """Return whether a unit hangs over a door or a window."""
    return any(
        m.kind in ("opening", "treatment")
        and unit.box.apart(m.rect)[0] < -SAME
        and unit.box.y0 >= m.rect.y1 - SAME
        for m in wall.marks
    )


def beds_under(wall: ArtWall, rect: Rect) -> list[tuple[StandingPiece, float]]:
    """Return the beds and cribs at a wall and how far along it a frame is from each [m]; below 0 where it is over it."""
    found = []
    for seen in wall.face.pieces:
        piece = seen.thing
        if isinstance(piece, StandingPiece) and piece.type in ("bed", "crib"):
            found.append((piece, max(seen.left, rect.x0) - min(seen.right, rect.x1)))
    return found


def glazed_lighter(case: RoomCase, work: HungArt) -> Iterator[Proposal]:
    """Yield the work with acrylic for its glass, lighter by as much where it was weighed."""
    model = work.model
    if not model.glass or model.kind == "mirror":
        return
    patch: Patch = [{"op": "add", "path": f"/{work.path}/glazing", "value": "acrylic"}]
    if model.mass is not None:
        less = (
            (sheet_per_area("glass", case.practice) - sheet_per_area("acrylic", case.practice))
            * work.width
            * work.height
        )
        lighter = format_mass(max(float(model.mass) - less, 0.0), case.units, round_to="up")
        patch.append({"op": "replace", "path": f"/{work.path}/mass", "value": lighter})
    size = format_size(work.width, work.height, case.units)
    yield Proposal(
        "glaze",
        f"Have acrylic put into the {work.name} for its glass.",
        patch,
        None,
        (f"acrylic sheet {size}, for the {work.name}",),
    )
