"""The rod hangs well above the window.

Why: a rod on the frame shows its pleats from outside, lets light over the top, and cuts the wall at the height of the glass;
    higher up the same window looks taller, and so does the room.
Source: practice values drapery.rod_above_frame and drapery.rod_below_ceiling: common practice; a UK manual is content with less.
Fails: the top of the rod is nearer to the top of the frame (of the trim, where that was taped) than the value, or nearer than
    ceiling and crown leave room for.
Passes exactly: at the value, and under a low ceiling at as much as it leaves.
Silent: for shades, for sheers behind, for what is mounted inside the opening or at the ceiling, and where no height is given.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.drapery.hangs import above_frame, begins, panels_in
from halfdrop.audit.rules.drapery.rehang import altered, anew_working, heights_of, of_finding, put_right
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.practice.words import Words

GRADE = Grade.FAULT
_ABOVE, _BELOW = "drapery.rod_above_frame", "drapery.rod_below_ceiling"
PRACTICE = (_ABOVE, _BELOW)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Propose to raise the rod with its cloth, to hang it from the ceiling, to put the whole window right, to make it anew."""
    hung = of_finding(case, finding)
    for height in heights_of(case, hung):
        yield from altered(case, hung, "raise", height=height)
    yield from altered(case, hung, "hang from the ceiling", ceiling=True)
    yield from put_right(case, hung)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Give where the rod may be, and how far above the frame it is."""
    hung, say = of_finding(case, finding), Words(case.practice)
    measured, _ = above_frame(case, hung)
    working = Working("Rod above the frame", [*hung.place.span.working.steps])
    working.step("as it hangs", "rod − frame", f"{say(hung.height)} − {say(hung.height - measured)}", say(measured),
                 source=say.cited(_ABOVE))  # fmt: skip
    yield working
    yield from anew_working(case, hung)


def check(case: RoomCase) -> Iterator[Finding]:
    """Find rods that sit too near to the head of the window."""
    for hung in panels_in(case):
        if "height" not in hung.given or hung.treatment.mount != "outside":
            continue
        measured, wanted = above_frame(case, hung)
        if wanted <= 0 or at_least(measured, wanted):
            continue
        where = (
            f"{case.say(measured)} above"
            if measured > 0.5e-3
            else f"{case.say(-measured)} below"
            if measured < -0.5e-3
            else "at"
        )
        limit = f"{case.say(wanted, 'up')} is the least" + (
            " this ceiling leaves" if wanted < case.length(_ABOVE) - 1e-9 else ""
        )
        yield case.finding(
            rule_id(__name__), GRADE, [hung],
            f"{begins(hung)}: the rod is {where} the top of the frame; {limit}, so that the heading does not show from outside and "
            "the window takes its height from the wall.",
            measured=measured, wanted=wanted, practice=_ABOVE,
            marks=[(hung.at(hung.left), hung.at(hung.right))],
        )  # fmt: skip
