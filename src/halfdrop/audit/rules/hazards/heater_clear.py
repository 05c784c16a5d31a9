"""Nothing that can burn stands close to a heater.

Why: A piece or a rug against a radiator or an electric heater scorches, and an electric heater can set it alight; the
    room stays cold behind it as well.
Source: practice values hazards.heater_clear (electric heater, open fire) and hazards.radiator_clear (hot water); the maker's label
    goes before both.
Fails: the shortest distance from a piece or a rug to the heater is less than the value, or less than the fitting's own
    `clearance` where its label gives one.
Passes exactly: at the value.
Silent: where there is no heater, radiator or hearth; for what stands on another piece; for a hearth's own rug of wool or a stone floor,
    which a person must judge: the rule speaks for rugs too, and says so.
Caution: follow the maker's label and the local code; have gas and electric heaters checked by a licensed person.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import moved, moved_together, with_what_it_carries
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.room import FixedFitting, LyingRug, StandingPiece

GRADE = Grade.HAZARD
PRACTICE = ("hazards.heater_clear", "hazards.radiator_clear")

_KEYS = {
    "heater": "hazards.heater_clear",
    "hearth": "hazards.heater_clear",
    "radiator": "hazards.radiator_clear",
}
CAUTION = "Follow the heater's label and the local code; gas and electric heaters are a licensed person's work."


def _wanted(case: RoomCase, heater: FixedFitting) -> float:
    label = heater.model.clearance
    return float(label) if label is not None else case.length(_KEYS[heater.model.kind])


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each thing too near to each heater."""
    room = case.room
    things: list[StandingPiece | LyingRug] = [*room.floor_pieces.values(), *room.rugs.values()]
    for heater in room.fittings.values():
        if heater.model.kind not in _KEYS:
            continue
        wanted = _wanted(case, heater)
        for thing in things:
            if thing.footprint.distance(heater.footprint) >= wanted:
                continue
            gap, p, q, sigma = room.distance(thing, heater)
            if at_least(gap, wanted):
                continue
            where = f"stands {case.say(gap)} from" if gap > 0.001 else "stands against"
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (thing, heater),
                f"The {thing.name} {where} the {heater.name}; {case.say(wanted, 'up')} is wanted, "
                "so that nothing scorches or catches fire.",
                measured=gap,
                wanted=wanted,
                sigma=sigma,
                practice=None if heater.model.clearance is not None else _KEYS[heater.model.kind],
                anchor=p,
                marks=((p, q),),
                caution=CAUTION,
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the thing straight off the heater, or along it."""
    parts = [path.split("/") for path in finding.subjects]
    heater = case.room.fittings[parts[1][-1]]
    kind, key = parts[0][-2:]
    thing = case.room.pieces[key] if kind == "pieces" else case.room.rugs[key]
    wanted = _wanted(case, heater)
    ways = [thing.front, -thing.front, thing.right, -thing.right]
    if heater.wall is not None:
        ways.append(heater.wall.inward)
    for way in ways:
        by = _clearing(thing, heater, way, wanted)
        if by is None:
            continue
        move = way * by
        patch = (
            moved_together(case, with_what_it_carries(case, thing), move)
            if isinstance(thing, StandingPiece)
            else moved(case, thing, move)
        )
        if patch:
            yield Proposal("move", f"Move the {thing.name} {case.say(by, 'up')} clear of the {heater.name}.", patch)


def _clearing(thing: StandingPiece | LyingRug, heater: FixedFitting, way: np.ndarray, wanted: float) -> float | None:
    """Return the least move along `way` that clears the heater [m], by bisection on the true distance."""
    from shapely.affinity import translate

    def gap(by: float) -> float:
        return float(translate(thing.footprint, way[0] * by, way[1] * by).distance(heater.footprint))

    high = wanted + heater.width + thing.width + thing.depth
    if gap(high) < wanted:
        return None
    low = 0.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if gap(middle) >= wanted else (middle, high)
    return high
