"""The workbench's use-cases: what a page asks for and what it changes, over a store of jobs.

The page owns no number: it sends patches, or a hand's move, and shows what comes back.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from threading import RLock
from typing import Any, Literal

from halfdrop.base.errors import InputError
from halfdrop.job.conflicts import touched
from halfdrop.job.read import Format
from halfdrop.job.scheme import with_scheme
from halfdrop.services.elevation_view import elevation_json, elevation_tried
from halfdrop.services.jobs import OpenJob
from halfdrop.services.sheets import ViewName
from halfdrop.services.workbench_bounds import check_patch, patched
from halfdrop.services.workbench_edits import free_of, scheme_patch, title_of
from halfdrop.services.workbench_moves import clearances_json, move_patch, snaps_json
from halfdrop.services.workbench_room import findings_json, opened, room_json
from halfdrop.services.workbench_state import State, States, check_resolves, resolve
from halfdrop.services.workbench_view import things_json
from halfdrop.store import Appended, JobHead, Store

Told = Callable[[str, dict[str, Any]], None]


@dataclass(frozen=True)
class Edit:
    """A change as it was asked for.

    Attributes
    ----------
    base : int
        The revision its author saw.
    scheme : str or None
        Then the patch is on the job under that scheme, and becomes a step of it.
    scheme_name : str or None
        What a scheme begun by it is called.
    change : str or None
        The sender's own mark: sent twice, it is kept once.
    came_in : (text, format) or None
        The job file it came in, whose comments are the job's from then on.
    """

    patch: Any
    base: int
    author: str = "someone"
    message: str = ""
    kind: Literal["edit", "remedy"] = "edit"
    scheme: str | None = None
    scheme_name: str | None = None
    finding: str | None = None
    cost: str | None = None
    change: str | None = None
    came_in: tuple[str, Format] | None = None


class Workbench:
    """Jobs of a store, resolved and judged; safe to share between threads.

    Parameters
    ----------
    store : Store
    told : callable, optional
        Called with a job's id and what happened, after each change that was kept.
    """

    def __init__(self, store: Store, told: Told | None = None) -> None:
        self.store = store
        self._states = States()
        self._told = told or (lambda job, event: None)
        self._turns = tuple(RLock() for _ in range(64))

    # ---------------------------------------------------------------- states

    def state(self, job: str, scheme: str | None = None, head: JobHead | None = None) -> tuple[int, State]:
        """Return the newest revision of a job and its state as found or under a scheme.

        Raises
        ------
        Missing
            Where there is no such job.
        InputError
            Where there is no such scheme, or a step of it cannot be done any more.
        """
        head = head if head is not None else self.store.job(job)
        key = (head.id, head.revision, scheme)
        known = self._states.get(key)
        if known is None:
            like = self._states.newest(head.id)
            document = head.document if scheme is None else with_scheme(head.document, scheme)
            known = self._states.put(key, resolve(document, like=like))
        return head.revision, known

    def open_job(self, job: str) -> tuple[int, OpenJob]:
        """Return the newest revision of a job as the other services take it; every room must close."""
        revision, state = self.state(job)
        for error in state.refused.values():
            raise error
        return revision, opened(state.auditor)

    # ---------------------------------------------------------------- what is shown

    def view(
        self,
        job: str,
        room: str,
        view: ViewName = "plan",
        *,
        scheme: str | None = None,
        paper: str | None = None,
        scale: str | None = None,
        notes: bool = True,
        dark: bool = False,
        wall: str | None = None,
        shut: bool = False,
    ) -> dict[str, Any]:
        """Return one room for a page: its drawing, how plan metres stand on it, its findings and its things."""
        head = self.store.job(job)
        revision, found = self.state(job, head=head)
        _, state = self.state(job, scheme, head=head)
        if view == "elevation":
            face = elevation_json(
                found, state, opened(found.auditor), room, wall, scheme,
                paper=paper, scale=scale, notes=notes, dark=dark, shut=shut,
            )  # fmt: skip
            return {"revision": revision, **face}
        shown = room_json(
            found, state, room, view, scheme, paper=paper, scale=scale, notes=notes, dark=dark
        )  # fmt: skip
        return {"revision": revision, **shown}

    def tried(
        self,
        job: str,
        room: str,
        *,
        scheme: str | None = None,
        patch: Any = None,
        move: dict[str, Any] | None = None,
        live: bool = False,
        paper: str | None = None,
        dark: bool = False,
        wall: str | None = None,
        shut: bool = False,
    ) -> dict[str, Any]:
        """Return what a change would make of a room; nothing is kept.

        Parameters
        ----------
        patch : list of operations, optional
            On the job under the scheme.
        move : dict, optional
            A hand's move instead: `path`, `dx`, `dy` [m], `turn` [rad], `exact`.
        live : bool
            During a drag: no drawing.
        wall : str, optional
            Of the elevation it is looked at on; on the plan without it.
        shut : bool
            With the curtains drawn shut.
        """
        head = self.store.job(job)
        revision, found = self.state(job, head=head)
        _, state = self.state(job, scheme, head=head)
        if wall is not None:
            tried = elevation_tried(
                found, state, opened(found.auditor), room, wall, scheme,
                patch=patch, move=move, live=live, paper=paper, dark=dark, shut=shut,
            )  # fmt: skip
            return {"revision": revision, **tried}
        if move is not None:
            by = (float(move["dx"]), float(move["dy"]))
            patch = move_patch(
                state.case(room), str(move["path"]), by, float(move["turn"]), exact=bool(move["exact"])
            )
        patch = check_patch(patch) if patch else []
        after = state.after(patch) if patch else state
        check_resolves(state, after, touched(patch))
        case = after.case(room)
        moving = _things_of(patch, room) or ({str(move["path"]).strip("/")} if move else set())
        out: dict[str, Any] = {
            "revision": revision,
            "patch": patch,
            "things": things_json(case, after.document),
            "findings": findings_json(after, room),
            "clearances": clearances_json(case, moving),
            "snaps": snaps_json(case, moving),
            "svg": None,
        }
        if not live:
            out |= room_json(found, after, room, "plan", scheme, proposed=True, paper=paper, dark=dark)
        return out

    # ---------------------------------------------------------------- what is changed

    def edit(self, job: str, edit: Edit) -> Appended:
        """Keep a change: on the disk before this returns, seen by every open page.

        Raises
        ------
        Conflict
            Where others changed the same thing since.
        InputError
            Where the patch cannot be applied, or what it makes is no valid job.
        """
        patch = check_patch(edit.patch)
        with self._turn(job):
            again = self.store.kept(job, edit.change) if edit.change and edit.scheme else None
            if again is not None:  # a step's own patch is made here, so the store cannot tell it is the same
                return again
            head = self.store.job(job)
            base = edit.base
            if not 1 <= base <= head.revision:
                raise InputError(
                    f"the job has no revision {base}", hint=f"its latest is {head.revision}; load it again"
                )
            message = edit.message
            if edit.scheme is None:
                message = message or title_of(patch, head.document)
            else:
                message = message or title_of(patch, self._under(head, edit.scheme))
                if base < head.revision and free_of(patch, edit.scheme, self.store.revisions(job, base)):
                    base = head.revision
                document = head.document if base == head.revision else self.store.document(job, base)
                _, state = self.state(job, edit.scheme if self._has(head, edit.scheme) else None, head=head)
                check_resolves(state, state.after(patch), touched(patch))
                patch = scheme_patch(
                    document, edit.scheme, patch, title=message, finding=edit.finding,
                    cost=edit.cost, name=edit.scheme_name,
                )  # fmt: skip
            after = self._check(job, head, patch, base)
            done = self.store.append(
                job, patch, base=base, author=edit.author, message=message, kind=edit.kind,
                change=edit.change, came_in=edit.came_in,
            )  # fmt: skip
            if after is not None and done.revision == head.revision + 1:
                self._states.put((job, done.revision, None), after)
        self._tell(job, done, edit.author, edit.kind)
        return done

    def _has(self, head: JobHead, scheme: str) -> bool:
        return scheme in (head.document.get("schemes") or {})

    def _under(self, head: JobHead, scheme: str) -> dict[str, Any]:
        return with_scheme(head.document, scheme) if self._has(head, scheme) else head.document

    def _check(self, job: str, head: JobHead, patch: Any, base: int) -> State | None:
        """Check a patch on the latest revision before it is kept; None where only the store can tell."""
        _, before = self.state(job, head=head)
        try:
            after = before.after(patch)
        except InputError:
            if base == head.revision:
                raise
            patched(self.store.document(job, base), patch)
            return None
        check_resolves(before, after, touched(patch))
        return after

    def undo(
        self, job: str, revision: int | None = None, *, author: str, change: str | None = None
    ) -> Appended:
        """Take a change back by a new revision; by default the author's latest. Sent twice under a mark, it is done once.

        Raises
        ------
        Conflict
            Where later changes touch the same thing.
        """
        with self._turn(job):
            done = self.store.undo(job, revision, author=author, change=change)
        self._tell(job, done, author, "undo")
        return done

    def redo(
        self, job: str, revision: int | None = None, *, author: str, change: str | None = None
    ) -> Appended:
        """Bring again what an undo took back."""
        with self._turn(job):
            done = self.store.redo(job, revision, author=author, change=change)
        self._tell(job, done, author, "redo")
        return done

    def remove(self, job: str) -> None:
        """Remove a job for good."""
        self.store.remove(job)
        self._states.forget(job)
        self._told(job, {"kind": "removed"})

    def _turn(self, job: str) -> RLock:
        """Return the lock under which a job is changed; jobs that share one wait for each other, and no more."""
        return self._turns[hash(job) % len(self._turns)]

    def _tell(self, job: str, done: Appended, author: str, kind: str) -> None:
        self._told(job, {"revision": done.revision, "author": author, "message": done.message, "kind": kind})


def _things_of(patch: Any, room: str) -> set[str]:
    """Return the paths of the things of a room that a patch changes, what goes along with another after it."""
    split = (pointer.split("/") for pointer in touched(patch))
    return {"/".join(p[1:5]) for p in split if len(p) >= 5 and p[1] == "rooms" and p[2] == room}
