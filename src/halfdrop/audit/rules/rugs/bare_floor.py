"""Bare floor shows between a rug and the walls, the same on opposite sides where the rug follows the room.

Why: A rug that runs up to the walls looks like carpet cut short; bare floor frames it. A rug that follows the room and lies a
    little aside looks like a mistake.
Source: practice values rugs.bare_floor_min, in a small room rugs.bare_floor_small_room; rugs.border_equal; common practice, no source.
Fails: as a fault, where a rug that lies for a group, a table or a bed, or that covers a third of the floor, is nearer to a wall
    than the least. As taste, where a rug that covers half of the floor, square to the room, has borders on opposite sides that
    differ by more than rugs.border_equal.
Passes exactly: at the value.
Silent: for small loose rugs, and in halls (rugs.runner); on carpet; for borders of a rug that lies for a group in one part of the room.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import ways_to_fit
from halfdrop.audit.rules.rugs.follow import border_sizes, borders
from halfdrop.audit.rules.rugs.free import bare_key
from halfdrop.audit.rules.rugs.lying import Stack, owner_of, owner_whole, rugs_under, stacks
from halfdrop.audit.rules.rugs.spots import toward
from halfdrop.audit.rules.rugs.wants import want_for
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.geometry.plane import Array, point
from halfdrop.room import Wall

GRADE = Grade.FAULT
PRACTICE = ("rugs.bare_floor_min", "rugs.bare_floor_small_room", "rugs.border_equal")
_EQUAL = "rugs.border_equal"
#: Share of the floor from which a loose rug counts as the room's, and from which it follows the room.
ROOM_RUG, FOLLOWS = 1 / 3, 1 / 2


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each rug too near to walls, and one for each that lies aside in the room it follows."""
    if case.room.model.floor != "hard" or case.room.model.use.get("hall"):
        return
    for stack in stacks(case):
        share = float(stack.shape.area) / case.room.area
        if owner_of(case, stack) is None and share < ROOM_RUG:
            continue
        close = list(_close(case, stack))
        if close:
            yield _near(case, stack, close)
        elif share >= FOLLOWS:
            yield from _aside(case, stack)


def _close(case: RoomCase, stack: Stack) -> Iterator[tuple[float, Wall, Array]]:
    """Yield the walls a stack of rugs lies too near to: the gap [m], the wall, the rug's point nearest to it."""
    least = case.length(bare_key(case))
    for wall in case.room.walls:
        gaps = [(g, r) for r in stack.rugs if (g := case.room.wall_gap(r, wall)) is not None]
        if gaps and not at_least(min(g for g, _ in gaps), least):
            gap, rug = min(gaps, key=lambda g: (round(g[0], 6), g[1].id))
            p = min(rug.corners, key=lambda c: round(abs(float(wall.off(c))), 6))
            yield gap, wall, p


def _near(case: RoomCase, stack: Stack, close: list[tuple[float, Wall, Array]]) -> Finding:
    gap, wall, p = min(close, key=lambda c: (round(c[0], 6), c[1].name))
    key = bare_key(case)
    wanted = case.length(key)
    rest = [case.wall_name(w) for _, w, _ in close if w is not wall]
    also = f", and nearer than wanted to {' and '.join(rest)} too" if rest else ""
    where = (
        f"leaves {case.say(gap)} of bare floor at {case.wall_name(wall)}"
        if gap > 1e-3
        else f"runs up to {case.wall_name(wall)}"
    )
    small = " in a room this small" if key.endswith("small_room") else ""
    foot = p - float(wall.off(p)) * wall.inward
    return case.finding(
        rule_id(__name__),
        GRADE,
        (stack.main,),
        f"The {stack.main.name} {where}{also}; {case.say(wanted, 'up')} or more is wanted{small}, so that the floor frames it.",
        measured=gap,
        wanted=wanted,
        sigma=case.room.sigma(stack.main, wall, p, foot),
        practice=key,
        anchor=p,
        marks=((p, foot),),
    )


def _aside(case: RoomCase, stack: Stack) -> Iterator[Finding]:
    """Yield a finding where opposite borders differ, the worse pair of the two."""
    pairs = borders(case, stack.main)
    wanted = case.length(_EQUAL)
    near, far, way = max(pairs, key=lambda b: round(b[1] - b[0], 6))
    if at_most(far - near, wanted):
        return
    yield case.finding(
        rule_id(__name__),
        Grade.TASTE,
        (stack.main,),
        f"The {stack.main.name} leaves {case.say(near)} of bare floor on one side and {case.say(far)} opposite; they want to be "
        f"equal within {case.say(wanted, 'down')}, since the rug follows the room.",
        measured=far - near,
        wanted=wanted,
        sense="at most",
        practice=_EQUAL,
        anchor=stack.main.center + way * 0.5 * (stack.main.width + stack.main.depth) / 2,
        name=f"{stack.main.id}+borders",
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the rug in, or to the middle; else lay the largest made size that leaves its border."""
    stack = next(s for s in stacks(case) if s.main.path == finding.subjects[0])
    main, owner = stack.main, owner_of(case, stack)
    for by in _ways_in(case, stack):
        patch = shifted(case, [(r, by) for r in stack.rugs])
        if patch:
            yield Proposal("move", f"Move the {main.name} {toward(case, by)}.", patch)
        if patch and owner is not None:
            things: list[Movable] = [*stack.rugs, *owner_whole(owner)]
            title = f"Move the {main.name} and what stands on it {toward(case, by)}."
            yield Proposal("move together", title, shifted(case, [(t, by) for t in things]))
    under = next((u for u in rugs_under(case) if u.main is main), None)
    if under is not None:
        yield from (
            p
            for p in ways_to_fit(case, under, want_for(case, under.owner))
            if p.kind in ("move", "turn", "size")
        )
    elif not main.model.keep:
        yield from border_sizes(case, stack)


def _ways_in(case: RoomCase, stack: Stack) -> Iterator[Array]:
    """Yield plain moves: off the near walls together, and to the middle between opposite walls."""
    least = case.length(bare_key(case))
    push = np.zeros(2)
    for gap, wall, p in _close(case, stack):
        out = not case.room.outline.covers(point(p))
        push = push + wall.inward * (least - gap + (abs(float(wall.off(p))) if out else 0.0))
    if float(np.hypot(*push)) > 1e-3:
        yield push
    middle = sum((way * (far - near) / 2 for near, far, way in borders(case, stack.main)), np.zeros(2))
    if float(np.hypot(*middle)) > 1e-3:
        yield middle
