"""Open a job file, and the state of its room as found or under a scheme."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import At, HalfdropError, InputError, did_you_mean
from halfdrop.job.read import LoadedJob, read_job
from halfdrop.job.scheme import with_scheme


@dataclass(frozen=True)
class LeftOut:
    """A room that cannot be counted or drawn as it stands, and why."""

    room: str
    name: str
    why: str
    hint: str

    @property
    def said(self) -> str:
        """The same as a note."""
        return f"{self.name} is left out: {self.why}."


@dataclass(frozen=True, eq=False)
class OpenJob:
    """A job read from a file and resolved.

    Attributes
    ----------
    path : Path
        The file.
    loaded : LoadedJob
        Document, lines and text as read.
    found : Auditor
        The job as found.
    refused : mapping of str to HalfdropError
        Rooms left out, where the job was opened in part: why each cannot be resolved.
    """

    path: Path
    loaded: LoadedJob
    found: Auditor
    refused: Mapping[str, HalfdropError] = field(default_factory=dict)

    @property
    def left_out(self) -> tuple[LeftOut, ...]:
        """The rooms that are left out, and why."""
        rooms = self.found.job.rooms
        return tuple(LeftOut(i, rooms[i].name, e.message, e.hint or "") for i, e in self.refused.items())

    def under(self, scheme: str | None) -> Auditor:
        """Return the job under a scheme (`None`: as found)."""
        if scheme is None:
            return self.found
        document = with_scheme(self.loaded.document, scheme)
        return Auditor.of(document, folder=self.path.parent, without=self.refused)

    def room_ids(self, room: str | None) -> list[str]:
        """Return one room's id, checked, or all of them; a room left out is an error of its own where it is asked for."""
        if room is None:
            return list(self.found.cases)
        if room in self.refused:
            raise self.refused[room]
        if room not in self.found.cases:
            raise InputError(
                f"there is no room `{room}` in {self.path.name}",
                at=At(file=str(self.path)),
                hint=did_you_mean(room, self.found.cases),
            )
        return [room]

    def placed(self, error: HalfdropError) -> HalfdropError:
        """Fill in file and line of an error that knows its path in the document."""
        return place(error, self.loaded, self.path)


def place(error: HalfdropError, loaded: LoadedJob, path: Path) -> HalfdropError:
    """Fill in file and line of an error that knows its path in the document."""
    where = error.at.path if error.at else None
    at = loaded.at(*where.split("/")) if where else At()
    return error.placed(At(str(path), at.line, where))


def open_job(path: Path, *, partly: bool = False) -> OpenJob:
    """Read, validate and resolve a job file.

    Parameters
    ----------
    path : Path
    partly : bool
        Leave out rooms that cannot be resolved, as long as one can: see `OpenJob.left_out`.

    Raises
    ------
    InputError
        Where it cannot be read, is not valid, or a survey cannot be adjusted: with file and line.
    """
    loaded = read_job(path)
    refused: dict[str, HalfdropError] = {}
    if partly:
        for i in loaded.job.rooms:
            others = loaded.job.rooms.keys() - {i}
            try:
                Auditor.of(loaded.document, loaded.job, folder=path.parent, without=others)
            except InputError as error:
                refused[i] = place(error, loaded, path)
        if len(refused) == len(loaded.job.rooms):
            refused.clear()
    try:
        found = Auditor.of(loaded.document, loaded.job, folder=path.parent, without=refused)
    except InputError as error:
        raise place(error, loaded, path) from error
    return OpenJob(path, loaded, found, refused)
