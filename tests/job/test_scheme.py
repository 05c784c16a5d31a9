"""Schemes: steps on the job as found, in order, never on the schemes themselves."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from halfdrop.base.errors import InputError
from halfdrop.job.patch import apply
from halfdrop.job.read import parse_job, validated
from halfdrop.job.scheme import add_step, with_scheme
from tests.job.documents import GOOD

FOUND = parse_job(GOOD, name="elm.yaml").document
MOVE = {
    "title": "Back from the wall",
    "finding": "sofa-at-wall",
    "patch": [{"op": "replace", "path": "/rooms/living/pieces/sofa/at/off", "value": "6 in"}],
}


def test_a_scheme_is_its_steps_in_order_on_the_job_as_found() -> None:
    """Both steps show in the result; the job as found and its schemes stay."""
    before = json.dumps(FOUND)
    calm = with_scheme(FOUND, "calm")
    assert calm["rooms"]["living"]["rugs"]["old"]["turn"] == "90°"
    assert calm["rooms"]["living"]["pieces"]["sofa"]["at"]["off"] == "4 in"
    assert calm["schemes"] == FOUND["schemes"]
    assert json.dumps(FOUND) == before
    validated(calm)


def test_an_unknown_scheme_has_a_near_match() -> None:
    """`clam` is near to `calm`; where there is none at all the hint says how to begin one."""
    with pytest.raises(InputError, match="there is no scheme `clam`") as caught:
        with_scheme(FOUND, "clam")
    assert caught.value.hint == "did you mean `calm`?"
    with pytest.raises(InputError) as caught:
        with_scheme({"halfdrop": 1}, "calm")
    assert "halfdrop scheme accept" in (caught.value.hint or "")


def test_a_step_that_no_longer_fits_is_named() -> None:
    """Where the sofa is gone, the error names scheme, step, operation and the step's place."""
    gone = apply(FOUND, [{"op": "remove", "path": "/rooms/living/pieces/sofa"}])
    with pytest.raises(InputError) as caught:
        with_scheme(gone, "calm")
    message = caught.value.message
    assert message.startswith("scheme `calm`, step 2 `Off the wall`: operation 1 of 1 (`replace`)")
    assert "`rooms/living/pieces` has no `sofa`" in message
    assert caught.value.at
    assert caught.value.at.path == "schemes/calm/steps/1"


@pytest.mark.parametrize(
    "op",
    [
        {"op": "remove", "path": "/schemes/calm"},
        {"op": "replace", "path": "/schemes", "value": {}},
        {"op": "replace", "path": "", "value": {}},
        {"op": "add", "path": "/halfdrop", "value": 2},
        {"op": "copy", "from": "/schemes", "path": "/rooms/x"},
        {"op": "move", "from": "", "path": "/rooms/x"},
    ],
)
def test_a_scheme_never_touches_schemes_or_the_version(op: dict[str, Any]) -> None:
    """Such a step is refused before anything is done."""
    with pytest.raises(InputError, match="is closed to schemes"):
        add_step(FOUND, "calm", {"title": "x", "patch": [op]})


def test_a_step_is_added_to_the_end_by_a_patch() -> None:
    """The patch appends one step; the result is a valid job whose scheme does all three."""
    patch = add_step(FOUND, "calm", MOVE)
    assert patch == [{"op": "add", "path": "/schemes/calm/steps/-", "value": MOVE}]
    grown = apply(FOUND, patch)
    validated(grown)
    assert with_scheme(grown, "calm")["rooms"]["living"]["pieces"]["sofa"]["at"]["off"] == "6 in"


@pytest.mark.parametrize("schemes", ["none", "null", "empty", "no steps", "null steps"])
def test_a_scheme_is_begun_where_there_is_none(schemes: str) -> None:
    """Whatever is there before, afterwards the scheme is there with its one step, and the job is valid."""
    document = copy.deepcopy(FOUND)
    del document["schemes"]
    if schemes == "null":
        document["schemes"] = None
    elif schemes != "none":
        document["schemes"] = {
            "empty": {},
            "no steps": {"warm-room": {"name": "Warm room"}},
            "null steps": {"warm-room": {"name": "Warm room", "steps": None}},
        }[schemes]
    grown = apply(document, add_step(document, "warm-room", MOVE))
    assert grown["schemes"]["warm-room"]["name"] == "Warm room"
    assert grown["schemes"]["warm-room"]["steps"] == [MOVE]
    validated(grown)


def test_a_new_scheme_may_be_named_and_a_step_must_fit() -> None:
    """The name given is kept; a step that cannot be done on top of the scheme is refused."""
    grown = apply(FOUND, add_step(FOUND, "b", MOVE, name="Second thoughts"))
    assert grown["schemes"]["b"]["name"] == "Second thoughts"
    wrong = {"title": "No such chair", "patch": [{"op": "remove", "path": "/rooms/living/pieces/chair"}]}
    with pytest.raises(InputError, match="scheme `calm`, step 3 `No such chair`"):
        add_step(FOUND, "calm", wrong)


def test_our_own_member_stays_out_of_a_scheme() -> None:
    """`before`, which only an undo needs, is not written into a job."""
    op = {"op": "add", "path": "/rooms/living/pieces/sofa/name", "value": "Old sofa", "before": "type"}
    patch = add_step(FOUND, "calm", {"title": "Name it", "patch": [op]})
    assert "before" not in patch[0]["value"]["patch"][0]
