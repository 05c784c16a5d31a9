"""Papers, paints and finishes in the document: what is whole, what is told."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from halfdrop.base.errors import InputErrors
from halfdrop.job.read import parse_job
from halfdrop.job.schema import json_schema
from tests.walls.jobs import document

WALLS = {"on": "walls", "paper": "fern"}
PAINT = {"on": "walls", "paint": "white"}


def _read(**finishes: Any) -> Any:
    return parse_job(json.dumps(document(**finishes)), name="x.json", format="json").job


def test_a_job_with_finishes_is_read_and_satisfies_the_schema() -> None:
    """Paper, paint and trim side by side; volumes and spreads keep the text typed."""
    finishes = {
        "walls": WALLS,
        "ceiling": {"on": "ceiling", "paint": "white"},
        "trim": {"on": "trim", "paint": "white", "parts": {"crown": True}},
    }
    job = _read(**finishes)
    assert job.rooms["snug"].finishes["walls"].paper == "fern"
    assert job.paints["white"].spread.text == "11 m²/L"
    assert job.paints["white"].cans["large"].size.text == "5 L"
    assert list(jsonschema.Draft202012Validator(json_schema()).iter_errors(document(**finishes))) == []


def test_a_job_without_finishes_is_as_before() -> None:
    """The parts are additions with defaults: version 1 stays."""
    plain = document()
    for key in ("papers", "paints"):
        del plain[key]
    del plain["rooms"]["snug"]["finishes"]
    job = parse_job(json.dumps(plain), name="x.json", format="json").job
    assert (job.halfdrop, job.papers, job.paints, job.rooms["snug"].finishes) == (1, {}, {}, {})


@pytest.mark.parametrize(
    ("finish", "said"),
    [
        ({"on": "walls"}, "either a `paper` or a `paint`"),
        ({**WALLS, "paint": "white"}, "either a `paper` or a `paint`"),
        ({"on": "ceiling", "paper": "fern"}, "`walls/paper` is counted on walls only; ceiling takes a paint"),
        ({**WALLS, "coats": 2}, "`walls/coats` belongs to paint, which this finish is not"),
        ({**PAINT, "mismatch": "A"}, "`walls/mismatch` belongs to paper"),
        ({"on": "ceiling", "paint": "white", "walls": ["AB"]}, "`walls/walls` belongs to walls"),
        ({**WALLS, "center": "1 m"}, "`walls/center` needs `focal`"),
        ({**WALLS, "bottom": "1 m", "top": "90 cm"}, "`walls/top` is 90 cm, at or below `bottom`, which is 1 m"),
        ({**WALLS, "walls": ["AC"]}, "is AC, which is no wall of this room"),
        ({**WALLS, "focal": "BD"}, "is BD, which is no wall of this room"),
        ({**WALLS, "mismatch": "E"}, "is E, which is no corner of this room; corners: A B C D"),
        ({"on": "walls", "paper": "moss"}, "is moss; it names one of the job's papers"),
        ({**PAINT, "primer": "x"}, "is x; it names one of the job's paints"),
    ],
)  # fmt: skip
def test_a_finish_that_cannot_be_is_told(finish: dict[str, Any], said: str) -> None:
    """Each fault stands at its place in the finish and says what is wanted."""
    with pytest.raises(InputErrors) as caught:
        _read(walls=finish)
    (fault,) = caught.value.errors
    assert said in fault.message
    assert fault.at is not None
    assert (fault.at.path or "").startswith("rooms/snug")


@pytest.mark.parametrize(
    ("paper", "said"),
    [
        ({"name": "P"}, "needs the width and length of its roll, or `roll`"),
        ({"name": "P", "roll": "EN 233", "match": "straight"}, "a straight match needs its `repeat`"),
        ({"name": "P", "roll": "EN 233", "repeat": "10 cm"}, "needs its `match`"),
        ({"name": "P", "roll": "EN 233", "match": "half drop"}, "half-drop"),
    ],
)
def test_a_label_that_is_not_whole_is_told(paper: dict[str, Any], said: str) -> None:
    """Roll, repeat and match belong together."""
    made = document()
    made["papers"]["p"] = paper
    with pytest.raises(InputErrors) as caught:
        parse_job(json.dumps(made), name="x.json", format="json")
    assert any(said in e.message + (e.hint or "") for e in caught.value.errors)
