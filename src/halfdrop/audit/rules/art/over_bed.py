"""Nothing heavy hangs over a bed, and nothing at all over a crib.

Why: What hangs over a sleeper's head falls on it in the night; a child in a crib pulls at what it reaches.
Source: practice values art.over_bed_mass, art.cot_reach.
Fails: a work weighs more than art.over_bed_mass and its frame is over a bed that stands at its wall; or any work is over a crib,
    or within art.cot_reach of its ends along the wall.
Passes exactly: at each value.
Silent: beside a bed; where the work was not weighed, the most that practice knows for its size is taken.
Caution: whatever hangs over a bed hangs from two fixings, each able to carry the whole, its bottom edge locked to the wall; the
    crib's maker and local advice go before.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.places import Spot
from halfdrop.art.wall_face import ArtWall, Unit
from halfdrop.art.way import mass_of
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rehang import (
    beds_under,
    glazed_lighter,
    other_places,
    relieved,
    swaps,
    taken_down,
    unit_of,
)
from halfdrop.audit.rule import rule_id
from halfdrop.base.formats import format_mass
from halfdrop.base.tolerance import SAME, at_least, at_most

GRADE = Grade.HAZARD
PRACTICE = ("art.over_bed_mass", "art.cot_reach")
CAUTION = (
    "Whatever hangs over a bed hangs from two fixings, each able to carry the whole, its bottom edge locked to the wall; nothing "
    "hangs within reach of a crib. The crib's maker, local codes and licensed practice go first."
)


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work too heavy for where it hangs."""
    most, reach = float(case.practice.mass("art.over_bed_mass")), case.length("art.cot_reach")
    for wall, unit in units_hung(case):
        for work, rect in zip(unit.works, unit.rects, strict=True):
            for bed, aside in beds_under(wall, rect):
                if bed.type == "crib" and not at_least(aside, reach):
                    near = f"hangs {case.say(aside)} beside" if aside > SAME else "hangs over"
                    yield case.finding(
                        rule_id(__name__),
                        GRADE,
                        (work, bed),
                        f"The {work.name} {near} the {bed.name}; {case.say(reach)} clear along the wall is wanted: a child who "
                        "stands pulls at what it reaches.",
                        measured=max(aside, 0.0),
                        wanted=reach,
                        practice="art.cot_reach",
                        caution=CAUTION,
                    )
                mass = mass_of(work.model, case.practice).mass
                if bed.type == "bed" and aside < -SAME and not at_most(mass, most, 1e-6):
                    guess = "" if work.model.mass is not None else " at the most by its size"
                    yield case.finding(
                        rule_id(__name__),
                        GRADE,
                        (work, bed),
                        f"The {work.name} weighs {format_mass(mass, case.units)}{guess} and hangs over the {bed.name}; "
                        f"{case.practice.mass('art.over_bed_mass').text} at most is wanted, since people sleep under it.",
                        measured=mass / most,
                        wanted=1.0,
                        quantity="ratio",
                        sense="at most",
                        practice="art.over_bed_mass",
                        caution=CAUTION,
                    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Hang it elsewhere, glaze it lighter, let a lighter work hang there that hangs or waits, or take it down."""
    _, unit = unit_of(case, finding)
    work = next(w for w in unit.works if w.path == finding.subjects[0])
    alone = (
        unit
        if len(unit.works) == 1
        else Unit((work,), (unit.rects[unit.works.index(work)],), None, unit.below)
    )
    yield from other_places(case, alone, _no_bed)
    yield from glazed_lighter(case, work)
    most = float(case.practice.mass("art.over_bed_mass"))
    yield from swaps(case, unit, lambda other: mass_of(other.model, case.practice).mass <= most)
    yield from relieved(case, unit, lambda model: mass_of(model, case.practice).mass <= most)
    yield Proposal("remove", f"Take the {work.name} down until it has a place.", taken_down(case, [work]))


def _no_bed(spot: Spot) -> bool:
    wall: ArtWall = spot.wall
    return all(aside > 0 for rect in spot.rects for _, aside in beds_under(wall, rect))
