"""Places in a document: JSON pointers (RFC 6901), and what stands there.

Source: RFC 6901.
Checked by: tests/job/test_patch.py
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from jsonpointer import JsonPointer, JsonPointerException, escape

from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.base.notation import shown
from halfdrop.job.scalars import Json

Op = Mapping[str, Any]
Patch = Sequence[Op]
Steps = tuple[str, ...]


def steps_of(pointer: str) -> Steps:
    """Return the keys of a JSON pointer.

    Raises
    ------
    InputError
        Where it is no JSON pointer.
    """
    try:
        return tuple(JsonPointer(pointer).parts)
    except JsonPointerException:
        hint = "begin a path with `/`; write `~1` for `/` and `~0` for `~` in a key"
        raise InputError(f"`{shown(pointer)}` is not a path", hint=hint) from None


def pointer_of(steps: Sequence[str | int]) -> str:
    """Return the JSON pointer of some keys."""
    return "".join(f"/{escape(str(step))}" for step in steps)


def child(value: Json, step: str, steps: Steps) -> Json:
    """Return what stands under one step of a value at `steps`.

    Raises
    ------
    InputError
        Where nothing does; the hint has a near match.
    """
    if isinstance(value, list):
        return value[index(value, step, steps)]
    if not isinstance(value, dict):
        raise no_container(value, steps)
    if step not in value:
        where = f"`{'/'.join(steps)}`" if steps else "the document"
        raise InputError(f"{shown(where, 200)} has no `{shown(step)}`", hint=did_you_mean(step, value))
    return value[step]


def index(items: list[Json], step: str, steps: Steps, *, end: bool = False) -> int:
    """Return the place a step means in a list; with `end`, the place after the last item counts.

    Raises
    ------
    InputError
        Where it is no place of the list.
    """
    if end and step == "-":
        return len(items)
    if not (step.isascii() and step.isdigit()) or (step != "0" and step.startswith("0")):
        raise InputError(f"`{shown('/'.join(steps))}` is a list; `{shown(step)}` is no place in it")
    most = len(items) - (0 if end else 1)
    if len(step) > 9 or int(step) > most:
        raise InputError(
            f"`{shown('/'.join(steps))}` has {len(items)} items; there is no place {shown(step)}"
        )
    return int(step)


def no_container(value: Json, steps: Steps) -> InputError:
    """Return the error for a step into a value that is neither map nor list."""
    where = f"`{shown('/'.join(steps), 200)}`" if steps else "the document"
    return InputError(f"{where} is {said(value)}, which has nothing in it")


def said(value: Json) -> str:
    """Return a value for a message."""
    if isinstance(value, dict | list):
        return f"a {'map' if isinstance(value, dict) else 'list'} of {len(value)}"
    return f"`{shown(str(value))}`" if value is not None else "null"


def equal(a: Json, b: Json) -> bool:
    """Return whether two JSON values are equal by RFC 6902, section 4.6: `1` is `1.0`, but not `true`."""
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(equal(value, b[key]) for key, value in a.items())
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(equal, a, b))
    return isinstance(a, bool) == isinstance(b, bool) and bool(a == b)
