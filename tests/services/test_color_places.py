"""What of a room can be given a color, what stays, what changes together."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest

from halfdrop.audit.auditor import Auditor
from halfdrop.job.patch import apply
from halfdrop.job.read import read_job
from halfdrop.services.color_places import places_of, wearers
from halfdrop.services.recolor import recolored, title_of
from halfdrop.services.workbench_state import State, resolve

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


def test_a_finish_is_painted_over_and_paper_stays() -> None:
    """Walls as found may change; painted, their finish may; papered on two of four, those stay and the other two may change."""
    document = bare()
    room = document["rooms"]["r"]
    room["surfaces"]["walls"] = "oak"
    assert not seen(document)["surfaces/walls"].stays
    room["finishes"] = {"all": {"on": "walls", "paint": "matte-bone"}}
    painted = seen(document)["finishes/all"]
    assert not painted.stays
    assert painted.part.colors == {"bone": 1.0}
    room["finishes"] = {"paper": {"on": "walls", "paper": "leaf", "walls": ["AB", "CD"]}}
    found = seen(document)
    assert found["finishes/paper"].stays == "the paper stays"
    assert not found["surfaces/walls"].stays


def test_what_is_kept_stays() -> None:
    """A bookcase the client keeps stays in its color and is worked with; one without a recorded color is left out."""
    document = bare()
    document["rooms"]["r"]["pieces"] = {
        "case": {
            "type": "bookcase", "width": "1 m", "depth": "0.3 m", "height": "2 m",
            "at": {"wall": "CD", "along": "1 m", "off": 0}, "keep": True, "colors": "oak",
        }
    }  # fmt: skip
    assert seen(document)["pieces/case"].stays == "the client keeps it"
    places = {place.key: place for _, place in places_of(Auditor.of(document).case("r"))}
    assert len(places["rooms/r/pieces/case"].kept) == 1
    del document["rooms"]["r"]["pieces"]["case"]["colors"]
    assert "rooms/r/pieces/case" not in {p.key for _, p in places_of(Auditor.of(document).case("r"))}


@pytest.mark.parametrize("scheme", [False, True])
def test_whatever_may_change_can_be_given_any_swatch(scheme: bool) -> None:
    """In every room of the demo the patch for each thing applies, and then the thing wears the swatch and nothing else."""
    document = copy.deepcopy(read_job(DEMO).document)
    document.setdefault("swatches", {})["test-green"] = {"name": "Test green", "color": "#508050"}
    found = State(Auditor.of(document))
    for room, case in found.auditor.cases.items():
        for wearer in wearers(case):
            if wearer.stays:
                continue
            changed = apply(document, recolored(document, wearer, "test-green", scheme=scheme))
            after = resolve(changed, like=found).case(room)
            worn = [w for w in wearers(after) if w.part.colors == {"test-green": 1.0}]
            assert set(wearer.paths) <= {path for w in worn for path in w.paths} or any(
                w.part.role == wearer.part.role for w in worn
            ), wearer.path
            assert "Test green" in title_of(wearer, "Test green")


def test_paint_goes_where_no_paper_is() -> None:
    """With paper on two walls, painting the rest names the other two, and the paper is still seen."""
    document = bare()
    document["rooms"]["r"]["finishes"] = {"paper": {"on": "walls", "paper": "leaf", "walls": ["AB", "CD"]}}
    walls = seen(document)["surfaces/walls"]
    changed = apply(document, recolored(document, walls, "oak", scheme=True))
    found = seen(changed)
    assert changed["rooms"]["r"]["finishes"]["walls"]["walls"] == ["BC", "DA"]
    assert found["finishes/walls"].part.colors == {"oak": 1.0}
    assert found["finishes/paper"].part.area == pytest.approx(seen(document)["finishes/paper"].part.area)


def test_cloth_is_counted_by_the_cloth_it_is_made_of() -> None:
    """In the demo every window dressed in one cloth is one wearer, with all its treatments."""
    document = copy.deepcopy(read_job(DEMO).document)
    for room, case in Auditor.of(document).cases.items():
        found = [w for w in wearers(case) if w.kind == "treatments"]
        hung = {f"rooms/{room}/treatments/{key}" for key in document["rooms"][room].get("treatments") or {}}
        assert {path for w in found for path in w.paths} <= hung
        assert len({w.fabric for w in found if w.fabric}) == len([w for w in found if w.fabric])
        assert all(w.part.area > 0 for w in found)
