"""From events to a tree of nodes that know their place in the text, within the limits on size.

A tree serves twice: its plain values are the document, its places are where faults are reported and where a
changed value is written back.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from jsonpointer import escape

from halfdrop.base.errors import At, InputError
from halfdrop.base.notation import shown
from halfdrop.job import limits
from halfdrop.job.events import Event
from halfdrop.job.scalars import Json, resolve

_HALF = re.compile("[\ud800-\udfff]")
_TAGS = {"map": "tag:yaml.org,2002:map", "seq": "tag:yaml.org,2002:seq", "scalar": "tag:yaml.org,2002:str"}


@dataclass(slots=True)
class Node:
    """One value in the text, or an alias of one.

    Attributes
    ----------
    kind : {"map", "seq", "scalar", "alias"}
        What it is.
    line : int
        Its first line, from 1.
    start, end : int
        Its characters in the text (those of a block collection end where the next token begins).
    value : str, int, float, bool or None
        What a scalar stands for.
    keys, items : list of Node
        Entries in the order of the text; `keys` only of a map.
    target : Node, optional
        What an alias stands for.
    style, flow, anchor, tagged
        How it is written.
    size, height, characters : int
        Nodes in it, depth below it, characters of its texts; aliases count as what they stand for.
    """

    kind: Literal["map", "seq", "scalar", "alias"]
    line: int
    start: int
    end: int
    value: str | int | float | bool | None = None
    keys: list[Node] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)
    target: Node | None = None
    style: str = ""
    flow: bool = False
    anchor: str | None = None
    tagged: bool = False
    size: int = 1
    height: int = 0
    characters: int = 0


def plain(node: Node) -> Json:
    """Return the JSON-compatible value of a node; aliases become copies of what they stand for."""
    if node.kind == "alias" and node.target is not None:
        return plain(node.target)
    if node.kind == "map":
        return {str(key.value): plain(item) for key, item in zip(node.keys, node.items, strict=True)}
    if node.kind == "seq":
        return [plain(item) for item in node.items]
    return node.value


def lines(root: Node) -> dict[str, int]:
    """Return the line of every value by its JSON pointer; what stands in an alias has the alias's line."""
    found: dict[str, int] = {}

    def walk(node: Node, pointer: str, line: int) -> None:
        found[pointer] = line
        for i, item in enumerate(node.items):
            key = node.keys[i] if node.kind == "map" else None
            name = escape(str(key.value)) if key else str(i)
            walk(item, f"{pointer}/{name}", key.line if key else item.line)

    walk(root, "", root.line)
    return found


class _Composer:
    def __init__(self, name: str) -> None:
        self.name = name
        self.open: list[Node] = []
        self.anchors: dict[str, Node] = {}
        self.known: list[dict[str, int]] = []
        self.root: Node | None = None
        self.size = 0
        self.characters = 0

    def fault(self, message: str, line: int, hint: str | None = None) -> InputError:
        parts = [self._here(node) for node in self.open]
        path = shown("/".join(part for part in parts if part), 300)
        return InputError(message, at=At(self.name, line, path or None), hint=hint)

    def _here(self, node: Node) -> str:
        if node.kind == "seq":
            return str(len(node.items))
        return str(node.keys[-1].value) if len(node.keys) > len(node.items) else ""

    def take(self, event: Event) -> None:
        """Take one event into the tree."""
        if event.kind == "end":
            self._close(event)
            return
        node = self._alias(event) if event.kind == "alias" else self._node(event)
        self.size += node.size
        self.characters += node.characters
        self._check(node, event)
        if self._is_key():
            self._add_key(node, event)
        elif self.open:
            self.open[-1].items.append(node)
        else:
            self.root = node
        if node.kind in ("map", "seq"):
            self.open.append(node)
            self.known.append({})

    def _is_key(self) -> bool:
        top = self.open[-1] if self.open else None
        return top is not None and top.kind == "map" and len(top.keys) == len(top.items)

    def _check(self, node: Node, event: Event) -> None:
        if self.size > limits.NODES:
            fault = f"more than {limits.NODES} values, aliases counted in full"
            raise self.fault(fault, event.line)
        if self.characters > limits.CHARACTERS:
            fault = f"more than {limits.CHARACTERS} characters, aliases counted in full"
            raise self.fault(fault, event.line)
        depth = len(self.open) + node.height + (node.kind in ("map", "seq"))
        if depth > limits.DEPTH:
            raise self.fault(f"maps and lists are nested more than {limits.DEPTH} deep", event.line)

    def _close(self, event: Event) -> None:
        node = self.open.pop()
        self.known.pop()
        if node.flow:
            node.end = event.end
        else:
            node.end = node.items[-1].end if node.items else node.end
        entries = node.keys + node.items
        node.size += sum(entry.size for entry in entries)
        node.characters += sum(entry.characters for entry in entries)
        node.height = max((item.height + (item.kind in ("map", "seq")) for item in node.items), default=0)

    def _alias(self, event: Event) -> Node:
        target = self.anchors.get(event.anchor or "")
        if target is None:
            raise self.fault(f"alias `*{event.anchor}` has no anchor above it", event.line)
        if any(node is target for node in self.open):
            raise self.fault(f"alias `*{event.anchor}` stands inside its own anchor", event.line)
        node = Node("alias", event.line, event.start, event.end, target.value, target=target)
        node.size, node.characters = target.size, target.characters
        node.height = target.height + (target.kind in ("map", "seq"))
        return node

    def _node(self, event: Event) -> Node:
        if event.tag not in (None, "!", _TAGS[event.kind]):
            raise self.fault(f"tag `{shown(event.tag or '')}` is not read", event.line, "remove the tag")
        node = Node(event.kind, event.line, event.start, event.end, style=event.style, flow=event.flow)  # type: ignore[arg-type]
        node.anchor, node.tagged = event.anchor, event.tag is not None
        if event.anchor:
            self.anchors[event.anchor] = node
        if event.kind == "scalar":
            self._scalar(node, event)
        return node

    def _scalar(self, node: Node, event: Event) -> None:
        if len(event.value) > limits.TEXT:
            fault = f"a text has {len(event.value)} characters; at most {limits.TEXT} are read"
            raise self.fault(fault, event.line)
        if not event.value.isascii() and _HALF.search(event.value):
            raise self.fault("a text holds half a character (a lone surrogate)", event.line)
        node.characters = len(event.value)
        if event.style or event.tag:
            node.value = event.value
            return
        try:
            node.value = resolve(event.value)
        except ValueError as error:
            hint = "write it in quotes where it is a text"
            raise self.fault(f"`{shown(event.value)}` {error}", event.line, hint) from None

    def _add_key(self, node: Node, event: Event) -> None:
        if node.kind in ("map", "seq") or (node.target and node.target.kind != "scalar"):
            raise self.fault("a key is a map or a list; a key is a text", event.line)
        if not isinstance(node.value, str):
            word = shown(event.value)
            raise self.fault(f"key `{word}` is not a text", event.line, f'write "{word}"')
        if node.value == "<<" and not event.style:
            hint = "write the keys out, or use an alias"
            raise self.fault("merge keys (`<<`) are not read", event.line, hint)
        if node.value in self.known[-1]:
            first = self.known[-1][node.value]
            fault = f"key `{shown(node.value)}` comes twice, first on line {first}"
            raise self.fault(fault, event.line, "keep one of them")
        self.known[-1][node.value] = event.line
        self.open[-1].keys.append(node)


def compose(events: Iterable[Event], name: str) -> Node:
    """Build the tree of a text.

    Parameters
    ----------
    events : iterable of Event
        What `yaml_events` or `json_events` yields.
    name : str
        The file's name, for messages.

    Raises
    ------
    InputError
        Where a limit is passed, a key comes twice or is no text, an alias has no anchor, a number is not
        finite, or the text is empty.
    """
    composer = _Composer(name)
    for event in events:
        composer.take(event)
    if composer.root is None:
        raise InputError("the file is empty", at=At(name), hint="run `halfdrop new` to begin a job")
    return composer.root


def walk(node: Node) -> Iterator[Node]:
    """Yield a node and all nodes in it, aliases themselves but not what they stand for."""
    yield node
    for item in node.items:
        yield from walk(item)
