"""When a change may go on top of others that its author had not seen; how its undo reaches past them.

Two changes merge where neither writes what the other writes or reads (`conflicts`), and where both only put something
at the end of the same list: both are kept, the later one last. Two steps of one scheme, so put, still meet where what
they *do* meets: the second was thought out without the first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from halfdrop.job.conflicts import conflicts
from halfdrop.job.places import Op, Patch, Steps, pointer_of, steps_of


def meetings(patch: Patch, earlier: Patch) -> list[tuple[str, str]]:
    """Return the pairs of places, one of each patch, where a change meets an earlier one that its author had not seen.

    Parameters
    ----------
    patch : sequence of operations
        The change.
    earlier : sequence of operations
        What was kept meanwhile, on the same document.

    Raises
    ------
    InputError
        Where a path of a patch is no JSON pointer.
    """
    mine, rest = _ends(patch)
    theirs, other = _ends(earlier)
    met = set(conflicts(rest, earlier)) | set(conflicts(mine, other))
    met |= {(a, b) for a, b in conflicts(mine, theirs) if a != b}
    return sorted(met | set(steps_meet(patch, earlier)))


def steps_meet(patch: Patch, earlier: Patch) -> list[tuple[str, str]]:
    """Return where the steps that two patches put at the end of one scheme meet in what they do."""
    return [
        pair
        for a, mine in _steps(patch)
        for b, theirs in _steps(earlier)
        if a == b
        for pair in conflicts(mine, theirs)
    ]


def in_list(patch: Patch) -> bool:
    """Return whether a patch does nothing but put one item into a list, or take one out, by its number."""
    return len(patch) == 1 and _item(patch[0]) is not None


def carried(
    patch: Patch, later: Sequence[tuple[int, int | None, Patch]]
) -> tuple[Patch, list[Patch], int | None]:
    """Return an undo of one place in a list as it reads behind later changes, and what of each is left to meet.

    The undo of "put at the end" is "take out the fourth"; where a later change took out the second, it is the third
    that is meant. What an undo brings back goes into the gap where it was. Items put in, taken out or changed beside it are not in its way.

    Parameters
    ----------
    patch : sequence of operations
        The inverse of a revision, such that `in_list` holds.
    later : sequence of (number, undoes, patch)
        All revisions since, oldest first.

    Returns
    -------
    patch, left, gone
        `gone` is the revision that took the item itself out, where none brought it back.
    """
    place = _item(patch[0])
    assert place is not None
    holder, at = place
    gap = patch[0]["op"] == "add"
    gone: int | None = None
    left: list[Patch] = []
    for number, undoes, ops in later:
        beside: list[Op] = []
        for op in ops:
            spot = _item(op)
            if gone is not None:
                if undoes == gone and op["op"] == "add" and spot is not None and spot[0] == holder:
                    at, gone = spot[1], None
                continue
            moved = _moved(op, holder, at, gap=gap)
            if moved is None:
                beside.append(op)
                gone = number if op["op"] == "remove" and spot == (holder, at) else None
            else:
                at = moved
        left.append(beside)
    return [{**patch[0], "path": pointer_of((*holder, str(at)))}], left, gone


def _moved(op: Op, holder: Steps, at: int, *, gap: bool) -> int | None:
    """Return where an item of a list (or the gap before it) stands after an operation on another; None for any other."""
    steps = steps_of(op["path"])
    if (
        op["op"] not in ("add", "remove", "replace")
        or len(steps) <= len(holder)
        or steps[: len(holder)] != holder
    ):
        return None
    spot, whole = steps[len(holder)], len(steps) == len(holder) + 1
    if spot == "-" and whole:
        return at
    if not spot.isdigit():
        return None
    if whole and op["op"] == "add":
        return at + (int(spot) < at if gap else int(spot) <= at)
    if int(spot) == at and not gap:
        return None
    return at - (whole and op["op"] == "remove" and int(spot) < at)


def _item(op: Op) -> tuple[Steps, int] | None:
    """Return the list and the place in it that an operation puts in or takes out."""
    steps = steps_of(op["path"])
    if op["op"] in ("add", "remove") and steps and steps[-1].isdigit():
        return steps[:-1], int(steps[-1])
    return None


def _ends(patch: Patch) -> tuple[list[Op], list[Op]]:
    """Return what a patch puts at the end of lists, and the rest of it."""
    ends = [op for op in patch if op["op"] == "add" and op["path"].endswith("/-")]
    return ends, [op for op in patch if op not in ends]


def _steps(patch: Patch) -> list[tuple[str, Patch]]:
    """Return the steps that a patch puts at the end of schemes: the scheme, and what the step does."""
    found: list[tuple[str, Patch]] = []
    for op in patch:
        steps = steps_of(op["path"])
        if op["op"] == "add" and len(steps) == 4 and steps[0] == "schemes" and steps[2:] == ("steps", "-"):
            value: Any = op.get("value")
            inner = value.get("patch") if isinstance(value, Mapping) else None
            if isinstance(inner, list) and all(_whole(one) for one in inner):
                found.append((steps[1], inner))
    return found


def _whole(op: Any) -> bool:
    """Return whether an operation has the members that a comparison needs; whether it is valid is told elsewhere."""
    needed = (
        ("op", "path", "from")
        if isinstance(op, Mapping) and op.get("op") in ("move", "copy")
        else ("op", "path")
    )
    return isinstance(op, Mapping) and all(
        isinstance(op.get(key), str) and (key == "op" or op[key] == "" or op[key].startswith("/"))
        for key in needed
    )
