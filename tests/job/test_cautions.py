"""The general cautions a job needs follow from what it holds."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.job.cautions import cautions_for, holds
from halfdrop.job.model import Job
from halfdrop.practice import load_practice
from halfdrop.practice.cautions import load_cautions

SURVEY = {"corners": "A B C D", "walls": {"AB": "5 m", "BC": "4 m", "CD": "5 m", "DA": "4 m"}}
CHEST = {"type": "chest", "width": "1 m", "depth": "50 cm", "height": "1.2 m", "at": {"x": "1 m", "y": "1 m"}}
ART: dict[str, Any] = {
    "width": "60 cm",
    "height": "50 cm",
    "at": {"wall": "AB", "along": "3 m", "bottom": "1.2 m"},
}


def _job(room: dict[str, Any], **more: Any) -> Job:
    whole = {"name": "Room", "use": {"living": True}, "survey": SURVEY, **room}
    return Job.model_validate({"halfdrop": 1, "job": {"name": "Cautions"}, "rooms": {"r": whole}, **more})


def _said(job: Job) -> set[str]:
    return {c.id for c in cautions_for(job)}


def test_an_empty_room_needs_none() -> None:
    """Nothing to carry, to fix or to trip over: no caution."""
    assert _said(_job({})) == set()


def test_drilling_only_where_something_is_fixed() -> None:
    """A chest that stands loose asks for an anchor; once anchored it asks for care at the wall: cables,
    paint, asbestos.
    """
    loose = _said(_job({"pieces": {"chest": CHEST}}))
    fixed = _said(_job({"pieces": {"chest": {**CHEST, "anchored": True}}}))
    assert loose == {"moving", "anchoring"}
    assert fixed == loose | {"drilling", "lead", "asbestos"}


def test_ladders_where_the_fixing_is_high() -> None:
    """A wardrobe over 1.8 m is fixed from a ladder, a low chest is not."""
    high = {**CHEST, "type": "wardrobe", "height": "2 m", "anchored": True}
    assert "ladders" in _said(_job({"pieces": {"w": high}}))


def test_what_hangs_asks_for_care_and_over_a_bed_for_more() -> None:
    """A work that hangs is fixed to the wall; one that waits asks for nothing; over where people sleep one thing more is said."""
    assert _said(_job({"art": {"a": {"width": "60 cm", "height": "50 cm"}}})) == set()
    plain = _said(_job({"art": {"a": ART}}))
    assert plain == {"weight", "drilling", "lead", "asbestos"}
    high = {**ART, "at": {**ART["at"], "bottom": "1.5 m"}}
    assert _said(_job({"art": {"a": high}})) == plain | {"ladders"}
    assert "glass" in _said(_job({"art": {"a": {**ART, "kind": "print"}}}))
    bed = {**CHEST, "type": "bed"}
    assert "over-people" in _said(_job({"art": {"a": ART}, "pieces": {"b": bed}}))


def test_the_house_limit_decides_what_is_tall() -> None:
    """A house that anchors from 4 ft only is not told of a 1.2 m chest."""
    job = _job({"pieces": {"chest": CHEST}}, practice={"values": {"hazards.anchor_height": "48 in"}})
    assert "anchoring" not in _said(job)
    assert "anchoring" in {c.id for c in cautions_for(job, load_practice("us"))}


@pytest.mark.parametrize(
    ("room", "more", "wanted"),
    [
        ({"use": {"bath": True}}, {}, "wet"),
        ({"use": {"bedroom": True}}, {}, "egress"),
        ({}, {"people": {"kid": {"age": "child"}}}, "children"),
        ({"rugs": {"r": {"width": "2 m", "length": "1 m", "at": {"x": "1 m", "y": "1 m"}}}}, {}, "slip"),
        ({"fittings": {"h": {"kind": "heater", "wall": "AB", "along": "1 m", "width": "1 m"}}}, {}, "heat"),
        ({"pieces": {"l": {**CHEST, "type": "floor lamp"}}}, {}, "cords"),
        ({"pieces": {"m": {**CHEST, "type": "mirror"}}}, {}, "glass"),
    ],
)
def test_each_thing_brings_its_caution(room: dict[str, Any], more: dict[str, Any], wanted: str) -> None:
    """A bath, a bedroom, a child, a rug, a heater, a lamp, a mirror each bring the caution that belongs to
    them.
    """
    assert wanted in _said(_job(room, **more))


def test_every_caution_can_be_said() -> None:
    """No caution waits for something that no job can hold, and each has its source."""
    pieces = {
        "w": {**CHEST, "type": "wardrobe", "height": "2 m", "anchored": True},
        "l": {**CHEST, "type": "floor lamp"},
        "m": {**CHEST, "type": "mirror"},
        "b": {**CHEST, "type": "bed"},
    }
    room = {
        "use": {"bath": True, "bedroom": True},
        "pieces": pieces,
        "art": {"a": ART},
        "rugs": {"r": {"width": "2 m", "length": "1 m", "at": {"x": "1 m", "y": "1 m"}}},
        "fittings": {"h": {"kind": "heater", "wall": "AB", "along": "1 m", "width": "1 m"}},
        "openings": {
            "o": {
                "kind": "window",
                "wall": "AB",
                "along": "1 m",
                "width": "1 m",
                "height": "1 m",
                "sill": "1 m",
            }
        },
        "treatments": {"t": {"kind": "roller", "openings": "o", "control": "motor"}},
        "finishes": {"w": {"on": "walls", "paper": "p"}, "c": {"on": "ceiling", "paint": "w"}},
    }
    more = {"papers": {"p": {"name": "Leaf", "roll": "EN 233"}}, "paints": {"w": {"name": "White"}}}
    job = _job(room, people={"kid": {"age": "child"}}, **more)
    assert cautions_for(job) == load_cautions()
    assert holds(job, load_practice("us")) == {c.when for c in load_cautions()}
    assert all(c.source and c.text.endswith(".") for c in load_cautions())


def test_paper_and_paint_bring_old_paint_asbestos_and_ladders() -> None:
    """What is sanded or stripped may be old; walls to the ceiling are worked from a ladder, a dado is not."""
    paints = {"paints": {"p": {"name": "White"}}}
    assert _said(_job({"finishes": {"f": {"on": "walls", "paint": "p"}}}, **paints)) == {
        "fumes",
        "lead",
        "asbestos",
        "ladders",
    }
    low = {"f": {"on": "walls", "paint": "p", "top": "1 m"}}
    assert _said(_job({"finishes": low}, **paints)) == {"fumes", "lead", "asbestos"}
    assert _said(_job({"finishes": {"f": {"on": "trim", "paint": "p"}}}, **paints)) == {
        "fumes",
        "lead",
        "asbestos",
    }
