"""The head of a stair is clear, and nothing pinches the way to it.

Why: Whoever trips or sidesteps at the head of a stair falls down all of it; a rug slides there, a table
    corner turns one aside.
Source: practice values hazards.stair_head_clear and hazards.rug_at_stair_head (common practice, no source)
    and hazards.stair_head_pinch (IRC R311.6, from memory); the local code decides.
Fails: a piece stands, or a rug lies farther in than the value, on the clear floor before the stair head (as
    wide as the stair, from its first riser back into the room); or the widest way from a door to that floor
    passes a gap made by a piece that is narrower than the value.
Passes exactly: at each value.
Silent: where no stair head is drawn as a fitting; for gaps that the house makes; in a room without doors for
    the way.
Caution: guards, handrails and landings are for the local code and a licensed person; no loose rug lies
    there, with or without a pad.
"""

from __future__ import annotations

from collections.abc import Iterator

from shapely.geometry import LineString, Polygon

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import clearing_moves, removed
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.pinches import widening
from halfdrop.audit.rules.circulation.shared import floor, short, taking_out
from halfdrop.audit.rules.hazards.narrows import (
    Lead,
    narrow_finding,
    narrows,
    opening_up,
    shut_by,
    shut_finding,
)
from halfdrop.base.tolerance import SAME, at_most
from halfdrop.geometry.plane import closest
from halfdrop.room import FixedFitting, LyingRug, StandingPiece
from halfdrop.room.places import Place
from halfdrop.room.ways import Pinch

GRADE = Grade.HAZARD
PRACTICE = ("hazards.stair_head_clear", "hazards.stair_head_pinch", "hazards.rug_at_stair_head")
CAUTION = (
    "Guards, handrails and landings are for the local code and a licensed person; no loose rug lies there."
)


def _landing(case: RoomCase, head: FixedFitting, inset: float = 0.0) -> Polygon:
    """Return the stair's own floor and the floor before it, `inset` [m] smaller on every side but the
    stair's back.
    """
    w, back, front = head.width / 2, -max(head.depth, 1e-3) / 2, max(head.depth, 1e-3) / 2
    reach = front + case.length("hazards.stair_head_clear")
    return head.box(-w + inset, w - inset, back, reach - inset)


def _nosing(head: FixedFitting) -> LineString:
    w, front = head.width / 2, max(head.depth, 1e-3) / 2
    return LineString((head.at(-w, front), head.at(w, front)))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield what stands or lies at each stair head, and what pinches the way to it."""
    for head in case.room.fittings.values():
        if head.model.kind != "stair head":
            continue
        yield from _standing(case, head)
        yield from _lying(case, head)
        pinches, shut = found(case, head)
        for pinch in pinches:
            yield narrow_finding(case, rule_id(__name__), pinch, _WHY, CAUTION)
        if shut:
            yield shut_finding(case, rule_id(__name__), shut, _WHY, CAUTION)


_WHY = "so that nobody is turned aside where a step too far is a fall."


def _standing(case: RoomCase, head: FixedFitting) -> Iterator[Finding]:
    wanted, zone, nosing = case.length("hazards.stair_head_clear"), _landing(case, head, SAME), _nosing(head)
    for piece in case.room.floor_pieces.values():
        part = piece.footprint.intersection(zone)
        if part.is_empty:
            continue
        p, q, gap = closest(part, nosing)
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (piece, head),
            f"The {piece.name} leaves {case.say(gap)} before the {head.name}; {case.say(wanted, 'up')} is "
            "wanted, "
            "so that nobody trips at the top of the stair.",
            measured=gap,
            wanted=wanted,
            sigma=case.room.sigma(piece, head, p, q) if gap > 1e-3 else None,
            practice="hazards.stair_head_clear",
            anchor=p,
            marks=((p, q),),
            caution=CAUTION,
        )


def _reach(case: RoomCase, head: FixedFitting, rug: LyingRug) -> float:
    """Return how far a rug reaches into the clear floor before a stair head [m]."""
    part = rug.footprint.intersection(_landing(case, head, SAME))
    if part.is_empty:
        return 0.0
    return case.length("hazards.stair_head_clear") - float(part.distance(_nosing(head)))


def _lying(case: RoomCase, head: FixedFitting) -> Iterator[Finding]:
    most = case.length("hazards.rug_at_stair_head")
    for rug in case.room.rugs.values():
        reach = _reach(case, head, rug)
        if at_most(reach, most):
            continue
        p, q, _ = closest(rug.footprint, _nosing(head))
        allowed = (
            "none is wanted there" if at_most(most, 0.0) else f"{case.say(most, 'down')} at most is wanted"
        )
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (rug, head),
            f"The {rug.name} reaches {case.say(reach)} into the clear floor before the {head.name}; "
            f"{allowed}, since a "
            "rug that slides there takes one down the stair.",
            measured=reach,
            wanted=most,
            sense="at most",
            sigma=case.room.sigma(rug, head, p, q),
            practice="hazards.rug_at_stair_head",
            anchor=p,
            marks=((p, q),),
            caution=CAUTION,
        )


def found(case: RoomCase, head: FixedFitting) -> tuple[tuple[Pinch, ...], tuple[Lead, ...]]:
    """Return the pinches of the ways from each door to a stair head, and the ways shut; none where its floor is taken."""

    def work_out() -> tuple[tuple[Pinch, ...], tuple[Lead, ...]]:
        ground = floor(case)
        end = ground.space.faces_touching(_landing(case, head), case.length("hazards.stair_head_pinch"))
        goal = Place("door", f"the {head.name}", (head,), None)
        doors = [Place("door", f"the {o.name}", (o,), None) for o in case.room.openings.values() if o.is_way]
        key = "hazards.stair_head_pinch"
        leads = [Lead(ground.doors[d.things[0].id], end, key, (d, goal)) for d in doors]
        return narrows(case, leads) if end else ((), ())

    return case.memo(f"stair head {head.id}", work_out)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move what is at the stair head away, or out of the room; widen or open the way to it."""
    heads = [f for f in case.room.fittings.values() if f.model.kind == "stair head"]
    if finding.practice == "hazards.stair_head_pinch":
        for head in heads:
            pinches, shut = found(case, head)
            if finding.id.endswith(f"/shut-{head.id}"):
                yield from opening_up(case, shut_by(case, shut[0]), finding.wanted or 0.0)
            for pinch in pinches:
                if finding.id.endswith(f"/{short(pinch.one)}+{short(pinch.other)}"):
                    yield from widening(case, pinch)
        return
    head = case.room.fittings[finding.subjects[-1].split("/")[-1]]
    *_, kind, key = finding.subjects[0].split("/")
    thing = case.room.rugs[key] if kind == "rugs" else case.room.pieces[key]
    for by, patch in clearing_moves(case, thing, _landing(case, head)):
        yield Proposal("move", f"Move the {thing.name} {case.say(by, 'up')} clear of the {head.name}.", patch)
    if isinstance(thing, StandingPiece):
        yield from taking_out(case, thing)
    elif not thing.model.keep:
        yield Proposal("remove", f"Take the {thing.name} out of the room.", removed(thing))
