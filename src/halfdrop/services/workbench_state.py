"""States of a job for the workbench: resolved as far as its rooms close, kept for as long as they are asked for."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock
from typing import Any

from pydantic import ValidationError

from halfdrop.audit.auditor import Auditor, practice_of, room_case
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Patch
from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.job.read import validated
from halfdrop.services.workbench_bounds import patched
from halfdrop.survey import SurveyResult

Document = dict[str, Any]


@dataclass(eq=False)
class State:
    """One state of a job; a room whose survey does not close yet stands beside those that do.

    Attributes
    ----------
    auditor : Auditor
        The whole document, and every room that could be resolved.
    refused : mapping of str to InputError
        Why a room could not be, by its id.
    """

    auditor: Auditor
    refused: Mapping[str, InputError] = field(default_factory=dict)
    _found: dict[str, tuple[Finding, ...]] = field(default_factory=dict)

    @property
    def document(self) -> Document:
        """The document."""
        return self.auditor.document

    def case(self, room: str) -> RoomCase:
        """Return a room resolved.

        Raises
        ------
        InputError
            Where there is no such room, or it cannot be resolved.
        """
        if room in self.refused:
            raise self.refused[room]
        if room not in self.auditor.cases:
            raise UnknownRoomError(
                f"there is no room `{room}` in this job", hint=did_you_mean(room, self.auditor.job.rooms)
            )
        return self.auditor.case(room)

    def findings(self, room: str) -> tuple[Finding, ...]:
        """Judge a room once."""
        self.case(room)
        if room not in self._found:
            self._found[room] = self.auditor.findings(room)
        return self._found[room]

    def after(self, patch: Patch) -> State:
        """Return the state behind a patch.

        Raises
        ------
        InputError
            Where it cannot be applied, or makes no valid document.
        """
        document = patched(self.document, patch)
        if not self.refused:
            try:
                return State(self.auditor.after(patch))
            except (InputError, ValidationError):
                pass
        return resolve(document, like=self)


class UnknownRoomError(InputError):
    """There is no such room."""


def resolve(document: Document, *, like: State | None = None, folder: Path | None = None) -> State:
    """Return the state of a document, each room resolved that can be.

    Parameters
    ----------
    document : dict
        Plain.
    like : State, optional
        A state of the same job: surveys that are the same in it are not adjusted again.
    folder : Path, optional
        Where a house practice file is looked for; without it such a job is refused.

    Raises
    ------
    InputError
        Where the document is not a valid job.
    """
    job = validated(document)
    practice = practice_of(job, folder)
    cases: dict[str, RoomCase] = {}
    refused: dict[str, InputError] = {}
    for i, room in job.rooms.items():
        known: SurveyResult | None = None
        if like is not None and i in like.auditor.cases and like.auditor.practice == practice:
            old = like.auditor.cases[i].room
            known = old.survey if old.model.survey == room.survey else None
        try:
            cases[i] = room_case(job, i, room, practice, known)
        except InputError as error:
            refused[i] = error
    return State(Auditor(document, job, practice, cases), refused)


def check_resolves(before: State, after: State, touched: set[str]) -> None:
    """Refuse a change that spoils a room by anything but its measures.

    A survey is kept as it was taped even where it does not close: the report on it says so. Anything else that
    leaves a room unresolved (an opening past its wall's end) is refused.

    Raises
    ------
    InputError
        The reason why the room does not resolve any more.
    """
    for room, error in after.refused.items():
        if room in before.refused:
            continue
        taped = f"/rooms/{room}/survey"
        whole = {"", "/rooms", f"/rooms/{room}", taped}
        if not any(p in whole or p.startswith(f"{taped}/") for p in touched):
            raise InputError(error.message, at=error.at or At(path=f"rooms/{room}"), hint=error.hint)


Key = tuple[str, int, str | None]


class States:
    """The states asked for last; any number of threads may ask at once."""

    def __init__(self, most: int = 48) -> None:
        self._most = most
        self._kept: OrderedDict[Key, State] = OrderedDict()
        self._lock = Lock()

    def get(self, key: Key) -> State | None:
        """Return a state kept, or None."""
        with self._lock:
            state = self._kept.get(key)
            if state is not None:
                self._kept.move_to_end(key)
            return state

    def put(self, key: Key, state: State) -> State:
        """Keep a state; the one longest not asked for goes when there are too many."""
        with self._lock:
            self._kept[key] = state
            self._kept.move_to_end(key)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return state

    def newest(self, job: str) -> State | None:
        """Return the newest state kept of a job as found, or None."""
        with self._lock:
            known = [key for key in self._kept if key[0] == job and key[2] is None]
            return self._kept[max(known, key=lambda key: key[1])] if known else None

    def forget(self, job: str) -> None:
        """Drop every state of a job."""
        with self._lock:
            for key in [key for key in self._kept if key[0] == job]:
                del self._kept[key]
