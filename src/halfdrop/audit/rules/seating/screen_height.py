"""Nobody cranes up at a screen.

Why: A screen hung like a picture, or over a hearth, tips the head back for hours.
Source: practice values seating.screen_up_angle and seating.eye_height.
Fails: from the seated eye (seating.eye_height, over the middle of the heads on the main seat) the middle of
    the screen stands higher than seating.screen_up_angle above the level.
Passes exactly: at the value.
Silent: where the screen's height is not known (no `center_height`, and it stands on no piece); where no
    upholstery looks at it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import text
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.sight import screens, view_in, view_moves, view_of, wished
from halfdrop.audit.rules.seating.together import unit
from halfdrop.base.tolerance import SAME_ANGLE, at_most
from halfdrop.room import StandingPiece
from halfdrop.room.viewing import look_up

GRADE = Grade.FAULT
PRACTICE = ("seating.screen_up_angle", "seating.eye_height")
_UP, _EYE = PRACTICE
CAUTION = (
    "A screen on a wall hangs by its bracket: follow the bracket maker's limits and find the studs or take "
    "fixings for the "
    "masonry; new outlets and cords in a wall are a licensed electrician's work, and local codes go before "
    "this."
)


def center_height(case: RoomCase, screen: StandingPiece) -> float | None:
    """Return the height of a screen's middle [m], or None where it is not known."""
    if screen.model.center_height is not None:
        return float(screen.model.center_height)
    if screen.model.on is not None:
        return case.room.pieces[screen.model.on].height + screen.height / 2
    return None


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each screen the main seat looks up to too steeply."""
    wanted = float(case.practice.angle(_UP))
    for screen in screens(case):
        view, height = view_of(case, screen), center_height(case, screen)
        if view is None or height is None or view.turn > math.pi / 2:
            continue
        up = look_up(height, case.length(_EYE), view.distance)
        if at_most(up, wanted, SAME_ANGLE):
            continue
        most = case.length(_EYE) + view.distance * math.tan(wanted)
        yield case.finding(
            rule_id(__name__),
            GRADE if wished(case, screen) else Grade.TASTE,
            (screen, view.piece),
            f"The middle of the {screen.name} hangs {case.say(height)} up, {case.say_angle(up)} above the "
            "eyes on the "
            f"{view.piece.name}; at most {case.say_angle(wanted)}, that is {case.say(most, 'down')} up, is "
            "wanted, to spare "
            "necks.",
            measured=up,
            wanted=wanted,
            quantity="angle",
            sense="at most",
            practice=_UP,
            marks=((view.eye, view.point),),
            caution=CAUTION,
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Hang it lower, or sit farther back."""
    screen = case.room.pieces[finding.subjects[0].split("/")[3]]
    view, height = view_in(case, finding, finding.subjects[0]), center_height(case, screen)
    assert height is not None
    eye, up = case.length(_EYE), float(case.practice.angle(_UP))
    if screen.model.on is None:
        for drop in (0.0, 0.05):
            value = text(case, eye + view.distance * math.tan(up) - drop, -1.0)
            patch = [{"op": "replace", "path": f"/{screen.path}/center_height", "value": value}]
            yield Proposal("lower", f"Hang the {screen.name} with its middle {value} above the floor.", patch)
    way = unit(view.eye - view.point)
    if way is not None:
        for more in (0.0, 0.1, 0.3):
            by = (height - eye) / math.tan(up) - view.distance + more
            for name, patch in view_moves(case, view, way * by):
                yield Proposal(
                    "move", f"Move {name} {case.say(by, 'up')} back from the {screen.name}.", patch
                )
