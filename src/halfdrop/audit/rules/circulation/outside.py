"""Everything stands inside the room.

Why: A footprint that passes a wall's line does not fit where it is drawn: the wall, the piece or the place was taped
    wrong, or the piece is too long for the wall.
Source: practice value circulation.fit_slack.
Fails: a piece on the floor, or a rug, reaches farther through a wall than the slack.
Passes exactly: at the slack.
Silent: for what stands on another piece. A wall a little out of square takes no more than the slack.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, moved_together, removed
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import (
    back_in,
    goes_with,
    move_title,
    taking_out,
    the,
    turning,
)
from halfdrop.base.tolerance import at_most
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece, Wall

GRADE = Grade.FAULT
PRACTICE = ("circulation.fit_slack",)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each thing that reaches through a wall."""
    room = case.room
    wanted = case.length("circulation.fit_slack")
    things: list[Movable] = [*room.floor_pieces.values(), *room.rugs.values()]
    shapely.prepare(room.outline)
    inside = shapely.contains(room.outline, [t.footprint for t in things]) if things else ()
    for thing, is_in in zip(things, inside, strict=True):
        if is_in or thing.footprint.difference(room.outline).is_empty:  # flush with a wall, noise aside
            continue
        beyond, corner, wall = _beyond(case, thing)
        if at_most(beyond, wanted):
            continue
        foot = corner + beyond * wall.inward
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (thing,),
            f"{the(thing).capitalize()} reaches {case.say(beyond)} through wall {wall.name}; "
            f"{case.say(wanted, 'down')} is all a tape explains: it does not fit where it is placed.",
            measured=beyond,
            wanted=wanted,
            sense="at most",
            sigma=room.sigma(thing, wall, corner, foot),
            practice=PRACTICE[0],
            anchor=corner,
            marks=((corner, foot),),
        )


def _beyond(case: RoomCase, thing: Movable) -> tuple[float, Array, Wall]:
    """Return how far a thing reaches out of the room [m], at which of its points, through which wall."""
    outline = case.room.outline
    points = shapely.get_coordinates(thing.footprint.difference(outline))
    off = shapely.distance(outline, shapely.points(points))
    far = int(np.argmax(np.round(off, 9)))
    lines = [shapely.linestrings([w.start, w.end]) for w in case.room.walls]
    near = int(np.argmin(np.round(shapely.distance(lines, shapely.points(points[far])), 9)))
    return float(off[far]), points[far], case.room.walls[near]


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Push it back through the walls it passes, alone or with what belongs to it; turn it; take it out."""
    key = finding.subjects[0].split("/")[-1]
    rug = finding.subjects[0].split("/")[-2] == "rugs"
    thing: Movable = case.room.rugs[key] if rug else case.room.pieces[key]
    by = back_in(case, thing.footprint)
    length = float(np.hypot(*by))
    if length > 1e-6:
        for things in goes_with(case, thing) if isinstance(thing, StandingPiece) else [(thing,)]:
            patch = moved_together(case, things, by)
            if patch:
                yield Proposal("move", move_title(case, thing, things, by / length, length), patch)
    if isinstance(thing, StandingPiece):
        yield from turning(case, thing)
        yield from taking_out(case, thing)
    elif not thing.model.keep:
        yield Proposal("remove", f"Take {the(thing)} out of the room.", removed(thing))
