"""Colors taken into a job's own swatches: from a library, or lifted from a picture and given to a work of art."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.base.notation import shown
from halfdrop.color.library import Library
from halfdrop.color.palette import Palette
from halfdrop.color.swatch import Swatch
from halfdrop.job.naming import art_name
from halfdrop.job.patch import apply, pointer_of
from halfdrop.job.write import write_job
from halfdrop.services.jobs import OpenJob
from halfdrop.services.swatch_entry import entry_of, free_id

Op = dict[str, Any]


@dataclass(frozen=True)
class Took:
    """What was taken into a job: the ids of its swatches, and whether the file's comments and layout were kept."""

    ids: tuple[str, ...]
    kept: bool


def swatches_patch(
    document: Mapping[str, Any], swatches: Sequence[Swatch]
) -> tuple[list[Op], tuple[str, ...]]:
    """Return the patch that puts swatches into a job, and their ids; one that is there already is not put in twice."""
    known: dict[str, Any] = dict(document.get("swatches") or {})
    new: dict[str, Any] = {}
    ids: list[str] = []
    for swatch in swatches:
        entry = entry_of(swatch)
        same = next((key for key, one in {**known, **new}.items() if _alike(one, entry)), None)
        key = same or free_id(swatch.name, {**known, **new})
        if same is None:
            new[key] = entry
        ids.append(key)
    if not new:
        return [], tuple(ids)
    if document.get("swatches") is None:
        return [{"op": "add", "path": "/swatches", "value": new}], tuple(ids)
    return [{"op": "add", "path": pointer_of(("swatches", k)), "value": v} for k, v in new.items()], tuple(
        ids
    )


def _alike(one: Mapping[str, Any], entry: Mapping[str, Any]) -> bool:
    return all(one.get(key) == entry.get(key) for key in ("name", "code", "color", "lab", "spectrum"))


def named(library: Library, wanted: str) -> Swatch:
    """Return the swatch of a library with a code, or else a name.

    Raises
    ------
    InputError
        Where there is none, or several have the name.
    """
    for key in ("code", "name"):
        found = [s for s in library.swatches if getattr(s, key).casefold() == wanted.casefold()]
        if len(found) > 1:
            raise InputError(
                f"{len(found)} swatches are called `{shown(wanted)}`",
                hint=f"take one by its code: {found[0].code or '…'}",
            )
        if found:
            return found[0]
    few = [s.name for s in library.swatches[:5000]]
    raise InputError(f"the library has no swatch `{shown(wanted)}`", hint=did_you_mean(wanted, few[:200]))


def take_from_library(job: OpenJob, library: Library, wanted: Sequence[str]) -> Took:
    """Take swatches of a library, by code or name, into a job file.

    Raises
    ------
    InputError
        As `named`; nothing is written.
    """
    patch, ids = swatches_patch(job.loaded.document, [named(library, one) for one in wanted])
    return _write(job, patch, ids)


def art_patch(
    document: Mapping[str, Any], job: Any, room: str, art: str, palette: Palette
) -> tuple[list[Op], tuple[str, ...]]:
    """Return the patch that gives a work the palette lifted from its picture, its colors put into the job's swatches.

    Raises
    ------
    InputError
        Where there is no such room or work.
    """
    if room not in job.rooms:
        raise InputError(
            f"there is no room `{shown(room)}`", at=At(path="rooms"), hint=did_you_mean(room, job.rooms)
        )
    works = job.rooms[room].art
    if art not in works:
        raise InputError(
            f"there is no art `{shown(art)}` in room `{room}`",
            at=At(path=f"rooms/{room}/art"),
            hint=did_you_mean(art, works) if works else "write it under `art`, with its width and height",
        )
    patch, ids = swatches_patch(document, of_palette(palette, art_name(art, works[art])))
    path = ("rooms", room, "art", art, "colors")
    op = "replace" if works[art].colors else "add"
    return [*patch, {"op": op, "path": pointer_of(path), "value": shares(palette, ids)}], ids


def of_palette(palette: Palette, name: str) -> list[Swatch]:
    """Return the colors of a picture as swatches, numbered from the largest."""
    return [Swatch(f"{name[:100]} {n}", color.lab) for n, color in enumerate(palette.colors, 1)]


def shares(palette: Palette, ids: Sequence[str]) -> dict[str, float]:
    """Return each swatch's share of the picture, to a thousandth, adding to 1 at most."""
    found: dict[str, float] = {}
    for key, color in zip(ids, palette.colors, strict=True):
        found[key] = found.get(key, 0.0) + color.share
    return {key: max(round(share, 3), 0.001) for key, share in found.items()}


def take_palette(
    job: OpenJob, palette: Palette, name: str, *, room: str | None = None, art: str | None = None
) -> Took:
    """Put a picture's colors into a job file's swatches, and give them to a work where one is named.

    Raises
    ------
    InputError
        Where there is no such work; nothing is written.
    """
    if room is not None and art is not None:
        patch, ids = art_patch(job.loaded.document, job.found.job, room, art, palette)
    else:
        patch, ids = swatches_patch(job.loaded.document, of_palette(palette, name))
    return _write(job, patch, ids)


def _write(job: OpenJob, patch: list[Op], ids: tuple[str, ...]) -> Took:
    if not patch:
        return Took(ids, True)
    return Took(ids, write_job(job.path, job.loaded, apply(job.loaded.document, patch)).kept)
