"""The front legs of every major seat of a group stand on its rug.

Why: A rug that stops short of the seats floats in the middle like a mat; with the front legs of every seat on it, it holds the
    group together, and nobody trips over an edge at their feet.
Source: practice values rugs.front_legs_floor (how far the rug runs behind the front legs, the least) and, for the size of a new
    rug, rugs.front_legs_depth and rugs.sofa_end_extension; common practice, no source.
Fails: behind a front leg of a sofa, loveseat, sectional, armchair, chaise or recliner of the group the rug runs on for less
    than rugs.front_legs_floor, or stops short of the leg. Rugs layered over each other count as one.
Passes exactly: at the value.
Silent: for a group without a rug, and for a rug that lies for no group.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import ways_to_fit, workings_to_fit
from halfdrop.audit.rules.rugs.gather import behind, onto
from halfdrop.audit.rules.rugs.lying import Frame, Under, rugs_under, squared
from halfdrop.audit.rules.rugs.spots import Want
from halfdrop.audit.rules.seating.together import main_piece
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece
from halfdrop.room.groups import SeatingGroup
from halfdrop.rugs import Box, RugAnswer, SeatFront, wanted_seating

GRADE = Grade.FAULT
PRACTICE = ("rugs.front_legs_floor",)
_LEAST = "rugs.front_legs_floor"
#: Seats whose ends the rug runs past.
_LONG = frozenset({"sofa", "loveseat"})


def _names(pieces: list[StandingPiece]) -> str:
    names = [p.name for p in pieces]
    if len(names) == 1:
        return f"the {names[0]}'s front legs"
    return f"the front legs of {', '.join(f'the {n}' for n in names[:-1])} and the {names[-1]}"


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each group whose rug does not reach all its front legs."""
    least = case.length(_LEAST)
    for under in rugs_under(case):
        if not isinstance(under.owner, SeatingGroup):
            continue
        shape = under.shape
        found = [(piece, *behind(piece, shape)) for piece in sorted(under.owner.pieces, key=lambda p: p.id)]
        short = [f for f in found if not at_least(f[1], least)]
        if not short:
            continue
        piece, worst, leg = min(short, key=lambda f: (round(f[1], 6), f[0].id))
        upto = "up to " if len({round(f[1], 3) for f in short}) > 1 else ""
        legs = _names([f[0] for f in short])
        short_of, past = f"stops {upto}{case.say(-worst)} short of", f"runs only {case.say(worst)} behind"
        said = f"{short_of if worst < 0 else past} {legs}"
        rug = under.main
        far = leg + (min(worst, 0.0) or least) * -piece.front
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (rug, *(f[0] for f in short)),
            f"The {rug.name} {said}; every front leg wants to stand on it with {case.say(least, 'up')} of rug behind, so that "
            "the rug holds the group together.",
            measured=worst,
            wanted=least,
            sigma=case.room.sigma(rug, piece, far, leg),
            practice=_LEAST,
            name=rug.id,
            anchor=leg,
        )


def want_of(case: RoomCase, group: SeatingGroup) -> Want:
    """Return the rug a seating group wants."""
    main = main_piece(case, group)
    angle = squared(main.angle)
    frame = Frame(main.center, angle)
    seats = [_seat(frame, p) for p in group.pieces]
    # A new rug takes the coffee table as well: it has no ends and nothing behind it.
    tables = [t for t in group.tables if t.type == "coffee table"]
    seats += [SeatFront(tuple(frame.local(c) for c in t.corners), (0.0, 0.0)) for t in tables]
    behind_legs = [p.front_legs - case.length(_LEAST) * p.front for p in group.pieces]
    least = frame.box(np.vstack((group.front_legs, *behind_legs)))

    def answer(room: Box | None) -> RugAnswer:
        return wanted_seating(seats, case.practice, room=room, room_area=case.room.area)

    return Want(
        frame, answer, least=least, follow=lambda shape, square: onto(case, group, frame, shape, square)
    )


def _seat(frame: Frame, piece: StandingPiece) -> SeatFront:
    ends: tuple[Array, ...] = ()
    if piece.type in _LONG and piece.model.ret is None:
        y = piece.depth / 2 - piece.leg_setback
        ends = (piece.at(-piece.width / 2, y), piece.at(piece.width / 2, y))
    legs = tuple(frame.local(leg) for leg in piece.front_legs)
    return SeatFront(legs, frame.way(piece.front), tuple(frame.local(e) for e in ends))


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the rug or the seats, lay a made size, or layer a kept rug over a base that reaches."""
    under = _under(case, finding)
    assert isinstance(under.owner, SeatingGroup)
    yield from ways_to_fit(case, under, want_of(case, under.owner))


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Yield how the rug wanted was sized, and why no base suits where none does."""
    under = _under(case, finding)
    assert isinstance(under.owner, SeatingGroup)
    yield from workings_to_fit(case, under, want_of(case, under.owner))


def _under(case: RoomCase, finding: Finding) -> Under:
    key = finding.subjects[0].split("/")[-1]
    return next(u for u in rugs_under(case) if u.main.id == key)
