"""Tall storage and loose screens are fixed to the wall.

Why: A chest, a bookcase or a screen that tips falls on whoever pulled a drawer out or climbed a shelf; most
    of those hurt are small children.
Source: practice values hazards.anchor_height and hazards.anchor_screen (16 CFR 1261 and ASTM F2057-23 for
    clothing storage, as secondary pages quote them; for other storage common practice, no source).
Fails: a dresser, chest, wardrobe, bookcase, cabinet, media unit or sideboard as high as the value or higher
    (with what it stands on) whose `anchored` is not true; a screen that stands on furniture or on the floor
    and is not anchored. Where `anchored` is not written down it counts as not anchored, and the message says
    so.
Passes exactly: just below the value; at the value a piece is anchored.
Silent: for a screen with no piece under it and a center height, which hangs on the wall; for leaning mirrors
    and shelves built in, which are no storage of this list.
Caution: fixing into a wall is done to the maker's instructions and the local code, into stud or masonry that
    holds, after a check for cables and pipes; where in doubt a licensed person does it.
"""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.room import StandingPiece
from halfdrop.room.things import STORAGE

GRADE = Grade.HAZARD
PRACTICE = ("hazards.anchor_height",)
CAUTION = (
    "Fix into stud or masonry by the maker's instructions and the local code, and look for cables and pipes "
    "before "
    "drilling; where the wall is in doubt, ask a licensed person."
)
#: A strap reaches this far from a piece to the wall [m]; common practice, no source.
STRAP = 0.15
_INTO = {
    "stud": "with two straps into the studs",
    "masonry": "with two straps and plugs made for the masonry",
    "unknown": "with two straps, once it is known whether it is stud or masonry",
}


def _stack(case: RoomCase, piece: StandingPiece) -> list[StandingPiece]:
    """Return a piece, what it stands on, and so down to the floor."""
    stack = [piece]
    while (below := stack[-1].model.on) is not None and below not in {p.id for p in stack}:
        stack.append(case.room.pieces[below])
    return stack


def _wall(case: RoomCase, piece: StandingPiece) -> str | None:
    """Return the wall that a strap reaches from a piece, or None."""
    base = _stack(case, piece)[-1].footprint
    gaps = [
        (round(float(shapely.linestrings([w.start, w.end]).distance(base)), 6), w.name)
        for w in case.room.walls
    ]
    gap, name = min(gaps)
    return name if gap <= STRAP else None


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each piece that is to be anchored and is not."""
    wanted = case.length("hazards.anchor_height")
    for piece in case.room.pieces.values():
        if piece.model.anchored:
            continue
        unknown = piece.model.anchored is None
        state = (
            "whether it is anchored is not written down, so it counts as not"
            if unknown
            else "it is not anchored"
        )
        stack = _stack(case, piece)
        top = sum(p.height for p in stack)
        free = "" if _wall(case, piece) else " It stands clear of every wall: decide where it can be fixed."
        if piece.type in STORAGE and at_least(top, wanted):
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (piece,),
                f"The {piece.name} is {case.say(top)} high; {state}. Storage from "
                f"{case.say(wanted, 'down')} up is fixed to the wall, so that it cannot tip over on "
                f"anyone.{free}",
                measured=top,
                wanted=wanted,
                sense="at most",
                sigma=case.length("survey.tape_sigma"),
                practice="hazards.anchor_height",
                caution=CAUTION,
            )
        elif piece.type == "screen" and case.practice.flag("hazards.anchor_screen") and not _hangs(piece):
            where = f"on the {stack[1].name}" if len(stack) > 1 else "on its own foot"
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (piece,),
                f"The {piece.name} stands {where}; {state}. A screen that does not hang on the wall is "
                "strapped, so "
                f"that a child's pull cannot bring it down.{free}",
                practice="hazards.anchor_screen",
                caution=CAUTION,
            )


def _hangs(piece: StandingPiece) -> bool:
    return piece.model.on is None and piece.model.center_height is not None


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Fix it to the wall it stands at; what stands free of every wall is for a person to place first.

    The wall is not named: a later step of a scheme may stand the piece at another, and it is fixed where it ends.
    """
    piece = case.room.pieces[finding.subjects[0].split("/")[-1]]
    if _wall(case, piece) is None:
        return
    prices = [i.price for i in case.job.stock.values() if i.kind == "anchor" and i.price is not None]
    cost = min((p for p in prices if p.currency == case.job.job.currency), default=None)
    unpriced = () if cost is not None else ("furniture straps, one pair",)
    title = f"Fix the {piece.name} to the wall {_INTO[case.room.model.wall_build]}."
    patch = [{"op": "add", "path": f"/{piece.path}/anchored", "value": True}]
    yield Proposal("anchor", title, patch, cost, unpriced)
