"""Over a bed a picture has acrylic in it, not glass.

Why: A frame that falls breaks its glass where people sleep.
Source: common practice, no source.
Fails: a work with glass, or a mirror, is over a bed or a crib that stands at its wall. Where nothing is said of its glazing, a
    print, a photograph or a work on paper is taken to have glass.
Passes exactly: with acrylic, or with none.
Silent: beside a bed; over a sofa.
Caution: a mirror over a bed comes down; acrylic is cut and put in by a framer.
"""

from __future__ import annotations

from collections.abc import Iterator

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
from halfdrop.base.tolerance import SAME

GRADE = Grade.FAULT
PRACTICE = ()


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work with glass over a bed."""
    for wall, unit in units_hung(case):
        for work, rect in zip(unit.works, unit.rects, strict=True):
            beds = [bed for bed, aside in beds_under(wall, rect) if aside < -SAME]
            if not beds or not work.model.glass:
                continue
            has = "is a mirror" if work.model.kind == "mirror" else "has glass in it"
            guess = (
                ""
                if work.model.glazing is not None or work.model.kind == "mirror"
                else ", as nothing else is written down,"
            )
            other = "a work without glass" if work.model.kind == "mirror" else "acrylic"
            yield case.finding(
                rule_id(__name__),
                GRADE,
                (work, beds[0]),
                f"The {work.name} {has}{guess} and hangs over the {beds[0].name}; {other} is wanted, which does not break over "
                "those who sleep.",
                caution="Glass that falls cuts; have acrylic put in by a framer, and hang whatever is over a bed from two fixings.",
            )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Put acrylic in, hang it elsewhere, let one without glass hang there, or take it down."""
    _, unit = unit_of(case, finding)
    work = next(w for w in unit.works if w.path == finding.subjects[0])
    yield from glazed_lighter(case, work)
    yield from other_places(
        case, unit, lambda spot: spot.over is None or spot.over.thing.path not in finding.subjects
    )
    yield from swaps(case, unit, lambda other: not other.model.glass)
    yield from relieved(case, unit, lambda model: not model.glass)
    yield Proposal("remove", f"Take the {work.name} down until it has a place.", taken_down(case, [work]))
