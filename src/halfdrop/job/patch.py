"""Patches on the document: JSON Patch (RFC 6902), applied to a copy of the touched branches only.

A document is never changed in place: `apply` returns a new one that shares every untouched branch with the
old, so it costs what the patch touches, not what the job holds. `inverse` undoes a patch exactly, order of
keys included: where a removed key has to come back among others, its `add` carries the member `before`, the
key it stands before. RFC 6902 (section 4) lets other readers pass over a member they do not know.

Source: RFC 6902 (operations), RFC 6901 (pointers).
Checked by: tests/job/test_patch.py, against an independent implementation.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.base.notation import shown
from halfdrop.job import limits
from halfdrop.job.conflicts import conflicts, touched
from halfdrop.job.diff import diff
from halfdrop.job.places import (
    Op,
    Patch,
    Steps,
    child,
    equal,
    index,
    no_container,
    pointer_of,
    said,
    steps_of,
)
from halfdrop.job.same import copied
from halfdrop.job.scalars import Json

__all__ = ["Op", "Patch", "apply", "conflicts", "diff", "inverse", "pointer_of", "steps_of", "touched"]

_NEEDS = {
    "add": ("path", "value"),
    "remove": ("path",),
    "replace": ("path", "value"),
    "move": ("from", "path"),
    "copy": ("from", "path"),
    "test": ("path", "value"),
}


@dataclass(frozen=True)
class _Call:
    """One operation, checked and taken apart."""

    op: str
    path: Steps
    source: Steps
    value: Json
    before: str | None


def apply(document: Json, patch: Patch) -> Json:
    """Return the patched document; the input stays as it is and shares untouched branches with the result.

    Parameters
    ----------
    document : dict
        Plain and JSON-compatible.
    patch : sequence of mappings
        Operations of RFC 6902, done in order.

    Raises
    ------
    InputError
        Where an operation is malformed, cannot be done, or a `test` fails; it names the operation, the path
        and a near match of a key that is not there.
    """
    state = _State(document)
    for i, op in enumerate(patch):
        with _numbered(i, len(patch), op):
            state.do(_call(op))
    return state.document


def inverse(document: Json, patch: Patch) -> list[dict[str, Any]]:
    """Return the patch that undoes `patch` on `document`: `apply(apply(d, p), inverse(d, p))` is `d` again.

    Raises
    ------
    InputError
        As `apply`.
    """
    state = _State(document)
    undo: list[dict[str, Any]] = []
    for i, op in enumerate(patch):
        with _numbered(i, len(patch), op):
            undo.extend(reversed(state.undoing(_call(op))))
    undo.reverse()
    return undo


@contextmanager
def _numbered(number: int, count: int, op: Any) -> Iterator[None]:
    """Put the operation's number, name and path into any error."""
    try:
        yield
    except InputError as error:
        name = shown(str(op.get("op"))) if isinstance(op, Mapping) else "no operation"
        path = str(op.get("path") or "") if isinstance(op, Mapping) else ""
        at = error.at or At(path=shown(path.lstrip("/"), 300) or None)
        message = f"operation {number + 1} of {count} (`{name}`): {error.message}"
        raise InputError(message, at=at, hint=error.hint) from None


def _call(op: Any) -> _Call:
    if not isinstance(op, Mapping):
        raise InputError("an operation is a map", hint='write {"op": "replace", "path": "/…", "value": …}')
    name = op.get("op")
    if name not in _NEEDS:
        raise InputError(f"`{shown(str(name))}` is no operation", hint=did_you_mean(str(name), _NEEDS))
    for member in _NEEDS[name]:
        if member not in op:
            raise InputError(
                f"`{name}` has no `{member}`", hint=f"`{name}` needs {' and '.join(_NEEDS[name])}"
            )
        if member != "value" and not isinstance(op[member], str):
            raise InputError(f"`{member}` is not a text", hint="write it as /rooms/living/…")
    source = steps_of(op["from"]) if "from" in _NEEDS[name] else ()
    before = op.get("before")
    return _Call(
        name, steps_of(op["path"]), source, op.get("value"), before if isinstance(before, str) else None
    )


class _State:
    """A document being patched: containers made here may change, all others are shared and may not."""

    def __init__(self, document: Json) -> None:
        self.document = document
        self.own: dict[int, Json] = {}
        self.copied = 0

    def do(self, call: _Call) -> None:
        """Do one operation."""
        if call.op == "test":
            self._test(call)
        elif call.op == "add":
            self.add(call.path, copied(call.value), call.before)
        elif call.op == "remove":
            self.remove(call.path)
        elif call.op == "replace":
            self.replace(call.path, copied(call.value))
        elif call.op == "copy":
            value = self.get(call.source)
            self._count(value)
            self.add(call.path, copied(value))
        else:
            self._move(call)

    def undoing(self, call: _Call) -> list[dict[str, Any]]:
        """Do one operation and return what undoes it, in order."""
        if call.op == "test":
            self._test(call)
            return []
        if call.op == "remove":
            back = self._back_in(call.path)
        elif call.op == "replace":
            back = [_op("replace", call.path, self.get(call.path))]
        elif call.op == "move" and call.path != call.source:
            _check_move(call)
            value = self.get(call.source)
            back_in = self._back_in(call.source)
            self.remove(call.source)
            back_out = self._back_out(call.path)
            self.add(call.path, value)
            return back_out + back_in
        elif call.op == "move":
            back = []
        else:
            back = self._back_out(call.path)
        self.do(call)
        return back

    def get(self, steps: Steps) -> Json:
        """Return the value at a path."""
        value = self.document
        for i, step in enumerate(steps):
            value = child(value, step, steps[:i])
        return value

    def add(self, steps: Steps, value: Json, before: str | None = None) -> None:
        """Put a value at a path: into a map, or into a list before the item there."""
        if not steps:
            self.document = value
            return
        parent, last = self._open(steps[:-1]), steps[-1]
        if isinstance(parent, list):
            parent.insert(index(parent, last, steps[:-1], end=True), value)
        elif isinstance(parent, dict):
            keys = list(parent) if before in parent and last not in parent else []
            parent[last] = value
            for key in keys[keys.index(before) :] if keys else []:
                parent[key] = parent.pop(key)
        else:
            raise no_container(parent, steps[:-1])

    def remove(self, steps: Steps) -> None:
        """Take the value at a path out."""
        if not steps:
            raise InputError("the whole document cannot be removed", hint="name a path in it")
        self.get(steps)
        parent, last = self._open(steps[:-1]), steps[-1]
        del parent[index(parent, last, steps[:-1]) if isinstance(parent, list) else last]

    def replace(self, steps: Steps, value: Json) -> None:
        """Exchange the value at a path."""
        self.get(steps)
        if not steps:
            self.document = value
            return
        parent, last = self._open(steps[:-1]), steps[-1]
        parent[index(parent, last, steps[:-1]) if isinstance(parent, list) else last] = value

    def _move(self, call: _Call) -> None:
        _check_move(call)
        value = self.get(call.source)
        if call.path != call.source:
            self.remove(call.source)
            self.add(call.path, value)

    def _count(self, value: Json) -> None:
        """Refuse copies of copies before they fill the machine: forty doublings would."""
        waiting = [value]
        while waiting:
            item = waiting.pop()
            self.copied += 1
            if self.copied > limits.NODES:
                raise InputError(f"the patch copies more than {limits.NODES:,} keys and values")
            if isinstance(item, dict | list):
                waiting.extend(item.values() if isinstance(item, dict) else item)

    def _test(self, call: _Call) -> None:
        found = self.get(call.path)
        if not equal(found, call.value):
            raise InputError(f"`{pointer_of(call.path)}` is {said(found)}; wanted is {said(call.value)}")

    def _open(self, steps: Steps) -> Json:
        """Return the container at a path as one that may be changed, copying the branch that leads to it."""
        self.document = value = self._owned(self.document)
        for i, step in enumerate(steps):
            inner = self._owned(child(value, step, steps[:i]))
            value[index(value, step, steps[:i]) if isinstance(value, list) else step] = inner
            value = inner
        return value

    def _owned(self, value: Json) -> Json:
        if not isinstance(value, dict | list) or id(value) in self.own:
            return value
        copy = value.copy()
        self.own[id(copy)] = copy
        return copy

    def _back_in(self, steps: Steps) -> list[dict[str, Any]]:
        """Return what puts back the value that is about to leave `steps`."""
        op = _op("add", steps, self.get(steps))
        parent = self.get(steps[:-1]) if steps else None
        if isinstance(parent, dict):
            keys = list(parent)
            after = keys.index(steps[-1]) + 1
            if after < len(keys):
                op["before"] = keys[after]
        return [op]

    def _back_out(self, steps: Steps) -> list[dict[str, Any]]:
        """Return what undoes an add at `steps` that is about to happen."""
        if not steps:
            return [_op("replace", (), self.document)]
        parent = self.get(steps[:-1])
        if isinstance(parent, dict) and steps[-1] in parent:
            return [_op("replace", steps, parent[steps[-1]])]
        if isinstance(parent, list):
            steps = (*steps[:-1], str(index(parent, steps[-1], steps[:-1], end=True)))
        return [{"op": "remove", "path": pointer_of(steps)}]


def _op(name: str, steps: Steps, value: Json) -> dict[str, Any]:
    return {"op": name, "path": pointer_of(steps), "value": copied(value)}


def _check_move(call: _Call) -> None:
    if call.path[: len(call.source)] == call.source and call.path != call.source:
        raise InputError(f"`{pointer_of(call.source)}` cannot move into itself")
