"""Invented walls that are hard to draw: a bay, a slope over a narrow wall, a door and a window that nearly touch, an L."""

from __future__ import annotations

import copy
from typing import Any

from halfdrop.drapery import Cloth, cloth_of
from halfdrop.drawing import Note, Sheet
from halfdrop.drawing.elevation import Shown, elevation_sheet, shown_of
from halfdrop.job.model import Fabric
from halfdrop.practice import load_practice
from halfdrop.room import ResolvedRoom
from tests.drawing.rooms import resolved, title

US = load_practice("us")

CLOTHS: dict[str, Cloth] = {
    "print": cloth_of(
        "print", Fabric.model_validate({"name": "Print", "width": "54 in", "repeat": "25 in"}), US
    )
}

#: Four walls, 18 by 14 ft; CD has a window, a door hard by it, a switch between them, a radiator and a set of works.
PARLOR: dict[str, Any] = {
    "name": "Parlor",
    "use": {"living": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "18 ft", "BC": "14 ft", "CD": "18 ft", "DA": "14 ft"},
        "square": {"A": True, "B": True, "C": True, "D": True},
        "heights": {"A": "9 ft", "B": "9 ft", "C": "9 ft", "D": "9 ft"},
        "level": {"C": "0 in", "D": "3/4 in"},
    },
    "openings": {
        "window": {
            "kind": "window",
            "wall": "CD",
            "along": "3 ft",
            "width": "48 in",
            "height": "56 in",
            "sill": "28 in",
            "trim": "3 1/2 in",
            "sash": "double-hung",
        },
        "door": {
            "kind": "door",
            "wall": "CD",
            "along": "8 ft 2 in",
            "width": "32 in",
            "height": "80 in",
            "leaf": "hinged",
            "hinge": "D",
            "opens": "in",
            "undercut": "1/2 in",
        },
    },
    "fittings": {
        "radiator": {
            "kind": "radiator",
            "wall": "CD",
            "along": "3 ft 4 in",
            "width": "40 in",
            "depth": "6 in",
            "bottom": "4 in",
            "height": "20 in",
        },
        "switch": {"kind": "switch", "wall": "CD", "along": "11 ft 2 in", "width": "3 in"},
        "outlet": {
            "kind": "outlet",
            "wall": "CD",
            "along": "16 ft",
            "width": "3 in",
            "bottom": "14 in",
            "height": "5 in",
        },
    },
    "pieces": {
        "chest": {
            "type": "chest",
            "name": "tall chest",
            "width": "40 in",
            "depth": "20 in",
            "height": "48 in",
            "at": {"wall": "CD", "along": "13 ft", "off": "0"},
        },
        "lamp": {
            "type": "table lamp",
            "width": "12 in",
            "depth": "12 in",
            "height": "22 in",
            "at": {"wall": "CD", "along": "14 ft", "off": "4 in"},
            "on": "chest",
        },
    },
    "treatments": {
        "pair": {
            "name": "parlor pair",
            "openings": "window",
            "heading": "triple pinch",
            "fabric": "print",
            "hardware": {"kind": "pole", "finial": "4 in", "drop": "1 1/2 in"},
        },
        "sheer": {
            "name": "sheers",
            "openings": "window",
            "heading": "pencil",
            "behind": "pair",
            "hardware": {"kind": "track", "height": "88 in"},
        },
    },
    "art": {
        "large": {
            "name": "The orchard",
            "width": "30 in",
            "height": "24 in",
            "frame": "2 in",
            "mat": {"width": "3 in"},
            "at": {"wall": "CD", "along": "13 ft 2 in", "bottom": "74 in"},
        },
    },
    "finishes": {"trim": {"on": "trim", "paint": "white", "parts": {"crown": True}}},
}

#: A bay of three walls in the wall opposite AB, one treatment round it.
BAY: dict[str, Any] = {
    "name": "Bay room",
    "use": {"living": True},
    "survey": {
        "corners": "A B C D E F G H",
        "walls": {
            "AB": "20 ft",
            "BC": "14 ft",
            "CD": "64.544 in",
            "DE": "36 in",
            "EF": "60 in",
            "FG": "36 in",
            "GH": "64.544 in",
            "HA": "14 ft",
        },
        "angles": {"C": "90°", "D": "225°", "E": "135°", "F": "135°", "G": "225°", "H": "90°"},
        "square": {"A": True, "B": True},
        "heights": {"center": "8 ft"},
    },
    "openings": {
        key: {
            "kind": "window",
            "wall": wall,
            "along": along,
            "width": width,
            "height": "50 in",
            "sill": "30 in",
            "sash": sash,
        }
        for key, wall, along, width, sash in (
            ("one", "DE", "6 in", "24 in", "casement"),
            ("two", "EF", "12 in", "36 in", "fixed"),
            ("three", "FG", "6 in", "24 in", "casement"),
        )
    },
    "treatments": {
        "bay": {
            "name": "bay curtains",
            "openings": "one two three",
            "heading": "wave",
            "length": "kiss",
            "hardware": {"kind": "track"},
        },
    },
}

#: A narrow wall under a slope, with a shade that is too long for it to miss the sill, and a column before it.
ATTIC: dict[str, Any] = {
    "name": "Attic",
    "use": {"bedroom": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "5 ft", "BC": "12 ft", "CD": "5 ft", "DA": "12 ft"},
        "square": {"A": True, "B": True, "C": True, "D": True},
        "heights": {"A": "11 ft", "B": "6 ft 6 in"},
    },
    "openings": {
        "window": {
            "kind": "window",
            "wall": "AB",
            "along": "14 in",
            "width": "20 in",
            "height": "44 in",
            "sill": "30 in",
            "sash": "awning",
        },
    },
    "treatments": {
        "shade": {
            "kind": "roman",
            "name": "roman shade",
            "openings": "window",
            "mount": "inside",
            "fabric": "print",
        }
    },
}


def shown(data: dict[str, Any], walls: str | list[str]) -> Shown:
    """Return what an elevation of an invented room shows."""
    return shown_of(room(data), walls, CLOTHS, US)


def room(data: dict[str, Any]) -> ResolvedRoom:
    """Return an invented room."""
    return resolved("test", data)


def raised() -> dict[str, Any]:
    """Return the parlor with its pair hung higher and wider, its picture moved, a shade gone."""
    data = copy.deepcopy(PARLOR)
    data["treatments"]["pair"]["hardware"] |= {"height": "102 in", "left": "20 in", "right": "16 in"}
    del data["treatments"]["sheer"]
    data["art"]["large"]["at"]["along"] = "13 ft 10 in"
    return data


NOTES = (
    Note(
        1,
        "hazard",
        "The chest is 48 in high and not fixed to the wall.",
        (3.2, 0.7),
        path="rooms/test/pieces/chest",
    ),
    Note(
        2,
        "fault",
        "The rod is 1 in above the frame; 4 in is the least.",
        (3.9, 2.3),
        path="rooms/test/treatments/pair",
    ),
    Note(
        3,
        "taste",
        "The orchard hangs off the middle of the chest.",
        (1.5, 2.1),
        within_tape=True,
        path="rooms/test/art/large",
    ),
)


def sheet(name: str) -> Sheet:
    """Return a sheet by the name of its golden file."""
    if name == "elevation-parlor":
        return elevation_sheet(shown(PARLOR, "CD"), title=title("Elevation CD", "2", "Parlor"), notes=NOTES)
    if name == "elevation-proposed":
        later, now = shown(raised(), "CD"), shown(PARLOR, "CD")
        return elevation_sheet(later, before=now, title=title("Elevation CD, proposed", "3", "Parlor"))
    if name == "elevation-bay":
        face = shown(BAY, ["DE", "EF", "FG"])
        return elevation_sheet(
            face, title=title("Elevation DEFG", "4", "Bay room"), paper="A3", units="metric"
        )
    face = shown(ATTIC, "AB")
    return elevation_sheet(
        face, title=title("Elevation AB", "5", "Attic"), paper="phone" if "phone" in name else "letter"
    )


NAMES = ("elevation-parlor", "elevation-proposed", "elevation-bay", "elevation-attic", "elevation-phone")
