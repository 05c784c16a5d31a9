"""The rug under a dining table takes every chair, pulled out too, and runs past the table on every side.

Why: A chair whose back legs drop off the edge rocks as its sitter leans back, and the edge catches when the chair is pushed in;
    a rug hardly larger than its table looks like a mat.
Source: practice values rugs.dining_pullout (back legs of a chair pulled out), rugs.dining_extension_floor (past each side, the
    least) and rugs.dining_extension_target (as aimed for); common practice, no source.
Fails: as a fault, where the rug runs past the table edge behind a chair by less than rugs.dining_pullout or less than its back
    legs stand off now; or past any side by less than rugs.dining_extension_floor. As taste, where a side without chairs has less
    than rugs.dining_extension_target.
Passes exactly: at the value.
Silent: for a table without a rug; for benches and chairs that belong to no table.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import ways_to_fit, workings_to_fit
from halfdrop.audit.rules.rugs.lying import Frame, Under, rugs_under, run, squared
from halfdrop.audit.rules.rugs.spots import Want
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.geometry.plane import Array, turned, xy
from halfdrop.room import StandingPiece
from halfdrop.room.groups import DiningSet
from halfdrop.rugs import Box, RugAnswer, wanted_dining, wanted_round_table

GRADE = Grade.FAULT
PRACTICE = ("rugs.dining_pullout", "rugs.dining_extension_floor", "rugs.dining_extension_target")
_PULL, _FLOOR, _TARGET = PRACTICE


class _Reach(NamedTuple):
    """How far the rug runs past a table edge, and how far it should [m]."""

    run: float
    wanted: float
    key: str
    start: Array
    way: Array
    chair: StandingPiece | None

    @property
    def miss(self) -> float:
        return self.wanted - self.run


def _edge(table: StandingPiece, start: Array, way: Array) -> Array:
    """Return where a line from under a table leaves it."""
    return start + max(run(table.footprint, start, way), 0.0) * way


def _back_legs(chair: StandingPiece) -> tuple[Array, Array]:
    x, y = chair.width / 2 - chair.leg_setback, chair.depth / 2 - chair.leg_setback
    return chair.at(-x, -y), chair.at(x, -y)


def _behind_chairs(case: RoomCase, dining: DiningSet, shape: BaseGeometry) -> Iterator[_Reach]:
    """Yield the run past the table edge at each back leg of each chair."""
    pull = case.length(_PULL)
    for chair in sorted(dining.chairs, key=lambda c: c.id):
        way = -chair.front
        # Both legs are measured from the edge before the chair's middle: where the chair overhangs the table's end, its legs do too.
        middle = Frame(chair.center, chair.angle).box(dining.table.corners)
        edge = chair.at(0.0, max(middle.y0, -chair.depth / 2))
        for leg in _back_legs(chair):
            start = leg + float((edge - leg) @ way) * way
            now = float((leg - start) @ way)
            wanted = max(pull, round(now, 6))
            yield _Reach(run(shape, start, way), wanted, _PULL, start, way, chair)


def _past_sides(table: StandingPiece, shape: BaseGeometry) -> Iterator[tuple[float, Array, Array]]:
    """Yield how far the rug runs past each side of the table [m], from where, which way."""
    if table.model.shape == "rectangle":
        x, y = table.width / 2, table.depth / 2
        for at, way in (((x, y), (1, 0)), ((-x, y), (-1, 0)), ((x, y), (0, 1)), ((x, -y), (0, -1))):
            out = turned(xy(*way), table.angle)
            for end in (1.0, 0.0, -1.0):
                along = (at[0], at[1] * end) if way[1] == 0 else (at[0] * end, at[1])
                yield run(shape, table.at(*along), out), table.at(*along), out
        return
    for k in range(16):
        out = turned(xy(0, 1), table.angle + k * np.pi / 8)
        start = _edge(table, table.center, out)
        yield run(shape, start, out), start, out


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding for each dining rug that is too small or lies aside: the chairs before the sides."""
    floor, target = case.length(_FLOOR), case.length(_TARGET)
    for under in rugs_under(case):
        dining = under.owner
        if not isinstance(dining, DiningSet):
            continue
        chairs = [r for r in _behind_chairs(case, dining, under.shape) if not at_least(r.run, r.wanted)]
        sides = [
            _Reach(far, floor, _FLOOR, p, way, None) for far, p, way in _past_sides(dining.table, under.shape)
        ]
        least = min(sides, key=lambda r: round(r.run, 6))
        if chairs:
            yield _short(case, under, dining, chairs, least)
        elif not at_least(least.run, floor):
            yield _narrow(case, under, dining, least, GRADE)
        elif not at_least(least.run, target):
            yield _narrow(case, under, dining, least._replace(wanted=target, key=_TARGET), Grade.TASTE)


def _short(case: RoomCase, under: Under, dining: DiningSet, chairs: list[_Reach], least: _Reach) -> Finding:
    worst = max(chairs, key=lambda r: (round(r.miss, 6), r.chair.id if r.chair else ""))
    count = len({r.chair.id for r in chairs if r.chair})
    far = f"runs {case.say(worst.run)} past" if worst.run > 1e-3 else f"stops {case.say(-worst.run)} inside"
    who = (
        "the chair"
        if count == 1
        else "the chairs"
        if count == len(dining.chairs)
        else f"{count} of {len(dining.chairs)} chairs"
    )
    keeps = "keeps its" if count == 1 else "keep their"
    text = (
        f"The {under.main.name} {far} the {dining.table.name}; {case.say(worst.wanted, 'up')} is wanted, so that {who}, "
        f"pulled out, {keeps} back legs on it."
    )
    if least.key == _FLOOR and not at_least(least.run, least.wanted):
        text += f" It wants {case.say(least.wanted, 'up')} past every side in any case."
    return _finding(case, under, dining, worst, GRADE, text)


def _narrow(case: RoomCase, under: Under, dining: DiningSet, least: _Reach, grade: Grade) -> Finding:
    far = f"runs {case.say(least.run)} past" if least.run > 1e-3 else f"stops {case.say(-least.run)} inside"
    why = (
        "so that it reads as a rug and not as a mat"
        if grade is GRADE
        else "so that a chair set there stands on it too"
    )
    text = f"The {under.main.name} {far} one side of the {dining.table.name}; {case.say(least.wanted, 'up')} is wanted, {why}."
    return _finding(case, under, dining, least, grade, text)


def _finding(
    case: RoomCase, under: Under, dining: DiningSet, reach: _Reach, grade: Grade, text: str
) -> Finding:
    edge = reach.start + reach.run * reach.way
    return case.finding(
        rule_id(__name__),
        grade,
        (under.main, dining.table),
        text,
        measured=reach.run,
        wanted=reach.wanted,
        sigma=case.room.sigma(under.main, dining.table, edge, reach.start + 1e-3 * reach.way),
        practice=reach.key,
        anchor=edge,
        marks=((reach.start, edge),),
        # Two ids: a rug that reaches the least but not what is aimed for has cleared the fault.
        name=under.main.id if grade is GRADE else f"{under.main.id}+aim",
    )


def want_of(case: RoomCase, dining: DiningSet) -> Want:
    """Return the rug a dining set wants."""
    table = dining.table
    frame = Frame(table.center, squared(table.angle))
    area = case.room.area
    if table.model.shape == "round":
        return Want(
            frame,
            lambda room: wanted_round_table(table.width, case.practice, room=room, room_area=area),
            made="round",
        )
    pull = case.length(_PULL)
    reaches = _behind_chairs(case, dining, table.footprint)
    legs = [frame.local(r.start + max(r.wanted, pull) * r.way) for r in reaches]

    def answer(room: Box | None) -> RugAnswer:
        box = frame.box(table.corners)
        return wanted_dining(box, case.practice, pulled_out=legs, room=room, room_area=area)

    return Want(frame, answer)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move or turn the rug, lay the next made size, or layer a kept rug over a base that takes the chairs."""
    under, owner = _under(case, finding)
    yield from ways_to_fit(case, under, want_of(case, owner))


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Yield how the rug the table wants was sized, and why no base suits where none does."""
    under, owner = _under(case, finding)
    yield from workings_to_fit(case, under, want_of(case, owner))


def _under(case: RoomCase, finding: Finding) -> tuple[Under, DiningSet]:
    key = finding.subjects[0].split("/")[-1]
    under = next(u for u in rugs_under(case) if u.main.id == key)
    assert isinstance(under.owner, DiningSet)
    return under, under.owner
