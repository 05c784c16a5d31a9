"""Scalars by YAML 1.2's core schema, in and out."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import example, given

from halfdrop.job.compose import compose, plain
from halfdrop.job.events import yaml_events
from halfdrop.job.same import same
from halfdrop.job.scalars import block, flow, resolve
from tests.job.documents import documents, values

#: Source: YAML 1.2.2, chapter 10.3.2, table of the core schema's tag resolution.
CORE = [
    ("null", None),
    ("Null", None),
    ("NULL", None),
    ("~", None),
    ("", None),
    ("true", True),
    ("True", True),
    ("FALSE", False),
    ("0o7", 7),
    ("0x3A", 58),
    ("-19", -19),
    ("+12", 12),
    ("0.", 0.0),
    (".5", 0.5),
    ("+12e03", 12000.0),
    ("-2E+05", -200000.0),
    ("007", 7),
]


@pytest.mark.parametrize(("text", "value"), CORE)
def test_plain_scalars_resolve_as_the_core_schema_says(text: str, value: Any) -> None:
    """The specification's own examples, type and value."""
    found = resolve(text)
    assert type(found) is type(value)
    assert found == value


@pytest.mark.parametrize(
    "text",
    [
        "yes",
        "no",
        "on",
        "off",
        "y",
        "n",
        "1:30",
        "2026-04-01",
        "1_000",
        "12'",
        "0b1",
        "tRUE",
        "1e",
        "- 1",
        "0x",
        "١٢",
    ],
)
def test_what_older_yaml_took_for_more_is_text(text: str) -> None:
    """No Norway problem, no sexagesimal minutes, no dates, no underscored numbers."""
    assert resolve(text) == text


@pytest.mark.parametrize("text", [".inf", "-.INF", ".nan", "1e999", "-1e400", "9" * 41])
def test_numbers_that_json_cannot_hold_are_refused(text: str) -> None:
    """Infinite, undefined and endless numbers are no numbers."""
    with pytest.raises(ValueError, match="number"):
        resolve(text)


@given(documents)
@example(
    {"note": "a\nb\n\n c", "tail": "a\n\n", "lead": "\na", "blank": "\n", "space": "a \nb", "bell": "\x07"}
)
def test_a_dumped_document_reads_back(document: dict[str, Any]) -> None:
    """Whatever the values, dumping over several lines loses nothing, key order included."""
    again = plain(compose(yaml_events(block(document), "x"), "x"))
    assert same(again, document)
    assert list(again) == list(document)


@given(values)
def test_a_value_on_one_line_reads_back_anywhere(value: Any) -> None:
    """One-line values hold no line break and stand alike in a map, in a list and in brackets."""
    text = flow(value)
    assert "\n" not in text
    for around in (f"a: {text}", f"- {text}", f"{{a: {text}}}", f"[{text}]", f"[{text}, 1]"):
        found = plain(compose(yaml_events(around, "x"), "x"))
        inner = found["a"] if isinstance(found, dict) else found[0]
        assert same(inner, value)


def test_the_trade_s_texts_need_no_quotes() -> None:
    """Feet and inches, prices and dates are dumped as a person types them."""
    text = block(
        {"job": {"a": "12' 6 1/2\"", "b": "6½″", "c": "1:30", "d": "2026-04-01", "on": "no"}, "x": []}
    )
    assert "a: 12' 6 1/2\"\n" in text
    assert "b: 6½″\n" in text
    assert "c: 1:30\n" in text
    assert "d: 2026-04-01\n" in text
    assert "on: no\n" in text
