"""A rug that follows the room: its borders on opposite sides, and the made size that leaves an even border."""

from __future__ import annotations

import math
from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Proposal
from halfdrop.audit.rules.rugs.free import rooms_round
from halfdrop.audit.rules.rugs.lying import Frame, Stack, run, squared
from halfdrop.audit.rules.rugs.offers import laid_at, replaced, rug_of
from halfdrop.audit.rules.rugs.spots import article
from halfdrop.geometry.plane import Array
from halfdrop.room import LyingRug
from halfdrop.rugs import Box, wanted_border, wanted_runner


def borders(case: RoomCase, rug: LyingRug) -> list[tuple[float, float, Array]]:
    """Return for both directions of a rug the smaller and the larger border [m], and the way from the smaller to the larger.

    A border runs from the middle of the rug's edge square to it to the wall; less than 0 where the edge is past the wall.
    """
    found = []
    for way, half in ((rug.right, rug.width / 2), (rug.front, rug.depth / 2)):
        there = run(case.room.outline, rug.center + half * way, way)
        back = run(case.room.outline, rug.center - half * way, -way)
        found.append((back, there, way) if there >= back else (there, back, -way))
    return found


def border_sizes(case: RoomCase, stack: Stack) -> Iterator[Proposal]:
    """Yield the largest made size that leaves an even border, in place of a loose rug."""
    rug = stack.main
    frame = Frame(rug.center, squared(rug.angle))
    box = frame.box(rug.corners)
    for room in rooms_round(case, frame, box):
        answer = wanted_border(room, case.practice, room_area=case.room.area)
        if answer.laid is None or answer.lies is None:
            continue
        buy = rug_of(case, answer.laid, frame.polygon(answer.lies), like=rug.model)
        center = frame.plan(answer.lies.center)
        patch = replaced(case, rug, buy, center, frame.angle)
        for top in stack.rugs:
            if top is not rug:
                patch += laid_at(case, top, center)
        yield Proposal(
            "size", f"Lay {article(buy.name)} in place of the {rug.name}.", patch, buy.cost, buy.unpriced
        )


def runner_sizes(case: RoomCase, rug: LyingRug) -> Iterator[Proposal]:
    """Yield the runner the hall takes, in place of one that is too wide or too long."""
    quarter = math.pi / 2 if rug.width > rug.depth else 0.0
    frame = Frame(rug.center, squared(rug.angle + quarter))
    for room in rooms_round(case, frame, frame.box(rug.corners)):
        answer = wanted_runner(room.across, room.along, case.practice)
        if answer.laid is None:
            continue
        lies = Box.sized(answer.laid.across, answer.laid.along, room.center)
        buy = rug_of(case, answer.laid, frame.polygon(lies), like=rug.model)
        patch = replaced(case, rug, buy, frame.plan(lies.center), frame.angle)
        yield Proposal(
            "size", f"Lay {article(buy.name)} in place of the {rug.name}.", patch, buy.cost, buy.unpriced
        )
