"""Cloth reaches the floor.

Why: a panel that stops above the floor draws a line across the wall; the window looks smaller, the ceiling lower, and the
    cloth as if it had been bought for another house.
Source: practice values drapery.floor_gap_most (cloth that hangs clear of the floor) and drapery.floor_touch_most (cloth that
    kisses it, breaks or puddles): common practice and our choice.
Fails: the hem hangs farther off the floor, where that is most (at either edge of a panel, or where the floor was taped), than
    the value of its length style. Cloth of sill length that stops above the sill fails too. As taste: cloth of sill or apron
    length with nothing below it that keeps it short: no radiator, heater, counter or seat, and no kitchen or bath.
Passes exactly: at the value.
Silent: for shades; where neither the rod's height nor the cloth's length is given, since what is made for the window is cut
    to it.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.drapery.hangs import begins, hung_in, verb
from halfdrop.audit.rules.drapery.rehang import (
    altered,
    anew_working,
    lowered,
    made_anew,
    of_finding,
    put_right,
)
from halfdrop.base.tolerance import at_most
from halfdrop.base.working import Working
from halfdrop.drapery import AsHung
from halfdrop.practice.words import Words

GRADE = Grade.FAULT
PRACTICE = ("drapery.floor_gap_most", "drapery.floor_touch_most")

#: What stands below a window and keeps its cloth short.
_FIXED = frozenset({"radiator", "heater", "counter", "sink", "bath", "hearth"})
_STANDING = frozenset(
    {"bench", "desk", "sofa", "loveseat", "chaise", "sectional", "bed", "sideboard", "chest"}
)
#: A piece nearer to the wall than this stands at it [m].
_AT_WALL = 0.3


def _kept_short(case: RoomCase, hung: AsHung) -> bool:
    """Return whether the room, or what stands below the run, asks for short cloth."""
    if {"kitchen", "bath"} & set(case.room.model.use):
        return True
    things = [f for f in case.room.fittings.values() if f.model.kind in _FIXED]
    pieces = [p for p in case.room.floor_pieces.values() if p.type in _STANDING]
    for wall in hung.run.walls:
        for thing in (*things, *pieces):
            gap = case.room.wall_gap(thing, wall)
            middle = hung.run.x_of(wall, float(wall.along(thing.center)))
            half = max(thing.width, thing.depth) / 2
            if (
                gap is not None
                and gap < _AT_WALL
                and middle is not None
                and -half < middle < hung.run.width + half
            ):
                return True
    return False


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Propose to lengthen the cloth where it hangs, to lower the rod, to put the whole window right, to make it anew."""
    hung = of_finding(case, finding)
    if finding.grade is Grade.TASTE:
        yield from made_anew(case, hung, length="clear")
        return
    yield from lowered(case, hung)
    yield from altered(case, hung, "lengthen")
    yield from put_right(case, hung)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Give how far the hem is off the floor."""
    hung, say = of_finding(case, finding), Words(case.practice)
    gap, x = max(hung.gap(panel) for panel in hung.panels)
    hem = max(panel.hem[0] for panel in hung.panels)
    working = Working("Hem to floor")
    working.step("hem", "top of the cloth − length", f"{say(hung.top)} − {say(hung.top - hem)}", say(hem))
    working.step("gap", "hem − floor, where that is most", f"floor {say(hung.floor(x))}", say(gap),
                 source=say.cited(finding.practice or PRACTICE[0]))  # fmt: skip
    yield working
    yield from anew_working(case, hung)


def check(case: RoomCase) -> Iterator[Finding]:
    """Find cloth that stops short."""
    for hung in hung_in(case).values():
        if hung.kind != "panels":
            continue
        length, placed = hung.treatment.length, "height" in hung.given or hung.treatment.mount != "outside"
        as_found = placed and "drop" in hung.given
        if length in ("sill", "apron") and not _kept_short(case, hung):
            yield _floats(case, hung)
        elif length == "sill" and as_found:
            yield from _above_sill(case, hung)
        elif as_found and length != "apron":
            yield from _off_floor(case, hung)


def _off_floor(case: RoomCase, hung: AsHung) -> Iterator[Finding]:
    clear = hung.treatment.length == "clear"
    key = "drapery.floor_gap_most" if clear else "drapery.floor_touch_most"
    limit = case.length(key)
    gap, x = max(hung.gap(panel) for panel in hung.panels)
    if at_most(gap, limit):
        return
    wants = f"within {case.say(limit, 'down')} of it" if clear else "where it touches"
    yield case.finding(
        rule_id(__name__), GRADE, [hung],
        f"{begins(hung)} {verb(hung, 'stops', 'stop')} {case.say(gap)} short of the floor; cloth hangs {wants}, since a hem that "
        "floats makes the window small and the ceiling low.",
        measured=gap, wanted=limit, sense="at most", practice=key, anchor=hung.at(x),
        marks=[(hung.at(max(hung.left, 0.0)), hung.at(min(hung.right, hung.run.width)))],
    )  # fmt: skip


def _above_sill(case: RoomCase, hung: AsHung) -> Iterator[Finding]:
    limit = case.length("drapery.floor_gap_most")
    gap = max(panel.hem[0] for panel in hung.panels) - hung.run.sill
    if not at_most(gap, limit):
        yield case.finding(
            rule_id(__name__), GRADE, [hung],
            f"{begins(hung)} {verb(hung, 'stops', 'stop')} {case.say(gap)} above the sill; sill length hangs within "
            f"{case.say(limit, 'down')} of it, or daylight shows below the hem.",
            measured=gap, wanted=limit, sense="at most", practice="drapery.floor_gap_most",
        )  # fmt: skip


def _floats(case: RoomCase, hung: AsHung) -> Finding:
    gap, x = max(hung.gap(panel) for panel in hung.panels)
    limit = case.length("drapery.floor_gap_most")
    return case.finding(
        rule_id(__name__), Grade.TASTE, [hung],
        f"{begins(hung)} {verb(hung, 'ends', 'end')} at the {'sill' if hung.treatment.length == 'sill' else 'apron'}, "
        f"{case.say(gap)} off the floor, and nothing below keeps the cloth short; to the floor it would give the wall its height.",
        measured=gap, wanted=limit, sense="at most", practice="drapery.floor_gap_most", anchor=hung.at(x),
    )  # fmt: skip
