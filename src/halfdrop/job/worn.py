"""Which things of a job wear recorded colors, and whether these are swatches of the job."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError

from halfdrop.base.errors import did_you_mean
from halfdrop.job.colors import Colors

if TYPE_CHECKING:
    from halfdrop.job.model import Job, Room


def worn(job: Job) -> Iterator[tuple[str, Colors]]:
    """Give the colors of every thing that has them recorded, each with its path."""
    for kind in ("fabrics", "papers"):
        for i, made in getattr(job, kind).items():
            if made.colors is not None:
                yield f"{kind}/{i}/colors", made.colors
    for i, paint in job.paints.items():
        if paint.swatch is not None:
            yield f"paints/{i}/swatch", {paint.swatch: 1.0}
    for i, room in job.rooms.items():
        for path, colors in worn_in(room):
            yield f"rooms/{i}/{path}", colors


def worn_in(room: Room) -> Iterator[tuple[str, Colors]]:
    """Give the colors recorded in one room, each with its path within it."""
    for key, colors in room.surfaces.named():
        yield f"surfaces/{key}", colors
    for kind in ("pieces", "rugs", "art", "fittings"):
        for j, thing in getattr(room, kind).items():
            if thing.colors is not None:
                yield f"{kind}/{j}/colors", thing.colors


def check_worn(job: Job) -> None:
    """Refuse a color that is no swatch of the job.

    Raises
    ------
    PydanticCustomError
        With the path and the nearest name.
    """
    for where, colors in worn(job):
        for name in colors:
            if name not in job.swatches:
                raise PydanticCustomError(
                    "job",
                    "{where} is {name}; it names one of the job's swatches",
                    {
                        "where": where,
                        "name": name,
                        "hint": did_you_mean(name, job.swatches)
                        if job.swatches
                        else "the job has no `swatches` yet: write it there first",
                    },
                )
