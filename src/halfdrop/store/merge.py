"""When a change made on an older revision may go on top of the latest; what an undo takes back.

A revision and its undo, both made since, are nothing together: what lies between does not touch what they
touch, or the undo would have been refused. They are left out before looking what a change meets.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from halfdrop.base.errors import At
from halfdrop.job.conflicts import conflicts
from halfdrop.job.merging import carried, in_list, meetings, steps_meet
from halfdrop.job.patch import Patch
from halfdrop.store.errors import Conflict
from halfdrop.store.records import Revision


def standing(since: Sequence[tuple[int, int | None]]) -> list[int]:
    """Return those of a stretch of revisions that no later one of the stretch takes back.

    Parameters
    ----------
    since : sequence of (number, undoes)
        Oldest first.
    """
    numbers = {number for number, _ in since}
    gone: set[int] = set()
    for number, undoes in reversed(since):
        if number not in gone and undoes in numbers:
            gone |= {number, undoes}
    return [number for number, _ in since if number not in gone]


def check_meeting(patch: Patch, later: Sequence[Revision]) -> None:
    """Check that a change meets none of the revisions that were made since its author looked, and stand.

    Raises
    ------
    Conflict
        Naming the revisions and the places.
    """
    _check([(revision, meetings(patch, revision.patch)) for revision in later])


def taking_back(target: Revision, later: Sequence[Revision]) -> Patch:
    """Return the patch that takes a revision back on top of all that was done since.

    Parameters
    ----------
    later : sequence of Revision
        All of them, oldest first.

    Raises
    ------
    Conflict
        Where one that stands touches what it touches, or builds on the step it put in.
    """
    numbers: set[int | None] = set(standing([(one.number, one.undoes) for one in later]))
    patch, rest = target.inverse, [one.patch for one in later]
    if in_list(patch):
        patch, rest, gone = carried(patch, [(one.number, one.undoes, one.patch) for one in later])
        numbers |= {gone}
    _check(
        [
            (one, conflicts(patch, left) + steps_meet(target.patch, one.patch))
            for one, left in zip(later, rest, strict=True)
            if one.number in numbers
        ]
    )
    return patch


def _check(pairs_by: Sequence[tuple[Revision, Sequence[tuple[str, str]]]]) -> None:
    met: list[Revision] = []
    places: list[str] = []
    for revision, pairs in pairs_by:
        if pairs:
            met.append(revision)
            places += [theirs for _, theirs in pairs if theirs not in places]
    if met:
        raise refusal(met, places)


def refusal(met: Sequence[Revision], places: Sequence[str]) -> Conflict:
    """Return the conflict of a change with later revisions."""
    last = met[-1]
    more = f" and {len(met) - 1} more" if len(met) > 1 else ""
    where = f" at `{places[-1].lstrip('/')}`" if places else ": together they give no valid job"
    return Conflict(
        f"the change meets revision {last.number} by {last.author} ({last.message}){more}{where}",
        at=At(path=places[-1].lstrip("/")) if places else None,
        hint=f"look at revision {last.number}, then make the change again on the latest",
        revisions=tuple(met),
        meets=tuple(places),
    )


def to_undo(newest_first: Iterable[tuple[int, str, str, int | None]], author: str | None) -> int | None:
    """Return the revision an undo takes back: the latest of the author that stands.

    Parameters
    ----------
    newest_first : iterable of (number, author, kind, undoes)
        A job's history, read only as far as needed.
    author : str or None
        Whose; None for anyone's.
    """
    gone: set[int] = set()
    for number, by, kind, undoes in newest_first:
        if number in gone or kind == "begun":
            continue
        if undoes is not None:
            gone.add(undoes)
        if kind != "undo" and author in (None, by):
            return number
    return None


def to_redo(newest_first: Iterable[tuple[int, str, str, int | None]], author: str | None) -> int | None:
    """Return the undo a redo takes back: the author's latest that stands, if the author did nothing since.

    Parameters are those of `to_undo`.
    """
    gone: set[int] = set()
    for number, by, kind, undoes in newest_first:
        if number in gone:
            continue
        if undoes is not None:
            gone.add(undoes)
        if author not in (None, by) or kind == "redo":
            continue
        return number if kind == "undo" else None
    return None
