"""What comes in from a browser, held to bounds before anything is done with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.job.patch import apply
from halfdrop.store.checks import patch_in


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


def patched(document: dict[str, Any], patch: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Return the patched document, which is still a map.

    Raises
    ------
    InputError
        As `job.patch.apply`, and where the patch puts another thing in the document's place.
    """
    changed = apply(document, patch)
    if not isinstance(changed, dict):
        raise InputError("a job is a map; the patch puts another thing in its place")
    return changed
