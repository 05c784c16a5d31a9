"""A window can be come near enough to open and to draw.

Why: A window behind a sofa is not opened, its shade not drawn, its glass not cleaned.
Source: practice values circulation.window_reach (how far off one may stand) and circulation.window_access (how wide
    the floor there has to be).
Fails: no disk as wide as the way comes within reach of the window's wall, before the window.
Passes exactly: at the value: a body reaches over a low piece no deeper than the reach.
Silent: for a fixed window, and where one can stand before it: whether a way leads there is circulation.secondary-way's
    matter. A window between a wall and a fitting of the house (a bath) is a question to the client: no remedy.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.circulation.pinches import shut_finding, shut_once, way_remedies
from halfdrop.audit.rules.circulation.shared import ways

GRADE = Grade.TASTE
PRACTICE = ("circulation.window_reach",)

remedies = way_remedies


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each window that a piece keeps everyone away from."""
    for shut in shut_once(s for s in ways(case).shut if s.place.kind == "window" and s.by):
        yield shut_finding(case, rule_id(__name__), GRADE, shut, "to stand before it")
