"""The take-off: every quantity of a job, paper to pads, each with its working."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import At, HalfdropError
from halfdrop.base.formats import format_money
from halfdrop.base.units import Money, sum_money
from halfdrop.base.volume import LITER
from halfdrop.drapery import ClothTakeoff
from halfdrop.job.cautions import cautions_for
from halfdrop.practice.words import Words
from halfdrop.services.jobs import LeftOut, OpenJob
from halfdrop.services.shopping import shopping
from halfdrop.services.takeoff_cloth import cloths, hardware
from halfdrop.services.takeoff_json import paint_json, paper_json
from halfdrop.services.takeoff_line import Line
from halfdrop.walls import (
    UNNAMED,
    PaintRoom,
    PaperRoom,
    faces_of,
    focal_of,
    paint_job,
    paint_room,
    paper_job,
    paper_room,
)

#: Cautions that belong to covering walls.
_ABOUT = frozenset({"lead", "asbestos", "ladders"})


@dataclass(frozen=True)
class TakeOff:
    """Every line, what they come to, the cautions of the work, and the rooms that could not be counted."""

    scheme: str | None
    lines: tuple[Line, ...]
    total: Money
    unpriced: int
    cautions: tuple[str, ...]
    left_out: tuple[LeftOut, ...] = ()

    @property
    def verdict(self) -> str:
        """What it comes to, in words."""
        if not self.lines:
            other = "other " if self.left_out else ""
            return f"Nothing is counted: no {other}room has a finish or a treatment, and nothing is bought."
        least = "at least " if self.unpriced or self.left_out else ""
        said = f"The take-off comes to {least}{format_money(self.total)}"
        if self.unpriced:
            said += f"; {self.unpriced} of {len(self.lines)} lines {'has' if self.unpriced == 1 else 'have'} no price yet"
        return f"{said}."

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "scheme": self.scheme,
            "lines": [line.to_json() for line in self.lines],
            "total": {"amount": f"{self.total.amount:f}", "currency": self.total.currency},
            "unpriced": self.unpriced,
            "verdict": self.verdict,
            "cautions": list(self.cautions),
            "left_out": [{**asdict(one), "said": one.said} for one in self.left_out],
        }


def takeoff(
    job: OpenJob,
    scheme: str | None = None,
    *,
    room: str | None = None,
    cloth: Mapping[str, ClothTakeoff] | None = None,
) -> TakeOff:
    """Return every quantity of a job: paper, paint, cloth and its hardware, rugs and pads.

    Parameters
    ----------
    job : OpenJob
    scheme : str, optional
        The job under this scheme; as found without it.
    room : str, optional
        Only this room.
    cloth : mapping of str to ClothTakeoff, optional
        The cloth of those rooms under that scheme, where it was counted before.

    Raises
    ------
    InputError
        Where the scheme or room is not known, or a finish cannot be counted: with file and line.
    """
    rooms = job.room_ids(room)
    after = job.under(scheme)
    papers, paints = count_finishes(job, after, rooms)
    hung = {i: after.case(i).room for i in rooms if i in after.cases}
    try:
        sewn = [*cloths(after.job, hung, after.practice, cloth), *hardware(after.job, hung, after.practice)]
    except HalfdropError as error:
        raise job.placed(error) from error
    lines = [*_papers(job, after, papers), *_paints(after, paints), *sewn, *_bought(job, scheme, room, after)]
    currency = after.job.job.currency
    prices = [line.total for line in lines if line.total is not None and line.total.currency == currency]
    cautions = tuple(
        f"{c.title}: {c.text}" for c in cautions_for(after.job, after.practice) if c.id in _ABOUT
    )
    return TakeOff(
        scheme, tuple(lines), sum_money(prices, currency), len(lines) - len(prices), cautions if papers or paints else (),
        job.left_out if room is None else (),
    )  # fmt: skip


def count_finishes(
    job: OpenJob, after: Auditor, rooms: list[str]
) -> tuple[dict[str, list[PaperRoom]], dict[str, list[PaintRoom]]]:
    """Count every finish; papers and paints by id, in the document's order.

    Raises
    ------
    InputError
        Where a finish cannot be counted: with file and line.
    """
    papers: dict[str, list[PaperRoom]] = {}
    paints: dict[str, list[PaintRoom]] = {}
    for i in rooms:
        if i not in after.cases or not after.case(i).room.model.finishes:
            continue
        resolved = after.case(i).room
        slope = resolved.survey.heights.ceiling
        for key, finish in resolved.model.finishes.items():
            path = f"{resolved.path}/finishes/{key}"
            try:
                faces = faces_of(resolved)
                if finish.paper is not None:
                    focal, center = focal_of(resolved) or (None, None)
                    counted = paper_room(
                        path, finish, after.job.papers[finish.paper], faces, after.practice, focal=focal, center=center
                    )  # fmt: skip
                    papers.setdefault(finish.paper, []).append(counted)
                    continue
                rise = slope.rise if slope is not None else 0.0
                painted = paint_room(
                    path, finish, after.job.paints, faces, resolved.area, after.practice, rise=rise
                )
            except HalfdropError as error:
                raise job.placed(error.placed(At(path=path))) from error
            for paint in painted.wanted:
                paints.setdefault(paint, []).append(painted)
    return papers, paints


def _room_of(path: str) -> str:
    return path.split("/")[1]


def _papers(job: OpenJob, after: Auditor, papers: dict[str, list[PaperRoom]]) -> Iterator[Line]:
    for key, rooms in papers.items():
        paper = after.job.papers[key]
        try:
            answer = paper_job(paper, rooms, after.practice)
        except HalfdropError as error:
            raise job.placed(error.placed(At(path=f"papers/{key}"))) from error
        yield Line(
            "paper", f"papers/{key}", paper.name, tuple(dict.fromkeys(_room_of(r.path) for r in rooms)),
            answer.rolls, "roll", f"{answer.rolls} roll{'s' if answer.rolls != 1 else ''}",
            paper.price * answer.rolls if paper.price is not None else None,
            answer.notes, paper_json(answer), (*(w for r in rooms for w in r.workings), answer.working),
        )  # fmt: skip


def _paints(after: Auditor, paints: dict[str, list[PaintRoom]]) -> Iterator[Line]:
    say = Words(after.practice)
    for key, rooms in paints.items():
        paint = after.job.paints.get(key)
        answer = paint_job(key, paint, rooms, after.practice)
        cans = " + ".join(f"{n} × {can.size.text}" for can, n in answer.cans.cans)
        notes: tuple[str, ...] = (
            f"{say.volume(answer.with_reserve)} wanted, {say.volume(answer.cans.volume)} bought.",
        )
        if key == UNNAMED:
            notes = (*notes, "The job names no primer for what wants one: choose it with the paint.")
        yield Line(
            "paint", f"paints/{key}" if paint is not None else rooms[0].path, paint.name if paint else "primer, not yet chosen",
            tuple(dict.fromkeys(_room_of(r.path) for r in rooms)), round(answer.with_reserve / LITER, 4), "L", cans,
            answer.cans.cost, notes, paint_json(key, answer),
            (*(w for r in rooms for w in r.workings), answer.working, answer.cans.working),
        )  # fmt: skip


def _bought(job: OpenJob, scheme: str | None, room: str | None, after: Auditor) -> Iterator[Line]:
    """Give the rugs and pads that the shopping list buys."""
    listed = shopping(job, scheme, room=room, after=after)
    for line in (*listed.bought, *listed.coming):
        if line.kind in ("rug", "pad") and line.room not in job.refused:
            yield Line(
                line.kind, line.paths[0], line.name, (line.room,), line.quantity, line.unit,
                f"{line.quantity} × {line.size}" if line.unit == "piece" else f"{line.size}: {line.amount}", line.total,
                tuple(n for n in (line.why, line.caution) if n), {"size": line.size, "price_from": line.price_from},
                tuple(w for w in listed.workings if line.name in w.title),
            )  # fmt: skip
