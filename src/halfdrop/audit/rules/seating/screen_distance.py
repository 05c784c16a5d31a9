"""A screen is seen from the distance its size asks for.

Why: Too near, the eyes hunt across the picture and the neck follows; too far, faces and writing are lost.
Source: practice values seating.screen_angle_max and seating.screen_angle_min: the angle a 16:9 screen fills,
    40°, 30° and 20°, are 1.2, 1.6 and 2.5 times its diagonal.
Fails: from the middle of the heads on the main seat to the middle of the screen's face it is less than the
    distance from which the screen, seen square on, fills screen_angle_max, or more than that for
    screen_angle_min. A fault where people sit here for the screen (wishes), else taste.
Passes exactly: at either distance.
Silent: where no upholstery looks that way (turned more than a right angle from it); a bed and a dining table
    are not judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.moves import shifted, text
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.sight import diagonal_of, screens, view_in, view_moves, view_of, wished
from halfdrop.audit.rules.seating.together import unit
from halfdrop.base.formats import format_length
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.room import StandingPiece
from halfdrop.room.viewing import screen_distance

GRADE = Grade.FAULT
PRACTICE = ("seating.screen_angle_max", "seating.screen_angle_min")
_NEAR, _FAR = PRACTICE
#: A seat turned farther from the screen than this does not look at it [rad]: a right angle.
_AWAY = 1.5708


def _limits(case: RoomCase, diagonal: float) -> tuple[float, float]:
    near, far = (screen_distance(diagonal, float(case.practice.angle(key))) for key in (_NEAR, _FAR))
    return near, far


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each screen too near to or too far from the main seat."""
    for screen in screens(case):
        view = view_of(case, screen)
        if view is None or view.turn > _AWAY:
            continue
        diagonal = diagonal_of(screen)
        near, far = _limits(case, diagonal)
        if at_least(view.distance, near) and at_most(view.distance, far):
            continue
        short = view.distance < near
        wanted = near if short else far
        yield case.finding(
            rule_id(__name__),
            GRADE if wished(case, screen) else Grade.TASTE,
            (screen, view.piece),
            f"From the {view.piece.name} to the {screen.name} it is {case.say(view.distance)}; for a "
            "diagonal of "
            f"{format_length(diagonal, case.units, step=Fraction(1, 2), feet=False)} "
            f"{'at least' if short else 'at most'} {case.say(wanted, 'up' if short else 'down')} is wanted, "
            f"{'so that the eyes take it in at once' if short else 'so that faces and writing are clear'}.",
            measured=view.distance,
            wanted=wanted,
            sense="at least" if short else "at most",
            sigma=case.room.sigma(view.piece, screen, view.eye, view.point),
            practice=_NEAR if short else _FAR,
            marks=((view.eye, view.point),),
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Bring people and screen nearer or farther, or change the screen for another made size."""
    screen = case.room.pieces[finding.subjects[0].split("/")[3]]
    view = view_in(case, finding, finding.subjects[0])
    near, far = _limits(case, diagonal_of(screen))
    way = unit(view.point - view.eye)
    if way is not None:
        by = view.distance - (near if finding.sense == "at least" else far)
        where = "from" if by < 0 else "toward"
        for more in (0.0, 0.05, 0.2, 0.5):
            move = by + (more if by > 0 else -more)
            for name, patch in view_moves(case, view, way * move):
                yield Proposal(
                    "move", f"Move {name} {case.say(abs(move), 'up')} {where} the {screen.name}.", patch
                )
            base = case.room.pieces[screen.model.on] if screen.model.on else screen
            patch = shifted(case, [(base, way * -move)])
            if patch:
                title = f"Move the {screen.name} {case.say(abs(move), 'up')} {where} the {view.piece.name}."
                yield Proposal("move screen", title, patch)
    if not screen.model.keep:
        for diagonal in case.practice.length_list("seating.screen_diagonals"):
            near, far = _limits(case, float(diagonal))
            if near <= view.distance <= far:
                yield _resized(case, screen, float(diagonal))


def _resized(case: RoomCase, screen: StandingPiece, diagonal: float) -> Proposal:
    scale = diagonal / diagonal_of(screen)
    path = f"/{screen.path}"
    sizes = {"diagonal": diagonal, "width": screen.width * scale, "height": screen.height * scale}
    patch: Patch = [{"op": "add", "path": f"{path}/{k}", "value": text(case, v)} for k, v in sizes.items()]
    patch.append({"op": "add", "path": f"{path}/arrives", "value": True})
    if screen.model.price is not None:
        patch.append({"op": "remove", "path": f"{path}/price"})
    size = format_length(diagonal, case.units, step=Fraction(1, 2), feet=False)
    return Proposal("size", f"Change the {screen.name} for one of {size}.", patch, None, (f"screen, {size}",))
