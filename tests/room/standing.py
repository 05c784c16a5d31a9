"""A piece set in a plain room, for tests of what is measured on it."""

from __future__ import annotations

from halfdrop.job.model import Piece, Room
from halfdrop.practice import load_practice
from halfdrop.room import StandingPiece, resolve_room
from halfdrop.survey import adjust_survey


def standing(piece: Piece) -> StandingPiece:
    """Return a piece resolved in a room of 6 × 6 m."""
    survey = {
        "corners": "A B C D",
        "walls": {"AB": "6 m", "BC": "6 m", "CD": "6 m", "DA": "6 m"},
        "ties": {"AC": "8485.3 mm", "BD": "8485.3 mm"},
    }
    room = Room.model_validate({"name": "Test room", "use": {"living": True}, "survey": survey})
    room = room.model_copy(update={"pieces": {"piece": piece}})
    practice = load_practice("us")
    return resolve_room("r", room, adjust_survey(room.survey, practice), practice).pieces["piece"]
