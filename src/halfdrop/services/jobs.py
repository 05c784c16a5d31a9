"""Open a job file, and the state of its room as found or under a scheme."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import At, HalfdropError, InputError, did_you_mean
from halfdrop.job.read import LoadedJob, read_job
from halfdrop.job.scheme import with_scheme


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
    """

    path: Path
    loaded: LoadedJob
    found: Auditor

    def under(self, scheme: str | None) -> Auditor:
        """Return the job under a scheme (`None`: as found)."""
        if scheme is None:
            return self.found
        document = with_scheme(self.loaded.document, scheme)
        return Auditor.of(document, folder=self.path.parent)

    def room_ids(self, room: str | None) -> list[str]:
        """Return one room's id, checked, or all of them."""
        if room is None:
            return list(self.found.cases)
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


def open_job(path: Path) -> OpenJob:
    """Read, validate and resolve a job file.

    Raises
    ------
    InputError
        Where it cannot be read, is not valid, or a survey cannot be adjusted: with file and line.
    """
    loaded = read_job(path)
    try:
        found = Auditor.of(loaded.document, loaded.job, folder=path.parent)
    except InputError as error:
        raise place(error, loaded, path) from error
    return OpenJob(path, loaded, found)
