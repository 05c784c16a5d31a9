"""Rooms to draw: an L-shaped living room, a crowded bedroom, a tiny bath. Invented."""

from __future__ import annotations

import copy
from functools import cache
from typing import Any

from halfdrop.drawing import Note, TitleInfo
from halfdrop.job.model import Room
from halfdrop.practice import load_practice
from halfdrop.room import ResolvedRoom, resolve_room
from halfdrop.survey import adjust_survey


def at(wall: str, along: str, off: str = "0 in") -> dict[str, str]:
    """Return a place at a wall."""
    return {"wall": wall, "along": along, "off": off}


def free(x: str, y: str) -> dict[str, str]:
    """Return a free place."""
    return {"x": x, "y": y}


LIVING: dict[str, Any] = {
    "name": "Living room",
    "use": {"living": True, "dining": True},
    "survey": {
        "corners": "A B C D E F",
        "walls": {
            "AB": "22' 4\"", "BC": "11' 2 1/2\"", "CD": "8' 6\"", "DE": "6' 3\"", "EF": "13' 10\"", "FA": "17' 5 1/2\"",
        },
        "ties": {"AC": "24' 11 7/8\"", "BD": "14' 0 15/16\"", "AE": "22' 3 3/8\"", "BF": "28' 4 1/8\""},
        "square": {c: True for c in "ABCDEF"},
        "heights": {"A": "9' 0\""},
    },
    "openings": {
        "hall": {"kind": "door", "wall": "BC", "along": "7' 6\"", "width": "34 in", "height": "80 in", "hinge": "C", "opens": "in"},
        "south": {"kind": "window", "wall": "AB", "along": "3' 2\"", "width": "5' 0\"", "height": "5' 0\"", "sill": "30 in", "trim": "3 1/2 in", "sash": "double-hung"},
        "south-2": {"kind": "window", "wall": "AB", "along": "14' 0\"", "width": "5' 0\"", "height": "5' 0\"", "sill": "30 in", "trim": "3 1/2 in", "sash": "double-hung"},
        "terrace": {"kind": "door", "wall": "FA", "along": "6' 0\"", "width": "5' 8\"", "height": "80 in", "leaf": "sliding"},
        "kitchen": {"kind": "cased opening", "wall": "DE", "along": "1' 6\"", "width": "3' 4\"", "height": "80 in"},
    },
    "fittings": {
        "radiator": {"kind": "radiator", "wall": "AB", "along": "3' 6\"", "width": "4' 4\"", "depth": "5 in", "height": "24 in"},
        "hearth": {"kind": "hearth", "wall": "EF", "along": "4' 0\"", "width": "5' 0\"", "depth": "18 in"},
        "outlet-1": {"kind": "outlet", "wall": "FA", "along": "2' 0\"", "width": "3 in", "bottom": "12 in"},
        "outlet-2": {"kind": "outlet", "wall": "BC", "along": "3' 0\"", "width": "3 in", "bottom": "12 in"},
        "switch": {"kind": "switch", "wall": "BC", "along": "6' 10\"", "width": "3 in", "bottom": "48 in"},
        "alarm": {"kind": "smoke alarm", "at": {"x": "17' 0\"", "y": "10' 2\""}, "width": "5 in"},
    },
    "pieces": {
        "sofa": {"type": "sofa", "name": "Sofa", "width": "84 in", "depth": "38 in", "height": "33 in", "at": at("FA", "6' 0\"", "3 in"), "seats": 3},
        "club-1": {"type": "armchair", "name": "Club chair", "width": "31 in", "depth": "34 in", "height": "32 in", "at": free("8' 6\"", "11' 2\""), "turn": "115 deg"},
        "club-2": {"type": "armchair", "name": "Club chair", "width": "31 in", "depth": "34 in", "height": "32 in", "at": free("8' 6\"", "7' 0\""), "turn": "65 deg"},
        "coffee": {"type": "coffee table", "name": "Coffee table", "width": "48 in", "depth": "24 in", "height": "17 in", "at": free("5' 4\"", "8' 6\""), "turn": "90 deg"},
        "side": {"type": "side table", "name": "Drum table", "width": "20 in", "depth": "20 in", "height": "22 in", "shape": "round", "at": free("1' 6\"", "4' 2\"")},
        "lamp": {"type": "table lamp", "width": "14 in", "depth": "14 in", "height": "24 in", "shape": "round", "on": "side", "at": free("1' 6\"", "4' 2\"")},
        "reading": {"type": "floor lamp", "width": "16 in", "depth": "16 in", "height": "60 in", "shape": "round", "at": free("9' 8\"", "13' 4\"")},
        "plant": {"type": "plant", "width": "26 in", "depth": "26 in", "height": "60 in", "shape": "round", "at": free("1' 5\"", "16' 0\"")},
        "shelves": {"type": "bookcase", "name": "Bookcase", "width": "48 in", "depth": "13 in", "height": "84 in", "at": at("EF", "9' 4\"")},
        "table": {"type": "dining table", "name": "Dining table", "width": "72 in", "depth": "36 in", "height": "30 in", "at": free("17' 0\"", "5' 4\"")},
        "board": {"type": "sideboard", "name": "Sideboard", "width": "60 in", "depth": "18 in", "height": "34 in", "at": at("BC", "1' 0\"")},
    },
    "rugs": {
        "wool": {"name": "Wool rug", "width": "8 ft", "length": "10 ft", "at": free("5' 6\"", "9' 0\""), "pattern": "patterned"},
        "jute": {"name": "Sisal", "width": "9 ft", "length": "7 ft", "at": free("17' 0\"", "5' 4\""), "pattern": "plain"},
    },
}  # fmt: skip
for _k, (_x, _y, _t) in enumerate(
    (
        ("15' 8\"", "7' 2\"", "180"),
        ("18' 4\"", "7' 2\"", "180"),
        ("15' 8\"", "3' 6\"", "0"),
        ("18' 4\"", "3' 6\"", "0"),
    )
):
    LIVING["pieces"][f"chair-{_k + 1}"] = {
        "type": "dining chair", "width": "19 in", "depth": "21 in", "height": "34 in", "at": free(_x, _y), "turn": f"{_t} deg",
    }  # fmt: skip

BEDROOM: dict[str, Any] = {
    "name": "Bedroom",
    "use": {"bedroom": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "11' 8\"", "BC": "10' 4\"", "CD": "11' 8\"", "DA": "10' 4\""},
        "ties": {"AC": "15' 7 1/16\"", "BD": "15' 7 1/16\""},
    },
    "openings": {
        "door": {"kind": "door", "wall": "CD", "along": "0' 6\"", "width": "30 in", "height": "80 in", "hinge": "C", "opens": "in"},
        "window": {"kind": "window", "wall": "DA", "along": "3' 0\"", "width": "4' 0\"", "height": "4' 0\"", "sill": "36 in", "trim": "3 in", "escape": True},
        "closet": {"kind": "door", "wall": "CD", "along": "6' 0\"", "width": "4' 0\"", "height": "80 in", "leaf": "bifold"},
    },
    "pieces": {
        "bed": {"type": "bed", "name": "Queen bed", "width": "60 in", "depth": "84 in", "height": "24 in", "at": at("AB", "3' 0\"")},
        "night-l": {"type": "nightstand", "name": "Left nightstand", "width": "20 in", "depth": "16 in", "height": "26 in", "at": at("AB", "1' 2\"")},
        "night-r": {"type": "nightstand", "name": "Right nightstand", "width": "20 in", "depth": "16 in", "height": "26 in", "at": at("AB", "8' 2\"")},
        "lamp-l": {"type": "table lamp", "width": "10 in", "depth": "10 in", "height": "20 in", "shape": "round", "on": "night-l", "at": free("2' 0\"", "0' 8\"")},
        "lamp-r": {"type": "table lamp", "width": "10 in", "depth": "10 in", "height": "20 in", "shape": "round", "on": "night-r", "at": free("9' 0\"", "0' 8\"")},
        "dresser": {"type": "dresser", "name": "Dresser", "width": "54 in", "depth": "19 in", "height": "34 in", "at": at("BC", "3' 2\"")},
        "wardrobe": {"type": "wardrobe", "name": "Wardrobe", "width": "36 in", "depth": "24 in", "height": "78 in", "at": at("DA", "0' 1\"")},
        "bench": {"type": "bench", "name": "Bench", "width": "48 in", "depth": "16 in", "height": "18 in", "at": free("5' 6\"", "7' 9\"")},
        "crib": {"type": "crib", "name": "Crib", "width": "54 in", "depth": "28 in", "height": "38 in", "at": at("AB", "9' 4\"", "24 in"), "turn": "90 deg"},
        "chair": {"type": "desk chair", "name": "Chair", "width": "24 in", "depth": "24 in", "height": "34 in", "at": free("1' 6\"", "5' 6\"")},
        "glass": {"type": "mirror", "name": "Standing mirror", "width": "24 in", "depth": "3 in", "height": "66 in", "at": at("BC", "8' 2\"")},
    },
    "rugs": {"rug": {"name": "Rug", "width": "5 ft", "length": "8 ft", "at": free("5' 6\"", "5' 6\""), "pattern": "patterned"}},
}  # fmt: skip

BATH: dict[str, Any] = {
    "name": "Bath",
    "use": {"bath": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "1520 mm", "BC": "2210 mm", "CD": "1518 mm", "DA": "2212 mm"},
        "ties": {"AC": "2683 mm", "BD": "2684 mm"},
    },
    "openings": {
        "door": {"kind": "door", "wall": "AB", "along": "60 mm", "width": "710 mm", "height": "2030 mm", "hinge": "A", "opens": "in"},
        "window": {"kind": "window", "wall": "DA", "along": "900 mm", "width": "500 mm", "height": "700 mm", "sill": "1200 mm"},
    },
    "fittings": {
        "tub": {"kind": "bath", "wall": "CD", "along": "0 mm", "width": "1518 mm", "depth": "760 mm"},
        "wc": {"kind": "toilet", "wall": "BC", "along": "800 mm", "width": "380 mm", "depth": "680 mm"},
        "basin": {"kind": "sink", "wall": "BC", "along": "100 mm", "width": "550 mm", "depth": "420 mm"},
    },
    "pieces": {"stool": {"type": "stool", "name": "Stool", "width": "320 mm", "depth": "320 mm", "height": "450 mm", "shape": "round", "at": {"x": "300 mm", "y": "1150 mm"}}},
    "rugs": {"mat": {"name": "Bath mat", "width": "500 mm", "length": "800 mm", "at": {"x": "700 mm", "y": "1120 mm"}, "turn": "90 deg"}},
}  # fmt: skip


@cache
def room(name: str) -> ResolvedRoom:
    """Return a room of this file: `living`, `bedroom` or `bath`."""
    return resolved(name, {"living": LIVING, "bedroom": BEDROOM, "bath": BATH}[name])


def resolved(name: str, data: dict[str, Any]) -> ResolvedRoom:
    """Return a room from its document."""
    practice = load_practice("us")
    model = Room.model_validate(data)
    return resolve_room(name, model, adjust_survey(model.survey, practice), practice)


@cache
def proposed() -> ResolvedRoom:
    """Return the living room with the group drawn in: sofa off the wall, chairs closer, a larger rug, a new bench."""
    data = copy.deepcopy(LIVING)
    pieces = data["pieces"]
    pieces["sofa"]["at"]["off"] = "1' 3\""
    pieces["club-1"]["at"] = free("10' 0\"", "11' 0\"")
    pieces["club-1"]["turn"] = "100 deg"
    pieces["board"]["at"]["along"] = "1' 5\""
    pieces["coffee"]["at"] = free("6' 3\"", "8' 6\"")
    data["rugs"]["wool"] |= {"width": "9 ft", "length": "12 ft", "at": free("6' 8\"", "9' 0\"")}
    pieces["bench"] = {"type": "bench", "name": "New bench", "width": "48 in", "depth": "18 in", "height": "18 in", "at": at("EF", "4' 6\"", "2' 6\"")}  # fmt: skip
    return resolved("living", data)


def title(view: str, number: str, room_name: str = "Living room") -> TitleInfo:
    """Return a title strip."""
    return TitleInfo("Quince Street flat", room_name, view, "2026-11-24", "B", number)


NOTES = (
    Note(1, "fault", "The rug stops 7 in short of the club chairs' front legs. Wanted: front legs on the rug, so that the seats read as one group.", (2.6, 3.3), False, "rooms/living/pieces/club-1"),
    Note(2, "hazard", "The bookcase is not anchored and stands 84 in high; tall storage tips. Fix it to a stud; a licensed installer judges the wall.", (3.4, 5.15), False, "rooms/living/pieces/shelves"),
    Note(3, "taste", "The sofa stands 3 in off the wall with 5′ 4″ of open floor before it. Drawn in by a foot, the group closes.", (0.55, 2.9), False, "rooms/living/pieces/sofa"),
    Note(4, "fault", "The chairs at the sideboard pull out to within 31½ in of it; 36 in is wanted to pass behind.", (6.15, 1.7), True, "rooms/living/pieces/board"),
    Note(5, "hazard", "The lamp's cord crosses the way to the terrace.", (0.45, 1.27), False, "rooms/living/pieces/lamp"),
    Note(6, "taste", "The south windows are of one width but hang at different distances from the corners.", (5.0, 0.1), True, "rooms/living/openings/south-2"),
)  # fmt: skip
