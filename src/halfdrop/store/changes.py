"""Changes: kept as revisions, merged or refused, taken back and brought again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any, Literal

from sqlalchemy import Connection, Row, select

from halfdrop.base.errors import InputError
from halfdrop.job.merging import in_list
from halfdrop.job.patch import Patch, apply
from halfdrop.job.read import Format, validated
from halfdrop.store import checks, documents, history, merge
from halfdrop.store.records import Appended, Kind, Revision
from halfdrop.store.tables import revisions
from halfdrop.store.transactions import Transactions


class Changes(Transactions):
    """The part of the store that keeps revisions."""

    def append(
        self,
        id: str,
        patch: Patch,
        *,
        base: int,
        author: str,
        message: str,
        kind: Literal["edit", "remedy"] = "edit",
        change: str | None = None,
        came_in: tuple[str, Format] | None = None,
    ) -> Appended:
        """Keep a change; it is on the disk when this returns.

        On the latest revision it is applied. On an older one it is applied to the latest if it touches
        nothing that was changed since, and gives a valid job there.

        Parameters
        ----------
        base : int
            The revision the author saw.
        change : str, optional
            The sender's own mark of this change: sent again (after a lost answer), it is kept once, and the
            first answer is given again.
        came_in : (text, format), optional
            The job file the change came in: from now on its comments and its layout are the job's.

        Raises
        ------
        Conflict
            Where it meets later changes; with the revisions and the places.
        InputError, InputErrors
            Where the patch cannot be applied, the job would not be valid, or `base` is no revision.
        Missing
            Where there is no such job.
        """
        author, message = checks.said(author, message)
        taken = checks.patch_in(patch)
        mark = None if change is None else checks.line(change, "mark of the change", checks.CHANGE)
        with self._writing() as connection:
            row = history.job_row(connection, id, hold=True)
            again = self._kept(connection, row, mark, taken)
            if again is not None:
                return again
            if not 1 <= base <= row.revision:
                raise InputError(
                    f"job `{id}` has no revision {base} to change", hint=f"its latest is {row.revision}"
                )
            done = self._put(connection, row, taken, base, author, message, kind, change=mark)
            if came_in is not None:
                history.keep_text(connection, row.key, *came_in)
        self._latest.put(row.key, done.revision, done.document)
        return done

    def kept(self, id: str, change: str) -> Appended | None:
        """Return what came of a change by its sender's mark; None where it is not kept.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        with self._reading() as connection:
            row = history.job_row(connection, id)
            found = self._marked(connection, row, change)
            return None if found is None else self._again(connection, row, found)

    def undo(
        self, id: str, revision: int | None = None, *, author: str, change: str | None = None
    ) -> Appended:
        """Take a revision back by a new one; by default the author's latest that stands.

        Parameters
        ----------
        change : str, optional
            The sender's own mark: sent again after a lost answer, it takes back no second revision.

        Raises
        ------
        Conflict
            Where later changes touch the same thing; it names them.
        InputError
            Where there is nothing to take back, or it is taken back already.
        """
        return self._take_back(id, revision, author, merge.to_undo, "undo", change)

    def redo(
        self, id: str, revision: int | None = None, *, author: str, change: str | None = None
    ) -> Appended:
        """Bring again what an undo took back; by default the author's latest, if nothing was done since.

        Parameters
        ----------
        revision : int, optional
            The undo.
        change : str, optional
            As in `undo`.

        Raises
        ------
        Conflict, InputError
            As `undo`.
        """
        return self._take_back(id, revision, author, merge.to_redo, "redo", change)

    def _take_back(
        self,
        id: str,
        revision: int | None,
        author: str,
        choose: Callable[[Iterator[tuple[int, str, str, int | None]], str | None], int | None],
        kind: Literal["undo", "redo"],
        change: str | None,
    ) -> Appended:
        author = checks.line(author, "author", checks.AUTHOR)
        mark = None if change is None else checks.line(change, "mark of the change", checks.CHANGE)
        with self._writing() as connection:
            row = history.job_row(connection, id, hold=True)
            again = self._taken_back(connection, row, mark, kind, revision)
            if again is not None:
                return again
            if revision is None:
                revision = choose(history.newest_first(connection, row.key), author)
                if revision is None:
                    raise InputError(f"job `{id}` has nothing of {author}'s to {kind}")
            target = history.one(connection, row, revision)
            if target.kind == "begun" or (target.kind == "undo") != (kind == "redo"):
                raise InputError(f"revision {revision} is `{target.kind}`, nothing to {kind}")
            later = history.standing_since(connection, row.key, revision)
            if any(one.undoes == revision for one in later):
                raise InputError(f"revision {revision} is taken back already")
            done = self._put(
                connection,
                row,
                merge.taking_back(target, self._since(connection, row.key, target, later)),
                revision,
                author,
                target.message,
                kind,
                undoes=revision,
                later=later,
                change=mark,
            )
        self._latest.put(row.key, done.revision, done.document)
        return done

    def _kept(self, connection: Connection, row: Row[Any], mark: str | None, patch: Patch) -> Appended | None:
        kept = self._marked(connection, row, mark)
        if kept is not None and checks.packed(kept.patch) != checks.packed(patch):
            raise InputError(f"the mark `{mark}` belongs to another change, revision {kept.number}")
        return None if kept is None else self._again(connection, row, kept)

    def _taken_back(
        self, connection: Connection, row: Row[Any], mark: str | None, kind: Kind, revision: int | None
    ) -> Appended | None:
        """Return what came of an undo or redo that is sent again."""
        kept = self._marked(connection, row, mark)
        if kept is not None and (kept.kind != kind or revision not in (None, kept.undoes)):
            raise InputError(f"the mark `{mark}` belongs to another change, revision {kept.number}")
        return None if kept is None else self._again(connection, row, kept)

    def _since(
        self, connection: Connection, key: int, target: Revision, later: list[Revision]
    ) -> Sequence[Revision]:
        """Return what an undo has to be carried over: those that stand, or all where it is a place in a list."""
        if not in_list(target.inverse):
            return later
        asked = select(revisions).where(revisions.c.job == key, revisions.c.number > target.number)
        return [history.revision_of(row) for row in connection.execute(asked.order_by(revisions.c.number))]

    def _marked(self, connection: Connection, row: Row[Any], mark: str | None) -> Revision | None:
        if mark is None:
            return None
        asked = select(revisions.c.number).where(revisions.c.job == row.key, revisions.c.change == mark)
        number = connection.execute(asked).scalar()
        return None if number is None else history.one(connection, row, number)

    def _again(self, connection: Connection, row: Row[Any], kept: Revision) -> Appended:
        document = documents.replayed(connection, row.key, kept.number)
        return Appended(kept.number, kept.patch, kept.merged, document, kept.message, kept.undoes)

    def _put(
        self,
        connection: Connection,
        row: Row[Any],
        patch: Patch,
        base: int,
        author: str,
        message: str,
        kind: Kind,
        *,
        undoes: int | None = None,
        later: list[Revision] | None = None,
        change: str | None = None,
    ) -> Appended:
        before = self._latest.at(connection, row.key, row.revision)
        if base < row.revision and later is None:
            later = history.standing_since(connection, row.key, base)
            merge.check_meeting(patch, later)
        try:
            after = _stepped(before, patch)
        except InputError:
            if base == row.revision or not later:
                raise
            _stepped(documents.replayed(connection, row.key, base), patch)
            raise merge.refusal(later, ()) from None
        return history.put(
            connection,
            row.key,
            before,
            after,
            patch,
            number=row.revision + 1,
            author=author,
            time=self._now(),
            message=message,
            kind=kind,
            base=base if undoes is None else row.revision,
            undoes=undoes,
            change=change,
        )

    def revisions(self, id: str, since: int = 0, limit: int | None = None) -> list[Revision]:
        """Return the revisions after `since`, oldest first, at most `limit`.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        return self._page(id, revisions.c.number > since, revisions.c.number.asc(), limit)

    def history(self, id: str, before: int | None = None, limit: int = 50) -> list[Revision]:
        """Return a page of the history: the revisions before one (by default the latest), newest first.

        Raises
        ------
        Missing
            Where there is no such job.
        """
        below = revisions.c.number < before if before is not None else revisions.c.number > 0
        return self._page(id, below, revisions.c.number.desc(), limit)

    def _page(self, id: str, which: Any, order: Any, limit: int | None) -> list[Revision]:
        with self._reading() as connection:
            key = history.job_row(connection, id).key
            rows = connection.execute(
                select(revisions).where(revisions.c.job == key, which).order_by(order).limit(limit)
            )
            return [history.revision_of(row) for row in rows]


def _stepped(document: dict[str, Any], patch: Patch) -> dict[str, Any]:
    """Return the patched document, valid and such that it can be written and read again."""
    after: dict[str, Any] = apply(document, patch)
    checks.fits(after)
    validated(after)
    return after
