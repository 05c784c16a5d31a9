"""A runner leaves bare floor on both sides of the hall, and stops short of its ends.

Why: The strip of floor beside a runner keeps it from looking like carpet cut too small, and keeps doors and skirtings clear; at the
    ends a door, a threshold or a turn wants floor.
Source: practice values rugs.runner_bare_side and rugs.runner_bare_end; common practice, no source.
Fails: in a hall, as a fault, where a rug at least twice as long as wide is nearer to the wall on either long side than
    rugs.runner_bare_side; as taste, where it is nearer to the hall's end than rugs.runner_bare_end. Both from the middle of its edge.
Passes exactly: at the value.
Silent: outside halls; for mats and rugs less long than twice their width.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import moved
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.follow import borders, runner_sizes
from halfdrop.audit.rules.rugs.spots import toward
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import Array
from halfdrop.room import LyingRug

GRADE = Grade.FAULT
PRACTICE = ("rugs.runner_bare_side", "rugs.runner_bare_end")
_SIDE, _END = PRACTICE


def _pairs(case: RoomCase, rug: LyingRug) -> list[tuple[str, float, float, Array]]:
    """Return a runner's borders: which value they are held to, the smaller, the larger [m], the way to the larger."""
    pairs = borders(case, rug)
    across, along = pairs if rug.width < rug.depth else pairs[::-1]
    return [(_SIDE, *across), (_END, *along)]


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each runner too near to the sides or the ends of its hall, the sides first."""
    if not case.room.model.use.get("hall"):
        return
    for rug in case.room.rugs.values():
        if rug.model.over is not None or max(rug.width, rug.depth) < 2 * min(rug.width, rug.depth):
            continue
        for key, near, _, way in _pairs(case, rug):
            wanted, bare = case.length(key), case.say(max(near, 0.0))
            if at_least(near, wanted):
                continue
            half = (min if key == _SIDE else max)(rug.width, rug.depth) / 2
            edge = rug.center - half * way
            wall = min(
                case.room.walls, key=lambda w: (round(abs(float(w.off(edge - near * way))), 6), w.name)
            )
            where = (
                f"beside it at {case.wall_name(wall)}"
                if key == _SIDE
                else f"at its end by {case.wall_name(wall)}"
            )
            why = (
                "so that it lies in the hall and not against the wall"
                if key == _SIDE
                else "so that doors and steps clear it"
            )
            yield case.finding(
                rule_id(__name__),
                GRADE if key == _SIDE else Grade.TASTE,
                (rug,),
                f"The {rug.name} leaves {bare} of bare floor {where}; {case.say(wanted, 'up')} or more "
                f"is wanted, {why}.",
                measured=near,
                wanted=wanted,
                sigma=case.room.sigma(rug, wall, edge, edge - near * way),
                practice=key,
                anchor=edge,
                marks=((edge, edge - near * way),) if near > 1e-3 else (),
                name=f"{rug.id}+{'sides' if key == _SIDE else 'ends'}",
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the runner as little as does, or to the middle; else lay the runner the hall takes."""
    rug = case.room.rugs[finding.subjects[0].split("/")[-1]]
    moves = []
    for key, near, far, way in _pairs(case, rug):
        moves.append((way * max(case.length(key) - near, 0.0), way * (far - near) / 2))
    (side, side_middle), (end, end_middle) = moves
    for by in (side + end, side, end, side_middle + end, side_middle, side_middle + end_middle):
        patch = moved(case, rug, by) if float(np.hypot(*by)) > 1e-3 else []
        if patch:
            yield Proposal("move", f"Move the {rug.name} {toward(case, by)}.", patch)
    if not rug.model.keep:
        yield from runner_sizes(case, rug)
