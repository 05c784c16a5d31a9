"""Schemes: named lists of patches on the job as found, which itself is never overwritten."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.base.notation import shown
from halfdrop.job.patch import Patch, apply, pointer_of, steps_of
from halfdrop.job.scalars import Json

#: What a scheme may not change: itself and its siblings, and the version of the document.
_CLOSED = ("schemes", "halfdrop")


def with_scheme(document: dict[str, Json], scheme_id: str) -> dict[str, Json]:
    """Return the job as it would be with a scheme carried out; `schemes` stays as it is.

    Parameters
    ----------
    document : dict
        The job as found.
    scheme_id : str
        Key under `schemes`.

    Raises
    ------
    InputError
        Where there is no such scheme, or a step of it cannot be done: the error names scheme and step.
    """
    schemes = document.get("schemes") or {}
    if scheme_id not in schemes:
        hint = did_you_mean(scheme_id, schemes) if schemes else "run `halfdrop scheme accept` to begin one"
        raise InputError(f"there is no scheme `{shown(scheme_id)}`", at=At(path="schemes"), hint=hint)
    for i, step in enumerate(schemes[scheme_id].get("steps") or []):
        document = _step(document, scheme_id, i, step)
    return document


def _step(document: dict[str, Json], scheme_id: str, index: int, step: Mapping[str, Any]) -> dict[str, Json]:
    where = f"scheme `{shown(scheme_id)}`, step {index + 1} `{shown(str(step.get('title', '')))}`"
    try:
        _check_open(step["patch"])
        changed: dict[str, Json] = apply(document, step["patch"])
    except InputError as error:
        at = At(path=f"schemes/{scheme_id}/steps/{index}")
        raise InputError(f"{where}: {error.message}", at=at, hint=error.hint) from None
    return changed


def _check_open(patch: Patch) -> None:
    for op in patch:
        if not isinstance(op, Mapping) or op.get("op") == "test":
            continue
        members = ("path", "from") if op.get("op") in ("move", "copy") else ("path",)
        for pointer in (op[member] for member in members if isinstance(op.get(member), str)):
            steps = steps_of(pointer)
            if not steps or steps[0] in _CLOSED:
                place = f"`{shown(pointer)}`" if steps else "the whole document"
                hint = "a scheme changes people, rooms, stock and what stands in them"
                raise InputError(f"{place} is closed to schemes", hint=hint)


def add_step(
    document: dict[str, Json], scheme_id: str, step: Mapping[str, Any], *, name: str | None = None
) -> list[dict[str, Any]]:
    """Return the patch that adds a step to the end of a scheme, and begins the scheme where there is none.

    Parameters
    ----------
    document : dict
        The job.
    scheme_id : str
        Key under `schemes`.
    step : mapping
        `title`, `patch`, and where known `finding` and `cost`.
    name : str, optional
        Name of a scheme begun here; made from its id where none is given.

    Raises
    ------
    InputError
        Where the step cannot be done on top of the scheme's earlier steps.
    """
    step = {**step, "patch": [{k: v for k, v in op.items() if k != "before"} for op in step["patch"]]}
    schemes = document.get("schemes") or {}
    scheme = schemes.get(scheme_id)
    before = with_scheme(document, scheme_id) if scheme else document
    _step(before, scheme_id, len((scheme or {}).get("steps") or []), step)
    if scheme and scheme.get("steps") is not None:
        return [{"op": "add", "path": pointer_of(("schemes", scheme_id, "steps", "-")), "value": step}]
    if scheme:
        return [{"op": "add", "path": pointer_of(("schemes", scheme_id, "steps")), "value": [step]}]
    begun = {"name": name or scheme_id.replace("-", " ").replace("_", " ").capitalize(), "steps": [step]}
    if document.get("schemes") is None:
        return [{"op": "add", "path": "/schemes", "value": {scheme_id: begun}}]
    return [{"op": "add", "path": pointer_of(("schemes", scheme_id)), "value": begun}]
