"""The events of a YAML or a JSON text: maps and lists begin and end, scalars stand between."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Literal, NamedTuple

import yaml

from halfdrop.base.errors import At, InputError
from halfdrop.base.notation import shown

_Loader: type = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Event(NamedTuple):
    """One event, with its place in the text: line from 1, characters from 0 to before `end`."""

    kind: Literal["map", "seq", "end", "scalar", "alias"]
    line: int
    start: int
    end: int
    value: str = ""
    anchor: str | None = None
    tag: str | None = None
    style: str = ""
    flow: bool = False


_HINTS = (
    ("cannot start any token", "quote a text that begins with a special sign; indent with spaces"),
    ("mapping values are not allowed", "put a text that holds `: ` in quotes, and check the indentation"),
    ("could not find expected ':'", "write each entry as `key: value`"),
    ("block mapping", "check the indentation of this line and the one above it"),
    ("block collection", "check the indentation of this line and the one above it"),
    ("unexpected end of stream", "close the quotation mark or bracket opened above"),
)


def yaml_events(text: str, name: str) -> Iterator[Event]:
    """Yield the events of one YAML document.

    Raises
    ------
    InputError
        Where the text is not YAML, holds several documents, or uses directives other than %YAML.
    """
    directive = re.search(r"^%(?!YAML\b).*", text, re.MULTILINE)
    if directive:
        line = text.count("\n", 0, directive.start()) + 1
        fault = f"directive `{shown(directive[0])}` is not read"
        raise InputError(fault, at=At(name, line), hint="remove the line")
    documents = 0
    try:
        for event in yaml.parse(text, Loader=_Loader):
            documents += isinstance(event, yaml.DocumentStartEvent)
            if documents > 1:
                fault = "the file holds several documents"
                raise InputError(fault, at=At(name, _place(event)[0]), hint="keep one job a file")
            ours = _event(event)
            if ours:
                yield ours
    except yaml.YAMLError as error:
        raise _unreadable(error, text, name) from None


def _place(event: yaml.Event) -> tuple[int, int, int]:
    first, last = event.start_mark, event.end_mark
    return (first.line + 1, first.index, last.index) if first and last else (1, 0, 0)


def _event(event: yaml.Event) -> Event | None:
    line, start, end = _place(event)
    if isinstance(event, yaml.ScalarEvent):
        style = event.style or ""
        return Event("scalar", line, start, end, event.value, event.anchor, event.tag, style)
    if isinstance(event, yaml.AliasEvent):
        return Event("alias", line, start, end, anchor=event.anchor)
    if isinstance(event, yaml.CollectionStartEvent):
        kind: Literal["map", "seq"] = "map" if isinstance(event, yaml.MappingStartEvent) else "seq"
        return Event(kind, line, start, end, "", event.anchor, event.tag, "", bool(event.flow_style))
    if isinstance(event, yaml.CollectionEndEvent):
        return Event("end", line, start, end)
    return None


def _unreadable(error: yaml.YAMLError, text: str, name: str) -> InputError:
    problem = str(getattr(error, "problem", None) or getattr(error, "reason", None) or "unreadable")
    mark = getattr(error, "problem_mark", None)
    line = mark.line + 1 if mark else None
    position = getattr(error, "position", None)
    if line is None and isinstance(position, int):
        line = text.encode().count(b"\n", 0, position) + 1
    hint = next((hint for words, hint in _HINTS if words in problem), None)
    return InputError(f"cannot be read as YAML: {shown(problem)}", at=At(name, line), hint=hint)


_BLANK = re.compile(r"[ \t\r\n]*")
_ATOM = re.compile(
    r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?(?![0-9A-Za-z.])|(?:true|false|null)\b"
)


class _Json:
    """A cursor over a JSON text. Source: RFC 8259; the strings are read by Python's own decoder."""

    def __init__(self, text: str, name: str) -> None:
        self.text, self.name = text, name
        self.spot, self.line, self._counted = 0, 1, 0

    def fault(self, wanted: str) -> InputError:
        found = self.text[self.spot : self.spot + 20]
        instead = f"at `{shown(found)}`" if found else "at its end"
        fault = f"cannot be read as JSON: {instead}; wanted is {wanted}"
        return InputError(fault, at=At(self.name, self.line))

    def peek(self) -> str:
        """Skip blanks and return the next character, or nothing at the end."""
        match = _BLANK.match(self.text, self.spot)
        self.spot = match.end() if match else self.spot
        self.line += self.text.count("\n", self._counted, self.spot)
        self._counted = self.spot
        return self.text[self.spot : self.spot + 1]

    def sign(self) -> Event:
        """Take a bracket."""
        kinds: dict[str, Literal["map", "seq", "end"]] = {"{": "map", "[": "seq", "}": "end", "]": "end"}
        self.spot += 1
        return Event(kinds[self.text[self.spot - 1]], self.line, self.spot - 1, self.spot, flow=True)

    def key(self) -> Event:
        """Take a key and the colon after it."""
        if self.peek() != '"':
            raise self.fault("a key in double quotes")
        event = self.scalar()
        if self.peek() != ":":
            raise self.fault("`:` after the key")
        self.spot += 1
        return event

    def scalar(self) -> Event:
        """Take a string, a number, true, false or null."""
        start = self.spot
        if self.text.startswith('"', start):
            try:
                value, self.spot = json.decoder.scanstring(self.text, start + 1, True)  # type: ignore[attr-defined]
            except ValueError:
                raise self.fault("a string closed on its line, with known escapes") from None
            return Event("scalar", self.line, start, self.spot, value, style='"', flow=True)
        atom = _ATOM.match(self.text, start)
        if atom is None:
            raise self.fault("a value")
        self.spot = atom.end()
        return Event("scalar", self.line, start, self.spot, atom[0], flow=True)


def json_events(text: str, name: str) -> Iterator[Event]:
    """Yield the events of one JSON text, as those of YAML's flow style.

    Raises
    ------
    InputError
        Where the text is not strict JSON.
    """
    at = _Json(text, name)
    closers: list[str] = []
    state = "wanted"
    while (char := at.peek()) or closers or state != "done":
        closer = closers[-1] if closers else ""
        if char and char == closer and state in ("opened", "done"):
            yield at.sign()
            closers.pop()
            state = "done"
        elif state == "done":
            if char != "," or not closers:
                raise at.fault(f"`,` or `{closer}`" if closers else "the end of the file")
            at.spot += 1
            state = "wanted"
        else:
            if closer == "}":
                yield at.key()
                char = at.peek()
            if char and char in "{[":
                yield at.sign()
                closers.append("}" if char == "{" else "]")
                state = "opened"
            else:
                yield at.scalar()
                state = "done"
