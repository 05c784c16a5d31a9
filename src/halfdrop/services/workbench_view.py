"""What a page shows of one room: the drawing, its frame, the findings, and where each thing stands."""

from __future__ import annotations

import re
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding
from halfdrop.base.formats import format_angle, format_length, format_size
from halfdrop.drawing.board import Frame
from halfdrop.drawing.sheet import Sheet
from halfdrop.geometry.plane import Array
from halfdrop.room import FixedFitting, LyingRug, StandingPiece, Thing, Wall, WallOpening

_STYLE = re.compile(r"<style>.*?</style>\n?", re.DOTALL)


def point(p: Array | tuple[float, float]) -> list[float]:
    """Return a plan point [m] as JSON, to 0.01 mm."""
    return [round(float(p[0]), 5), round(float(p[1]), 5)]


def frame_json(frame: Frame) -> dict[str, float]:
    """Return how plan metres stand on the sheet: x mm = left + x * mm_per_m, y mm = top - y * mm_per_m."""
    return {
        "left": round(frame.origin[0], 4),
        "top": round(frame.origin[1], 4),
        "mm_per_m": round(frame.scale, 6),
        "angle": round(frame.angle, 6),
    }


def bare_svg(made: Sheet, *, dark: bool) -> str:
    """Return a sheet's SVG without its style element: the page has the same classes from its style sheet."""
    return _STYLE.sub("", made.svg("dark" if dark else "light"), count=1)


def finding_json(finding: Finding, number: int, case: RoomCase) -> dict[str, Any]:
    """Return a finding with its number, its marks, and measured and wanted in words."""
    out = finding.to_json()
    out["number"] = number
    out["marks"] = [[list(p), list(q)] for p, q in finding.marks]
    out["measured_text"] = _said(case, finding, finding.measured)
    out["wanted_text"] = _said(case, finding, finding.wanted)
    return out


def _said(case: RoomCase, finding: Finding, value: float | None) -> str | None:
    if value is None:
        return None
    if finding.quantity == "length":
        return case.say(value)
    if finding.quantity == "area":
        return case.say_area(value)
    if finding.quantity == "angle":
        return case.say_angle(value)
    return f"{value:.0f}" if finding.quantity == "count" else f"{value:.2f}".rstrip("0").rstrip(".")


def things_json(case: RoomCase, document: dict[str, Any]) -> list[dict[str, Any]]:
    """Return every thing of a room: what it is, where it stands on the plan [m], and what the document says of it."""
    room = case.room
    written = document["rooms"][room.id]
    out: list[dict[str, Any]] = []
    for kind, things in (("rug", room.rugs), ("fitting", room.fittings), ("piece", room.pieces)):
        for i, thing in things.items():
            out.append(_thing(case, kind, thing, written[f"{kind}s"][i]))
    for i, opening in room.openings.items():
        out.append(_opening(case, opening, written["openings"][i]))
    return out


def _thing(case: RoomCase, kind: str, thing: Thing, written: dict[str, Any]) -> dict[str, Any]:
    out: dict[str, Any] = {
        "path": thing.path,
        "id": thing.id,
        "kind": kind,
        "type": kind,
        "name": thing.name,
        "center": point(thing.center),
        "angle": round(thing.angle, 6),
        "angle_text": format_angle(thing.angle),
        "width": round(thing.width, 5),
        "depth": round(thing.depth, 5),
        "size_text": format_size(thing.width, thing.depth, case.units)
        if kind == "rug"
        else f"{case.say(thing.width)} × {case.say(thing.depth)}",
        "footprint": [point(p) for p in thing.corners],
        "document": written,
    }
    match thing:
        case StandingPiece():
            out |= {"type": thing.type, "on": thing.model.on, "keep": thing.model.keep}
            out |= {"height": round(thing.height, 5), "height_text": case.say(thing.height)}
        case LyingRug():
            out |= {"over": thing.model.over, "keep": thing.model.keep}
        case FixedFitting():
            out["type"] = thing.model.kind
    return out


def _opening(case: RoomCase, opening: WallOpening, written: dict[str, Any]) -> dict[str, Any]:
    width = float(opening.model.width)
    return {
        "path": opening.path,
        "id": opening.id,
        "kind": "opening",
        "type": opening.model.kind,
        "name": opening.name,
        "wall": opening.wall.name,
        "start": point(opening.start),
        "end": point(opening.end),
        "center": point(opening.center),
        "width": round(width, 5),
        "size_text": f"{case.say(width)} × {case.say(float(opening.model.height))}",
        "document": written,
    }


def walls_json(case: RoomCase) -> list[dict[str, Any]]:
    """Return the walls as adjusted, in walking order."""
    return [_wall(case, wall) for wall in case.room.walls]


def _wall(case: RoomCase, wall: Wall) -> dict[str, Any]:
    return {
        "path": f"{case.room.path}/survey/walls/{wall.name}",
        "name": wall.name,
        "start": point(wall.start),
        "end": point(wall.end),
        "inward": point(wall.inward),
        "length": round(wall.length, 5),
        "text": format_length(wall.length, case.units),
    }
