"""What hangs over a piece, or on an empty wall, is wide enough for it.

Why: A small picture over a long sofa looks left over; two thirds of the width read as one with it. A group counts as one, and
    so do works side by side over one piece.
Source: practice values art.over_width_least and art.over_width_low (over a piece), art.wall_width_least (on a bare stretch).
Fails: width round the works over a piece ÷ width of the piece is less than art.over_width_low: taste; less than
    art.over_width_least: fault. Width round the works of a bare stretch of wall ÷ its width is less than art.wall_width_least: taste.
Passes exactly: at each value.
Silent: for mirrors and objects, which are as large as they are; over a crib; over a hearth; on a stretch that furniture
    stands along, where the furniture fills it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import ArtWall, Unit
from halfdrop.audit.art_case import units_hung, walls_hung
from halfdrop.audit.case import RoomCase, Subject
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.regroup import joined
from halfdrop.audit.rehang import other_places, relieved, swaps, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.room.face import Seen

GRADE = Grade.FAULT
PRACTICE = ("art.over_width_least", "art.over_width_low", "art.wall_width_least")


@dataclass(frozen=True)
class _Share:
    """Works that share a piece or a stretch of wall, and how wide that is [m]."""

    units: tuple[Unit, ...]
    over: Seen | None
    wide: float

    @property
    def share(self) -> float:
        return Rect.round_all(u.box for u in self.units).width / self.wide


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each piece or stretch whose works are too narrow for it."""
    for wall in walls_hung(case):
        for one in _shares(wall):
            low = "art.wall_width_least" if one.over is None else "art.over_width_low"
            least = low if one.over is None else "art.over_width_least"
            if at_least(one.share, case.practice.number(low), 1e-4):
                continue
            grave = one.over is not None and not at_least(one.share, case.practice.number(least), 1e-4)
            key = least if grave else low
            works = [w for u in one.units for w in u.works]
            wide = case.say(one.share * one.wide)
            name = one.units[0].name if len(one.units) == 1 else f"{len(works)} works"
            place = (
                f"the {one.over.thing.name}"
                if one.over
                else f"the {case.say(one.wide)} of bare wall {wall.name} it hangs on"
            )
            subjects: list[Subject] = [*works]
            if one.over is not None:
                subjects.append(one.over.thing)
            yield case.finding(
                rule_id(__name__),
                GRADE if grave else Grade.TASTE,
                subjects,
                f"The {name} {'are' if len(one.units) > 1 else 'is'} {wide} wide, {one.share:.0%} of {place}; "
                f"{case.practice.number(low):.0%} at the least is wanted, or it looks left over.",
                measured=one.share,
                wanted=case.practice.number(key),
                quantity="ratio",
                practice=key,
                anchor=works[0].center,
            )


def _shares(wall: ArtWall) -> Iterator[_Share]:
    """Yield the pieces that works hang over, and the bare stretches they hang on, with their works."""
    seen: dict[str, list[Unit]] = {}
    for unit in wall.units:
        if all(w.model.kind in ("mirror", "object") for w in unit.works) or unit.below_kind in (
            "cot",
            "mantel",
        ):
            continue
        if unit.below is not None:
            seen.setdefault(unit.below.path, []).append(unit)
        else:
            low, high = wall.stretch(unit.box)
            seen.setdefault(f"{low:.4f} {high:.4f}", []).append(unit)
    for units in seen.values():
        below = units[0].below
        low, high = (below.left, below.right) if below else wall.stretch(units[0].box)
        if below is None and any(min(s.right, high) - max(s.left, low) > 0.05 for s in wall.face.pieces):
            continue
        yield _Share(tuple(units), below, high - low)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Hang others of the room with it as a group, change places with a wider work, or hang it where it is wide enough."""
    wall, unit = unit_of(case, finding)
    units = [u for w, u in units_hung(case) if any(x.path in finding.subjects for x in u.works)]
    if len(units) == 1:
        yield from joined(case, wall, unit)
        yield from swaps(case, unit, lambda work: work.width > unit.box.width)
        yield from relieved(case, unit, lambda model: float(model.width) > unit.box.width)
        yield from other_places(case, unit)
