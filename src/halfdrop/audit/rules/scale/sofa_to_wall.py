"""The sofa suits the wall behind it.

Why: About two thirds of the wall leaves room for an end table and a little air; wall to wall it looks jammed,
    far less it looks lost.
Source: practice values scale.sofa_to_wall_low, scale.sofa_to_wall_high and scale.sofa_to_wall_small; two
    thirds is common practice.
Fails: the width of a sofa, loveseat or sectional over the clear run of the wall behind it (from corner or
    door to the next corner or door) is above sofa_to_wall_high; or below sofa_to_wall_small; or below
    sofa_to_wall_low with nothing beside it to fill the rest. Taste.
Passes exactly: at each value.
Silent: where the back is farther from the wall than seating.wall_pull_walkway (it stands in the room, not at
    the wall) or a door is behind its middle; windows do not break a wall.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from halfdrop.audit.bought import added, offers_of
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, turned_together
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.scale.sofa_to_room import BOUGHT, SOFAS, sofa_for
from halfdrop.audit.rules.seating.together import back_wall, group_of, pieces_of, rugs_of
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.geometry.plane import heading
from halfdrop.room import StandingPiece, Wall

GRADE = Grade.TASTE
PRACTICE = ("scale.sofa_to_wall_high", "scale.sofa_to_wall_low", "scale.sofa_to_wall_small")
_HIGH, _LOW, _SMALL = PRACTICE
#: Two ratios nearer than this are the same.
_SAME = 1e-4
#: A piece this near to a sofa's end fills the wall beside it [m].
_BESIDE = 0.6


class _Run(NamedTuple):
    """A clear run of a wall, from its start [m], and how far the sofa's back is from it."""

    wall: Wall
    start: float
    end: float
    gap: float

    @property
    def length(self) -> float:
        return self.end - self.start


def _runs(case: RoomCase, wall: Wall, gap: float) -> list[_Run]:
    """Return a wall's clear runs between corners and doors."""
    ways = sorted(
        sorted((float(wall.along(o.start)), float(wall.along(o.end))))
        for o in case.room.openings.values()
        if o.wall is wall and o.is_way
    )
    starts, ends = [0.0, *(b for _, b in ways)], [*(a for a, _ in ways), wall.length]
    return [_Run(wall, a, b, gap) for a, b in zip(starts, ends, strict=True) if b - a > 0.1]


def _run_behind(case: RoomCase, sofa: StandingPiece) -> _Run | None:
    """Return the clear run of wall behind a sofa's middle."""
    back = back_wall(case, sofa)
    if back is None or back[0] > case.length("seating.wall_pull_walkway") + _SAME:
        return None
    at = float(back[1].along(sofa.center))
    return next((r for r in _runs(case, back[1], back[0]) if r.start <= at <= r.end), None)


def _flanked(case: RoomCase, sofa: StandingPiece) -> bool:
    zones = [sofa.side_zone(hand, _BESIDE) for hand in (-1, 1)]
    others = [p.footprint for p in case.room.floor_pieces.values() if p is not sofa]
    return any(zone.intersection(other).area > 1e-6 for zone in zones for other in others)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each sofa too long or too short for its wall."""
    high, low, small = (case.practice.number(key) for key in PRACTICE)
    for sofa in case.room.floor_pieces.values():
        run = _run_behind(case, sofa) if sofa.type in SOFAS else None
        if run is None:
            continue
        ratio = sofa.width / run.length
        key = _HIGH if not at_most(ratio, high, _SAME) else None
        if not at_least(ratio, low, _SAME):
            key = _SMALL if not at_least(ratio, small, _SAME) else _LOW if not _flanked(case, sofa) else None
        if key is None:
            continue
        wanted = case.practice.number(key)
        long = key == _HIGH
        why = "so that an end table and some air fit" if long else "or it looks lost on it"
        beside = " with nothing beside it" if key == _LOW else ""
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (sofa,),
            f"The {sofa.name} takes {ratio:.0%} of the {case.say(run.length)} of "
            f"{case.wall_name(run.wall)}{beside}; "
            f"{'at most' if long else 'at least'} {wanted:.0%} is wanted, {why}.",
            measured=ratio,
            wanted=wanted,
            quantity="ratio",
            sense="at most" if long else "at least",
            practice=key,
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Turn the group to a wall that suits; set a table beside the sofa; or change the sofa."""
    (sofa,) = pieces_of(case, finding)
    run = _run_behind(case, sofa)
    assert run is not None
    low, high = case.practice.number(_LOW), case.practice.number(_HIGH)
    yield from _to_another_wall(case, sofa, run, low, high)
    if finding.practice == _LOW:
        for offer in offers_of(case, "side table"):
            for hand in (-1, 1):
                spot = sofa.at(
                    hand * (sofa.width + offer.size[0] + 0.1) / 2, (offer.size[1] - sofa.depth) / 2
                )
                patch = added(case, offer, spot, sofa.angle, sofa.model.group)
                title = f"Set {offer.called} beside the {sofa.name}."
                if patch:
                    yield Proposal("add", title, patch, offer.price, offer.unpriced(case))
    if not sofa.model.keep and sofa.model.ret is None:
        for kind in BOUGHT:
            for offer in offers_of(case, kind):
                if low <= offer.size[0] / run.length <= high:
                    yield from sofa_for(case, sofa, offer)


def _to_another_wall(
    case: RoomCase, sofa: StandingPiece, run: _Run, low: float, high: float
) -> Iterator[Proposal]:
    """Turn the whole group, rug and tables with it, so that the sofa's back comes to another wall."""
    group = group_of(case, sofa.id)
    things: list[Movable] = [*group.pieces, *group.tables, *rugs_of(case, group)]
    for wall in case.room.walls:
        if wall is run.wall:
            continue
        for other in _runs(case, wall, run.gap):
            if not low <= sofa.width / other.length <= high:
                continue
            turn = heading(wall.inward) - heading(run.wall.inward)
            turn = (turn + math.pi) % (2 * math.pi) - math.pi
            for along in (0.5, 0.4, 0.6):
                foot = wall.start + (other.start + along * other.length) * wall.direction
                move = foot + (run.gap + sofa.depth / 2) * wall.inward - sofa.center
                patch = turned_together(case, things, sofa.center, turn, move)
                if patch:
                    yield Proposal(
                        "move",
                        f"Turn the group so that the {sofa.name} stands at {case.wall_name(wall)}.",
                        patch,
                    )
