"""Hazards and getting it in, beyond their tables: published values, doors across rooms, generated rooms."""

from __future__ import annotations

import copy
import csv
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.prove import remedies_for
from halfdrop.audit.rules.delivery.stations import workings
from halfdrop.job.patch import apply
from halfdrop.job.way_out import exits

TABLE = Path(__file__).parents[1] / "published" / "safety_escape_window.csv"
INCH = 0.0254

SURVEY = {
    "corners": "A B C D",
    "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"},
    "ties": {"AC": "6403.1 mm", "BD": "6403.1 mm"},
    "heights": {"A": "2.6 m"},
}
DOOR = {
    "kind": "door",
    "wall": "AB",
    "along": "0.2 m",
    "width": "0.95 m",
    "height": "2.03 m",
    "hinge": "A",
    "opens": "in",
}
WINDOW = {
    "kind": "window",
    "wall": "CD",
    "along": "2 m",
    "width": "1 m",
    "height": "1.3 m",
    "sill": "0.8 m",
    "escape": True,
    "clear_width": "0.9 m",
    "clear_height": "1.2 m",
}


def _job(rooms: dict[str, Any], **more: Any) -> dict[str, Any]:
    whole = {i: {"name": i, "use": {"living": True}, "survey": SURVEY, **room} for i, room in rooms.items()}
    return {"halfdrop": 1, "job": {"name": "Hazards", "units": "imperial"}, "rooms": whole, **more}


def _found(document: dict[str, Any], *families: str, room: str = "r") -> list[Finding]:
    return [f for f in Auditor.of(document).findings(room) if f.rule.startswith(families)]


def _rows() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:")
    return list(csv.DictReader(lines[1:]))


@pytest.mark.parametrize(
    "row", _rows(), ids=lambda r: f"{r['clear_width_in']} x {r['clear_height_in']}, {r['sill_in']}"
)
def test_escape_windows_as_published(row: dict[str, str]) -> None:
    """Area, height, width and sill all apply: 20 × 24 in is each enough and yet only 3.33 sq ft."""
    window = {
        **WINDOW,
        "clear_width": f"{row['clear_width_in']} in",
        "clear_height": f"{row['clear_height_in']} in",
        "sill": f"{row['sill_in']} in",
    }
    width, height = float(row["clear_width_in"]), float(row["clear_height_in"])
    assert width * height / 144 == pytest.approx(float(row["area_sqft"]), abs=0.005)
    found = _found(
        _job({"r": {"use": {"bedroom": True}, "openings": {"w": window}}}), "hazards.escape-window"
    )
    assert [f.grade for f in found] == ([] if row["passes"] == "yes" else [Grade.HAZARD])


def _bedroom() -> dict[str, Any]:
    """Make a well-laid bedroom: bed to the wall, chest anchored, the window and the way to the door free."""
    pieces = {
        "bed": {
            "type": "bed",
            "width": "1.6 m",
            "depth": "2.1 m",
            "height": "1.1 m",
            "at": {"wall": "BC", "along": "1.2 m", "off": 0},
        },
        "chest": {
            "type": "chest",
            "width": "0.9 m",
            "depth": "0.45 m",
            "height": "1.2 m",
            "anchored": True,
            "at": {"wall": "DA", "along": "0.1 m", "off": 0},
        },
    }
    heater = {
        "kind": "radiator",
        "wall": "CD",
        "along": "0.2 m",
        "width": "1 m",
        "depth": "10 cm",
        "height": "60 cm",
    }
    return {
        "use": {"bedroom": True},
        "openings": {"door": {**DOOR, "to": "outside"}, "window": WINDOW},
        "fittings": {"heater": heater},
        "pieces": pieces,
    }


def test_a_well_laid_bedroom_is_clean() -> None:
    """A bedroom laid out by the book has no hazard and nothing that does not come in."""
    assert _found(_job({"r": _bedroom()}), "hazards", "delivery") == []


@pytest.mark.parametrize(
    ("build", "words"), [("stud", "into the studs"), ("masonry", "masonry"), ("unknown", "stud or masonry")]
)
def test_anchor_says_into_what_and_costs_what_the_stock_says(build: str, words: str) -> None:
    """The wall's build decides how it is fixed; straps cost what the cheapest in stock cost, or are named as
    unpriced.
    """
    room = _bedroom()
    room["wall_build"] = build
    room["pieces"]["chest"]["anchored"] = False
    stock = {
        "dear": {"kind": "anchor", "name": "Steel straps", "price": "$25"},
        "fair": {"kind": "anchor", "name": "Straps", "price": "$18"},
    }
    for job, cost in ((_job({"r": room}, stock=stock), "$18"), (_job({"r": room}), None)):
        auditor = Auditor.of(job)
        every = auditor.findings("r")
        finding = next(f for f in every if f.rule == "hazards.anchor")
        (remedy,) = remedies_for(auditor, finding, every)
        assert words in remedy.title
        assert (remedy.cost.text if remedy.cost else None) == cost
        assert bool(remedy.unpriced) == (cost is None)
        assert "not written down" not in finding.message


def test_a_chest_near_the_limit_is_uncertain_by_the_tape() -> None:
    """A chest as high as the limit may be lower, by the tape: the finding says that it lies within its
    error.
    """
    room = _bedroom()
    room["pieces"]["chest"] |= {"anchored": False, "height": "27 in"}
    (finding,) = _found(_job({"r": room}), "hazards.anchor")
    assert finding.within_tape
    assert finding.certainty == pytest.approx(0.5, abs=0.01)


def _flat(console: str) -> dict[str, Any]:
    """Make a hall with the front door and a door to the bedroom at its far end, a console between."""
    hall = {
        "use": {"hall": True},
        "survey": {
            "corners": "A B C D",
            "walls": {"AB": "1.3 m", "BC": "5 m", "CD": "1.3 m", "DA": "5 m"},
            "ties": {"AC": "5166.2 mm", "BD": "5166.2 mm"},
        },
        "openings": {
            "front": {
                "kind": "cased opening",
                "wall": "AB",
                "along": "0.1 m",
                "width": "1 m",
                "height": "2 m",
                "to": "outside",
            },
            "far": {
                "kind": "cased opening",
                "wall": "CD",
                "along": "0.1 m",
                "width": "1 m",
                "height": "2 m",
                "to": "bed",
            },
        },
        "pieces": {
            "console": {
                "type": "console",
                "width": "1.2 m",
                "depth": console,
                "height": "0.6 m",
                "at": {"wall": "DA", "along": "2 m", "off": 0},
            }
        },
    }
    return _job({"hall": hall, "bed": {"use": {"bedroom": True}, "openings": {"door": DOOR}}})


def test_the_way_out_of_a_bedroom_runs_through_the_hall() -> None:
    """A 45 cm console leaves 85 cm of a 1.3 m hall that the bedroom's way out needs; without the bedroom it
    is no way out. The main way wants no more of the gap and is silent while the hazard speaks.
    """
    (finding,) = _found(_flat("45 cm"), "hazards.exit-path", room="hall")
    assert finding.measured == pytest.approx(0.85, abs=1e-4)
    assert finding.wanted == pytest.approx(36 * INCH)
    assert finding.sigma
    assert _found(_flat("38 cm"), "hazards.exit-path", room="hall") == []
    assert _found(_flat("45 cm"), "circulation.main-way", room="hall") == []
    alone = _flat("45 cm")
    del alone["rooms"]["hall"]["openings"]["far"]["to"]
    assert _found(alone, "hazards.exit-path", room="hall") == []
    assert [f.wanted for f in _found(alone, "circulation.main-way", room="hall")] == [
        pytest.approx(36 * INCH)
    ]


def test_the_main_way_speaks_where_it_wants_more_than_the_hazard() -> None:
    """Where the house wants 1 m on a main way, the gap that the way out wants 36 in of is told as a fault too."""
    wide = _flat("45 cm")
    wide["practice"] = {**wide.get("practice", {}), "values": {"circulation.main": "1 m"}}
    assert [f.wanted for f in _found(wide, "hazards.exit-path", room="hall")] == [pytest.approx(36 * INCH)]
    assert [f.wanted for f in _found(wide, "circulation.main-way", room="hall")] == [pytest.approx(1.0)]


def test_the_best_of_two_doors_counts_where_the_way_out_is_unknown() -> None:
    """With no `to` written down, a sofa shut off from one door is not in danger while another is free."""
    sofa = {
        "type": "sofa",
        "width": "2 m",
        "depth": "0.9 m",
        "height": "0.8 m",
        "at": {"wall": "BC", "along": "1 m", "off": "0"},
    }
    wall = {
        "type": "dresser",
        "width": "1.1 m",
        "depth": "0.5 m",
        "height": "0.6 m",
        "anchored": True,
        "at": {"wall": "AB", "along": "0.1 m", "off": 0},
    }
    one = {"kind": "cased opening", "wall": "AB", "along": "0.2 m", "width": "0.9 m", "height": "2 m"}
    two = {"kind": "cased opening", "wall": "CD", "along": "0.2 m", "width": "0.9 m", "height": "2 m"}
    room = {"openings": {"one": one, "two": two}, "pieces": {"sofa": sofa, "wall": wall}}
    job = _job({"r": room})
    auditor = Auditor.of(job)
    assert exits(auditor.job, "r") == ("one", "two")
    assert _found(job, "hazards.exit-path") == []
    shut = _job({"r": {"openings": {"one": one}, "pieces": {"sofa": sofa, "wall": wall}}})
    (finding,) = _found(shut, "hazards.exit-path")
    assert finding.measured == pytest.approx(0.0, abs=1e-6)


def _arriving(**piece: Any) -> dict[str, Any]:
    return {
        "type": "sofa",
        "width": "84 in",
        "depth": "38 in",
        "height": "34 in",
        "arrives": True,
        "at": {"wall": "CD", "along": "1 m", "off": "10 cm"},
        **piece,
    }


def _two_ways(inner: str, back: str | None = None) -> dict[str, Any]:
    """Make a room behind a hall: a wide front door, an inner door, perhaps a back door of its own."""
    opening = {"kind": "cased opening", "wall": "AB", "along": "0.2 m", "height": "80 in"}
    ways: dict[str, Any] = {"inner": {**opening, "width": inner, "to": "hall"}}
    if back is not None:
        ways["back"] = {**opening, "wall": "DA", "width": back, "to": "outside"}
    hall = {"use": {"hall": True}, "openings": {"front": {**opening, "width": "40 in", "to": "outside"}}}
    passage = [{"kind": "corridor", "name": "passage", "width": "48 in", "height": "94 in"}]
    return _job({"hall": hall, "r": {"openings": ways, "pieces": {"sofa": _arriving()}}}, delivery=passage)


def test_every_door_from_outside_to_the_room_counts() -> None:
    """A sofa 34 in high passes a 40 in front door and sticks at a 30 in inner one, 6 in short of its 36."""
    assert _found(_two_ways("36 in"), "delivery") == []
    (finding,) = _found(_two_ways("30 in"), "delivery")
    assert finding.subjects == ("rooms/r/pieces/sofa", "rooms/r/openings/inner")
    assert finding.wanted == pytest.approx(36 * INCH)
    assert finding.shortfall == pytest.approx(6 * INCH)


def test_the_tightest_station_is_worked_out() -> None:
    """The working of a sofa names its tightest door and shows 34 in and an inch of hand room on each side against 35 in."""
    (working,) = workings(Auditor.of(_two_ways("35 in")).case("r"))
    steps = working.to_json()["steps"]
    assert "door" in working.title or "opening" in working.title
    assert steps[0]["values"] == "2′ 10″ + 2 × 1″"
    assert steps[0]["result"] == "3′"
    assert steps[-1]["values"] == "2′ 11″ − 3′"
    assert steps[-1]["result"] == "−1″"


def test_it_comes_in_by_the_way_it_passes() -> None:
    """Where the inner door is too small and the room has a wide back door, the sofa comes in by that."""
    assert _found(_two_ways("30 in", "40 in"), "delivery") == []
    assert len(_found(_two_ways("30 in", "31 in"), "delivery")) == 1


def test_a_piano_stays_on_its_feet() -> None:
    """A cabinet lower than its door's width passes on its side; a piano of the same size does not."""
    job = _two_ways("36 in")
    size = {"width": "60 in", "depth": "40 in", "height": "33 in"}
    job["rooms"]["r"]["pieces"] = {"p": _arriving(type="cabinet", anchored=True, **size)}
    assert _found(job, "delivery") == []
    job["rooms"]["r"]["pieces"] = {"p": _arriving(type="piano", **size)}
    (finding,) = _found(job, "delivery")
    assert finding.wanted == pytest.approx(42 * INCH)
    assert "upright" in finding.message


def test_a_house_that_does_not_tilt() -> None:
    """With tilting forbidden the sofa needs its depth and hand room, 40 in, where tilted it needed 36."""
    job = _two_ways("36 in")
    job["practice"] = {"set": "us", "values": {"delivery.tilt_allowed": False}}
    (finding,) = _found(job, "delivery")
    assert finding.wanted == pytest.approx(40 * INCH)


def test_every_station_of_the_delivery_path_is_judged() -> None:
    """Door, corridor, turn, stairs and lift each stop the sofa where it is made small, and are named."""
    small = {
        "door": {"width": "30 in", "height": "80 in"},
        "corridor": {"width": "30 in", "height": "60 in"},
        "turn": {"width": "36 in", "width_after": "30 in", "height": "60 in"},
        "stairs": {"width": "30 in", "height": "84 in", "landing": "30 in"},
        "lift": {
            "width": "36 in",
            "height": "80 in",
            "car_width": "36 in",
            "car_depth": "40 in",
            "car_height": "80 in",
        },
    }
    for kind, sizes in small.items():
        job = _two_ways("36 in")
        job["delivery"] = [{"kind": kind, "name": f"small {kind}", **sizes}]
        (finding,) = _found(job, "delivery")
        assert f"At the small {kind}" in finding.message
        assert finding.shortfall > 0


@st.composite
def rooms(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a bedroom with a heater, a stair head and pieces anywhere in it, and a narrow way in."""

    def at() -> dict[str, str]:
        return {"x": f"{draw(st.integers(60, 440))} cm", "y": f"{draw(st.integers(60, 340))} cm"}

    pieces: dict[str, Any] = {}
    for i, kind in enumerate(
        draw(st.lists(st.sampled_from(["chest", "bed", "sofa", "side table"]), min_size=1, max_size=4))
    ):
        size = {
            "chest": (0.9, 0.5, 1.2),
            "bed": (1.0, 2.0, 0.6),
            "sofa": (2.0, 0.9, 0.8),
            "side table": (0.5, 0.5, 0.5),
        }[kind]
        pieces[f"p{i}"] = {
            "type": kind,
            "width": f"{size[0]} m",
            "depth": f"{size[1]} m",
            "height": f"{size[2]} m",
            "at": at(),
            "turn": f"{draw(st.sampled_from([0, 90, 180, 270, 30]))}°",
            "anchored": draw(st.booleans()),
            "keep": draw(st.booleans()),
            "arrives": draw(st.booleans()),
        }
    rugs = (
        {"rug": {"width": "1.5 m", "length": "1 m", "at": at(), "pad": {"thickness": "6 mm"}}}
        if draw(st.booleans())
        else {}
    )
    fittings: dict[str, Any] = {
        "heater": {"kind": "heater", "wall": "DA", "along": "1 m", "width": "1 m", "depth": "10 cm"}
    }
    if draw(st.booleans()):
        fittings["stair"] = {
            "kind": "stair head",
            "wall": "BC",
            "along": "1.5 m",
            "width": "1 m",
            "depth": "30 cm",
        }
    window = {**WINDOW, "sill": draw(st.sampled_from(["40 cm", "80 cm"]))}
    room = {
        "use": {"bedroom": True},
        "openings": {"door": {**DOOR, "to": "outside"}, "window": window},
        "fittings": fittings,
        "pieces": pieces,
        "rugs": rugs,
    }
    stock = {
        "small": {
            "kind": "piece",
            "name": "Small sofa",
            "piece": "sofa",
            "width": "1.6 m",
            "length": "0.6 m",
            "height": "0.7 m",
        }
    }
    way = [{"kind": "door", "name": "street door", "width": "0.82 m", "height": "2 m"}]
    return _job({"r": room}, stock=stock, delivery=way)


@settings(max_examples=12, suppress_health_check=list(HealthCheck))
@given(rooms())
def test_every_remedy_is_proven_over_generated_rooms(document: dict[str, Any]) -> None:
    """Whatever the room: a remedy offered for these rules clears its finding and brings nothing as grave."""
    auditor = Auditor.of(document)
    every = auditor.findings("r")
    before = copy.deepcopy(document)
    known = {f.id: f for f in every}
    for finding in [f for f in every if f.rule.startswith(("hazards", "delivery"))][:4]:
        for remedy in remedies_for(auditor, finding, every):
            after = Auditor.of(apply(document, remedy.patch)).findings("r")
            assert finding.id not in {f.id for f in after}
            new = [f.id for f in after if f.id not in known and f.grade.rank <= finding.grade.rank]
            assert not new
    assert document == before
