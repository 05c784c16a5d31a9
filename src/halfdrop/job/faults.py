"""What is wrong with a document, in our voice: every fault at once, with its line, its path and a way out."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from jsonpointer import escape
from pydantic import ValidationError

from halfdrop.base.errors import At, InputError, InputErrors, did_you_mean
from halfdrop.base.notation import shown
from halfdrop.job import kinds, limits
from halfdrop.job.model import Job
from halfdrop.job.scalars import Json
from halfdrop.job.trade_words import NUMBER_HINTS, TRADE_WORDS

Path = tuple[str | int, ...]

#: How to write what a pattern of the schema wants.
PATTERN_HINTS = {
    r"^[a-z0-9][a-z0-9_-]{0,39}$": "an id has small letters, digits, - and _, at most 40",
    r"^[A-Z][0-9]{0,2}$": "a corner is a capital letter, then up to two digits: A, B, A1",
    r"^[A-Z][0-9]{0,2}[A-Z][0-9]{0,2}$": "write two corners, the one measured from first: AB",
    r"^\d{4}-\d{2}-\d{2}$": "write the date as 2026-04-01",
    r"^[A-Z]{3}$": "write the currency's three letters: USD, EUR",
    r"^#[0-9a-fA-F]{6}$": "write a color as six hex digits: '#8a9a5b', between quotes",
    r"^[3-8][0-9]{2}$": "write a wavelength in nanometers, 300 to 899: 450",
    r"^(openings|fittings|pieces|art)/[a-z0-9_-]+$": "name a thing of the room: openings/window-1",
}


@dataclass(frozen=True)
class _Fault:
    path: Path
    tags: tuple[tuple[int, str], ...]
    kind: str
    text: str
    context: Mapping[str, Any]
    value: Json


def schema_faults(
    error: ValidationError, document: Json, lines: Mapping[str, int], name: str | None
) -> InputErrors:
    """Translate what the schema found.

    Parameters
    ----------
    error : ValidationError
        From validating `document` as a job.
    document : dict
        The plain document.
    lines : mapping of str to int
        Line by JSON pointer; where a path has none, its nearest known ancestor's counts.
    name : str, optional
        The file.

    Returns
    -------
    InputErrors
        In the order of the lines, at most `limits.FAULTS`.
    """
    found = [_fault(e) for e in error.errors(include_url=False)[: 20 * limits.FAULTS]]
    errors = [_told(fault, document, lines, name) for fault in _chosen(found, document)]
    errors = list({(e.message, str(e.at)): e for e in errors}.values())
    errors.sort(key=lambda e: (e.at.line or 0) if e.at else 0)
    hint = None
    if len(errors) > limits.FAULTS:
        hint = f"{len(errors) - limits.FAULTS} more faults are not listed"
    return InputErrors(errors[: limits.FAULTS], at=At(name), hint=hint)


def pointer(path: Path) -> str:
    """Return the JSON pointer of a path."""
    return "".join(f"/{escape(str(key))}" for key in path)


def line_of(path: Path, lines: Mapping[str, int]) -> int | None:
    """Return the line of a path or of its nearest known ancestor."""
    for end in range(len(path), -1, -1):
        line = lines.get(pointer(path[:end]))
        if line is not None:
            return line
    return None


def _fault(error: Any) -> _Fault:
    """Take the validator's own tags (of unions and keys) out of the path."""
    kind: Any = Job
    path: list[str | int] = []
    tags: list[tuple[int, str]] = []
    tagged = False
    for key in error["loc"]:
        if kind is not None and kinds.branches(kind) and not tagged:
            tags.append((len(path), str(key)))
            kind, tagged = kinds.branch(kind, str(key)), True
        elif key != "[key]":
            path.append(key)
            kind, tagged = (kinds.below(kind, key) if kind is not None else None), False
    context = error.get("ctx") or {}
    return _Fault(tuple(path), tuple(tags), error["type"], error["msg"], context, error["input"])


def _chosen(found: list[_Fault], document: Json) -> list[_Fault]:
    """Keep, where a value may be several things, the faults of the one it is nearest to."""
    groups: dict[Path, dict[str, list[_Fault]]] = {}
    kept: list[_Fault] = []
    for fault in found:
        if fault.tags:
            depth, tag = fault.tags[0]
            groups.setdefault(fault.path[:depth], {}).setdefault(tag, []).append(fault)
        else:
            kept.append(fault)
    for path, by_tag in groups.items():
        kept += min((_distance(path, faults), i, faults) for i, faults in enumerate(by_tag.values()))[2]
    return kept


def _distance(path: Path, faults: list[_Fault]) -> tuple[bool, bool, int]:
    whole = [fault for fault in faults if fault.path == path]
    wrong_kind = any(fault.kind == "model_type" for fault in whole)
    is_map = isinstance(whole[0].value, dict) if whole else False
    return wrong_kind, is_map, len(faults)


def _told(fault: _Fault, document: Json, lines: Mapping[str, int], name: str | None) -> InputError:
    path, text = fault.path, fault.text
    if fault.kind in _CUSTOM:
        path, text = _deeper(path, text, document)
    label = "/".join(str(key) for key in path[-2:]) or "the document"
    colon = "" if path != fault.path else ":"
    teller = _TELLERS.get(fault.kind)
    message, hint = (
        teller(label, fault) if teller else (f"`{label}`{colon} {text[:1].lower()}{text[1:]}", None)
    )
    if hint is None:
        hint = str(fault.context.get("hint") or "") or None
    place = At(name, line_of(path, lines), shown("/".join(str(key) for key in path), 300) or None)
    return InputError(shown(message, 300), at=place, hint=hint)


_CUSTOM = ("survey", "opening", "fitting", "room", "passage", "fabric", "treatment", "job", "paper", "finish")


def _deeper(path: Path, text: str, document: Json) -> tuple[Path, str]:
    """Follow a message that begins with a path below its part: `walls/AX names corner X`."""
    for key in path:
        document = document[key]
    first, _, rest = text.partition(" ")
    steps = first.strip("`").split("/")
    for step in steps:
        if not isinstance(document, dict) or step not in document:
            return path, text
        document = document[step]
    return (*path, *steps), rest


def what(value: Json) -> str:
    """Return what a value of the document is, in words."""
    if value is None:
        return "empty"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict | list):
        return "a map" if isinstance(value, dict) else "a list"
    return f"`{shown(str(value))}`"


def _missing(label: str, fault: _Fault) -> tuple[str, str | None]:
    return f"`{label}` is missing", None


def _unknown(label: str, fault: _Fault) -> tuple[str, str | None]:
    key = str(fault.path[-1])
    known = _keys_there(fault)
    return f"`{shown(label)}` is not known", did_you_mean(key, known)


def _keys_there(fault: _Fault) -> list[str]:
    kind = kinds.kind_at(fault.path[:-1])
    for depth, tag in fault.tags:
        if depth == len(fault.path) - 1:
            kind = kinds.branch(kind, tag) or kind
    return kinds.keys_of(kind)


def _word(label: str, fault: _Fault) -> tuple[str, str | None]:
    known = re.findall(r"'((?:[^'\\]|\\.)*)'", str(fault.context.get("expected", "")))
    if not known:
        return f"`{label}` is {what(fault.value)}; allowed is {fault.context.get('expected')}", None
    ours = TRADE_WORDS.get(str(fault.value).lower().replace("-", " ").replace("_", " "))
    hint = f"write `{ours}`" if ours in known else did_you_mean(str(fault.value), known)
    return f"`{label}` is {what(fault.value)}, which is not known there", hint


def _pattern(label: str, fault: _Fault) -> tuple[str, str | None]:
    wanted = str(fault.context.get("pattern", ""))
    hint = PATTERN_HINTS.get(wanted, f"allowed is {wanted}")
    if re.match(r"[0-9]+ ?(m|cm|mm)?$", str(fault.value)) and "A-Z" in wanted:
        hint = "between braces a comma begins the next entry: write 3.6 m with a point, or quote it: '3,6 m'"
    slug = re.sub(r"[^a-z0-9]+", "-", str(fault.value).lower()).strip("-")[:40]
    if slug and wanted == next(iter(PATTERN_HINTS)):
        hint += f"; write `{slug}`"
    return f"`{label}` is {what(fault.value)}, which cannot be read", hint


def _kind(wanted: str, hint: str | None = None) -> Callable[[str, _Fault], tuple[str, str | None]]:
    def tell(label: str, fault: _Fault) -> tuple[str, str | None]:
        quote = (
            f'write "{shown(str(fault.value))}"' if wanted == "a text" and _is_number(fault.value) else hint
        ) or _written(fault, wanted)
        return f"`{label}` is {what(fault.value)}; wanted is {wanted}", quote

    return tell


def _written(fault: _Fault, wanted: str = "a number") -> str | None:
    """Return how to write a number that is often written otherwise."""
    return NUMBER_HINTS.get(str(fault.path[-1])) if wanted == "a number" and fault.path else None


def _is_number(value: Json) -> bool:
    return isinstance(value, int | float)


def _quantity(label: str, fault: _Fault) -> tuple[str, str | None]:
    if "got" not in fault.context:
        return f"`{label}`: {fault.text}", None
    wanted, example = fault.context["what"], fault.context["example"]
    return f"`{label}` is {what(fault.value)}; wanted is {wanted}", f"write it as text, such as {example}"


def _part(label: str, fault: _Fault) -> tuple[str, str | None]:
    keys = kinds.keys_of(kinds.kind_at(fault.path))
    return (
        f"`{label}` is {what(fault.value)}; wanted is a map",
        f"its keys are {', '.join(keys)}" if keys else None,
    )


def _bound(words: str, key: str) -> Callable[[str, _Fault], tuple[str, str | None]]:
    def tell(label: str, fault: _Fault) -> tuple[str, str | None]:
        allowed = f"{words} {fault.context.get(key)} is allowed"
        return f"`{label}` is {what(fault.value)}; {allowed}", _written(fault)

    return tell


def _count(unit: str, words: str, key: str) -> Callable[[str, _Fault], tuple[str, str | None]]:
    def tell(label: str, fault: _Fault) -> tuple[str, str | None]:
        allowed = f"{words} {fault.context.get(key)} are allowed"
        return f"`{label}` has {len(fault.value)} {unit}; {allowed}", None

    return tell


_TELLERS: dict[str, Callable[[str, _Fault], tuple[str, str | None]]] = {
    "missing": _missing,
    "extra_forbidden": _unknown,
    "literal_error": _word,
    "string_pattern_mismatch": _pattern,
    "quantity": _quantity,
    "string_type": _kind("a text"),
    "int_type": _kind("a whole number"),
    "int_parsing": _kind("a whole number"),
    "int_parsing_size": _kind("a whole number"),
    "int_from_float": _kind("a whole number"),
    "float_type": _kind("a number"),
    "float_parsing": _kind("a number"),
    "bool_type": _kind("true or false"),
    "bool_parsing": _kind("true or false"),
    "list_type": _kind("a list"),
    "dict_type": _kind("a map"),
    "model_type": _part,
    "model_attributes_type": _part,
    "greater_than_equal": _bound("at least", "ge"),
    "less_than_equal": _bound("at most", "le"),
    "greater_than": _bound("more than", "gt"),
    "less_than": _bound("less than", "lt"),
    "string_too_long": _count("characters", "at most", "max_length"),
    "string_too_short": _count("characters", "at least", "min_length"),
    "too_long": _count("entries", "at most", "max_length"),
    "too_short": _count("entries", "at least", "min_length"),
}
