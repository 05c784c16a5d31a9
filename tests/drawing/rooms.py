"""The rooms of `rooms.yaml`, resolved; the living room's proposal; notes and a title strip."""

from __future__ import annotations

import copy
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from halfdrop.drawing import Note, TitleInfo
from halfdrop.job.model import Room
from halfdrop.practice import load_practice
from halfdrop.room import ResolvedRoom, resolve_room
from halfdrop.survey import adjust_survey

_DATA: dict[str, Any] = yaml.safe_load(Path(__file__).with_name("rooms.yaml").read_text(encoding="utf-8"))
LIVING, BEDROOM, BATH = (_DATA[name] for name in ("living", "bedroom", "bath"))
NOTES = tuple(Note(**{**row, "anchor": tuple(row["anchor"])}) for row in _DATA["notes"])


@cache
def room(name: str) -> ResolvedRoom:
    """Return a room of the file: `living`, `bedroom` or `bath`."""
    return resolved(name, _DATA[name])


def resolved(name: str, data: dict[str, Any]) -> ResolvedRoom:
    """Return a room from its document."""
    practice = load_practice("us")
    model = Room.model_validate(data)
    return resolve_room(name, model, adjust_survey(model.survey, practice), practice)


@cache
def proposed() -> ResolvedRoom:
    """Return the living room drawn in: sofa off the wall, a chair closer, a larger rug, a new bench."""
    data = copy.deepcopy(LIVING)
    pieces = data["pieces"]
    pieces["sofa"]["at"]["off"] = "1' 3\""
    pieces["club-1"]["at"] = {"x": "10' 0\"", "y": "11' 0\""}
    pieces["club-1"]["turn"] = "100 deg"
    pieces["board"]["at"]["along"] = "1' 5\""
    pieces["coffee"]["at"] = {"x": "6' 3\"", "y": "8' 6\""}
    data["rugs"]["wool"] |= {"width": "9 ft", "length": "12 ft", "at": {"x": "6' 8\"", "y": "9' 0\""}}
    pieces["bench"] = {
        "type": "bench",
        "name": "New bench",
        "width": "48 in",
        "depth": "18 in",
        "height": "18 in",
        "at": {"wall": "EF", "along": "4' 6\"", "off": "2' 6\""},
    }
    return resolved("living", data)


def title(view: str, number: str, room_name: str = "Living room") -> TitleInfo:
    """Return a title strip."""
    return TitleInfo("Quince Street flat", room_name, view, "2026-11-24", "B", number)
