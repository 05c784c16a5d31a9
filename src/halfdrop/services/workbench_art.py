"""Art on the page: what a work's hooks and fixing come to as it hangs, and where several could hang together."""

from __future__ import annotations

from typing import Any

from halfdrop.art.wall_face import ArtWall, Unit, pieces_below
from halfdrop.audit.art_case import wall_with_art
from halfdrop.audit.case import RoomCase
from halfdrop.audit.rehang import high
from halfdrop.job.naming import art_name
from halfdrop.room import HungArt
from halfdrop.services.hanging_job import fixing_said, hung_work
from halfdrop.services.hanging_room import RoomAsk, hang_in
from halfdrop.services.hanging_types import work_json
from halfdrop.services.trade_art import points_of
from halfdrop.services.trade_words import Say


def art_facts(case: RoomCase, work: HungArt) -> list[list[str]]:
    """Return label and text of each thing worth telling about a work where it hangs: the two numbers of each hook, its fixing."""
    wall = wall_with_art(case, work.wall.name)
    unit = next(u for u in wall.units if any(w.id == work.id for w in u.works))
    hung, notes, _ = hung_work(case, wall, unit, work, work.name, "left")
    say, face = Say(case.units), wall.face
    corner = face.stretches[0].left_corner
    points = points_of(hung)
    out: list[list[str]] = []
    for point, label in zip(
        points, ("hook",) if len(points) == 1 else ("left hook", "right hook"), strict=False
    ):
        up = say.fix(point.y - face.floor(point.x))
        out.append([label, f"{say.fix(point.x)} from corner {corner}, {up} above the floor"])
    if not points:
        top = hung.frame.y1 - face.floor(hung.frame.center[0])
        out.append(["hook", f"not known until the wire's drop is given: the top is {say.fix(top)} above the floor, the middle "
                            f"{say.fix(hung.frame.center[0])} from corner {corner}"])  # fmt: skip
    guess = "" if work.model.mass is not None else " at the most, by its size"
    out.append(["weighs", f"{say.mass(hung.mass)}{guess}"])
    out.append(["fixing", fixing_said(work.model, hung)])
    out += [["note", note] for note in notes if "cable" in note or "outside its frame" in note]
    out += _beside(case, wall, unit)
    return out


def art_hooks(case: RoomCase, work: HungArt, left: float, bottom: float) -> list[dict[str, Any]]:
    """Return each hook of a work as a page draws it: where it is, and its two dimensions, from the left corner and from the floor.

    Parameters
    ----------
    left, bottom : float
        Of its frame on the elevation [m].
    """
    wall = wall_with_art(case, work.wall.name)
    unit = next(u for u in wall.units if any(w.id == work.id for w in u.works))
    hung, _, _ = hung_work(case, wall, unit, work, work.name, "left")
    say, found = Say(case.units), []
    for point in points_of(hung):
        x, y = left + point.x - hung.frame.x0, bottom + point.y - hung.frame.y0
        up = point.y - wall.face.floor(point.x)
        ends = (([x - point.x, y], say.fix(point.x)), ([x, y - up], say.fix(up)))
        at = [round(x, 5), round(y, 5)]
        found.append(
            {"at": at, "dims": [{"p": [round(v, 5) for v in p], "q": at, "text": text} for p, text in ends]}
        )
    return found


def _beside(case: RoomCase, wall: ArtWall, unit: Unit) -> list[list[str]]:
    """Return how high a unit's middle is, and how far over what it hangs over."""
    middle = unit.box.center[1] - wall.face.floor(unit.box.center[0])
    said = [["middle", f"{high(case, middle)} above the floor"]]
    if len(unit.works) > 1:
        said = [["group's middle", f"{high(case, middle)} above the floor"]]
    if unit.below is not None:
        said.append([f"over the {unit.below.thing.name}", case.say(unit.box.y0 - unit.below.top)])
    return said


def art_of(case: RoomCase) -> dict[str, Any]:
    """Return the works of a room, where each hangs, and what works may hang over, for a page that asks what to hang."""
    works = []
    for key, work in case.room.model.art.items():
        hung = case.room.art.get(key)
        works.append({
            "id": key, "name": art_name(key, work), "kind": work.kind, "group": work.group,
            "size_text": f"{high(case, float(work.width))} × {high(case, float(work.height))}",
            "wall": hung.wall.name if hung is not None else None,
        })  # fmt: skip
    overs: dict[str, dict[str, Any]] = {}
    for wall in case.room.walls:
        for seen in pieces_below(wall_with_art(case, wall.name).face):
            overs.setdefault(seen.thing.id, {"id": seen.thing.id, "name": seen.thing.name, "walls": []})[
                "walls"
            ].append(wall.name)
    return {"works": works, "overs": list(overs.values())}


def hang_ways(case: RoomCase, ask: RoomAsk) -> dict[str, Any]:
    """Return each way works could hang: what is done, its patch, what is to know of it.

    Raises
    ------
    UsageError, InputError
        As `halfdrop.services.hanging_room.hang_in`.
    """
    found = hang_in(case, ask)
    ways = []
    for n, (answer, patch) in enumerate(zip(found.report.answers, found.patches, strict=True), 1):
        box = answer.box
        ways.append({
            "id": f"way-{n}",
            "title": found.title if len(found.patches) == 1 else f"Way {n} of {len(found.patches)}: {found.title}",
            "said": f"{high(case, box.width)} × {high(case, box.height)}, its middle {high(case, box.center[1])} above the floor",
            "notes": [note for note in answer.notes if not any(word in note for word in ("hook", "wire", "loads are"))],
            "patch": patch,
            "works": [work_json(w) for w in answer.works],
        })  # fmt: skip
    return {"wall": found.wall, "over": found.over, "ways": ways}
