"""Rooms with art for the tests of this folder and of the services."""

from __future__ import annotations

from typing import Any

from halfdrop.art.wall_face import ArtWall, art_wall
from halfdrop.audit.auditor import Auditor
from halfdrop.audit.case import RoomCase
from halfdrop.practice import load_practice

US = load_practice("us")
FACE: dict[str, Any] = {"width": "60 cm", "height": "80 cm", "hangs": {"from": "wire", "drop": "6 cm"}}

SOFA: dict[str, Any] = {
    "type": "sofa", "width": "2 m", "depth": "95 cm", "height": "80 cm", "at": {"wall": "CD", "along": "1.5 m", "off": "0"},
}  # fmt: skip


def document(art: dict[str, Any], **room: Any) -> dict[str, Any]:
    """Return a job with one room of 5 × 4 m, 2.6 m high."""
    whole = {
        "name": "Room", "use": {"living": True}, "wall_build": "stud",
        "survey": {
            "corners": "A B C D", "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"},
            "ties": {"AC": "6403.1 mm", "BD": "6403.1 mm"}, "heights": {"A": "2.6 m", "B": "2.6 m", "C": "2.6 m", "D": "2.6 m"},
        },
        "art": art, **room,
    }  # fmt: skip
    return {"halfdrop": 1, "job": {"name": "Art", "units": "metric"}, "rooms": {"r": whole}}


def case_of(art: dict[str, Any], **room: Any) -> RoomCase:
    """Return that room resolved."""
    return Auditor.of(document(art, **room)).case("r")


def wall_of(art: dict[str, Any], wall: str = "CD", **room: Any) -> ArtWall:
    """Return one of its walls with its art."""
    return art_wall(case_of(art, **room).room, wall, US)


def at(along: str, bottom: str = "1.05 m", wall: str = "CD") -> dict[str, str]:
    """Return a place."""
    return {"wall": wall, "along": along, "bottom": bottom}
