"""Reading a job: bytes to text, text to a plain document with its lines, document to a valid job.

Whatever the file holds, the outcome is a `LoadedJob` or an `InputError`, soon.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from pydantic import ValidationError

from halfdrop.base.errors import At, InputError, near
from halfdrop.job import limits
from halfdrop.job.compose import Node, compose, lines, plain
from halfdrop.job.events import json_events, yaml_events
from halfdrop.job.faults import line_of, schema_faults
from halfdrop.job.migrate import migrate
from halfdrop.job.model import Job

Format = Literal["yaml", "json"]


@dataclass(frozen=True)
class LoadedJob:
    """A job as read.

    Attributes
    ----------
    document : dict
        The plain document in the current version, texts as typed. Never change it in place: patch it.
    job : Job
        The validated view of it.
    lines : mapping of str to int
        Line of each value by JSON pointer, as far as the value stands in the text.
    text : str
        The text it was read from.
    format : {"yaml", "json"}
        Of the text.
    name : str
        The file's name, for messages.
    path : Path, optional
        The file, where it was read from one.
    """

    document: dict[str, Any]
    job: Job
    lines: Mapping[str, int]
    text: str
    format: Format
    name: str
    path: Path | None = None

    def at(self, *path: str | int) -> At:
        """Return the place of a path of the document, for messages."""
        return At(self.name, line_of(path, self.lines), "/".join(map(str, path)) or None)


def format_of(path: Path) -> Format:
    """Return the format by the file's ending: JSON for `.json`, else YAML."""
    return "json" if path.suffix.lower() == ".json" else "yaml"


def read_job(path: str | Path) -> LoadedJob:
    """Read a job file.

    Raises
    ------
    InputError
        Where it cannot be opened, is too large, not UTF-8, or not readable.
    InputErrors
        With every fault at once, where it is not a valid job.
    """
    path = Path(path)
    text = read_text(path)
    loaded = parse_job(text, name=str(path), format=format_of(path))
    return LoadedJob(**{**vars(loaded), "path": path})


def read_text(path: Path) -> str:
    """Read a text file of at most `limits.FILE_BYTES`.

    Raises
    ------
    InputError
        Where it cannot be opened, is too large or is not UTF-8.
    """
    try:
        with path.open("rb") as stream:
            data = stream.read(limits.FILE_BYTES + 1)
    except (OSError, ValueError) as error:
        raise _unopened(path, error) from None
    if len(data) > limits.FILE_BYTES:
        mib = limits.FILE_BYTES // 2**20
        raise InputError(f"the file has more than {mib} MiB, the most that is read", at=At(str(path)))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        fault = f"byte {error.start} is not UTF-8 text"
        raise InputError(fault, at=At(str(path), line), hint="save the file as UTF-8") from None


def _unopened(path: Path, error: OSError | ValueError) -> InputError:
    reason = getattr(error, "strerror", None) or str(error)
    hint = None
    if isinstance(error, FileNotFoundError):
        try:
            found = near(
                path.name, [p.name for p in path.parent.iterdir() if p.suffix in (".yaml", ".yml", ".json")]
            )
        except OSError:
            found = None
        hint = f"did you mean `{path.parent / found}`?" if found else "run `halfdrop new` to begin a job"
    elif isinstance(error, IsADirectoryError):
        hint = "name the job file in it"
    return InputError(f"the file cannot be opened: {reason.lower()}", at=At(str(path)), hint=hint)


def parse_tree(text: str, *, name: str, format: Format) -> Node:
    """Read a text as a tree of nodes, a map at its root.

    Raises
    ------
    InputError
        Where it is too large, not readable, or no map.
    """
    try:
        size = len(text.encode())
    except UnicodeEncodeError:
        raise InputError("the text holds half a character (a lone surrogate)", at=At(name)) from None
    if size > limits.FILE_BYTES:
        raise InputError(f"the text has {size} bytes; at most {limits.FILE_BYTES} are read", at=At(name))
    root = compose((json_events if format == "json" else yaml_events)(text, name), name)
    if root.kind != "map":
        fault = (
            "a job is a map; this file is a list"
            if root.kind == "seq"
            else "a job is a map; this is one text"
        )
        raise InputError(
            fault, at=At(name, root.line), hint="begin with `halfdrop: 1`, then `job:` and `rooms:`"
        )
    return root


def parse_job(text: str, *, name: str, format: Format = "yaml") -> LoadedJob:
    """Read a job from a text.

    Parameters
    ----------
    text : str
        YAML 1.2 (core schema) or JSON.
    name : str
        What messages call the file.
    format : {"yaml", "json"}
        JSON is read strictly.

    Raises
    ------
    InputError, InputErrors
        As `read_job`.
    """
    root = parse_tree(text, name=name, format=format)
    places = lines(root)
    try:
        document = migrate(plain(root))
    except InputError as error:
        raise error.placed(At(name, places.get("/halfdrop", 1))) from None
    return LoadedJob(document, validated(document, lines=places, name=name), places, text, format, name)


def validated(
    document: dict[str, Any], *, lines: Mapping[str, int] | None = None, name: str | None = None
) -> Job:
    """Return the validated view of a plain document of the current version.

    Raises
    ------
    InputErrors
        Every fault at once, with lines where they are known.
    """
    try:
        return Job.model_validate(document)
    except ValidationError as error:
        raise schema_faults(error, document, lines or {}, name) from None
