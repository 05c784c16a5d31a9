"""Paint for a room, and for a job: area, coats, spread, cans."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.working import Working
from halfdrop.job.finishes import Finish, Paint
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.walls.cans import CansAnswer, CanSize, cheapest_cans
from halfdrop.walls.ceiling import ceiling_area
from halfdrop.walls.coats import CoatsAnswer, coats_for
from halfdrop.walls.faces import Face, chosen
from halfdrop.walls.spread import paint_volume
from halfdrop.walls.trim_run import TrimAnswer, trim_run
from halfdrop.walls.wall_areas import wall_areas

#: The paint of a ground coat that the job does not name.
UNNAMED = "primer"
_CANS = ("walls.can_small", "walls.can_medium", "walls.can_large")


@dataclass(frozen=True)
class PaintRoom:
    """One finish in paint.

    Attributes
    ----------
    path : str
        Of the finish in the document.
    on : {"walls", "ceiling", "trim"}
        What it covers.
    area : float
        To cover, openings off [m²].
    trim : TrimAnswer or None
        Running lengths, where it is trim.
    coats : CoatsAnswer
        How many, and of what.
    wanted : dict of str to float
        Volume by paint id [m³]; `UNNAMED` for a primer the job does not name.
    workings : tuple of Working
        Of area, coats and volumes.
    """

    path: str
    on: Literal["walls", "ceiling", "trim"]
    area: float
    trim: TrimAnswer | None
    coats: CoatsAnswer
    wanted: dict[str, float]
    workings: tuple[Working, ...]


@dataclass(frozen=True)
class PaintAnswer:
    """One paint over the whole job.

    Attributes
    ----------
    wanted, with_reserve : float
        Volume before and with the reserve [m³].
    cans : CansAnswer
        What to buy.
    """

    rooms: tuple[PaintRoom, ...]
    wanted: float
    with_reserve: float
    cans: CansAnswer
    working: Working


def paint_room(
    path: str,
    finish: Finish,
    paints: Mapping[str, Paint],
    faces: Sequence[Face],
    floor: float,
    practice: Practice,
    *,
    rise: float = 0.0,
) -> PaintRoom:
    """Count the paint of one finish.

    Parameters
    ----------
    path, finish : str, Finish
        The finish, and where it is.
    paints : mapping
        The job's paints by id.
    faces : sequence of Face
        All walls of the room, from `faces_of`.
    floor, rise : float
        The outline's area [m²]; the ceiling's rise over run.
    practice : Practice
        `walls.…`.

    Checked by: tests/walls/test_paint.py.
    """
    if finish.paint is None:
        raise ValueError(f"{path} is no paint")
    say = Words(practice)
    trim = None
    if finish.on == "walls":
        top = float(finish.top) if finish.top is not None else None
        answer = wall_areas(
            chosen(faces, finish.walls), practice, bottom=float(finish.bottom or 0.0), top=top
        )
        area, of_area = answer.net, answer.working
    elif finish.on == "ceiling":
        area, of_area = ceiling_area(floor, practice, rise=rise)
    else:
        trim = trim_run(faces, practice, {str(k): v for k, v in finish.parts.items()})
        area, of_area = trim.area, trim.working
    coats = coats_for(finish.substrate, finish.change, practice, asked=finish.coats)
    working = Working("Volume")
    wanted: dict[str, float] = {}
    if coats.ground_coats:
        key = finish.paint if coats.ground == "mist" else finish.primer or UNNAMED
        value = "walls.spread_mist" if coats.ground == "mist" else "walls.spread_primer"
        spread, source = _spread(paints.get(key) if coats.ground == "primer" else None, value, practice, say)
        volume = paint_volume(
            area, coats.ground_coats, spread, say, working, what=coats.ground, source=source
        )
        wanted[key] = volume
    usual = "walls.spread_textured" if finish.textured else "walls.spread_finish"
    spread, source = _spread(paints[finish.paint], usual, practice, say)
    volume = paint_volume(area, coats.finish, spread, say, working, what="finish", source=source)
    wanted[finish.paint] = wanted.get(finish.paint, 0.0) + volume
    return PaintRoom(path, finish.on, area, trim, coats, wanted, (of_area, coats.working, working))


def _spread(paint: Paint | None, key: str, practice: Practice, say: Words) -> tuple[float, str]:
    """Return a paint's spread [m²/m³] and where it comes from: its label, else practice."""
    if paint is not None and paint.spread is not None:
        return float(paint.spread), f"{paint.name}, its label: {paint.spread.text}"
    return float(practice.spread(key)), say.cited(key)


def paint_job(key: str, paint: Paint | None, rooms: Sequence[PaintRoom], practice: Practice) -> PaintAnswer:
    """Sum one paint over its rooms and choose its cans.

    Parameters
    ----------
    key : str
        Its id in the job, or `UNNAMED`.
    paint : Paint or None
        None for a primer the job does not name: it is bought in practice's cans.
    rooms : sequence of PaintRoom
        Every finish that wants it.
    practice : Practice
        `walls.paint_reserve`, `walls.can_small`, `walls.can_medium`, `walls.can_large`.

    Checked by: tests/walls/test_paint.py.
    """
    say = Words(practice)
    name = paint.name if paint is not None else "primer, not yet chosen"
    working = Working("Paint wanted")
    volumes = [room.wanted[key] for room in rooms]
    wanted = sum(volumes)
    working.step("in all", "sum of the finishes", " + ".join(map(say.volume, volumes)), say.volume(wanted))
    share = practice.number("walls.paint_reserve")
    total = wanted * (1 + share)
    working.step("with reserve", "volume × (1 + reserve)", f"{say.volume(wanted)} × {1 + share:g}", say.volume(total),
                 source=say.cited("walls.paint_reserve"))  # fmt: skip
    sizes = [CanSize(i, can.size, can.price) for i, can in paint.cans.items()] if paint is not None else []
    if not sizes:
        sizes = [CanSize(k.removeprefix("walls."), practice.volume(k)) for k in _CANS]
    return PaintAnswer(tuple(rooms), wanted, total, cheapest_cans(total, sizes, say, what=name), working)
