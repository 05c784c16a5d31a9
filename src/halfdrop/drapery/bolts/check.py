"""Judge a bolt plan anew, from its own numbers alone: nothing here is shared with what made it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from halfdrop.drapery.bolts.cut import BoltPlan, Cut, LaidBolt

#: Two places nearer than this are the same place [m]: a hundredth of a millimeter.
_SAME = 1e-5
#: What a repeat that is no whole number of a plan's steps may drift, each time it comes round [m]: 0.3 mm over a bolt of 45 m.
_DRIFT = 7e-7


def faults(plan: BoltPlan, cuts: Sequence[Cut]) -> list[str]:
    """Return what is wrong with a plan for these cuts, in words; nothing where all is well.

    Every cut lies once, whole, after the bolt's beginning and before its end; none overlaps another; matched cuts are in phase;
    no more bolts are used than there are; the pieces of a room come from one lot; no less is bought than is used.
    """
    found = []
    laid = [piece.cut for bolt in plan.bolts for piece in bolt.cuts]
    if Counter(laid) != Counter(cuts):
        found.append(f"{len(laid)} cuts are laid, {len(cuts)} are wanted")
    for bolt in plan.bolts:
        found += _bolt_faults(plan, bolt)
    used = Counter(bolt.kind for bolt in plan.bolts)
    found += [
        f"{n} bolts `{k.id}` are used of {k.count}"
        for k, n in used.items()
        if k.count is not None and n > k.count
    ]
    lots: dict[str, set[str]] = {}
    for bolt in plan.bolts:
        for piece in bolt.cuts:
            lots.setdefault(piece.cut.room, set()).add(bolt.kind.lot)
    found += [f"room {room} has {len(of)} lots" for room, of in lots.items() if len(of) > 1]
    if abs(sum(b.paid for b in plan.bolts) - plan.paid) > _SAME or plan.bound > plan.paid + _SAME:
        found.append(f"{plan.paid} m are said to be bought, the bound is {plan.bound} m")
    return found


def _bolt_faults(plan: BoltPlan, bolt: LaidBolt) -> list[str]:
    found = []
    rules = plan.rules
    if rules.place + _SAME < rules.repeat and abs(bolt.motif - rules.place) > _SAME:
        found.append(f"the first motif line is said to lie at {bolt.motif} m, not at {rules.place} m")
    end = rules.place
    for piece in bolt.cuts:
        if piece.start < end - _SAME:
            found.append(f"{piece.cut.id} begins at {piece.start} m, before {end} m")
        end = piece.end
        if plan.rules.repeat and piece.cut.line is not None:
            turns = (piece.start - bolt.motif + piece.cut.line) / plan.rules.repeat - 0.5 * piece.cut.half
            if abs(turns - round(turns)) * plan.rules.repeat > _SAME * (1 + len(bolt.cuts)) + _DRIFT * abs(
                turns
            ):
                found.append(f"{piece.cut.id} is out of phase by {turns - round(turns):.5f} of a repeat")
    if end > bolt.kind.length + _SAME:
        found.append(f"the cuts end at {end} m, the bolt at {bolt.kind.length} m")
    if bolt.paid < end - _SAME or bolt.paid > bolt.kind.length + _SAME:
        found.append(f"{bolt.paid} m are bought of a bolt of {bolt.kind.length} m, used to {end} m")
    return found
