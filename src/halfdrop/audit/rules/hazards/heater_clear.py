"""Nothing that can burn stands close to a heater.

Why: A piece or a rug against a radiator or an electric heater scorches, and an electric heater or a fire can
    set it alight; the room stays cold behind it as well.
Source: practice values hazards.heater_clear (electric heater; beside an open fire), hazards.radiator_clear
    (hot water) and hazards.hearth_clear (before an open fire or stove); the maker's label goes before all of
    them.
Fails: the shortest distance from a piece or a rug to the heater is less than the value, or less than the
    fitting's own `clearance` where its label gives one. Before a hearth at a wall it counts from the fire
    opening, which lies in the wall's line (the fitting's depth is its hearthstone); a stove that stands free
    counts all round.
Passes exactly: at the value.
Silent: where there is no heater, radiator or hearth; for what stands on another piece; for what a rug is
    made of, which a person must judge.
Caution: follow the maker's label and the local code; have gas and electric heaters, flues and chimneys
    checked by a licensed person.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import clearing_moves
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.hazards.heat import CAUTION, heaters, limit
from halfdrop.base.tolerance import at_least
from halfdrop.geometry.plane import closest
from halfdrop.room import LyingRug, StandingPiece

GRADE = Grade.HAZARD
PRACTICE = ("hazards.heater_clear", "hazards.radiator_clear", "hazards.hearth_clear")

_WHY = {"radiator": "its heat gets out and nothing dries and cracks before it"}
_Thing = StandingPiece | LyingRug


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each thing too near to each heater."""
    room = case.room
    things: list[_Thing] = [*room.floor_pieces.values(), *room.rugs.values()]
    for heater in heaters(case):
        for thing in things:
            source, wanted, key = limit(case, heater, thing.footprint)
            gap, (p, q) = float(thing.footprint.distance(source)), closest(thing.footprint, source)[:2]
            if at_least(gap, wanted):
                continue
            where = f"stands {case.say(gap)} from" if gap > 0.001 else "stands against"
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (thing, heater),
                f"The {thing.name} {where} the {heater.name}; {case.say(wanted, 'up')} is wanted, "
                f"so that {_WHY.get(heater.model.kind, 'nothing scorches or catches fire')}.",
                measured=gap,
                wanted=wanted,
                sigma=room.sigma(thing, heater, p, q),
                practice=key,
                anchor=p,
                marks=((p, q),),
                caution=CAUTION,
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the thing straight off the heater, or along it."""
    (_, _, kind, key), (*_, heater_id) = (path.split("/") for path in finding.subjects)
    heater = case.room.fittings[heater_id]
    thing: _Thing = case.room.pieces[key] if kind == "pieces" else case.room.rugs[key]
    source, wanted, _ = limit(case, heater, thing.footprint)
    for by, patch in clearing_moves(case, thing, source, wanted):
        yield Proposal(
            "move", f"Move the {thing.name} {case.say(by, 'up')} clear of the {heater.name}.", patch
        )
