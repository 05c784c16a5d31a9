"""Which places a patch touches, and whether two patches on one document get in each other's way."""

from __future__ import annotations

from halfdrop.job.places import Op, Patch, Steps, pointer_of, steps_of


def touched(patch: Patch) -> set[str]:
    """Return the JSON pointers a patch writes: the places added to, removed, exchanged, moved from and to."""
    return {pointer_of(steps) for op in patch for steps in _written(op)}


def _written(op: Op) -> list[Steps]:
    if op["op"] == "test":
        return []
    places = [steps_of(op["path"])]
    if op["op"] == "move":
        places.append(steps_of(op["from"]))
    return places


def _read(op: Op) -> list[Steps]:
    if op["op"] == "test":
        return [steps_of(op["path"])]
    return [steps_of(op["from"])] if op["op"] == "copy" else []


def _claims(patch: Patch) -> tuple[set[Steps], set[Steps]]:
    """Return what a patch writes and what it reads, a place in a list standing for the whole list.

    An item put into a list or taken out of it gives all later items other places.
    """
    written: set[Steps] = set()
    read: set[Steps] = set()
    for op in patch:
        shifts = op["op"] in ("add", "remove", "move", "copy")
        for steps in _written(op):
            in_list = bool(steps) and (steps[-1] == "-" or steps[-1].isdigit())
            written.add(steps[:-1] if shifts and in_list else steps)
        read.update(_read(op))
    return written, read


def conflicts(p: Patch, q: Patch) -> list[tuple[str, str]]:
    """Return the pairs of places, one of each patch, where two patches on the same document meet.

    They meet where one writes a place that the other writes or reads, or a place above or below it. Where
    the list is empty, the patches may be applied in either order with the same outcome. Keys that are
    numbers are taken for places in a list, so that a pair too many may be named, never one too few.

    Raises
    ------
    InputError
        Where a path of a patch is no JSON pointer.
    """
    p_written, p_read = _claims(p)
    q_written, q_read = _claims(q)
    met = {(a, b) for a in p_written for b in q_written | q_read if _meet(a, b)}
    met |= {(a, b) for a in p_read for b in q_written if _meet(a, b)}
    return sorted((pointer_of(a), pointer_of(b)) for a, b in met)


def _meet(a: Steps, b: Steps) -> bool:
    shorter = min(len(a), len(b))
    return a[:shorter] == b[:shorter]
