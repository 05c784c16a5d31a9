"""What the store hands out: plain values that cannot change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from halfdrop.job.read import Format

#: What made a revision.
Kind = Literal["begun", "edit", "remedy", "undo", "redo"]


@dataclass(frozen=True)
class JobEntry:
    """One line of the list of jobs.

    Attributes
    ----------
    id : str
        Made from the job's name when it was begun; never changes.
    revision : int
        The latest. The first is 1.
    name, client : str
        As the document says at that revision.
    begun, changed : datetime
        In UTC.
    origin : str, optional
        The name of the file the job came from.
    """

    id: str
    revision: int
    name: str
    client: str | None
    begun: datetime
    changed: datetime
    origin: str | None


@dataclass(frozen=True)
class JobHead(JobEntry):
    """A job with its document at the latest revision.

    Attributes
    ----------
    document : dict
        Shared with other readers: never change it in place, patch it.
    """

    document: dict[str, Any]


@dataclass(frozen=True)
class Revision:
    """One change as it was kept.

    Attributes
    ----------
    number : int
        Each job counts its own from 1.
    kind : str
        `begun` (revision 1, with an empty patch), `edit`, `remedy`, `undo` or `redo`.
    base : int
        The revision its author saw; less than `number - 1` where it was merged.
    undoes : int, optional
        The revision an `undo` or `redo` takes back; a `redo` takes back an `undo`.
    patch, inverse : sequence of operations
        From revision `number - 1` to `number`, and back.
    """

    number: int
    author: str
    time: datetime
    message: str
    kind: Kind
    base: int
    undoes: int | None
    patch: Sequence[Mapping[str, Any]]
    inverse: Sequence[Mapping[str, Any]]

    @property
    def merged(self) -> bool:
        """Whether others had changed the job since the author saw it."""
        return self.base < self.number - 1


@dataclass(frozen=True)
class Appended:
    """A change that is kept: it was on the disk before this was returned.

    Attributes
    ----------
    revision : int
        Its number.
    patch : sequence of operations
        From the revision before it.
    merged : bool
        Whether others had changed the job since `base`.
    document : dict
        The job at this revision. Never change it in place.
    message : str
        The message of the revision; for an undo or redo that of the revision it takes back or brings again.
    undoes : int, optional
        The revision taken back.
    """

    revision: int
    patch: Sequence[Mapping[str, Any]]
    merged: bool
    document: dict[str, Any]
    message: str
    undoes: int | None = None


@dataclass(frozen=True)
class FileRef:
    """A file of a job, without its bytes.

    Attributes
    ----------
    sha256 : str
        Hash of the bytes, in hexadecimal: the file's name in the store.
    attached : str
        JSON pointer of the thing in the document it belongs to; empty for the job as a whole.
    """

    sha256: str
    media_type: str
    size: int
    name: str
    attached: str
    added: datetime


@dataclass(frozen=True)
class StoredFile:
    """A file's bytes and what kind they are."""

    data: bytes
    media_type: str


@dataclass(frozen=True)
class Exported:
    """A job as the text of a job file.

    Attributes
    ----------
    kept : bool
        False where the text had to be laid out anew, so that its comments are gone.
    """

    text: str
    format: Format
    kept: bool
