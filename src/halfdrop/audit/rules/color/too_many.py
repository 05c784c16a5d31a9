"""No more than two color families dominate a room.

Why: Two large color families make a room, a third of the same size makes three rooms in one: the eye does not know
    where to begin.
Source: practice values color.dominants_most (common practice) and color.dominant_from (our choice).
Fails: more families than the value have each the dominant share of what is recorded. Colors that differ by less than
    color.family_apart are one family. Taste.
Passes exactly: with as many as the value; a family just under the share does not count.
Silent: where most of the room's colors are not recorded.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.changes import in_color, swatches
from halfdrop.audit.rules.color.shared import judged, subject, the
from halfdrop.color.inventory import Inventory, Part

GRADE = Grade.TASTE
PRACTICE = ("color.dominants_most", "color.dominant_from")


def _wearers(found: Inventory, family: int) -> list[Part]:
    """Return the parts that wear a family, most first."""
    areas: dict[str, float] = {}
    parts = {part.path: part for part, *_ in found.worn}
    for n in found.proportions.families[family].members:
        part, _, area = found.worn[n]
        areas[part.path] = areas.get(part.path, 0.0) + area
    return [parts[path] for path in sorted(areas, key=lambda p: (-round(areas[p], 6), p))]


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding, about the smallest of the families that dominate."""
    found = judged(case)
    if found is None:
        return
    families = found.proportions.dominants
    wanted = case.practice.count(PRACTICE[0])
    if len(families) <= wanted:
        return
    told = [f"{found.family_name(n)} {found.proportions.families[n].share:.0%}" for n in families]
    last = _wearers(found, families[-1])
    yield case.finding(
        rule_id(__name__),
        GRADE,
        [subject(case, part) for part in last[:2]],
        f"{len(families)} color families dominate, each with at least {case.practice.number(PRACTICE[1]):.0%} of the room: "
        f"{', '.join(told)}; at most {wanted} are wanted, or they compete. The smallest is on {the(last[0].what)}.",
        name="families",
        measured=len(families),
        wanted=wanted,
        quantity="count",
        sense="at most",
        practice=PRACTICE[0],
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Give what wears one of the smaller families a color of one of the larger."""
    found = judged(case)
    if found is None:
        return
    families = found.proportions.dominants
    for n in reversed(families):
        others = {
            found.worn[k][1]: found.worn[k][2]
            for m in families
            if m != n
            for k in found.proportions.families[m].members
        }
        for key in swatches(case, sorted(others, key=lambda k: (-round(others[k], 6), k))):
            for part in _wearers(found, n)[:3]:
                yield from in_color(case, part, key)
