"""Writing a job: what a person typed stays as typed, and there is never half a file.

A YAML file is changed in place (`splice`): comments, key order, quotes and anchors stay. JSON is written
anew with two spaces of indent.
"""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from halfdrop.base.errors import At, HalfdropError, InputError
from halfdrop.job.compose import plain
from halfdrop.job.read import Format, LoadedJob, format_of, parse_tree, read_text, validated
from halfdrop.job.same import same
from halfdrop.job.scalars import block
from halfdrop.job.splice import CannotSplice, splice


@dataclass(frozen=True)
class Written:
    """What was written.

    Attributes
    ----------
    text : str
        The whole text.
    kept : bool
        False where the text had to be laid out anew, so that its comments are gone.
    """

    text: str
    kept: bool


def dump_job(document: dict[str, Any], format: Format = "yaml") -> str:
    """Return a document as text, laid out anew."""
    if format == "json":
        return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False) + "\n"
    return block(document)


def changed_text(text: str, document: dict[str, Any], *, name: str, format: Format) -> Written:
    """Return `text` changed so that it says `document`, everything else in it as it was.

    Raises
    ------
    InputError
        Where `text` cannot be read.
    """
    root = parse_tree(text, name=name, format=format)
    if same(plain(root), document):
        return Written(text, True)
    if format == "json":
        return Written(dump_job(document, "json"), True)
    for aliases in (True, False):
        with contextlib.suppress(CannotSplice, InputError):
            changed = splice(text, root, document, aliases=aliases)
            if same(plain(parse_tree(changed, name=name, format=format)), document):
                return Written(changed, True)
    return Written(dump_job(document), "#" not in text)


def write_job(path: str | Path, loaded: LoadedJob | None, document: dict[str, Any]) -> Written:
    """Write a changed job, keeping what the person wrote.

    Parameters
    ----------
    path : str or Path
        Where to. Its ending gives the format.
    loaded : LoadedJob or None
        The job as it was read, whose text is carried over; None for a new job.
    document : dict
        What is to be written.

    Raises
    ------
    InputErrors
        Where the document is not a valid job; nothing is written.
    InputError
        Where the file has changed since it was read, or cannot be written; the old file stays whole.
    """
    path = Path(path)
    validated(document, name=str(path))
    format = format_of(path)
    if loaded is not None and loaded.format == format:
        written = changed_text(loaded.text, document, name=loaded.name, format=format)
    else:
        written = Written(dump_job(document, format), loaded is None or format == loaded.format)
    if loaded is not None and loaded.path == path and path.exists() and read_text(path) != loaded.text:
        raise InputError(
            "the file has changed since it was read; nothing is written",
            at=At(str(path)),
            hint="run the command again",
        )
    save_text(path, written.text)
    return written


def save_text(path: Path, text: str) -> None:
    """Write a whole text file, or leave the old one whole: temporary file beside it, flushed, then renamed.

    Raises
    ------
    HalfdropError
        Where the folder or the disk does not allow it.
    """
    target = Path(os.path.realpath(path))
    temporary = None
    try:
        handle, temporary = tempfile.mkstemp(
            prefix=f".{target.name[:100]}.", suffix=".part", dir=target.parent
        )
        with os.fdopen(handle, "wb") as stream:
            stream.write(text.encode())
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, _mode(target))
        os.replace(temporary, target)
    except OSError as error:
        if temporary:
            with contextlib.suppress(OSError):
                os.unlink(temporary)
        reason = (error.strerror or str(error)).lower()
        raise HalfdropError(f"the file cannot be written: {reason}", at=At(str(path))) from None
    settle(target.parent)


def _mode(target: Path) -> int:
    """Return the permissions a file has, or those a new file would get."""
    if target.exists():
        return target.stat().st_mode & 0o7777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def settle(folder: Path) -> None:
    """Flush the folder's entry where the system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
