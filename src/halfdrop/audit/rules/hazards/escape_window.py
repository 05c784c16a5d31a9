"""A bedroom's escape window can be reached and is large enough to get out by.

Why: When the door is cut off by fire or smoke, the window is the way out; a chest before it, or an opening
    too small to climb through, takes that way.
Source: practice values hazards.escape_depth and hazards.escape_width for the floor before it (common
    practice, no source); hazards.escape_area, escape_height, escape_breadth and escape_sill for its clear
    opening (IRC R310, as a secondary page quotes it; the local code decides).
Fails: no strip of floor as wide and as deep as the values is free before a window marked `escape: true` (a
    window narrower than that is widened to it as far as its wall runs; fittings below the sill do not count,
    pieces always do); or its clear opening, as taped, is less than a value, its sill higher, its sash fixed.
    Where the clear opening was not taped it asks for it, and a bedroom with no escape window marked and no
    door to the outside gets the question whether it has one: both are matters of taste in the grade only,
    for nothing is known against it.
Passes exactly: at each value.
Silent: for windows not marked, outside bedrooms; in a bedroom with a door to the outside; about how the sash
    is worked, bars and locks, and what lies below the window outside.
Caution: the local code and the fire service say what a way out must be; a licensed person changes the
    window. Try it once: it opens without key or tool.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from shapely.affinity import translate
from shapely.geometry import Polygon

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.moves import clearing_moves, removed
from halfdrop.audit.rule import rule_id
from halfdrop.base.formats import format_area
from halfdrop.base.tolerance import SAME, at_least, at_most
from halfdrop.geometry.plane import closest
from halfdrop.geometry.strips import greatest_depth, widest_gap
from halfdrop.room import StandingPiece, WallOpening

GRADE = Grade.HAZARD
PRACTICE = (
    "hazards.escape_depth",
    "hazards.escape_width",
    "hazards.escape_area",
    "hazards.escape_height",
    "hazards.escape_breadth",
    "hazards.escape_sill",
)
CAUTION = (
    "The local code decides what an escape window must be, and a licensed person changes one; keep it free, "
    "and try "
    "that it opens without key or tool."
)
#: Two areas nearer than this are the same area [m²].
_SAME_AREA = 1e-4


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield what blocks each escape window, what its opening lacks, and what is not known."""
    windows = [o for o in case.room.openings.values() if o.model.kind == "window"]
    for window in windows:
        if window.model.escape:
            yield from _approach(case, window)
            yield from _opening(case, window)
    outside = any(o.model.to == "outside" for o in case.room.openings.values())
    if case.room.model.use.get("bedroom") and not outside and not any(w.model.escape for w in windows):
        yield case.finding(
            rule_id(__name__),
            Grade.TASTE,
            windows,
            "No window of this bedroom is marked as its escape window, and no door of it leads outside. Ask "
            "which "
            "window serves, tape its clear opening, and mark it; the local code says what it must be.",
            caution=CAUTION,
        )


def _floor_before(case: RoomCase, window: WallOpening) -> tuple[tuple[float, float], list[StandingPiece]]:
    """Return the span of wall before which a strip has to be free [m], and the pieces that stand there."""
    wall, depth = window.wall, case.length("hazards.escape_depth")
    middle = float(wall.along(window.center))
    half = max(float(window.model.width), case.length("hazards.escape_width")) / 2
    span = (max(middle - half, 0.0), min(middle + half, wall.length))
    shift = (wall.start + (span[0] + span[1]) / 2 * wall.direction) - window.center
    zone = translate(window.approach(depth - SAME, span[1] - span[0]), float(shift[0]), float(shift[1]))
    found = [(float(p.footprint.intersection(zone).area), p) for p in case.room.floor_pieces.values()]
    found = [f for f in found if f[0] > SAME * depth]
    return span, [p for _, p in sorted(found, key=lambda f: (-round(f[0], 6), f[1].id))]


def _approach(case: RoomCase, window: WallOpening) -> Iterator[Finding]:
    """Yield what stands on the floor before a window: by its depth or its width, whichever misses by less."""
    span, pieces = _floor_before(case, window)
    deep = case.length("hazards.escape_depth")
    wide = min(case.length("hazards.escape_width"), span[1] - span[0])
    wall = window.wall
    shapes = [Polygon(np.column_stack((wall.along(p.corners), wall.off(p.corners)))) for p in pieces]
    width, _ = widest_gap(span, shapes, deep)
    if at_least(width, wide):
        return
    depth = greatest_depth(span, shapes, wide, deep)
    piece = pieces[0]
    by_depth = deep - depth <= wide - width
    sill = float(window.model.sill or 0.0)
    tall = " and stands higher than its sill" if piece.height > sill else ""
    names = " and the ".join(p.name for p in pieces)
    p, q, _ = closest(piece.footprint, Polygon([window.start, window.end, window.end + 1e-4 * wall.inward]))
    leaves = f"{case.say(depth, 'down')} of depth" if by_depth else f"a way {case.say(width, 'down')} wide"
    yield case.finding(
        rule_id(__name__),
        GRADE,
        (*pieces, window),
        f"The {names} leave{'s' if len(pieces) == 1 else ''} {leaves} before the {window.name}{tall}; a "
        "strip "
        f"{case.say(wide, 'up')} wide and {case.say(deep, 'up')} deep is wanted, so that one can get out by "
        "it.",
        measured=depth if by_depth else width,
        wanted=deep if by_depth else wide,
        sigma=case.room.sigma(piece, window, p, q),
        practice="hazards.escape_depth" if by_depth else "hazards.escape_width",
        anchor=piece.center,
        marks=((p, q),),
        caution=CAUTION,
        name=window.id,
    )


@dataclass(frozen=True)
class _Lack:
    """What a clear opening lacks."""

    says: str
    measured: float | None
    wanted: float | None
    key: str | None
    quantity: Literal["length", "area"] = "length"
    sense: Literal["at least", "at most"] = "at least"


def _lacks(case: RoomCase, window: WallOpening) -> Iterator[_Lack]:
    """Yield what a window's clear opening lacks, the gravest first."""
    model, practice = window.model, case.practice
    if model.sash == "fixed":
        yield _Lack("it is fixed and does not open", None, None, None)
        return
    width = float(model.clear_width) if model.clear_width is not None else None
    height = float(model.clear_height) if model.clear_height is not None else None
    area = float(practice.area("hazards.escape_area"))
    if width is not None and height is not None and not at_least(width * height, area, _SAME_AREA):
        there = format_area(width * height, case.units, digits=2, round_to="down")
        wants = format_area(area, case.units, digits=2, round_to="up")
        says = f"its clear opening is {there}; {wants} is wanted"
        yield _Lack(says, width * height, area, "hazards.escape_area", "area")
    for value, what, key in (
        (height, "high", "hazards.escape_height"),
        (width, "wide", "hazards.escape_breadth"),
    ):
        wanted = case.length(key)
        if value is not None and not at_least(value, wanted):
            yield _Lack(
                f"it opens {case.say(value)} {what}; {case.say(wanted, 'up')} is wanted", value, wanted, key
            )
    sill, most = float(model.sill or 0.0), case.length("hazards.escape_sill")
    if not at_most(sill, most):
        says = f"its sill is {case.say(sill)} above the floor; {case.say(most, 'down')} at most is wanted"
        yield _Lack(says, sill, most, "hazards.escape_sill", sense="at most")


def _opening(case: RoomCase, window: WallOpening) -> Iterator[Finding]:
    """Yield what a window's clear opening lacks, as one finding, or the question where it was not taped."""
    lacks = list(_lacks(case, window))
    name = f"{window.id}:opening"
    if lacks:
        first = lacks[0]
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (window,),
            f"The {window.name} is marked as a way out, but {'; '.join(lack.says for lack in lacks)}. That "
            "is what a "
            "person needs to climb through; ask what the local code wants of this one.",
            measured=first.measured,
            wanted=first.wanted,
            quantity=first.quantity,
            sense=first.sense,
            sigma=case.length("survey.tape_sigma") if first.quantity == "length" else None,
            practice=first.key,
            caution=CAUTION,
            name=name,
        )
    elif window.model.clear_width is None or window.model.clear_height is None:
        yield case.finding(
            rule_id(__name__),
            Grade.TASTE,
            (window,),
            f"The clear opening of the {window.name} has not been taped. Open it, tape width and height "
            "between sash "
            "and frame, and hold them against the local code.",
            caution=CAUTION,
            name=name,
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Move what stands before the window along the wall or off it, or take it out of the room."""
    pieces = [case.room.pieces[s.split("/")[-1]] for s in finding.subjects if "/pieces/" in s]
    if not pieces:
        return
    window = case.room.openings[finding.subjects[-1].split("/")[-1]]
    span, _ = _floor_before(case, window)
    wall = window.wall
    wide, deep = case.length("hazards.escape_width"), case.length("hazards.escape_depth")
    starts = sorted({span[0], max((span[0] + span[1] - wide) / 2, span[0]), max(span[1] - wide, span[0])})
    for piece in pieces:
        for start in starts:
            corners = ((start, 0.0), (start + wide, 0.0), (start + wide, deep), (start, deep))
            strip = Polygon([wall.start + a * wall.direction + b * wall.inward for a, b in corners])
            for by, patch in clearing_moves(case, piece, strip):
                title = f"Move the {piece.name} {case.say(by, 'up')} clear of the {window.name}."
                yield Proposal("move", title, patch)
    if len(pieces) == 1 and not pieces[0].model.keep:
        yield Proposal("remove", f"Take the {pieces[0].name} out of the room.", removed(pieces[0]))
