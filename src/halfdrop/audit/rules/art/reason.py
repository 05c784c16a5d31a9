"""Each work on the wall has a reason of the people who look at it.

Why: A picture works when those who live with it have a reason of their own to look; price and fashion say nothing.
    This is a question to ask them, no verdict on anyone's taste.
Source: common practice, no source.
Fails: a work of the room is recorded without a `reason`. One finding a room. Taste.
Passes exactly: with a reason of a word.
Silent: for mirrors and objects; in rooms without works.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.shared import Surface
from halfdrop.job.naming import art_name

GRADE = Grade.TASTE
PRACTICE: tuple[str, ...] = ()


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding about all works without a reason."""
    room = case.room
    middle = room.outline.representative_point()
    works = []
    for key, work in sorted(room.model.art.items()):
        if work.kind in ("mirror", "object") or (work.reason or "").strip():
            continue
        hung = room.art.get(key)
        center = hung.center if hung is not None else np.array([middle.x, middle.y])
        works.append(Surface(key, f"{room.path}/art/{key}", center, art_name(key, work)))
    if not works:
        return
    names = ", ".join(w.name for w in works)
    one = len(works) == 1
    yield case.finding(
        rule_id(__name__),
        GRADE,
        works,
        f"{len(works)} {'work is' if one else 'works are'} recorded without a reason to look at {'it' if one else 'them'}: "
        f"{names}. What do those who live here see in {'it' if one else 'them'}? A sentence of theirs is wanted.",
        name="reason",
    )
