"""A rug on a hard floor lies on a pad.

Why: A rug without a pad creeps and slips on a hard floor, its corners curl, and it wears through from below.
Source: practice values rugs.pad_inset, rugs.pad_thickness, rugs.pad_thin and rugs.flat_weave_pile give the pad that is wanted;
    common practice, from memory.
Fails: a rug on a hard floor has no pad.
Passes exactly: with any pad written down.
Silent: on carpet; for a rug that lies over another (a thin grip between the two is enough, and is for the hand to judge).
Caution: a rug that slips throws people down, the old and the very young first; a pad helps, and does not make a worn or curled
    edge safe. On a stair landing or before a stair use none at all without advice.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.pads import PadBuy, pad_of, undercut_over
from halfdrop.room import LyingRug

GRADE = Grade.HAZARD
PRACTICE = ()

CAUTION = (
    "A rug that slips can throw someone down, the old and the very young first. Replace worn pads, keep edges and corners flat; "
    "no loose rug belongs at the head of a stair."
)


def _pad(case: RoomCase, rug: LyingRug) -> PadBuy:
    pile = None if rug.model.pile is None else float(rug.model.pile)
    return pad_of(case, rug.width, rug.depth, pile, undercut_over(case, rug.footprint))


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each rug on the hard floor without a pad."""
    if case.room.model.floor != "hard":
        return
    inset = float(case.length("rugs.pad_inset"))
    for rug in case.room.rugs.values():
        if rug.model.pad is not None or rug.model.over is not None or min(rug.width, rug.depth) <= 2 * inset:
            continue
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (rug,),
            f"The {rug.name} lies on the hard floor with no pad; a {_pad(case, rug).words(case)}, is wanted, so that it "
            "neither slips nor creeps.",
            caution=CAUTION,
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Lay the pad, from the stock by area where it has one."""
    rug = case.room.rugs[finding.subjects[0].split("/")[-1]]
    pad = _pad(case, rug)
    title = f"Lay a {pad.words(case)}, under the {rug.name}"
    title += f" ({pad.working})." if pad.working else "."
    patch = [{"op": "add", "path": f"/{rug.path}/pad", "value": pad.fields(case)}]
    unpriced = () if pad.cost is not None else (pad.words(case),)
    yield Proposal("pad", title, patch, pad.cost, unpriced)
