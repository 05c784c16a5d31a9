"""What wears a color in a room, and how much of it is seen."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.wearers import wearers
from halfdrop.job.read import read_job

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"


def bare() -> dict[str, Any]:
    """Return a room of 4 by 3 m, 2.5 m high, with a door of 0.8 by 2 m and a rug of 2 by 1 m, two swatches, one cloth."""
    return {
        "halfdrop": 1,
        "job": {"name": "x", "units": "metric"},
        "swatches": {"oak": {"name": "Oak", "color": "#a07850"}, "bone": {"name": "Bone", "color": "#e8dcc4"}},
        "paints": {"matte-bone": {"name": "Matte bone", "swatch": "bone"}},
        "papers": {"leaf": {"name": "Leaf", "roll": "EN 233", "colors": {"oak": 0.4, "bone": 0.6}}},
        "rooms": {
            "r": {
                "name": "Room",
                "use": {"living": True},
                "survey": {
                    "corners": "A B C D",
                    "walls": {"AB": "4 m", "BC": "3 m", "CD": "4 m", "DA": "3 m"},
                    "ties": {"AC": "5 m"},
                    "heights": {"center": "2.5 m"},
                },
                "openings": {
                    "door": {
                        "kind": "door", "wall": "AB", "along": "1 m", "width": "0.8 m", "height": "2 m", "hinge": "A",
                        "opens": "in",
                    }
                },
                "rugs": {"rug": {"width": "2 m", "length": "1 m", "at": {"x": "2 m", "y": "1.5 m"}, "colors": "oak"}},
                "surfaces": {"floor": "oak"},
            }
        },
    }  # fmt: skip


def seen(document: dict[str, Any]) -> dict[str, Any]:
    """Return what wears a color, by the end of its path."""
    return {w.path.split("/", 2)[2]: w for w in wearers(Auditor.of(document).case("r"))}


def test_areas_of_a_bare_room() -> None:
    """Walls less the door, ceiling, floor less the rug, a baseboard round but for the door and its casing."""
    found = seen(bare())
    assert found["surfaces/walls"].area == pytest.approx(14 * 2.5 - 0.8 * 2, abs=0.01)
    assert found["surfaces/ceiling"].area == pytest.approx(12, abs=0.01)
    assert found["surfaces/floor"].area == pytest.approx(12 - 2, abs=0.01)
    assert found["surfaces/trim"].area == pytest.approx(13.2 * 0.1 + 4.8 * 0.07, abs=0.01)
    assert found["rugs/rug"].area == pytest.approx(2, abs=0.01)
    assert found["surfaces/floor"].stays
    assert found["rugs/rug"].colors == {"oak": 1.0}


def test_a_finish_covers_what_was_found() -> None:
    """Painted all over, the paint counts; papered on two of four walls, paper by its share and what was found for the rest."""
    document = bare()
    room = document["rooms"]["r"]
    room["surfaces"]["walls"] = "oak"
    assert seen(document)["surfaces/walls"].colors == {"oak": 1.0}
    room["finishes"] = {"paper": {"on": "walls", "paper": "leaf", "walls": ["AB", "CD"]}}
    shares = seen(document)["surfaces/walls"].colors
    assert shares == pytest.approx({"oak": 8 / 14 * 0.4 + 6 / 14, "bone": 8 / 14 * 0.6}, abs=0.001)
    room["finishes"] = {"all": {"on": "walls", "paint": "matte-bone"}}
    assert seen(document)["surfaces/walls"].colors == {"bone": 1.0}


def test_what_is_kept_stays_and_tall_storage_hides_wall() -> None:
    """A kept bookcase stays in its color, and takes its width by its height off the walls that are seen."""
    document = bare()
    room = document["rooms"]["r"]
    before = seen(document)["surfaces/walls"].area
    room["pieces"] = {
        "case": {
            "type": "bookcase", "width": "1 m", "depth": "0.3 m", "height": "2 m",
            "at": {"wall": "CD", "along": "1 m", "off": 0}, "keep": True, "colors": "oak",
        }
    }  # fmt: skip
    found = seen(document)
    assert found["surfaces/walls"].area == pytest.approx(before - 2, abs=0.01)
    assert found["pieces/case"].role == "large"
    assert found["pieces/case"].stays == "the client keeps it"


def test_cloth_is_counted_by_the_cloth_it_is_made_of() -> None:
    """In the demo every window dressed in one cloth is one wearer, with all its treatments."""
    document = copy.deepcopy(read_job(DEMO).document)
    for room, case in Auditor.of(document).cases.items():
        found = [w for w in wearers(case) if w.kind == "cloth"]
        hung = {f"rooms/{room}/treatments/{key}" for key in document["rooms"][room].get("treatments") or {}}
        assert {path for w in found for path in w.paths} <= hung
        assert len({w.fabric for w in found if w.fabric}) == len([w for w in found if w.fabric])
        assert all(w.area > 0 for w in found)
