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

import numpy as np

from halfdrop.audit.bought import added, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import groups
from halfdrop.geometry.plane import Array, heading, turned
from halfdrop.room.groups import SeatingGroup, dining_sets, seat_count
from halfdrop.room.things import LIGHT_SEATING, SEATING

GRADE = Grade.TASTE
PRACTICE: tuple[str, ...] = ()


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
    """Add armchairs round the group's middle, or stools, as many as are short."""
    short = int((finding.wanted or 0) - (finding.measured or 0))
    if not groups(case) or short < 1:
        return
    group = max(groups(case), key=lambda g: (len(g.pieces), g.id))
    if short == 1:
        offer = offers_of(case, "armchair")[0]
        for spot, angle in _round(case, group, offer.size[1]):
            patch = added(case, offer, spot, angle, group.pieces[0].model.group)
            yield Proposal(
                "add", f"Add an {offer.name} to the group.", patch, offer.price, offer.unpriced(case)
            )
    if short <= 2:
        offer = offers_of(case, "loveseat")[0]
        for spot, angle in _round(case, group, offer.size[1]):
            patch = added(case, offer, spot, angle, group.pieces[0].model.group)
            yield Proposal(
                "add pair", f"Add a {offer.name} to the group.", patch, offer.price, offer.unpriced(case)
            )


def _round(case: RoomCase, group: SeatingGroup, depth: float) -> Iterator[tuple[Array, float]]:
    """Yield places round the group's low table or before its main seat: opposite, then at the corners."""
    lead = group.pieces[0]
    tables = [t for t in group.tables if t.type == "coffee table"]
    front = case.length("seating.facing_min")
    middle = tables[0].center if tables else lead.at(0.0, lead.depth / 2 + front / 2)
    for side in (0.0, -np.pi / 2, np.pi / 2, -np.pi / 4, np.pi / 4):
        way = turned(lead.front, side)
        for off in (front / 2, front / 2 + 0.15, front / 2 + 0.3):
            for along in (0.0, -0.5, 0.5):
                spot = middle + way * (off + depth / 2) + turned(way, np.pi / 2) * along
                yield spot, heading(-way) - np.pi / 2
