"""A job file that was taken out, edited elsewhere, and comes back into its job as one revision.

What was edited is what differs from the revision the file was taken out at. A file's name may say it (`flat-r12.yaml`).
Where nothing does, it is the one from which least had to be edited; of several the earliest, so that what others changed
since is rather shown than written over. Others' changes since then stay: the edit is merged with them
or refused, as any change made on an older revision is.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from halfdrop.job.patch import Patch, apply, diff, steps_of
from halfdrop.job.places import Steps
from halfdrop.job.read import format_of, parse_job
from halfdrop.services.workbench import Edit, Workbench
from halfdrop.services.workbench_jobs import with_house

#: Most revisions looked at to find the one a file was taken out at.
LOOKED = 200
#: How a file's name says its revision; a browser puts ` (1)` behind the name of a second copy.
_NAMED = re.compile(r"-r([0-9]{1,9})(?: ?\([0-9]+\))?\.(?:ya?ml|json)$", re.IGNORECASE)
#: Longest text of a value in a list of changes.
SHOWN = 80


@dataclass(frozen=True)
class Change:
    """One place that the file says otherwise: what the job said, what the file says; None where it says nothing."""

    path: str
    was: str | None
    now: str | None


@dataclass(frozen=True)
class Returned:
    """A file beside its job.

    Attributes
    ----------
    base : int
        The revision it was taken out at.
    latest : int
        The job's latest.
    changes : tuple of Change
        What was edited since `base`.
    revision : int or None
        The revision that took the changes in; None where nothing was taken in (yet).
    merged : bool
        Whether others had changed the job since `base`.
    """

    base: int
    latest: int
    changes: tuple[Change, ...]
    revision: int | None = None
    merged: bool = False


def look_in(
    bench: Workbench, job: str, text: str, *, name: str, base: int | None = None, folder: Path | None = None
) -> Returned:
    """Return what a job file would change of its job; nothing is kept.

    Parameters
    ----------
    name : str
        The file's, by whose ending the format is known.
    base : int, optional
        The revision it was taken out at, where that is known.
    folder : Path, optional
        Where a house practice file is looked for (only for a file that a person named on the command line).

    Raises
    ------
    Missing
        Where there is no such job or revision.
    InputError, InputErrors
        Where the text is no valid job.
    """
    base, _, changes, latest = _edited(bench, job, text, name, base, folder)
    return Returned(base, latest, changes)


def take_in(
    bench: Workbench,
    job: str,
    text: str,
    *,
    name: str,
    author: str,
    base: int | None = None,
    folder: Path | None = None,
    over: bool = False,
) -> Returned:
    """Take what was edited in a job file into its job, as one revision; the file's comments become the job's.

    Parameters are those of `look_in`, and

    over : bool
        Where others changed the same things since, the file's word counts.

    Raises
    ------
    Conflict
        Where others changed the same things since `base`, and not `over`.
    Missing, InputError, InputErrors
        As `look_in`, and where the job would not be valid.
    """
    base, patch, changes, latest = _edited(bench, job, text, name, base, folder)
    came_in = (text, format_of(Path(name)))
    if not patch:
        bench.store.keep_text(job, *came_in)
        return Returned(base, latest, changes)
    count = f"{len(changes)} change{'s' if len(changes) != 1 else ''}"
    message = f"{count} taken in from {Path(name).name}"[:300]
    done = bench.edit(job, Edit(list(patch), latest if over else base, author, message, came_in=came_in))
    return Returned(base, latest, changes, done.revision, done.merged)


def _edited(
    bench: Workbench, job: str, text: str, name: str, base: int | None, folder: Path | None
) -> tuple[int, Patch, tuple[Change, ...], int]:
    loaded = parse_job(text, name=name, format=format_of(Path(name)))
    document = with_house(loaded, folder)
    latest = bench.store.job(job).revision
    if base is None:
        said = _NAMED.search(Path(name).name)
        base = int(said[1]) if said and 1 <= int(said[1]) <= latest else None
    if base is None:
        base = _nearest(bench, job, document, latest)
    before = bench.store.document(job, base)
    patch = diff(before, document)
    return base, patch, tuple(_changes(before, patch)), latest


def _nearest(bench: Workbench, job: str, document: dict[str, Any], latest: int) -> int:
    """Return the revision from which least differs; of several the earliest."""
    first = max(1, latest - LOOKED)
    at = bench.store.document(job, first)
    documents = {first: at}
    for revision in bench.store.revisions(job, first):
        documents[revision.number] = at = dict(apply(at, revision.patch))
    return min(documents, key=lambda number: (_size(diff(documents[number], document)), number))


def _size(patch: Patch) -> int:
    """Return how much a patch changes: its operations, each with what it brings."""
    return sum(1 + len(json.dumps(op.get("value"), ensure_ascii=False)) // 40 for op in patch)


def _changes(before: dict[str, Any], patch: Patch) -> list[Change]:
    said: list[Change] = []
    document: Any = before
    for op in patch:
        steps = steps_of(op["path"])
        now = None if op["op"] == "remove" else _text(op["value"])
        said.append(Change("/".join(steps), None if op["op"] == "add" else _text(_at(document, steps)), now))
        document = apply(document, [op])
    return said


def _at(document: Any, steps: Steps) -> Any:
    """Return the value at a place that a patch of ours names."""
    for step in steps:
        document = document[int(step)] if isinstance(document, list) else document[step]
    return document


def _text(value: Any) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= SHOWN else f"{text[: SHOWN - 2]} …"
