"""A seating group on a hard floor has a rug.

Why: On a bare floor a group of seats drifts apart and the room rings; a rug holds it together and softens the sound.
Source: common practice, no source; the size that is wanted from rugs.front_legs_depth and rugs.sofa_end_extension.
Fails: as taste, where a group that seats three or more stands on a hard floor and no rug lies under it.
Passes exactly: where any rug lies for the group, or at a group of two places.
Silent: on carpet; for dining tables, which many leave bare for the sake of the chairs and the crumbs; where one of several groups
    of a large room has a rug already (rugs.two-groups).
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.rugs.fitting import new_rugs
from halfdrop.audit.rules.rugs.front_legs import want_of
from halfdrop.audit.rules.rugs.lying import full_groups, is_large, rugs_under
from halfdrop.audit.rules.seating.together import group_of, main_piece

GRADE = Grade.TASTE
PRACTICE = ()


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each full group on the bare floor."""
    if case.room.model.floor != "hard":
        return
    groups = full_groups(case)
    with_rug = {p.id for u in rugs_under(case) for p in getattr(u.owner, "pieces", ())}
    bare = [g for g in groups if not with_rug & {p.id for p in g.pieces}]
    if len(groups) > 1 and len(bare) < len(groups) and is_large(case):
        return
    for group in bare:
        main = main_piece(case, group)
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (main,),
            f"The group round the {main.name} stands on the bare floor; a rug under the front legs of its seats would hold it "
            "together and quiet the room.",
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Lay the made size the group takes."""
    group = group_of(case, finding.subjects[0].split("/")[-1])
    main = main_piece(case, group)
    yield from new_rugs(case, group, want_of(case, group), f"the group round the {main.name}")
