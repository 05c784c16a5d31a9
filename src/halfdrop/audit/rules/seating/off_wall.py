"""Upholstery stands off the wall, and not round a void.

Why: Seats lined up along the walls leave a hole in the middle across which nobody talks; a sofa pressed to
    the wall looks stored there. A few inches of air help even in a small room; where there is space a walkway
    behind is better.
Source: practice values seating.wall_pull_off (back to wall) and seating.void_span (the empty middle).
Fails: as a fault, where more than half of a group's pieces have their backs nearer to a wall than
    seating.wall_pull_off while the largest circle of clear floor centered between them is wider than
    seating.void_span; the group's own low tables do not fill it, any other piece does. As taste, a piece
    nearer to the wall behind it than seating.wall_pull_off, with no such void.
Passes exactly: at either value.
Silent: for a piece with no wall behind it (its back turned more than 60° from it); a void among seats that
    stand off the walls is the matter of seating.too-far.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from shapely.affinity import translate
from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, shifted
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.seating.formation import formations
from halfdrop.audit.rules.seating.together import (
    back_wall,
    group_of,
    groups,
    least_move,
    listed,
    pieces_of,
    rugs_of,
    tables_at,
)
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.geometry.clear_circle import largest_clear_circle
from halfdrop.geometry.plane import Array
from halfdrop.room import StandingPiece, Wall
from halfdrop.room.groups import SeatingGroup

GRADE = Grade.FAULT
PRACTICE = ("seating.wall_pull_off", "seating.void_span")


def _pushed(case: RoomCase, group: SeatingGroup) -> list[tuple[StandingPiece, float, Wall]]:
    """Return the pieces of a group that stand against a wall, with the gap."""
    least = case.length("seating.wall_pull_off")
    found = []
    for piece in sorted(group.pieces, key=lambda p: p.id):
        back = back_wall(case, piece)
        if back is not None and not at_least(back[0], least):
            found.append((piece, *back))
    return found


def _void(case: RoomCase, group: SeatingGroup, moves: dict[str, Array] | None = None) -> tuple[float, Array]:
    """Return diameter [m] and center of the largest circle of clear floor centered between the seats.

    `moves` shifts pieces first, by id, for trying moves out.
    """
    low = {t.id for t in group.tables}
    shift = moves or {}
    blocks = {b.id: b.footprint for b in case.room.blocks.values() if b.id not in low}
    for key, by in shift.items():
        blocks[key] = translate(blocks[key], float(by[0]), float(by[1]))
    between = unary_union([blocks[p.id] for p in group.pieces]).convex_hull
    return largest_clear_circle(case.room.outline, list(blocks.values()), between)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each group pushed back round a void, and for each piece pushed to its wall
    otherwise.
    """
    span = case.length("seating.void_span")
    for group in groups(case):
        pushed = _pushed(case, group)
        if len(group.pieces) > 1 and 2 * len(pushed) > len(group.pieces):
            void, center = _void(case, group)
            if not at_most(void, span):
                pieces = [p for p, _, _ in pushed]
                yield case.finding(
                    rule_id(__name__),
                    GRADE,
                    pieces,
                    f"{listed(pieces)[0].upper()}{listed(pieces)[1:]} stand against the walls round "
                    f"{case.say(void)} of empty floor; at most {case.say(span, 'down')} is wanted between "
                    "seats. "
                    f"Pulled {case.say(case.length('seating.wall_pull_off'), 'up')} or more off the walls "
                    "they make a group.",
                    name="+".join(sorted(p.id for p in group.pieces)) + "+void",
                    measured=void,
                    wanted=span,
                    sense="at most",
                    practice="seating.void_span",
                    anchor=center,
                )
                continue
        for piece, gap, wall in pushed:
            yield _pressed(case, piece, gap, wall)


def _pressed(case: RoomCase, piece: StandingPiece, gap: float, wall: Wall) -> Finding:
    wanted = case.length("seating.wall_pull_off")
    back = piece.at(0, -piece.depth / 2)
    foot = back - float(wall.off(back)) * wall.inward
    where = f"stands {case.say(gap)} off" if gap > 1e-3 else "stands against"
    return case.finding(
        rule_id(__name__),
        Grade.TASTE,
        (piece,),
        f"The {piece.name} {where} {case.wall_name(wall)}; {case.say(wanted, 'up')} of air behind it is "
        "wanted, even in a "
        "small room, so that it stands in the room and the wall stays clean.",
        measured=gap,
        wanted=wanted,
        sigma=case.room.sigma(piece, wall, back, foot),
        practice="seating.wall_pull_off",
        anchor=back,
        marks=((back, foot),),
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Pull the pieces a few inches off; pull one in to a walkway behind; draw the group together."""
    pushed = pieces_of(case, finding)
    group = group_of(case, pushed[0].id)
    yield from _few_inches(case, group, pushed)
    yield from _walkway(case, group, pushed)
    if finding.grade is Grade.FAULT:
        yield from _drawn_in(case, group)
        yield from formations(case, group)


def _needed(case: RoomCase, piece: StandingPiece, wanted: float) -> Array | None:
    """Return the move along its front that puts a piece `wanted` off the wall behind it [m]."""
    back = back_wall(case, piece)
    if back is None:
        return None
    slope = float(back[1].inward @ piece.front)
    return piece.front * max(wanted - back[0], 0.0) / slope


def _few_inches(case: RoomCase, group: SeatingGroup, pushed: list[StandingPiece]) -> Iterator[Proposal]:
    """Pull every piece at fault off its wall: one pulled while the others stay would make no group."""
    least = case.length("seating.wall_pull_off")
    for wanted in (least, least + 0.05, least + 0.1, 2 * least):
        moves: list[tuple[Movable, Array]] = [
            (p, by) for p in pushed if (by := _needed(case, p, wanted)) is not None
        ]
        tables: list[tuple[Movable, Array]] = [
            (t, by) for p, by in moves if isinstance(p, StandingPiece) for t in tables_at(group, [p])
        ]
        title = f"Pull {listed(pushed)} {case.say(wanted, 'up')} off the wall."
        for going in (moves, [*moves, *tables]):
            patch = shifted(case, going)
            if patch:
                yield Proposal("move", title, patch)


def _walkway(case: RoomCase, group: SeatingGroup, pushed: list[StandingPiece]) -> Iterator[Proposal]:
    full = case.length("seating.wall_pull_walkway")
    narrow = float((case.practice["seating.wall_pull_walkway"].range or (full,))[0])
    rugs = rugs_of(case, group)
    few = case.length("seating.wall_pull_off")
    for wanted in dict.fromkeys((full, narrow)):
        for lead in pushed:
            by = _needed(case, lead, wanted)
            if by is None:
                continue
            others = [(p, b) for p in pushed if p is not lead and (b := _needed(case, p, few)) is not None]
            extras: list[list[Movable]] = [
                [],
                [*tables_at(group, [lead])],
                [*rugs],
                [*tables_at(group, [lead]), *rugs],
            ]
            for extra in extras:
                for also in ([], others):
                    patch = shifted(case, [(lead, by), *((t, by) for t in extra), *also])
                    if patch:
                        title = f"Bring {listed((lead, *extra))} {case.say(wanted, 'up')} off the wall"
                        title += ", with a walkway behind."
                        yield Proposal("walkway", title, patch)


def _drawn_in(case: RoomCase, group: SeatingGroup) -> Iterator[Proposal]:
    """Draw the seats along their fronts until the void is gone, the low table to the middle between them."""
    span = case.length("seating.void_span")
    all_pieces = sorted(group.pieces, key=lambda p: p.id)
    low = [t for t in group.tables if t.type == "coffee table"][:1]
    for lead in (None, *all_pieces):
        going = [p for p in all_pieces if p is not lead]

        def closed(by: float, going: list[StandingPiece] = going) -> bool:
            return at_most(_void(case, group, {p.id: p.front * by for p in going})[0], span)

        by = least_move(closed, most=3.0, pace=0.3) if going else None
        if by is None:
            continue
        for more in (0.0, 0.1, 0.2, 0.4):
            seats: list[tuple[Movable, Array]] = [(p, p.front * (by + more)) for p in going]
            fronts = [
                p.at(0.0, p.depth / 2) + (p.front * (by + more) if p in going else 0.0) for p in all_pieces
            ]
            middle = np.mean(fronts, axis=0)
            for tables in ([], low) if low else ([],):
                patch = shifted(case, [*seats, *((t, middle - t.center) for t in tables)])
                if patch:
                    how = "nearer" if len(going) == 1 else "nearer each other"
                    title = f"Draw {listed([*going, *tables])} {case.say(by + more, 'up')} {how}."
                    yield Proposal("gather", title, patch)
