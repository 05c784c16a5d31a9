"""The main seats see what the room looks at.

Why: A room gathers round its hearth, its window or its screen; a tall piece in the line of sight or a seat
    turned away takes that from it.
Source: practice values seating.eye_height (what is tall), seating.focal_turn_max and
    seating.focal_distance_max.
Fails: a piece taller than seating.eye_height stands in the line from a head on the main seat to the middle of
    the focal point: a fault where more than half of its places see nothing, else taste. Or the main seat
    faces more than seating.focal_turn_max past it: taste, a fault beyond a right angle. Or it is farther than
    seating.focal_distance_max from the middle of its people's heads: taste; screens have a rule of their own
    for that. Or a screen is wished for and the room has none: taste, and for a person to decide.
Passes exactly: at each value; a piece just as tall as the eye blocks nothing.
Silent: where the wishes name no focal point and no screen, and where there is no upholstery; for all seats
    but the main one (most places, then widest) of the group with most places; for lamps on a pole.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import (
    Movable,
    clearing_moves,
    removed,
    turned_in_place,
    turned_together,
    with_what_it_carries,
)
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.sight import (
    View,
    blockers,
    focal_of,
    set_before,
    view_in,
    view_moves,
    view_of,
)
from halfdrop.audit.rules.seating.together import groups, rugs_of, unit
from halfdrop.base.tolerance import SAME_ANGLE, at_most
from halfdrop.room import StandingPiece

GRADE = Grade.FAULT
PRACTICE = ("seating.eye_height", "seating.focal_turn_max", "seating.focal_distance_max")
_EYE, _TURN, _FAR = PRACTICE


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each thing in the way, and for a main seat turned away from or far off the focal
    point.
    """
    focal = focal_of(case)
    if focal is None:
        if case.room.model.wishes.uses.get("screen") and groups(case) and "screen" not in _types(case):
            yield case.finding(
                rule_id(__name__),
                Grade.TASTE,
                (),
                "The room is wished for a screen and has none: decide what the main seats look at, and name "
                "it in the wishes.",
                name="focal",
            )
        return
    view = view_of(case, focal)
    if view is None:
        return
    for piece, lines in blockers(case, view):
        yield _blocked(case, view, piece, len(lines))
    if not at_most(view.turn, case.practice.angle(_TURN), SAME_ANGLE):
        yield case.finding(
            rule_id(__name__),
            GRADE if view.turn > math.pi / 2 + SAME_ANGLE else Grade.TASTE,
            (view.piece, focal),
            f"The {view.piece.name} faces {case.say_angle(view.turn)} past the {focal.name}; at most "
            f"{case.say_angle(case.practice.angle(_TURN))} is wanted, as far as head and eyes turn in "
            "comfort.",
            measured=view.turn,
            wanted=case.practice.angle(_TURN),
            quantity="angle",
            sense="at most",
            practice=_TURN,
            marks=((view.eye, view.point),),
        )
    elif not (isinstance(focal, StandingPiece) and focal.type == "screen"):
        yield from _far(case, view)


def _types(case: RoomCase) -> set[str]:
    return {p.type for p in case.room.pieces.values()}


def _blocked(case: RoomCase, view: View, piece: StandingPiece, blind: int) -> Finding:
    n = len(view.heads)
    who = "" if n == 1 else "every place of " if blind == n else f"{blind} of {n} places of "
    return case.finding(
        rule_id(__name__),
        GRADE if 2 * blind > n else Grade.TASTE,
        (piece, view.piece, view.focal),
        f"The {piece.name}, {case.say(piece.height)} high, hides the {view.focal.name} from {who}the "
        f"{view.piece.name}; nothing above the seated eye at {case.say(case.length(_EYE), 'down')} is wanted "
        "between.",
        measured=piece.height,
        wanted=case.length(_EYE),
        sense="at most",
        practice=_EYE,
        marks=((view.eye, view.point),),
    )


def _far(case: RoomCase, view: View) -> Iterator[Finding]:
    wanted = case.length(_FAR)
    if at_most(view.distance, wanted):
        return
    yield case.finding(
        rule_id(__name__),
        Grade.TASTE,
        (view.piece, view.focal),
        f"The {view.piece.name} is {case.say(view.distance)} from the {view.focal.name}; at most "
        f"{case.say(wanted, 'down')} "
        "is wanted, or the room has two middles.",
        measured=view.distance,
        wanted=wanted,
        sense="at most",
        sigma=case.room.sigma(view.piece, view.focal, view.eye, view.point),
        practice=_FAR,
        marks=((view.eye, view.point),),
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Clear the line of sight; turn the seat or the group; bring the focal point before it, or the group
    nearer.
    """
    if finding.practice is None:
        return
    view = view_in(case, finding, finding.subjects[-1])
    if finding.practice == _EYE:
        piece = case.room.pieces[finding.subjects[0].split("/")[3]]
        for other, lines in blockers(case, view):
            if other is piece:
                yield from _out_of_the_way(case, piece, lines)
    elif finding.practice == _TURN:
        yield from _toward(case, view)
    else:
        way = unit(view.point - view.eye)
        assert way is not None
        for more in (0.0, 0.1, 0.3):
            by = view.distance - case.length(_FAR) + more
            for name, patch in view_moves(case, view, way * by):
                yield Proposal(
                    "move", f"Move {name} {case.say(by, 'up')} toward the {view.focal.name}.", patch
                )


def _out_of_the_way(case: RoomCase, piece: StandingPiece, lines: list) -> Iterator[Proposal]:  # type: ignore[type-arg]
    for margin in (0.02, 0.1, 0.3):
        shape = unary_union([line.buffer(margin, cap_style="flat") for line in lines])
        for by, patch in clearing_moves(case, piece, shape):
            yield Proposal(
                "move", f"Move the {piece.name} {case.say(by, 'up')} out of the line of sight.", patch
            )
    if not any(p.model.keep for p in with_what_it_carries(case, piece)):
        patch = [op for p in reversed(with_what_it_carries(case, piece)) for op in removed(p)]
        yield Proposal("remove", f"Take the {piece.name} out of the room.", patch)


def _toward(case: RoomCase, view: View) -> Iterator[Proposal]:
    toward = unit(view.point - view.eye)
    assert toward is not None
    front = view.piece.front
    sense = 1.0 if float(front[0] * toward[1] - front[1] * toward[0]) >= 0 else -1.0
    still = np.zeros(2)
    least = view.turn - float(case.practice.angle(_TURN))
    for by in (least + math.radians(2), view.turn / 2, view.turn):
        title = f"Turn the {view.piece.name} {case.say_angle(by)} toward the {view.focal.name}."
        patch = turned_in_place(case, view.piece, sense * by, still)
        if patch:
            yield Proposal("turn", title, patch)
    patch = set_before(case, view)
    if patch:
        yield Proposal("move", f"Stand the {view.focal.name} at the wall the {view.piece.name} faces.", patch)
    things: list[Movable] = [*view.group.pieces, *view.group.tables, *rugs_of(case, view.group)]
    hull = view.group.hull.centroid
    for by in (math.pi / 2, -math.pi / 2, math.pi):
        patch = turned_together(case, things, np.array((hull.x, hull.y)), by, still)
        if patch:
            yield Proposal(
                "turn group",
                f"Turn the whole group {case.say_angle(abs(by))} to the {view.focal.name}.",
                patch,
            )
