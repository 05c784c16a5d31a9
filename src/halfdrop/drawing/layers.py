"""Layers by the naming of the United States National CAD Standard.

A name is discipline, major group, minor group, status.
Statuses: E existing to remain, M to be moved, N new work. Five minor groups are ours, as the standard lets an
office add them: RUGS, TAPE, CLTH (cloth), ARTW (works of art) and PAPR (wallpaper).

Source: United States National CAD Standard, AIA CAD Layer Guidelines; from memory, unverified.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Status = Literal["as found", "proposed", "moved from"]


@dataclass(frozen=True)
class Layer:
    """A layer: what is on it, its line weight [mm/100] and the ink it is shown in."""

    what: str
    weight: int
    ink: str = "ink"
    plots: bool = True


LAYERS: dict[str, Layer] = {
    "A-WALL": Layer("cut walls", 70),
    "A-WALL-PATT": Layer("poché of cut walls", 18, "graphite"),
    "A-DOOR": Layer("doors and their swings", 35),
    "A-GLAZ": Layer("windows", 35),
    "A-FLOR-OTLN": Layer("floor edges, thresholds, cased openings", 50),
    "A-FLOR-CASE": Layer("closets and counters", 35),
    "A-FLOR-PFIX": Layer("sinks, baths, showers, toilets", 35),
    "A-FLOR-STRS": Layer("stair heads: treads and arrow", 35),
    "A-FLOR-SPCL": Layer("hearths and registers", 35),
    "S-BEAM": Layer("beams overhead", 35),
    "S-COLS": Layer("columns", 50),
    "M-HVAC-EQPM": Layer("radiators, heaters, thermostats", 35),
    "E-POWR-DEVC": Layer("outlets", 35),
    "E-LITE-SWCH": Layer("switches", 35),
    "E-LITE-WALL": Layer("sconces", 35),
    "F-ALRM-SMOK": Layer("smoke alarms", 35),
    "I-FURN-E": Layer("furniture as it stands", 25),
    "I-FURN-N": Layer("furniture as proposed", 25, "slate"),
    "I-FURN-M": Layer("where furniture stood before", 18, "graphite"),
    "I-FURN-RUGS-E": Layer("rugs as they lie", 25),
    "I-FURN-RUGS-N": Layer("rugs as proposed", 25, "slate"),
    "I-FURN-RUGS-M": Layer("where rugs lay before", 18, "graphite"),
    "I-ARTW-E": Layer("works on the walls", 25),
    "I-ARTW-N": Layer("works on the walls as proposed", 25, "slate"),
    "A-ELEV-OTLN": Layer("elevations: floor, ceiling and corners of a wall", 50),
    "A-ELEV-TRIM": Layer("elevations: baseboard, crown", 25),
    "A-ELEV-PAPR": Layer("elevations: seams and repeats of wallpaper", 18, "graphite"),
    "I-ELEV-CLTH-E": Layer("elevations: what hangs at windows", 25),
    "I-ELEV-CLTH-N": Layer("elevations: what hangs at windows as proposed", 25, "slate"),
    "I-ELEV-CLTH-M": Layer("elevations: where cloth hung before", 18, "graphite"),
    "I-ELEV-ARTW-E": Layer("elevations: works that hang", 25),
    "I-ELEV-ARTW-N": Layer("elevations: works as proposed", 25, "slate"),
    "I-ELEV-ARTW-M": Layer("elevations: where works hung before", 18, "graphite"),
    "A-ANNO-DIMS": Layer("dimensions", 18, "graphite"),
    "A-ANNO-TEXT": Layer("names of things", 18),
    "G-ANNO-NOTE": Layer("numbered notes, leaders and marks", 18, "pencil"),
    "G-ANNO-NPLT": Layer("the viewport's edge", 18, plots=False),
    "G-ANNO-TTLB": Layer("title strip", 35),
    "V-CTRL-TAPE": Layer("taped measures and ties", 18, "graphite"),
    "V-CTRL-HCPT": Layer("corners with their error ellipses", 18),
}


def furniture_layer(status: Status, *, rug: bool = False) -> str:
    """Return the layer of a piece or rug by its status."""
    letter = {"as found": "E", "proposed": "N", "moved from": "M"}[status]
    return f"I-FURN-RUGS-{letter}" if rug else f"I-FURN-{letter}"


#: Layer of each fitting by its kind.
FITTING_LAYER = {
    "radiator": "M-HVAC-EQPM",
    "heater": "M-HVAC-EQPM",
    "thermostat": "M-HVAC-EQPM",
    "hearth": "A-FLOR-SPCL",
    "register": "A-FLOR-SPCL",
    "outlet": "E-POWR-DEVC",
    "switch": "E-LITE-SWCH",
    "sconce": "E-LITE-WALL",
    "beam": "S-BEAM",
    "column": "S-COLS",
    "closet": "A-FLOR-CASE",
    "counter": "A-FLOR-CASE",
    "sink": "A-FLOR-PFIX",
    "bath": "A-FLOR-PFIX",
    "shower": "A-FLOR-PFIX",
    "toilet": "A-FLOR-PFIX",
    "stair head": "A-FLOR-STRS",
    "smoke alarm": "F-ALRM-SMOK",
}
