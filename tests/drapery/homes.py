"""Small jobs with windows to dress, read as a person types them."""

from __future__ import annotations

from typing import Any

from halfdrop.drapery import ClothTakeoff, cloth_takeoff
from halfdrop.job.model import Job, Room
from halfdrop.practice import Practice, load_practice
from halfdrop.room import ResolvedRoom, resolve_room
from halfdrop.survey import adjust_survey

US = load_practice("us")

#: A room of 20 by 14 ft, 8 ft high.
PLAIN: dict[str, Any] = {
    "name": "Living room",
    "use": {"living": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "20 ft", "BC": "14 ft", "CD": "20 ft", "DA": "14 ft"},
        "square": {"A": True, "B": True, "C": True, "D": True},
        "heights": {"center": "8 ft"},
    },
}


def window(
    wall: str = "AB", along: str = "6 ft", width: str = "60 in", height: str = "56 in", **more: Any
) -> dict[str, Any]:
    """Return a window 24 in above the floor, its head at 80 in."""
    return {
        "kind": "window",
        "wall": wall,
        "along": along,
        "width": width,
        "height": height,
        "sill": "24 in",
        **more,
    }


def panels(openings: str = "w", fabric: str = "linen", **more: Any) -> dict[str, Any]:
    """Return a pair of double pinch panels."""
    return {"openings": openings, "heading": "double pinch", "fabric": fabric, **more}


def job(rooms: dict[str, dict[str, Any]], fabrics: dict[str, dict[str, Any]]) -> Job:
    """Return a job; each room adds to the plain one."""
    whole = {i: {**PLAIN, **room} for i, room in rooms.items()}
    return Job.model_validate({"halfdrop": 1, "job": {"name": "Windows"}, "fabrics": fabrics, "rooms": whole})


def resolved(job: Job, practice: Practice = US) -> dict[str, ResolvedRoom]:
    """Return the job's rooms as shapes."""
    return {i: one(room, i, practice) for i, room in job.rooms.items()}


def one(room: Room, key: str = "r", practice: Practice = US) -> ResolvedRoom:
    """Return a room as shapes."""
    return resolve_room(key, room, adjust_survey(room.survey, practice), practice)


def takeoff(job: Job, practice: Practice = US, effort: float = 1.0) -> dict[str, ClothTakeoff]:
    """Return the cloth of a job."""
    return cloth_takeoff(job, resolved(job, practice), practice, effort=effort)
