"""A pattern meets where two panels meet, and runs on from window to window of a wall.

Why: A pattern that steps where the curtains close is the first thing seen in the evening, and says that they were
    cut one by one; two windows side by side with the motif at two heights look hung crooked.
Source: practice value drapery.match_tolerance (our choice, no source).
Fails: as taped, the pattern is off by more than the value where the two panels of a pair meet (`off_match`); or
    two treatments of one patterned cloth on one wall or in one bay have their motifs at heights that differ, by
    whole repeats taken off, by more than it. A half-drop cloth repeats by halves from column to column, so half
    a repeat counts as its step. The height is the one taped (`motif`); of panels made anew that name their
    cloth's motif at the heading, it is the top of the cloth where the rod's height is given.
Passes exactly: at the value.
Silent: for plain cloth; where nothing was taped; for windows on different walls; for the seams within a panel,
    which the bolt plan keeps in step.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Patch, Proposal
from halfdrop.audit.hung import cloths_of, hung_in
from halfdrop.audit.moves import text
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_most
from halfdrop.drapery import AsHung

GRADE = Grade.FAULT
PRACTICE = ("drapery.match_tolerance",)


class _Step(NamedTuple):
    """By how much the motif of the second treatment is to be raised so that it meets that of the first [m]."""

    first: AsHung
    second: AsHung
    up: float


def _motif(case: RoomCase, hung: AsHung) -> float | None:
    """Return how high a motif stands above the floor [m]; None where that is not known."""
    if hung.treatment.motif is not None:
        return float(hung.treatment.motif)
    cloth = cloths_of(case)[hung.treatment.fabric or ""]
    if hung.treatment.arrives and cloth.motif == "heading" and "height" in hung.given:
        return hung.top
    return None


def _steps(case: RoomCase) -> Iterator[_Step]:
    """Yield neighbors of one cloth on one wall whose motifs do not line up."""
    cloths, wanted = cloths_of(case), case.length("drapery.match_tolerance")
    panels = [h for h in hung_in(case).values() if h.kind == "panels" and h.treatment.fabric is not None]
    for first, second in combinations(sorted(panels, key=lambda h: h.id), 2):
        walls = {w.name for w in first.run.walls} & {w.name for w in second.run.walls}
        cloth = cloths[first.treatment.fabric or ""]
        if not walls or first.treatment.fabric != second.treatment.fabric or not cloth.repeat:
            continue
        one, other = _motif(case, first), _motif(case, second)
        if one is None or other is None:
            continue
        period = cloth.repeat / 2 if cloth.match == "half-drop" else cloth.repeat
        up = (one - other + period / 2) % period - period / 2
        if not at_most(abs(up), wanted):
            yield _Step(first, second, up)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each pair off its match, and for neighbors out of step."""
    wanted, room = case.length("drapery.match_tolerance"), case.room
    at_most_wanted = f"{case.say(wanted, 'down')} at most is wanted"
    for hanging in room.treatments.values():
        off = float(hanging.model.off_match or 0.0)
        if at_most(off, wanted):
            continue
        yield case.finding(
            rule_id(__name__), GRADE, (hanging,),
            f"Where the panels of the {hanging.name} meet, the pattern is {case.say(off)} off; {at_most_wanted}, "
            "so that it runs on when they are shut.",
            measured=off, wanted=wanted, sense="at most", practice="drapery.match_tolerance",
        )  # fmt: skip
    for first, second, up in _steps(case):
        things = (room.treatments[first.id], room.treatments[second.id])
        yield case.finding(
            rule_id(__name__), GRADE, things,
            f"The motif stands {case.say(abs(up))} out of step from the {things[0].name} to the {things[1].name}; "
            f"{at_most_wanted}, so that the two windows read as one.",
            measured=abs(up), wanted=wanted, sense="at most", practice="drapery.match_tolerance",
            marks=((first.center, second.center),),
        )  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Head one panel again from its hem's reserve; head the neighbor again; make the panels anew from one bolt."""
    keys = [path.split("/")[-1] for path in finding.subjects]
    if len(keys) == 1:
        hanging = case.room.treatments[keys[0]]
        off, path = float(hanging.model.off_match or 0.0), f"/{hanging.path}"
        gone: Patch = [{"op": "remove", "path": f"{path}/off_match"}]
        if at_most(off, _reserve(case, hanging.model.hems.bottom)):
            title = (
                f"Let one panel of the {hanging.name} down {case.say(off)} from its hem, and head it again."
            )
            yield Proposal("rehead", title, gone, None, (f"one panel of the {hanging.name} headed again",))
        if not hanging.model.keep:
            lost: Patch = (
                [{"op": "remove", "path": f"{path}/motif"}] if hanging.model.motif is not None else []
            )
            patch = [*gone, *lost, {"op": "add", "path": f"{path}/arrives", "value": True}]
            title = f"Make the {hanging.name} anew, both panels from one bolt and matched."
            yield Proposal("anew", title, patch, None, (f"the {hanging.name}, made anew",))
        return
    step = next((s for s in _steps(case) if [s.first.id, s.second.id] == keys), None)
    if step is None:
        return
    for hung, up in ((step.second, step.up), (step.first, -step.up)):
        name, model = case.room.treatments[hung.id].name, hung.treatment
        if not at_most(abs(up), _reserve(case, model.hems.bottom)):
            continue
        if model.motif is not None:
            patch = [
                {"op": "replace", "path": f"/{hung.path}/motif", "value": text(case, float(model.motif) + up)}
            ]
            way = "up" if up > 0 else "down"
            title = f"Head the {name} again with the pattern {case.say(abs(up))} farther {way}; the hem gives or takes it."
            yield Proposal("rehead", title, patch, None, (f"the {name} headed again",))
        else:
            patch = [
                {
                    "op": "replace",
                    "path": f"/{hung.path}/hardware/height",
                    "value": text(case, hung.height + up),
                }
            ]
            title = (
                f"Hang the rod of the {name} {case.say(abs(up))} {'higher' if up > 0 else 'lower'}, in line."
            )
            yield Proposal("rod", title, patch)


def _reserve(case: RoomCase, hem: float | None) -> float:
    """Return how much a hem can give and still be one [m]: half of it."""
    return (float(hem) if hem is not None else case.length("drapery.hem_floor")) / 2
