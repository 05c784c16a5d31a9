"""From any older version of the document to the one this halfdrop works with, one step at a time.

A migration is a pure function from a document of version v to one of version v + 1. It returns a new
document and leaves its input alone. Today there is version 1 only, so the table is empty.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from halfdrop.base.errors import At, InputError
from halfdrop.base.notation import shown
from halfdrop.job.model import VERSION

Document = dict[str, Any]
Migration = Callable[[Document], Document]

#: For each version the step to the next one.
MIGRATIONS: Mapping[int, Migration] = {}


def version_of(document: Document) -> int:
    """Return the version a document says it has.

    Raises
    ------
    InputError
        Where it says none, or no whole number from 1 on.
    """
    at = At(path="halfdrop")
    if "halfdrop" not in document:
        raise InputError(
            "the document does not say its version", at=at, hint=f"write `halfdrop: {VERSION}` on top"
        )
    version = document["halfdrop"]
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        text = shown(str(version))
        raise InputError(
            f"`halfdrop` is `{text}`; wanted is a version", at=at, hint=f"write `halfdrop: {VERSION}`"
        )
    return version


def migrate(
    document: Document, *, migrations: Mapping[int, Migration] = MIGRATIONS, current: int = VERSION
) -> Document:
    """Return the document in the current version; the input is not changed.

    Raises
    ------
    InputError
        Where it is of a newer version than `current`, or a step is missing.
    """
    version = version_of(document)
    at = At(path="halfdrop")
    if version > current:
        raise InputError(
            f"the document has version {version}; this halfdrop reads up to {current}",
            at=at,
            hint="upgrade halfdrop: `pip install --upgrade halfdrop`",
        )
    while version < current:
        step = migrations.get(version)
        if step is None:
            raise InputError(
                f"no way is known from version {version} of the document to {version + 1}", at=at
            )
        document = {**step(document), "halfdrop": version + 1}
        version += 1
    return document
