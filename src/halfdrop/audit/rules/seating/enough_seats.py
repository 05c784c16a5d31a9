"""There is a seat for each person who sits here.

Why: A living room with fewer seats than people ends with chairs carried in from the dining table.
Source: the job's own wish (`wishes/people`); seats by piece from the document or practice values
    furniture.*.seats.
Fails: upholstery, ottomans, benches and stools away from the dining table seat fewer than the wish says sit
    here. Taste.
Passes exactly: as many seats as people.
Silent: where the wishes name no number, and in rooms that are not living rooms: there people eat or sleep
    instead.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.bought import added, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import groups, low_table, main_piece, round_the_table
from halfdrop.job.model import PieceType
from halfdrop.room.groups import dining_sets, seat_count
from halfdrop.room.things import LIGHT_SEATING, SEATING

GRADE = Grade.TASTE
PRACTICE: tuple[str, ...] = ()
#: What a remedy adds: its kind, the piece, how many it seats.
_CHOICES: tuple[tuple[str, PieceType, int], ...] = (("add", "armchair", 1), ("add pair", "loveseat", 2))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding where seats are short."""
    people = case.room.model.wishes.people
    if people is None or not case.room.model.use.get("living"):
        return
    at_tables = {c.id for d in dining_sets(case.room) for c in d.chairs}
    seats = sum(
        seat_count(p, case.practice)
        for p in case.room.floor_pieces.values()
        if p.type in SEATING | LIGHT_SEATING and p.id not in at_tables
    )
    if seats >= people:
        return
    yield case.finding(
        rule_id(__name__),
        GRADE,
        (),
        f"{seats or 'No'} {'seat' if seats == 1 else 'seats'} for the {people} people who sit here; one each "
        "is wanted.",
        measured=seats,
        wanted=people,
        quantity="count",
        name="seats",
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Add an armchair or a loveseat round the group's table; more than two seats short a person must plan."""
    short = int((finding.wanted or 0) - (finding.measured or 0))
    if not groups(case) or short < 1:
        return
    group = max(groups(case), key=lambda g: (len(g.pieces), g.id))
    lead, table = main_piece(case, group), low_table(group)
    middle = (
        lead.at(0.0, (lead.depth + case.length("seating.facing_min")) / 2) if table is None else table.center
    )
    for kind, piece, seats in _CHOICES:
        if short > seats:
            continue
        offer = offers_of(case, piece)[0]
        title = f"Add {offer.called} to the group."
        for spot, angle in round_the_table(case, lead, table, middle, offer.size[1]):
            patch = added(case, offer, spot, angle, group.pieces[0].model.group)
            if patch:
                yield Proposal(kind, title, patch, offer.price, offer.unpriced(case))
