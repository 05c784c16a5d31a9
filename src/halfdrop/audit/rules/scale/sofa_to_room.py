"""The sofa suits the size of the room.

Why: A sofa that fills a small room leaves no place for anything else; one small sofa in a large room looks
    left behind.
Source: practice values scale.sofa_to_room_high and scale.sofa_to_room_low: nobody publishes them, they are
    our choice.
Fails: the footprint of one sofa, loveseat or sectional over the floor is above sofa_to_room_high; or, in a
    living room with one of them, the footprint of all the upholstery over the floor is below
    sofa_to_room_low. Taste.
Passes exactly: at either value.
Silent: for rooms without a sofa; small upholstery in rooms that are more than a place to sit (dining or
    kitchen with it).
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.bought import Offer, exchanged, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import group_of, pieces_of, tables_at
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.job.model import PieceType
from halfdrop.room import StandingPiece
from halfdrop.room.things import SEATING

GRADE = Grade.TASTE
PRACTICE = ("scale.sofa_to_room_high", "scale.sofa_to_room_low")
_HIGH, _LOW = PRACTICE
#: Two shares of the floor nearer than this are the same.
_SAME = 1e-5
SOFAS: tuple[PieceType, ...] = ("sofa", "loveseat", "sectional")
#: What a remedy buys: a sectional is drawn to its corner by a person.
BOUGHT: tuple[PieceType, ...] = ("sofa", "loveseat")


def _others(case: RoomCase, sofa: StandingPiece) -> float:
    """Return the footprint of the other upholstery [m²]."""
    seats = [p for p in case.room.floor_pieces.values() if p.type in SEATING and p is not sofa]
    return sum(float(p.footprint.area) for p in seats)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each sofa too large, or for the largest where all the upholstery is too small."""
    sofas = [p for p in case.room.floor_pieces.values() if p.type in SOFAS]
    if not sofas:
        return
    high, low = case.practice.number(_HIGH), case.practice.number(_LOW)
    for sofa in sofas:
        share = float(sofa.footprint.area) / case.room.area
        if not at_most(share, high, _SAME):
            yield _finding(case, sofa, share, high, "at most", "or nothing else has a place")
    largest = min(sofas, key=lambda p: (-round(p.footprint.area, 4), p.id))
    share = (float(largest.footprint.area) + _others(case, largest)) / case.room.area
    if [u for u, on in case.room.model.use.items() if on] == ["living"] and not at_least(share, low, _SAME):
        yield _finding(case, largest, share, low, "at least", "or it looks left behind")


def _finding(
    case: RoomCase, sofa: StandingPiece, share: float, wanted: float, sense: str, why: str
) -> Finding:
    small = sense == "at least"
    what = f"All the upholstery, the {sofa.name} first, takes" if small else f"The {sofa.name} takes"
    return case.finding(
        rule_id(__name__),
        GRADE,
        (sofa,),
        f"{what} {share:.1%} of the floor; {sense} {wanted:.0%} is wanted, {why}.",
        measured=share,
        wanted=wanted,
        quantity="ratio",
        sense="at least" if small else "at most",
        practice=_LOW if small else _HIGH,
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Change the sofa for one that suits, from stock or of a usual size, unless the client keeps it."""
    (sofa,) = pieces_of(case, finding)
    if sofa.model.keep:
        return
    others = _others(case, sofa)
    for kind in BOUGHT:
        for offer in offers_of(case, kind):
            area = offer.size[0] * offer.size[1]
            if finding.sense == "at most":
                fits = area / case.room.area <= case.practice.number(_HIGH)
            else:
                fits = (area + others) / case.room.area >= case.practice.number(_LOW)
            if fits and sofa.model.ret is None:
                yield from sofa_for(case, sofa, offer)


def sofa_for(case: RoomCase, sofa: StandingPiece, offer: Offer) -> Iterator[Proposal]:
    """Yield the exchange of a sofa for another, its tables left or moved by as much as its front moves."""
    title = f"Change the {sofa.name} for {offer.called} {case.say(offer.size[0])} wide."
    patch = exchanged(case, sofa, offer, back=True)
    yield Proposal("size", title, patch, offer.price, offer.unpriced(case))
    by = sofa.front * (offer.size[1] - sofa.depth)
    follow = shifted(case, [(table, by) for table in tables_at(group_of(case, sofa.id), [sofa])])
    if follow:
        yield Proposal("size", title, patch + follow, offer.price, offer.unpriced(case))
