"""A plain room of 6 × 4 m with things in it, for tests of the distances between them."""

from __future__ import annotations

from typing import Any

from halfdrop.job.model import Room
from halfdrop.practice import load_practice
from halfdrop.room import ResolvedRoom, resolve_room
from halfdrop.survey import adjust_survey

SURVEY = {
    "corners": "A B C D",
    "walls": {"AB": "6 m", "BC": "4 m", "CD": "6 m", "DA": "4 m"},
    "ties": {"AC": "7211.1 mm", "BD": "7211.1 mm"},
}


def furnished(**parts: Any) -> ResolvedRoom:
    """Return the room with `pieces`, `rugs`, `fittings` and `openings` as a document writes them."""
    room = Room.model_validate({"name": "Test room", "use": {"living": True}, "survey": SURVEY, **parts})
    practice = load_practice("metric")
    return resolve_room("r", room, adjust_survey(room.survey, practice), practice)


def piece(kind: str, width: str, depth: str, at: dict[str, str], **more: Any) -> dict[str, Any]:
    """Return a piece as a document writes it."""
    return {"type": kind, "width": width, "depth": depth, "height": "80 cm", "at": at, **more}


def free(x: str, y: str) -> dict[str, str]:
    """Return a free-standing place."""
    return {"x": x, "y": y}
