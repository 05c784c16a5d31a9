"""Scalars of YAML 1.2's core schema, read and written: `no` and `1:30` are texts.

Source: YAML 1.2.2, chapter 10.3 (core schema); infinities and not-a-numbers are refused, as JSON has none.
Checked by: tests/job/test_scalars.py
"""

from __future__ import annotations

import math
import re
from typing import Any

import yaml

from halfdrop.job.limits import NUMBER

_NULL = re.compile(r"(?:~|null|Null|NULL|)\Z")
_BOOL = re.compile(r"(?:true|True|TRUE|false|False|FALSE)\Z")
_INT = re.compile(r"(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)\Z")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?\Z")
_NOT_FINITE = re.compile(r"(?:[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))\Z")

#: Everything that JSON can say.
Json = Any


def resolve(text: str) -> str | int | float | bool | None:
    """Return what a plain (unquoted) scalar stands for.

    Raises
    ------
    ValueError
        Where it is a number that JSON cannot hold; the message says why.
    """
    if _NULL.match(text):
        return None
    if _BOOL.match(text):
        return text.lower() == "true"
    if _NOT_FINITE.match(text):
        raise ValueError("is not a finite number")
    whole = _INT.match(text)
    if not whole and not _FLOAT.match(text):
        return text
    if len(text) > NUMBER:
        raise ValueError(f"is a number of {len(text)} characters; at most {NUMBER} are read")
    if whole:
        return int(text, {"0o": 8, "0x": 16}.get(text[:2], 10))
    number = float(text)
    if not math.isfinite(number):
        raise ValueError("is too large a number")
    return number


class _Dumper(yaml.SafeDumper):
    """A dumper that quotes what the core schema would read as something else, and nothing more."""

    yaml_implicit_resolvers: dict[str, Any] = {}  # noqa: RUF012  (the library's own protocol)

    def ignore_aliases(self, data: Any) -> bool:
        return True

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        super().increase_indent(flow, False)


class _FlowDumper(_Dumper):
    """The same on one line."""


for _tag, _pattern, _first in (
    ("null", _NULL, ["~", "n", "N", ""]),
    ("bool", _BOOL, list("tTfF")),
    ("int", _INT, list("-+0123456789")),
    ("float", _FLOAT, list("-+.0123456789")),
    ("float", _NOT_FINITE, list("-+.")),
    ("merge", re.compile(r"<<\Z"), ["<"]),
):
    _Dumper.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", _pattern, _first)
_FlowDumper.yaml_implicit_resolvers = _Dumper.yaml_implicit_resolvers

_SMALL = 4
_LINE = 80


def _is_small(value: dict[str, Json]) -> bool:
    if len(value) > _SMALL or any(isinstance(v, dict | list) for v in value.values()):
        return False
    text = "".join(f"{k}: {v}, " for k, v in value.items())
    return len(text) <= _LINE and "\n" not in text


def _text(dumper: yaml.SafeDumper, value: str) -> yaml.ScalarNode:
    style = None
    if "\n" in value or not value.isprintable():
        style = '"' if isinstance(dumper, _FlowDumper) or not _is_literal(value) else "|"
    return dumper.represent_scalar("tag:yaml.org,2002:str", value, style=style)


def _is_literal(value: str) -> bool:
    lines = value.split("\n")
    return all(line.isprintable() and line == line.strip() for line in lines) and "" not in (
        lines[0],
        lines[-2],
    )


def _map(dumper: yaml.SafeDumper, value: dict[str, Json]) -> yaml.MappingNode:
    flow = isinstance(dumper, _FlowDumper) or _is_small(value)
    return dumper.represent_mapping("tag:yaml.org,2002:map", value.items(), flow_style=flow)


def _list(dumper: yaml.SafeDumper, value: list[Json]) -> yaml.SequenceNode:
    small = not value or not any(isinstance(v, dict | list) for v in value)
    return dumper.represent_sequence(
        "tag:yaml.org,2002:seq", value, flow_style=isinstance(dumper, _FlowDumper) or small
    )


for _dumper in (_Dumper, _FlowDumper):
    _dumper.add_representer(str, _text)
    _dumper.add_representer(dict, _map)
    _dumper.add_representer(list, _list)

_ENDLESS = 2**31


def block(value: Json) -> str:
    """Return a document as YAML over several lines; small maps and plain lists stand on one line."""
    return yaml.dump(value, Dumper=_Dumper, allow_unicode=True, sort_keys=False, width=_ENDLESS)


def flow(value: Json) -> str:
    """Return any value as YAML on one line that may stand in a block, a map or a list."""
    text = yaml.dump([value], Dumper=_FlowDumper, allow_unicode=True, sort_keys=False, width=_ENDLESS)
    return text.strip()[1:-1]
