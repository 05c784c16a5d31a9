"""Works on paper and textiles hang out of the sun.

Why: Light fades paper, photographs and cloth within a few years, and what has faded does not come back; glass and acrylic hold
    off little of it.
Source: practice value art.sun_reach.
Fails: a print, a photograph, a work on paper or a textile hangs before a window that may have sun, nearer to it than
    art.sun_reach × the height of its head: a fault where the window is written down to face the sun, taste where nothing is said of
    where it faces.
Passes exactly: at that distance.
Silent: for paintings, mirrors and objects; for windows that face north (jobs are taken to lie north of the tropics); on the
    window's own wall, which the sun only grazes; where a wall stands between.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from shapely.geometry import LineString

from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rehang import other_places, relieved, swaps, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least
from halfdrop.room import HungArt, WallOpening

GRADE = Grade.FAULT
PRACTICE = ("art.sun_reach",)
_NORTH = ("north", "northeast", "northwest")


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work on paper that the sun may reach: of the nearest window that does."""
    for _, unit in units_hung(case):
        for work in unit.works:
            if not work.model.on_paper:
                continue
            reached = [(far, most, w) for w in _windows(case) for far, most in _sunned(case, work, w)]
            if not reached:
                continue
            far, most, window = min(
                reached, key=lambda r: (r[2].model.faces is None, round(r[0] - r[1], 6), r[2].id)
            )
            faces = window.model.faces
            where = (
                f"which faces {faces}"
                if faces
                else "and where that faces is not written down, so sun is assumed"
            )
            yield case.finding(
                rule_id(__name__),
                GRADE if faces else Grade.TASTE,
                (work, window),
                f"The {work.name} hangs {case.say(far)} from the {window.name}, {where}; {case.say(most)} is wanted, or out of its "
                "sight, since light fades it.",
                measured=far,
                wanted=most,
                practice="art.sun_reach",
                sigma=case.room.sigma(work, window, work.center, window.center),
                marks=((window.center, work.center),),
            )


def _windows(case: RoomCase) -> list[WallOpening]:
    return [
        o for o in case.room.openings.values() if o.model.kind == "window" and o.model.faces not in _NORTH
    ]


def _sunned(case: RoomCase, work: HungArt, window: WallOpening) -> Iterator[tuple[float, float]]:
    """Yield how far a work's nearest edge is from a window and how far the sun comes [m], where it reaches that."""
    most = case.practice.number("art.sun_reach") * (
        float(window.model.sill or 0.0) + float(window.model.height)
    )
    seen = [p for p in (work.start, work.end) if float(window.wall.off(p)) > 0.05]
    if not seen:
        return
    pairs = [
        (float(np.hypot(*(p - q))), p, q) for p in seen for q in (window.start, window.center, window.end)
    ]
    far, p, q = min(pairs, key=lambda v: round(v[0], 9))
    sight = LineString([q + 0.01 * window.wall.inward, p + 0.01 * work.wall.inward])
    outline = case.memo("outline, 1 mm eased", lambda: case.room.outline.buffer(1e-3))
    if not at_least(far, most) and outline.covers(sight):
        yield far, most


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Hang it elsewhere, or let a painting hang there."""
    _, unit = unit_of(case, finding)
    yield from other_places(case, unit)
    yield from swaps(case, unit, lambda other: not other.model.on_paper)
    yield from relieved(case, unit, lambda model: not model.on_paper)
