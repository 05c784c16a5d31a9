"""Versions of the document and the steps between them."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from halfdrop.base.errors import InputError
from halfdrop.job.migrate import MIGRATIONS, migrate, version_of
from halfdrop.job.model import VERSION
from halfdrop.job.read import parse_job

Document = dict[str, Any]


def widen(document: Document) -> Document:
    """A step as a later version might need it: `wide` becomes `width`."""
    rest = {key: value for key, value in document.items() if key != "wide"}
    return {**rest, "width": document["wide"]}


def double(document: Document) -> Document:
    """A second step, which sees what the first one made."""
    return {**document, "widths": [document["width"], document["width"]]}


def test_every_older_version_has_a_step() -> None:
    """The table reaches from version 1 to the version of the model, with no step beyond."""
    assert set(MIGRATIONS) == set(range(1, VERSION))


def test_steps_are_taken_in_order_and_the_input_stays() -> None:
    """From version 1 over 2 to 3, each step once; the version is counted up by the mechanism."""
    old = {"halfdrop": 1, "wide": "84 in"}
    before = copy.deepcopy(old)
    new = migrate(old, migrations={**MIGRATIONS, 1: widen, 2: double}, current=3)
    assert new == {"halfdrop": 3, "width": "84 in", "widths": ["84 in", "84 in"]}
    assert old == before
    assert next(iter(new)) == "halfdrop"


def test_a_document_of_the_current_version_is_the_same_object() -> None:
    """Nothing to do costs nothing."""
    document = {"halfdrop": 2, "width": "84 in"}
    assert migrate(document, migrations={1: widen}, current=2) is document


def test_a_newer_document_asks_for_an_upgrade() -> None:
    """A file of a later version is refused before anything in it is judged."""
    with pytest.raises(InputError) as caught:
        parse_job(f"job: what is this\nhalfdrop: {VERSION + 1}\n", name="a.yaml")
    assert (
        caught.value.message == f"the document has version {VERSION + 1}; this halfdrop reads up to {VERSION}"
    )
    assert "upgrade halfdrop" in (caught.value.hint or "")
    assert str(caught.value.at) == "a.yaml:2 halfdrop"


def test_a_missing_step_is_said() -> None:
    """A gap in the table is told, not jumped."""
    with pytest.raises(InputError, match="no way is known from version 2 of the document to 3"):
        migrate({"halfdrop": 1, "wide": 1}, migrations={1: widen}, current=3)


@pytest.mark.parametrize("version", ["1", 1.0, 0, -1, True, None, [], {"a": 1}])
def test_what_is_no_version_is_refused(version: Any) -> None:
    """Text, truth, zero and parts are no versions."""
    with pytest.raises(InputError, match="wanted is a version") as caught:
        version_of({"halfdrop": version})
    assert caught.value.hint == f"write `halfdrop: {VERSION}`"


def test_a_document_without_a_version_is_refused() -> None:
    """The hint says what to write where."""
    with pytest.raises(InputError, match="does not say its version") as caught:
        migrate({"job": {}})
    assert caught.value.hint == f"write `halfdrop: {VERSION}` on top"
