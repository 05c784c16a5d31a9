"""A screen is not looked at from the side.

Why: From the side the picture narrows, colors pale on many screens, and necks turn for hours.
Source: practice value seating.screen_side_angle: our choice.
Fails: the line from the middle of the heads on the main seat to the middle of the screen's face is more than
    seating.screen_side_angle off the screen's square. Taste.
Passes exactly: at the value.
Silent: where no upholstery looks that way (turned more than a right angle from it), and from behind the screen.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import turned_in_place
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.sight import View, screens, set_before, view_in, view_moves, view_of
from halfdrop.audit.rules.seating.together import unit
from halfdrop.base.tolerance import SAME_ANGLE, at_most
from halfdrop.geometry.plane import left_of
from halfdrop.room import StandingPiece

GRADE = Grade.TASTE
PRACTICE = ("seating.screen_side_angle",)


def _side(view: View, screen: StandingPiece) -> float:
    """Return how far off the screen's square the people sit [rad], positive to the left of who looks out of it."""
    back = unit(view.eye - view.point)
    if back is None:
        return 0.0
    return math.atan2(float(left_of(screen.front) @ back), float(screen.front @ back))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each screen the main seat sees from the side."""
    wanted = float(case.practice.angle(PRACTICE[0]))
    for screen in screens(case):
        view = view_of(case, screen)
        if view is None or view.turn > math.pi / 2:
            continue
        side = abs(_side(view, screen))
        if side > math.pi / 2 or at_most(side, wanted, SAME_ANGLE):
            continue
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (screen, view.piece),
            f"People on the {view.piece.name} see the {screen.name} from {case.say_angle(side)} aside; at most "
            f"{case.say_angle(wanted)} is wanted, before the picture narrows and necks turn.",
            measured=side,
            wanted=wanted,
            quantity="angle",
            sense="at most",
            practice=PRACTICE[0],
            marks=((view.eye, view.point),),
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Turn the screen to the people, bring the people before it, or stand it at the wall they face."""
    screen = case.room.pieces[finding.subjects[0].split("/")[3]]
    view = view_in(case, finding, finding.subjects[0])
    side, wanted = _side(view, screen), float(case.practice.angle(PRACTICE[0]))
    base = case.room.pieces[screen.model.on] if screen.model.on else screen
    for by in (abs(side) - wanted + math.radians(2), abs(side)):
        patch = turned_in_place(case, base, math.copysign(by, side), np.zeros(2))
        if patch:
            title = f"Turn the {base.name} {case.say_angle(by)} to the {view.piece.name}."
            yield Proposal("turn", title, patch)
    across = float((view.eye - view.point) @ left_of(screen.front))
    ahead = float((view.eye - view.point) @ screen.front)
    for part in (wanted, wanted / 2, 0.0):
        by = abs(across) - ahead * math.tan(part) + 0.01
        for name, patch in view_moves(case, view, -math.copysign(by, across) * left_of(screen.front)):
            title = f"Move {name} {case.say(by, 'up')} before the {screen.name}."
            yield Proposal("move", title, patch)
    patch = set_before(case, view)
    if patch:
        title = f"Stand the {base.name} at the wall the {view.piece.name} faces."
        yield Proposal("move screen", title, patch)
