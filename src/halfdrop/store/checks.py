"""What may come into the store: bounded, and such that it can be written to a file and read again."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.job import limits
from halfdrop.job.patch import Patch
from halfdrop.job.scalars import Json
from halfdrop.store.errors import TooLarge

#: Characters of an author's name, of a message, of a sender's mark.
AUTHOR, MESSAGE, CHANGE = 120, 500, 64
#: Operations of one patch.
OPERATIONS = 5_000

_MEMBERS = ("op", "path", "from", "value", "before")


def line(text: str, what: str, most: int) -> str:
    """Return a text that fits one line of the history: blanks at the ends gone.

    Raises
    ------
    InputError
        Where it is empty, longer than `most`, or holds what no file can.
    """
    text = text.strip()
    if not text:
        raise InputError(f"the {what} is empty", hint=f"give a {what}")
    if len(text) > most:
        raise TooLarge(f"the {what} has {len(text)} characters; at most {most} are kept")
    _writable(text)
    return text


def said(author: str, message: str) -> tuple[str, str]:
    """Return an author and a message, each as `line` makes it."""
    return line(author, "author", AUTHOR), line(message, "message", MESSAGE)


def patch_in(patch: Patch) -> list[dict[str, Any]]:
    """Return a patch with the members that RFC 6902 knows (and our `before`), and no others.

    Raises
    ------
    InputError
        Where it is empty or holds what no file can.
    TooLarge
        Where it has too many operations or too much in them.
    """
    if not patch:
        raise InputError("the patch is empty", hint="send at least one operation")
    if len(patch) > OPERATIONS:
        raise TooLarge(f"the patch has {len(patch)} operations; at most {OPERATIONS} are kept")
    if not all(isinstance(op, Mapping) for op in patch):
        raise InputError("an operation is a map", hint='write {"op": "replace", "path": "/…", "value": …}')
    taken = [{name: op[name] for name in _MEMBERS if name in op} for op in patch]
    fits(taken)
    return taken


def fits(value: Json) -> None:
    """Check that a value can be written to a job file and read again.

    Raises
    ------
    InputError
        Where it holds what JSON cannot say, or a text that no file can hold.
    TooLarge
        Where it exceeds `job.limits`.
    """
    nodes = characters = 0
    waiting = [(value, 0)]
    while waiting:
        item, depth = waiting.pop()
        nodes += 1
        if isinstance(item, str):
            characters += len(item)
            if len(item) > limits.TEXT:
                raise TooLarge(f"a text has {len(item)} characters; at most {limits.TEXT} are kept")
            _writable(item)
        elif isinstance(item, dict | list):
            if depth >= limits.DEPTH:
                raise TooLarge(f"maps and lists stand more than {limits.DEPTH} deep in each other")
            if isinstance(item, dict):
                nodes += len(item)
                for key in item:
                    if not isinstance(key, str):
                        raise InputError("a key is no text", hint="write keys as texts")
                    characters += len(key)
                    _writable(key)
            waiting.extend(
                (inner, depth + 1) for inner in (item.values() if isinstance(item, dict) else item)
            )
        elif isinstance(item, float) and not math.isfinite(item):
            raise InputError(f"{item} is no number that JSON can say")
        elif isinstance(item, int) and abs(item) >= 10 ** (limits.NUMBER - 1):
            raise TooLarge(f"a number has more than {limits.NUMBER} digits")
        elif not (item is None or isinstance(item, bool | int | float)):
            raise InputError(f"a {type(item).__name__} is nothing that JSON can say")
        if nodes > limits.NODES or characters > limits.CHARACTERS:
            raise TooLarge(f"there are more than {limits.NODES:,} keys and values, the most that are kept")


def _writable(text: str) -> None:
    if "\0" in text or (not text.isprintable() and any("\ud800" <= c <= "\udfff" for c in text)):
        raise InputError(
            "a text holds a NUL or half a character (a lone surrogate)", hint="take the character out"
        )


def packed(value: Json) -> str:
    """Return a value as the shortest JSON, keys in their order."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
