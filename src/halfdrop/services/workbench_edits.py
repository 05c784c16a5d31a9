"""A change to a room under a scheme becomes a step of the scheme; the rooms as found stay as they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from textwrap import shorten
from typing import Any

from halfdrop.job.conflicts import conflicts, touched
from halfdrop.job.patch import Patch, pointer_of, steps_of
from halfdrop.job.scheme import add_step
from halfdrop.store import Revision

#: What is changed, by its key in the document, as a history says it.
_PARTS = {"at": "moved", "turn": "turned", "off": "moved", "along": "moved", "x": "moved", "y": "moved"}


#: The longest title a step of a scheme may have, as the document allows it.
TITLE = 1000


def title_of(patch: Sequence[Mapping[str, Any]], document: Mapping[str, Any]) -> str:
    """Return what a history calls a change that came without a message: "sofa moved", "lamp added"."""
    said: dict[str, None] = {}
    for op in patch:
        if op.get("op") == "test":
            continue
        steps = steps_of(str(op.get("path", "")))
        name = _name(steps, document)
        if len(steps) == 4 and steps[0] == "rooms":
            what = {"add": "added", "remove": "removed", "copy": "added"}.get(str(op["op"]), "changed")
        else:
            what = next((_PARTS[s] for s in steps[4:] if s in _PARTS), "changed")
        said[f"{name} {what}"] = None
    return shorten("; ".join(said) or "checked", 110, placeholder=" …")


def _name(steps: Sequence[str], document: Mapping[str, Any]) -> str:
    if len(steps) >= 2 and steps[0] == "rooms":
        room = document.get("rooms", {}).get(steps[1], {})
        if len(steps) >= 4:
            thing = room.get(steps[2], {})
            thing = thing.get(steps[3], {}) if isinstance(thing, Mapping) else {}
            named = thing.get("name") if isinstance(thing, Mapping) else None
            return str(named or steps[3])
        return str(room.get("name") or steps[1]) if isinstance(room, Mapping) else steps[1]
    return "/".join(steps) or "job"


def scheme_patch(
    document: dict[str, Any],
    scheme: str,
    patch: Patch,
    *,
    title: str,
    finding: str | None = None,
    cost: str | None = None,
    name: str | None = None,
) -> list[dict[str, Any]]:
    """Return the patch on the document that makes `patch` a step of a scheme, begun where it is new.

    A hand's second move of the same thing replaces its first: a scheme says where the sofa goes, not the way there.

    Raises
    ------
    InputError
        Where the step cannot be done on top of the scheme's earlier steps.
    """
    step: dict[str, Any] = {
        "title": shorten(title, TITLE, placeholder=" …") or "changed",
        "patch": list(patch),
    }
    if finding:
        step["finding"] = finding
    if cost:
        step["cost"] = cost
    again = None if finding else _same_again(document, scheme, patch)
    if again is None:
        return add_step(document, scheme, step, name=name)
    before = {**document, "schemes": {**document["schemes"]}}
    kept = dict(before["schemes"][scheme])
    kept["steps"] = kept["steps"][:-1]
    before["schemes"][scheme] = kept
    add_step(before, scheme, step)  # raises where it cannot be done
    clean = [{k: v for k, v in op.items() if k != "before"} for op in patch]
    path = pointer_of(("schemes", scheme, "steps", str(again)))
    return [
        {"op": "replace", "path": f"{path}/title", "value": step["title"]},
        {"op": "replace", "path": f"{path}/patch", "value": clean},
    ]


def _same_again(document: Mapping[str, Any], scheme: str, patch: Patch) -> int | None:
    """Return the place of the scheme's last step where this patch only sets the same values anew, else None."""
    steps = (document.get("schemes") or {}).get(scheme, {}).get("steps") or []
    if not steps or steps[-1].get("finding"):
        return None
    last = steps[-1]["patch"]
    plain = all(op["op"] == "replace" for op in (*last, *patch))
    return len(steps) - 1 if plain and touched(last) == touched(patch) else None


def free_of(patch: Patch, scheme: str, since: Sequence[Revision]) -> bool:
    """Return whether a step may go on top of what was done since: other steps of its scheme, and other things.

    Every step is put at the end of one list, so the store takes any two for a meeting; what counts is
    whether they change the same things.
    """
    steps_at = pointer_of(("schemes", scheme, "steps"))
    for revision in since:
        outer: list[Mapping[str, Any]] = []
        for op in revision.patch:
            path = str(op.get("path", ""))
            if op.get("op") == "add" and path == f"{steps_at}/-" and isinstance(op.get("value"), Mapping):
                if conflicts(patch, op["value"]["patch"]):
                    return False
            elif path.startswith(steps_at) or path in ("", "/schemes", pointer_of(("schemes", scheme))):
                return False
            else:
                outer.append(op)
        if outer and conflicts(patch, outer):
            return False
    return True
