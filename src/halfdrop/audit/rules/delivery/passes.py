"""What is bought can be brought to where it is to stand.

Why: A sofa that does not pass the stair stays on the sidewalk, and goes back at the client's cost.
Source: practice value delivery.clearance_each_side (our choice, no source) for hand room; how a box passes
    is worked out in geometry/passing.py (the rectangle turned round a corner, the rectangle in a rectangle).
Fails: a piece that arrives does not pass, in any pose, one of the stations of the job's delivery path or one
    of the doors on its way to its room (by the route with fewest doors too small, read from the openings'
    `to`); or, tilted to come in, it cannot be stood up under the ceiling. It travels as `packed` where that
    is written down, else as its whole box, an L with its return; a piano, and everything where the house
    allows no tilting, stays on its feet.
Passes exactly: where what is needed, hand room included, is what there is.
Silent: for pieces that stand there already; for a way in that was not taped, of which the shopping list warns (it is
    no fault of the room, and no remedy that buys a piece may fail on it); about legs and cushions that come off, arms lower than the back,
    handrails it is lifted over and half turns at a landing: write the packed size down, or judge by eye.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.bought import exchanged, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.shared import listed
from halfdrop.audit.rules.delivery.stations import Station, box_of, stations
from halfdrop.geometry.poses import Box
from halfdrop.room import StandingPiece

GRADE = Grade.FAULT
PRACTICE = ("delivery.clearance_each_side",)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each arriving piece that does not pass."""
    for piece in case.room.pieces.values():
        if not piece.model.arrives:
            continue
        box = box_of(case, piece)
        failed = [s for s in stations(case, piece, box) if not s.answer.passes]
        if failed:
            yield _finding(case, piece, failed)


def _finding(case: RoomCase, piece: StandingPiece, failed: list[Station]) -> Finding:
    station = min(failed, key=lambda s: round(s.answer.spare, 6))
    answer, hand = station.answer, case.length("delivery.clearance_each_side")
    others = [s.name for s in failed if s is not station]
    also = f" Nor does it pass {listed(others)}." if others else ""
    how = f"{answer.pose}, {case.say(hand)} of hand room"
    if station.raised:
        how = "corner to corner, as it is stood up"
    packed = ", as packed" if piece.model.packed is not None else ""
    return case.finding(
        rule_id(__name__),
        GRADE,
        (piece,) if station.opening is None else (piece, station.opening),
        f"At {station.name} the {answer.measure} is {case.say(answer.has, 'down')}; the {piece.name}{packed} "
        "needs "
        f"{case.say(answer.needs, 'up')} at best ({how}), "
        f"{case.say(-answer.spare, 'up')} more.{also} Ask for its packed size or another way in, or choose a "
        "smaller.",
        measured=answer.has,
        wanted=answer.needs,
        sigma=case.length("survey.tape_sigma"),
        practice="delivery.clearance_each_side",
        name=piece.id,
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Take a smaller one of the job's stock that passes everywhere; all else is a person's choice."""
    piece = case.room.pieces[finding.subjects[0].split("/")[-1]]
    stocked = {i.name for i in case.job.stock.values() if i.kind == "piece" and i.piece == piece.type}
    if piece.model.keep:
        return
    for offer in offers_of(case, piece.model.type):
        if offer.name not in stocked:
            continue
        width, depth, height = offer.size
        box = Box(width, depth, height, upright_only=box_of(case, piece).upright_only)
        if not all(s.answer.passes for s in stations(case, piece, box)):
            continue
        patch = exchanged(case, piece, offer)
        for key, old in (("packed", piece.model.packed), ("return", piece.model.ret)):
            if old is not None:
                patch.append({"op": "remove", "path": f"/{piece.path}/{key}"})
        title = (
            f"Take the {offer.name} in place of the {piece.name}: {case.say(offer.size[0])} wide, it passes."
        )
        yield Proposal("size", title, patch, offer.price, offer.unpriced(case))
