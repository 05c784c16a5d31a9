"""The heads of one room hang in one line.

Why: the eye runs round a room along the tops of its curtains; a step between two of them is seen before either.
Source: practice value drapery.heads_apart_most (our choice); one line of heads where the windows allow it is common practice.
Fails: two rods of the room, each where its own window may have it, are farther apart in height than the value, though one
    height would suit both windows.
Passes exactly: at the value.
Silent: for shades, for sheers behind, for what is mounted inside or at the ceiling, for rods whose height is not given, for a
    rod that drapery.rod-low speaks of, and for windows too different in height for one line.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.drapery.hangs import hung_in, panels_in
from halfdrop.audit.rules.drapery.rehang import altered, made_anew
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.base.working import Working
from halfdrop.drapery import AsHung
from halfdrop.practice.words import Words

GRADE = Grade.TASTE
_APART = "drapery.heads_apart_most"
PRACTICE = (_APART,)


def lined_up(case: RoomCase) -> list[AsHung]:
    """Return the panels whose heads are to be in one line: each in its own span, and one line possible for all of them."""
    found = []
    for hung in panels_in(case):
        span = hung.place.span
        if hung.treatment.mount == "outside" and "height" in hung.given and at_least(hung.height, span.low):
            found.append(hung)
    found.sort(key=lambda h: (round(h.height, 6), h.id))
    return found


def _could_meet(a: AsHung, b: AsHung) -> bool:
    return at_most(max(a.place.span.low, b.place.span.low), min(a.place.span.high, b.place.span.high))


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Propose to raise the lower head to the other, to lower the higher one to it, with their cloth."""
    low, high = (hung_in(case)[path.rsplit("/", 1)[-1]] for path in finding.subjects)
    yield from altered(case, low, "raise", height=high.height)
    yield from altered(case, high, "lower", height=low.height)
    yield from made_anew(case, low, height=high.height)
    yield from made_anew(case, high, height=low.height)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Give every head that counts, and where it may be."""
    say = Words(case.practice)
    working = Working("Heads of the room")
    for hung in lined_up(case):
        span = hung.place.span
        working.step(hung.name, "top of the rod above the floor", f"may be {say(span.low)} to {say(span.high)}", say(hung.height),
                     source=say.cited(_APART))  # fmt: skip
    yield working


def check(case: RoomCase) -> Iterator[Finding]:
    """Find the two heads farthest apart that could be in one line."""
    limit = case.length(_APART)
    heads = lined_up(case)
    pairs = [
        (a, b)
        for i, a in enumerate(heads)
        for b in heads[i + 1 :]
        if _could_meet(a, b) and not at_most(b.height - a.height, limit)
    ]
    if not pairs:
        return
    low, high = max(pairs, key=lambda p: (round(p[1].height - p[0].height, 6), p[1].id, p[0].id))
    apart = high.height - low.height
    yield case.finding(
        rule_id(__name__), GRADE, [low, high],
        f"The head of the {low.name} is {case.say(apart)} below that of the {high.name}; within {case.say(limit, 'down')} they read "
        "as one line, and these windows allow one.",
        measured=apart, wanted=limit, sense="at most", practice=_APART,
    )  # fmt: skip
