"""The coffee table suits its sofa in length and height.

Why: A short table leaves the end seats reaching past each other, a long one bars the way; a top above the
    cushion looks like a desk.
Source: practice values seating.coffee_length_low, seating.coffee_length_high and
    seating.coffee_height_below_seat.
Fails: the table's longer side over the sofa's width is below coffee_length_low or above coffee_length_high,
    or its top is more than coffee_height_below_seat below the seat, or above it. All of it is taste.
Passes exactly: at each value, and level with the seat.
Silent: for round tables and square ones (their length says nothing), which are judged by height alone; where
    a sofa has two coffee tables or the group has no sofa, loveseat or sectional.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.bought import Offer, exchanged, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.together import groups, main_piece, pieces_of, seat_height
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.room import StandingPiece

GRADE = Grade.TASTE
PRACTICE = ("seating.coffee_length_low", "seating.coffee_length_high", "seating.coffee_height_below_seat")
_LOW, _HIGH, _BELOW = PRACTICE
#: Two ratios nearer than this are the same.
_SAME = 1e-4
#: A top this much above the cushion is still level with it [m]: cushions are not taped finer.
_LEVEL = 2e-3
#: A table whose sides differ by less is square [m].
_SQUARE = 0.05


def _ratio(table: StandingPiece, sofa: StandingPiece) -> float | None:
    if table.model.shape == "round" or abs(table.width - table.depth) < _SQUARE:
        return None
    return max(table.width, table.depth) / sofa.width


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each coffee table too short, too long, too low or too high for its sofa."""
    for group in groups(case):
        tables = [t for t in group.tables if t.type == "coffee table"]
        sofa = main_piece(case, group)
        if len(tables) != 1 or sofa.type not in ("sofa", "loveseat", "sectional"):
            continue
        yield from _length(case, tables[0], sofa)
        yield from _height(case, tables[0], sofa)


def _length(case: RoomCase, table: StandingPiece, sofa: StandingPiece) -> Iterator[Finding]:
    ratio = _ratio(table, sofa)
    low, high = case.practice.number(_LOW), case.practice.number(_HIGH)
    if ratio is None or (at_least(ratio, low, _SAME) and at_most(ratio, high, _SAME)):
        return
    short = ratio < low
    yield case.finding(
        rule_id(__name__),
        GRADE,
        (table, sofa),
        f"The {table.name} is {ratio:.0%} of the length of the {sofa.name}; "
        f"{f'at least {low:.0%}' if short else f'at most {high:.0%}'} is wanted, that is "
        f"{case.say(sofa.width * (low if short else high), 'up' if short else 'down')}, "
        f"{'so that the end seats reach it' if short else 'so that people get round it'}.",
        name=f"{table.id}+{sofa.id}+length",
        measured=ratio,
        wanted=low if short else high,
        quantity="ratio",
        sense="at least" if short else "at most",
        practice=_LOW if short else _HIGH,
    )


def _height(case: RoomCase, table: StandingPiece, sofa: StandingPiece) -> Iterator[Finding]:
    seat, below = seat_height(case, sofa), case.length(_BELOW)
    if at_least(table.height, seat - below) and at_most(table.height, seat, _LEVEL):
        return
    low = table.height < seat - below
    yield case.finding(
        rule_id(__name__),
        GRADE,
        (table, sofa),
        f"The top of the {table.name} is {case.say(table.height)} up, the seat of the {sofa.name} "
        f"{case.say(seat)}; "
        f"level with the seat or up to {case.say(below, 'down')} below it is wanted, where a hand finds it.",
        name=f"{table.id}+{sofa.id}+height",
        measured=table.height,
        wanted=seat - below if low else seat,
        sense="at least" if low else "at most",
        practice=_BELOW,
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Change the table for one that suits, where the client does not keep it: from stock, else made to the
    values.
    """
    table, sofa = pieces_of(case, finding)
    if table.model.keep:
        return
    seat = seat_height(case, sofa)
    width = sofa.width * (case.practice.number(_LOW) + case.practice.number(_HIGH)) / 2
    fitting = [o for o in offers_of(case, "coffee table") if o.price is not None]
    fitting.append(
        Offer("coffee table", "coffee table", (width, table.depth, seat - case.length(_BELOW) / 2))
    )
    for offer in fitting:
        size = f"{case.say(offer.size[0])} long and {case.say(offer.size[2])} high"
        title = f"Change the {table.name} for one {size}."
        yield Proposal("size", title, exchanged(case, table, offer), offer.price, offer.unpriced(case))
