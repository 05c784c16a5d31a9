"""Open panels stand beside the glass.

Why: cloth drawn back takes room; where the rod does not give it that room beside the window, it takes it from the daylight and
    the view.
Source: practice value drapery.glass_covered_most (our choice) and the stack-back rule of drapery.stack_method (common
    practice); a panel with less cloth than its heading wants stacks narrower in proportion, which is ours.
Fails: of the glass of its openings, open panels cover a larger share than the value.
Passes exactly: at the value.
Silent: for shades, sheers and what hangs behind, for fixed panels, where the rod's ends are not given, and where
    drapery.rod-short speaks of the same rod. Where the wall ends and a longer rod would not help, it is a matter of taste.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.drapery.hangs import begins, glass_covered, is_sheer, panels_in, short_sides
from halfdrop.audit.rules.drapery.rehang import altered, anew_working, of_finding, one_way, put_right
from halfdrop.base.tolerance import at_most
from halfdrop.base.working import Working
from halfdrop.drapery import AsHung
from halfdrop.practice.words import Words

GRADE = Grade.FAULT
_MOST = "drapery.glass_covered_most"
PRACTICE = (_MOST,)

#: Less wall than this beside a rod is none [m].
_NO_ROOM = 0.01


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Propose a longer rod and more cloth on it, one panel to the side that has room; the whole window put right, or made anew."""
    hung = of_finding(case, finding)
    yield from altered(case, hung, "longer rod", ends=True, fit=False)
    yield from altered(case, hung, "longer rod and more cloth", ends=True, widths=True, fit=False)
    yield from one_way(case, hung)
    yield from put_right(case, hung)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Give the stack by the rule of practice, and the share of glass behind it."""
    hung, say = of_finding(case, finding), Words(case.practice)
    covered, glass = glass_covered(hung)
    working = Working("Glass covered", [*hung.place.stack.working.steps] if hung.place.stack else [])
    working.step("share", "glass behind the open panels ÷ glass", f"{say(covered)} ÷ {say(glass)}", f"{covered / glass:.2f}",
                 source=say.cited(_MOST))  # fmt: skip
    yield working
    yield from anew_working(case, hung)


def check(case: RoomCase) -> Iterator[Finding]:
    """Find panels that cover the glass when they are drawn back."""
    limit = case.practice.number(_MOST)
    for hung in panels_in(case):
        if (
            hung.place.stack is None
            or not {"left", "right"} & hung.given
            or is_sheer(case, hung)
            or short_sides(case, hung)
        ):
            continue
        covered, glass = glass_covered(hung)
        if at_most(covered / glass, limit):
            continue
        tight = _at_the_wall(hung)
        then = (
            "the wall leaves the rod no more room"
            if tight
            else "a longer rod clears it for daylight and the view"
        )
        yield case.finding(
            rule_id(__name__), Grade.TASTE if tight else GRADE, [hung],
            f"{begins(hung)}: drawn back, the panels cover {case.say(covered)} of {case.say(glass)} of glass; up to "
            f"{case.say(limit * glass, 'down')} is let pass, and {then}.",
            measured=covered / glass, wanted=limit, quantity="ratio", sense="at most", practice=_MOST,
            marks=[(hung.at(a), hung.at(b)) for a, b in (p.drawn for p in hung.panels)],
        )  # fmt: skip


def _at_the_wall(hung: AsHung) -> bool:
    """Return whether the rod cannot be longer on any side where its panels stack."""
    run = hung.run
    left, right = run.left - hung.finial + hung.left, run.right - hung.finial - (hung.right - run.width)
    sides = {"left": [left], "right": [right]}.get(hung.treatment.draw, [left, right])
    return max(sides) < _NO_ROOM
