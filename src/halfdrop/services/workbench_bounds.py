"""What comes in from a browser, held to bounds before anything is done with it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.job import limits
from halfdrop.job.patch import apply

#: Most operations in one patch.
OPERATIONS = 2000


def check_value(value: Any) -> int:
    """Check a value read from JSON: how deep, how much, only finite numbers, whole characters.

    Returns
    -------
    int
        How many keys and values it holds.

    Raises
    ------
    InputError
        Where a bound of `job.limits` is passed, or a number or a text cannot be written back.
    """
    nodes = 0
    characters = 0
    level: list[Any] = [value]
    depth = 0
    while level:
        depth += 1
        if depth > limits.DEPTH:
            raise InputError(f"maps and lists stand deeper than {limits.DEPTH} in each other")
        nodes += len(level)
        below: list[Any] = []
        for item in level:
            if isinstance(item, Mapping):
                for key in item:
                    characters += _text(key)
                below.extend(item.values())
            elif isinstance(item, list):
                below.extend(item)
            elif isinstance(item, str):
                characters += _text(item)
            elif isinstance(item, float) and not math.isfinite(item):
                raise InputError("a number is not finite", hint="JSON has no NaN and no Infinity")
            elif isinstance(item, int) and abs(item) >= 10**limits.NUMBER:
                raise InputError(f"a number has more than {limits.NUMBER} digits")
        if nodes + len(below) > limits.NODES:
            raise InputError(f"more than {limits.NODES} keys and values")
        if characters > limits.CHARACTERS:
            raise InputError(f"more than {limits.CHARACTERS} characters of text")
        level = below
    return nodes


def _text(text: str) -> int:
    if len(text) > limits.TEXT:
        raise InputError(f"a text has {len(text)} characters; at most {limits.TEXT} are read")
    try:
        text.encode()
    except UnicodeEncodeError:
        raise InputError("a text holds half a character (a lone surrogate)") from None
    if "\x00" in text:
        raise InputError("a text holds a zero character")
    return len(text)


def check_patch(patch: Any) -> list[dict[str, Any]]:
    """Check that a value is a list of operations within bounds; what they do is checked when they are applied.

    Raises
    ------
    InputError
        Where it is not.
    """
    if not isinstance(patch, list):
        raise InputError("a patch is a list of operations", hint='write [{"op": "replace", "path": "/…", "value": …}]')
    if len(patch) > OPERATIONS:
        raise InputError(f"the patch has {len(patch)} operations; at most {OPERATIONS} are read")
    if not patch:
        raise InputError("the patch is empty", hint="send at least one operation")
    check_value(patch)
    for i, op in enumerate(patch, 1):
        if not isinstance(op, Mapping):
            raise InputError(f"operation {i} of {len(patch)}: an operation is a map")
    return patch


def apply_bounded(document: dict[str, Any], patch: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Apply a patch, watching that copies do not swell the document: each may double it, and forty a world.

    Raises
    ------
    InputError
        As `job.patch.apply`, and where the document grows past `job.limits`.
    """
    if not any(op.get("op") == "copy" for op in patch):
        return _map(apply(document, patch))
    for i, op in enumerate(patch, 1):
        document = _map(apply(document, [op]))
        if op.get("op") == "copy":
            try:
                check_value(document)
            except InputError as error:
                raise InputError(f"operation {i} of {len(patch)} (`copy`): {error.message}") from None
    return document


def _map(document: Any) -> dict[str, Any]:
    if not isinstance(document, dict):
        raise InputError("a job is a map; the patch puts another thing in its place")
    return document
