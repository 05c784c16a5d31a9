"""A small room with colors, for the tests."""

from __future__ import annotations

import copy
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.colors import inventory
from halfdrop.color.inventory import Inventory

ROOM: dict[str, Any] = {
    "name": "Test room",
    "use": {"living": True},
    "survey": {
        "corners": "A B C D",
        "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"},
        "ties": {"AC": "6403.1242 mm", "BD": "6403.1242 mm"},
        "heights": {"center": "2.5 m"},
    },
    "openings": {
        "window": {"kind": "window", "wall": "CD", "along": "2 m", "width": "1 m", "height": "1.2 m", "sill": "0.9 m", "trim": "10 cm"}
    },
    "surfaces": {"walls": "chalk", "ceiling": "chalk", "floor": {"oak": "70%", "umber": "30%"}},
    "pieces": {
        "sofa": {"type": "sofa", "width": "2 m", "depth": "0.9 m", "height": "0.8 m", "seat_height": "0.4 m",
                 "at": {"x": "2.5 m", "y": "2 m"}, "colors": "moss"},
        "cabinet": {"type": "cabinet", "width": "1 m", "depth": "0.5 m", "height": "0.9 m",
                    "at": {"wall": "AB", "along": "3 m", "off": "0"}, "colors": "oak"},
    },
    "rugs": {"rug": {"width": "3 m", "length": "2 m", "at": {"x": "2.5 m", "y": "2 m"}, "colors": {"chalk": 0.5, "rust": 0.5}}},
    "treatments": {
        "pair": {"openings": "window", "heading": "pencil", "fabric": "linen", "fullness": 2, "drop": "2.2 m",
                 "hardware": {"height": "2.3 m", "left": "0.2 m", "right": "0.2 m"}}
    },
}  # fmt: skip
JOB: dict[str, Any] = {
    "halfdrop": 1,
    "job": {"name": "Case", "units": "metric"},
    "practice": {"set": "metric"},
    "swatches": {
        "chalk": {"name": "Chalk", "color": "#f0ebe0"},
        "oak": {"name": "Oak", "color": "#b08d62"},
        "umber": {"name": "Umber", "color": "#4b3a2f"},
        "moss": {"name": "Moss", "color": "#6f7d52"},
        "rust": {"name": "Rust", "color": "#a4552f"},
    },
    "fabrics": {"linen": {"name": "Linen", "width": "140 cm", "colors": "oak"}},
    "rooms": {"r": ROOM},
}


def document(**room: Any) -> dict[str, Any]:
    """Return the job, its room changed."""
    job = copy.deepcopy(JOB)
    job["rooms"]["r"] |= room
    return job


def of(job: dict[str, Any], *, shut: bool = False) -> Inventory:
    """Return the inventory of the job's room."""
    return inventory(Auditor.of(job).case("r"), shut=shut)


def area(found: Inventory, name: str) -> float:
    """Return what is seen of a part [m²]."""
    return next(part.area for part in found.parts if part.path.endswith(name))
