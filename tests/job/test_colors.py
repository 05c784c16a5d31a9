"""Colors in the document: the job's swatches, and what wears them."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import InputErrors
from halfdrop.job.colors import Surfaces, Swatch
from halfdrop.job.model import Job
from halfdrop.job.read import read_job, validated
from halfdrop.job.worn import worn

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"


def colored() -> dict[str, Any]:
    """Return the demo with a few colors recorded."""
    document = copy.deepcopy(read_job(DEMO).document)
    document["swatches"] |= {
        "bone": {"name": "Bone", "code": "B1", "color": "#e8dcc4", "price": "$44.00"},
        "oak": {"name": "Oak", "lab": [56, 13, 26]},
        "rust": {"name": "Rust", "spectrum": {"400": 0.05, "500": 0.07, "600": 0.3, "700": 0.4}},
    }
    room = document["rooms"]["living"]
    room["surfaces"] = {"walls": "bone", "floor": {"oak": 1}}
    room["pieces"]["sofa"]["colors"] = {"rust": "70%", "bone": 0.3}
    return document


def test_colors_are_shares_of_swatches() -> None:
    """A plain name is all of it; percent and fractions are read alike; `worn` names each with its path."""
    job = Job.model_validate(colored())
    found = dict(worn(job))
    assert found["rooms/living/surfaces/walls"] == {"bone": 1.0}
    assert found["rooms/living/pieces/sofa/colors"] == {"rust": 0.7, "bone": 0.3}


@pytest.mark.parametrize(
    ("colors", "fault"),
    [
        ({"rust": 0.8, "bone": 0.5}, "add to 1.30"),
        ({"rust": 0}, "a share is 0"),
        ({"rust": "lots"}, "a share is lots"),
        ({}, "at least 1"),
        ("bones", "bones; it names one of the job's swatches"),
    ],
)
def test_wrong_shares_and_unknown_swatches_are_refused(colors: Any, fault: str) -> None:
    """Shares over 1, of nothing, in words; a swatch the job has not."""
    document = colored()
    document["rooms"]["living"]["pieces"]["sofa"]["colors"] = colors
    with pytest.raises(ValidationError, match=fault):
        Job.model_validate(document)


def test_an_unknown_swatch_is_told_with_the_nearest_one() -> None:
    """The hint names the swatch that was probably meant."""
    document = colored()
    document["rooms"]["living"]["surfaces"]["walls"] = "bome"
    with pytest.raises(InputErrors) as caught:
        validated(document, name="flat.yaml")
    assert caught.value.errors[0].hint == "did you mean `bone`?"


@pytest.mark.parametrize(
    "swatch",
    [
        {"name": "x"},
        {"name": "x", "color": "#fff"},
        {"name": "x", "color": "#ffffff", "lab": [1, 2, 3]},
        {"name": "x", "lab": [120, 0, 0]},
        {"name": "x", "color": "#ffffff", "white": "D50"},
        {"name": "x", "spectrum": {"400": 2}},
    ],
)
def test_a_swatch_has_one_color(swatch: dict[str, Any]) -> None:
    """None, half a code, two ways at once, out of range, a white without Lab, more light than fell."""
    with pytest.raises(ValidationError):
        Swatch.model_validate(swatch)


def test_a_change_of_colors_resolves_one_room_and_is_still_checked() -> None:
    """A patch of a room's colors leaves the other rooms as they are; one that names an unknown swatch is refused."""
    state = Auditor.of(colored())
    path = "/rooms/living/surfaces/ceiling"
    after = state.after([{"op": "add", "path": path, "value": "bone"}])
    assert after.cases["dining"] is state.cases["dining"]
    assert after.job.rooms["living"].surfaces.ceiling == {"bone": 1.0}
    with pytest.raises(ValidationError, match="it names one of the job's swatches"):
        state.after([{"op": "add", "path": path, "value": "snow"}])


def test_a_room_without_colors_has_none() -> None:
    """Nothing recorded is nothing worn."""
    assert not list(Surfaces().named())
