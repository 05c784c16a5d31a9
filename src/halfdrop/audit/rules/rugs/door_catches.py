"""A door swings clear over the rug and its pad.

Why: A door that drags on a rug wears both, pushes the rug into folds, and one day does not open.
Source: practice value rugs.door_over_rug (clear between the underside of the leaf and the top of the pile); rugs.pile_default where
    the pile is not written down; from memory, unverified.
Fails: as a fault, where a rug lies under the swept quarter circle and the undercut less pile and pad (all layers that lie there)
    leaves less than rugs.door_over_rug. As taste, where the undercut has not been taped: it must be measured.
Passes exactly: at the value.
Silent: for doors that open out of the room, slide or fold away; where no rug lies under the swing.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import Movable, clearing_move, directions, shifted, text
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import ways_to_fit
from halfdrop.audit.rules.rugs.lying import Stack, owner_of, owner_whole, rugs_under, stacks
from halfdrop.audit.rules.rugs.pads import doors_over, pad_of
from halfdrop.audit.rules.rugs.spots import toward
from halfdrop.audit.rules.rugs.wants import want_for
from halfdrop.base.tolerance import SAME, at_least
from halfdrop.room import LyingRug, StandingPiece, WallOpening

GRADE = Grade.FAULT
PRACTICE = ("rugs.door_over_rug",)


def _pile(case: RoomCase, rug: LyingRug) -> float:
    return float(rug.model.pile) if rug.model.pile is not None else float(case.length("rugs.pile_default"))


def _under(stack: Stack, door: WallOpening) -> list[LyingRug]:
    assert door.swing is not None
    return [r for r in stack.rugs if r.footprint.intersection(door.swing).area > 1e-4]


def _thickness(case: RoomCase, rugs: list[LyingRug]) -> float:
    """Return the height of pile and pad where these rugs lie on each other [m]."""
    return sum(_pile(case, r) + (float(r.model.pad.thickness) if r.model.pad else 0.0) for r in rugs)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each door and rug that catch, or might."""
    wanted = case.length("rugs.door_over_rug")
    for stack in stacks(case):
        for door in doors_over(case, stack.shape):
            rugs = _under(stack, door)
            high = _thickness(case, rugs)
            rug = rugs[0]
            what = "pile and pad" if any(r.model.pad for r in rugs) else "pile"
            assert door.swing is not None
            anchor = door.swing.intersection(rug.footprint).representative_point()
            if door.model.undercut is None:
                yield case.finding(
                    rule_id(__name__),
                    Grade.TASTE,
                    (rug, door),
                    f"The {door.name} swings over the {rug.name}, {case.say(high)} of {what}, and its undercut has not been "
                    f"taped; {case.say(high + wanted, 'up')} under the leaf is wanted. Measure it before pile and pad are chosen.",
                    anchor=(anchor.x, anchor.y),
                )
                continue
            clear = float(door.model.undercut) - high
            if at_least(clear, wanted):
                continue
            catches = (
                f"clears the {rug.name} by {case.say(clear)}" if clear > 0 else f"catches on the {rug.name}"
            )
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (rug, door),
                f"The {door.name} {catches}: {case.say(float(door.model.undercut))} under the leaf, {case.say(high)} of {what}; "
                f"{case.say(wanted, 'up')} clear is wanted, so that the leaf does not drag.",
                measured=clear,
                wanted=wanted,
                practice="rugs.door_over_rug",
                anchor=(anchor.x, anchor.y),
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the rug off the swing, give it a thinner pad, change it for one that ends short, or have the leaf cut."""
    rug = case.room.rugs[finding.subjects[0].split("/")[-1]]
    door = case.room.openings[finding.subjects[1].split("/")[-1]]
    stack = next(s for s in stacks(case) if rug in s.rugs)
    owner = owner_of(case, stack)
    yield from _off(case, stack, door, ())
    if owner is not None:
        yield from _off(case, stack, door, owner_whole(owner))
    if finding.measured is not None:
        yield from _thinner(case, rug, door)
    under = next((u for u in rugs_under(case) if u.main is rug), None)
    if under is not None:
        yield from (p for p in ways_to_fit(case, under, want_for(case, under.owner)) if p.kind != "layer")
    if finding.measured is not None and finding.shortfall <= case.length("rugs.door_trim_most"):
        yield _cut(case, door, finding.shortfall)


def _off(
    case: RoomCase, stack: Stack, door: WallOpening, pieces: tuple[StandingPiece, ...]
) -> Iterator[Proposal]:
    """Move the rugs, with what stands on them where given, out from under the leaf."""
    assert door.swing is not None
    main = stack.main
    for way in directions(case, main):
        moves = [clearing_move(r, door.swing, way) for r in _under(stack, door)]
        if any(by is None for by in moves):
            continue
        by = max(m for m in moves if m is not None)
        things: list[Movable] = [*stack.rugs, *pieces]
        patch = shifted(case, [(t, way * by) for t in things])
        if patch:
            what = f"the {main.name} and what stands on it" if pieces else f"the {main.name}"
            kind = "move together" if pieces else "move"
            yield Proposal(kind, f"Move {what} {toward(case, way * by)}, clear of the {door.name}.", patch)


def _thinner(case: RoomCase, rug: LyingRug, door: WallOpening) -> Iterator[Proposal]:
    """Change the pad for a thinner one, where the leaf then clears."""
    if rug.model.pad is None or door.model.undercut is None:
        return
    pad = pad_of(case, rug.width, rug.depth, _pile(case, rug), float(door.model.undercut))
    if pad.thickness < float(rug.model.pad.thickness) - SAME:
        patch = [{"op": "replace", "path": f"/{rug.path}/pad", "value": pad.fields(case)}]
        title = f"Change the pad under the {rug.name} for a {pad.words(case)}."
        yield Proposal("pad", title, patch, pad.cost, () if pad.cost is not None else (pad.words(case),))


def _cut(case: RoomCase, door: WallOpening, short: float) -> Proposal:
    """Have the leaf cut at the foot: a joiner's work."""
    off = text(case, short, 1.0)
    path = f"/{door.path}/undercut"
    patch = [
        {"op": "replace", "path": path, "value": text(case, float(door.model.undercut or 0.0) + short, 1.0)}
    ]
    title = f"Have a joiner take {off} off the foot of the {door.name}; a fire door or a hollow one is not cut without advice."
    return Proposal("cut", title, patch, None, ("a joiner's work at the door",))
