"""The patch that leads from one document to another, always the same for the same two."""

from __future__ import annotations

from typing import Any

from halfdrop.job.places import Steps, pointer_of
from halfdrop.job.same import copied, paired, same
from halfdrop.job.scalars import Json


def diff(a: Json, b: Json) -> list[dict[str, Any]]:
    """Return a patch that makes `b` of `a`: `apply(a, diff(a, b))` says what `b` says, key order aside.

    The operations come in the order of the documents, always the same.
    """
    patch: list[dict[str, Any]] = []
    _diff(a, b, (), patch)
    return patch


def _diff(a: Json, b: Json, steps: Steps, patch: list[dict[str, Any]]) -> None:
    if a is b or same(a, b):
        return
    if isinstance(a, dict) and isinstance(b, dict):
        patch += [{"op": "remove", "path": pointer_of((*steps, key))} for key in a if key not in b]
        for key, value in b.items():
            if key in a:
                _diff(a[key], value, (*steps, key), patch)
            else:
                patch.append({"op": "add", "path": pointer_of((*steps, key)), "value": copied(value)})
    elif isinstance(a, list) and isinstance(b, list):
        _diff_lists(a, b, steps, patch)
    else:
        patch.append({"op": "replace", "path": pointer_of(steps), "value": copied(b)})


def _diff_lists(a: list[Json], b: list[Json], steps: Steps, patch: list[dict[str, Any]]) -> None:
    place = 0
    for i, j in paired(a, b):
        here = (*steps, str(place))
        if j is None:
            patch.append({"op": "remove", "path": pointer_of(here)})
            continue
        if i is None:
            patch.append({"op": "add", "path": pointer_of(here), "value": copied(b[j])})
        else:
            _diff(a[i], b[j], here, patch)
        place += 1
