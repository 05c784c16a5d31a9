"""The color page's use-cases: a picture's palette (the picture is not kept), swatch libraries kept with a job, searched."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from halfdrop.base.errors import At, InputError
from halfdrop.color.library import Library, library_of_csv
from halfdrop.color.palette import palette
from halfdrop.color.picture import picture_of_bytes
from halfdrop.color.reference_white import Patch
from halfdrop.services.swatch_library import lab_of_text, search
from halfdrop.store import FileRef, Missing, Store

#: Type and place of a library among a job's files.
LIBRARY_TYPE, LIBRARY_PLACE = "text/csv", "/swatches"


def lifted(
    data: bytes,
    *,
    white: tuple[int, int, int, int] | None = None,
    lrv: float | None = None,
    recorded: bool = False,
    most: int = 8,
) -> dict[str, Any]:
    """Return the palette of a picture, and its size upright [pixels]; nothing of the picture is kept.

    Raises
    ------
    InputError
        As `picture_of_bytes` and `palette`.
    """
    picture = picture_of_bytes(data)
    patch = Patch(*white, lrv=lrv) if white else None
    found = palette(picture, white=patch, recorded=recorded, most=most)
    return {"width": picture.width, "height": picture.height, **found.to_json()}


def keep_library(store: Store, job: str, data: bytes, name: str) -> dict[str, Any]:
    """Read a swatch library and keep it with a job.

    Raises
    ------
    InputError
        Where it is no text, or as `library_of_csv`: then nothing is kept.
    """
    library = _read(data, name)
    if not library.swatches:
        raise InputError(f"swatch file {name} has no swatch", at=At(name))
    ref = store.put_file(job, data, media_type=LIBRARY_TYPE, name=name, attached=LIBRARY_PLACE)
    return _library_json(ref, library)


def libraries(store: Store, job: str) -> list[dict[str, Any]]:
    """Return a job's libraries, in the order they came."""
    return [_library_json(ref, _stored(store, ref.sha256)) for ref in _refs(store, job)]


def library_of(store: Store, job: str, sha256: str) -> Library:
    """Return one library of a job.

    Raises
    ------
    Missing
        Where the job has no such library.
    """
    if all(ref.sha256 != sha256 for ref in _refs(store, job)):
        raise Missing("this job has no such swatch library", hint="bring the CSV file in on the color page")
    return _stored(store, sha256)


def found_in(
    store: Store, job: str, sha256: str, *, near: str | None, words: str, count: int
) -> dict[str, Any]:
    """Return swatches of a job's library, the nearest first where a color is given.

    Raises
    ------
    InputError
        Where `near` is no color.
    """
    library = library_of(store, job, sha256)
    lab = lab_of_text(near) if near else None
    found = search(library, near=lab, words=words, count=count)
    return {"swatches": len(library.swatches), "found": [one.to_json() for one in found]}


def _refs(store: Store, job: str) -> list[FileRef]:
    return [ref for ref in store.files(job) if ref.media_type == LIBRARY_TYPE]


def _library_json(ref: FileRef, library: Library) -> dict[str, Any]:
    return {"sha256": ref.sha256, "name": ref.name, "swatches": len(library.swatches)}


def _stored(store: Store, sha256: str) -> Library:
    return _kept(store.file(sha256).data)


@lru_cache(maxsize=4)
def _kept(data: bytes) -> Library:
    return _read(data, "swatches")


def _read(data: bytes, name: str) -> Library:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(
            f"swatch file {name} is not UTF-8 text", at=At(name), hint="save it as CSV UTF-8"
        ) from None
    return library_of_csv(text, name)
