"""A frame keeps clear of what is on the wall.

Why: A picture over a switch is knocked every evening, one over a thermostat makes the room too warm or too cold, one half behind a
    curtain or a wardrobe is not seen; two frames that touch read as a mistake.
Source: practice values art.fitting_clear (switches, outlets, thermostats, sconces), art.edge_clear (the casing of a door or window,
    the wall's end, the ceiling).
Fails: a frame covers an opening, a curtain drawn shut, a fitting, a tall piece that stands before it, or another frame: fault. It
    is nearer than art.fitting_clear to what is wired, or than art.edge_clear to a casing, the wall's end or the ceiling: taste.
Passes exactly: at each value.
Silent: for the piece it hangs over; for lamps, plants and chairs before it; for works that wait for a place.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from halfdrop.art.places import WRITTEN, clear_move
from halfdrop.art.rect import Rect
from halfdrop.art.wall_face import WIRED, ArtWall, Unit
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase, Subject
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rehang import other_places, rehung, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.room import HungArt

GRADE = Grade.FAULT
PRACTICE = ("art.fitting_clear", "art.edge_clear")


class _Near(NamedTuple):
    """How near a frame is to something: by how much it misses, the gap, what is wanted [m], what it is."""

    miss: float
    gap: float
    wanted: float
    key: str | None
    name: str
    thing: Subject | None

    @property
    def covers(self) -> bool:
        return self.gap < -1e-3


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each frame: what it covers, else what it is nearest to against what is wanted."""
    for wall, unit in units_hung(case):
        for work, rect in zip(unit.works, unit.rects, strict=True):
            near = [n for n in _near(case, wall, unit, work, rect) if not at_least(n.gap, n.wanted, WRITTEN)]
            if not near:
                continue
            worst = max(near, key=lambda n: (n.covers, round(n.miss, 6), n.name))
            grade = GRADE if worst.covers else Grade.TASTE
            if worst.covers:
                message = f"The {work.name} covers {worst.name} by {case.say(-worst.gap)}; {case.say(worst.wanted)} clear is wanted"
            else:
                message = f"The {work.name} hangs {case.say(max(worst.gap, 0.0))} from {worst.name}; {case.say(worst.wanted)} is wanted"
            why = (
                "so that both can be used and seen" if worst.thing is not None else "or it looks pushed there"
            )
            yield case.finding(
                rule_id(__name__),
                grade,
                (work, worst.thing) if worst.thing is not None else (work,),
                f"{message}, {why}.",
                measured=worst.gap,
                wanted=worst.wanted,
                practice=worst.key,
            )


def _near(case: RoomCase, wall: ArtWall, unit: Unit, work: HungArt, rect: Rect) -> Iterator[_Near]:
    fitting, edge = case.length("art.fitting_clear"), case.length("art.edge_clear")
    for mark in wall.marks:
        if unit.below is not None and mark.path == unit.below.path:
            continue
        gap = _gap(rect, mark.rect)
        key = (
            "art.fitting_clear"
            if mark.kind in WIRED
            else "art.edge_clear"
            if mark.kind == "opening"
            else None
        )
        wanted = {"art.fitting_clear": fitting, "art.edge_clear": edge}.get(key or "", 0.0)
        yield _Near(wanted - gap, gap, wanted, key, f"the {mark.name}", _thing(case, mark.path))
    for other in wall.units:
        for fellow, there in zip(other.works, other.rects, strict=True):
            if fellow.id > work.id:
                gap = _gap(rect, there)
                yield _Near(-gap, gap, 0.0, None, f"the {fellow.name}", fellow)
    ends = (rect.x0, wall.face.width - rect.x1)
    end = min(ends)
    yield _Near(edge - end, end, edge, "art.edge_clear", f"the end of wall {wall.name}", None)
    up = wall.face.ceiling(rect.center[0]) - rect.y1
    yield _Near(edge - up, up, edge, "art.edge_clear", "the ceiling", None)


def _gap(a: Rect, b: Rect) -> float:
    """Return the gap between two boxes [m]; where they overlap, below 0 by how far they would have to part."""
    dx, dy = a.apart(b)
    return max(dx, dy) if max(dx, dy) < 0 else a.gap(b)


def _thing(case: RoomCase, path: str) -> Subject:
    _, _, kind, key = path.split("/")
    things: dict[str, Subject] = {**getattr(case.room, kind)}
    return things[key]


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move the work, with its group, the shortest way clear; else hang it elsewhere."""
    wall, unit = unit_of(case, finding)
    move = clear_move(wall, unit.rects, case.practice, unit.below, {w.id for w in unit.works})
    if move is not None and move != (0.0, 0.0):
        dx, dy = move
        parts = [f"{case.say(abs(dx))} to the {'right' if dx > 0 else 'left'}"] if abs(dx) > WRITTEN else []
        parts += [f"{case.say(abs(dy))} {'up' if dy > 0 else 'down'}"] if abs(dy) > WRITTEN else []
        patch = rehung(case, wall, unit.works, [r.moved(dx, dy) for r in unit.rects], unit.below)
        yield Proposal("move", f"Move the {unit.name} {' and '.join(parts)}.", patch)
    yield from other_places(case, unit)
