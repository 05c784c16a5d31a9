"""What comes in from a browser, held to bounds before anything is done with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.job.patch import apply
from halfdrop.store import TooLarge
from halfdrop.store.checks import fits, patch_in


def check_patch(patch: Any) -> list[dict[str, Any]]:
    """Return a value as a patch within bounds; what its operations do is checked when they are applied.

    Raises
    ------
    InputError
        Where it is no list of operations, or holds what no file can.
    TooLarge
        Where there is too much of it.
    """
    if not isinstance(patch, list):
        hint = 'write [{"op": "replace", "path": "/…", "value": …}]'
        raise InputError("a patch is a list of operations", hint=hint)
    return patch_in(patch)


def apply_bounded(document: dict[str, Any], patch: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Apply a patch, watching that copies do not swell the document: each may double it, and forty fill a machine.

    Raises
    ------
    InputError
        As `job.patch.apply`; `TooLarge` where the document grows past `job.limits`.
    """
    if not any(op.get("op") == "copy" for op in patch):
        return _map(apply(document, patch))
    for i, op in enumerate(patch, 1):
        document = _map(apply(document, [op]))
        if op.get("op") == "copy":
            try:
                fits(document)
            except TooLarge as error:
                raise TooLarge(f"operation {i} of {len(patch)} (`copy`): {error.message}") from None
    return document


def _map(document: Any) -> dict[str, Any]:
    if not isinstance(document, dict):
        raise InputError("a job is a map; the patch puts another thing in its place")
    return document
