"""The published JSON Schema: valid itself, and agreeing with what is read."""

from __future__ import annotations

import json
import math
import re
from typing import Any, Literal

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.units import (
    Angle,
    Area,
    Length,
    Mass,
    Money,
    Quantity,
    format_angle,
    format_area,
    format_length,
    format_mass,
)
from halfdrop.job.patch import apply
from halfdrop.job.read import parse_job
from halfdrop.job.schema import PATTERNS, json_schema
from tests.base.test_money import test_an_amount_is_read_with_its_currency as money_table
from tests.base.test_units import TYPED
from tests.job.documents import GOOD

FOUND = parse_job(GOOD, name="elm.yaml").document
VALIDATOR = jsonschema.Draft202012Validator(json_schema())


def test_the_schema_is_a_schema() -> None:
    """It satisfies the metaschema of 2020-12, names no host of ours, and is the same every time."""
    schema = json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["$id"] == "urn:halfdrop:job:1"
    assert json.dumps(schema) == json.dumps(json_schema())
    assert re.findall(r"https?://[^\"/]+", json.dumps(schema)) == ["https://json-schema.org"]


def test_a_good_job_satisfies_it() -> None:
    """The job of these tests, with corners as one text and zero as a bare number."""
    assert list(VALIDATOR.iter_errors(FOUND)) == []


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("/rooms/living/pieces/sofa/width", "84"),
        ("/rooms/living/pieces/sofa/width", 84),
        ("/rooms/living/pieces/sofa/width", "wide"),
        ("/rooms/living/pieces/sofa/type", "soffa"),
        ("/rooms/living/pieces/sofa/widht", "84 in"),
        ("/rooms/living/pieces/Sofa", {}),
        ("/rooms/living/rugs/old/price", "1150"),
        ("/rooms/living/rugs/old/price", 1150),
        ("/rooms/living/survey/corners", "A b C"),
        ("/rooms/living/survey/walls/ABCD", "12 ft"),
        ("/rooms/living/survey/angles", {"A": "90"}),
        ("/job/units", "imperal"),
        ("/halfdrop", 2),
    ],
)
def test_a_fault_it_can_see_is_refused_by_both(path: str, value: Any) -> None:
    """What the schema refuses, the reader refuses as well."""
    faulty = apply(FOUND, [{"op": "add", "path": path, "value": value}])
    assert list(VALIDATOR.iter_errors(faulty))
    with pytest.raises(Exception, match=r"fault|version"):
        parse_job(json.dumps(faulty), name="x", format="json")


KINDS: list[tuple[type[Quantity], str, float]] = [
    (Length, "a length", -100),
    (Angle, "an angle", -7),
    (Area, "an area", 0),
    (Mass, "a weight", 0),
]


@given(st.floats(0, 100), st.sampled_from(["imperial", "metric"]), st.sampled_from(["plain", "typographic"]))
def test_whatever_is_printed_matches_its_pattern(
    value: float, units: Literal["imperial", "metric"], marks: Literal["plain", "typographic"]
) -> None:
    """Prints of all kinds and canonical texts match."""
    for sign in (1, -1):
        for feet in (True, False):
            assert re.search(PATTERNS["a length"], format_length(sign * value, units, marks=marks, feet=feet))
        assert re.search(PATTERNS["an angle"], format_angle(sign * value))
    assert re.search(PATTERNS["an area"], format_area(value, units))
    assert re.search(PATTERNS["a weight"], format_mass(value, units))
    for kind, what, low in KINDS:
        assert re.search(PATTERNS[what], kind(math.copysign(value, low)).text)


def test_every_typed_way_matches_its_pattern() -> None:
    """All spellings of the tables of lengths and amounts match."""
    assert all(re.search(PATTERNS["a length"], text) for text, _ in TYPED)
    rows = money_table.pytestmark[0].args[1]
    assert all(re.search(PATTERNS["a price"], text) for text, *_ in rows)
    assert all(isinstance(Money.parse(text), Money) for text, *_ in rows)


def test_every_typed_quantity_of_the_model_has_its_pattern() -> None:
    """No field that is typed as text is left without one, and each says what it is."""
    found: list[dict[str, Any]] = []

    def collect(schema: Any) -> None:
        if isinstance(schema, dict):
            if "as typed" in str(schema.get("description", "")):
                found.append(schema)
            schema = list(schema.values())
        if isinstance(schema, list):
            for item in schema:
                collect(item)

    collect(json_schema())
    assert len(found) > 50
    assert all(field["pattern"] in PATTERNS.values() and field["examples"] for field in found)
