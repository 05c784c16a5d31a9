"""A stack: frames one over the other on one upright line, the same gap between each two."""

from __future__ import annotations

from collections.abc import Sequence

from halfdrop.art.group import GAP, Group, Hung, checked
from halfdrop.art.rect import Point, Rect
from halfdrop.art.work import Work
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def stack(works: Sequence[Work], center: Point, practice: Practice, *, gap: float | None = None) -> Group:
    """Return works hung in a stack, from the top down in the order given.

    Parameters
    ----------
    works : sequence of Work
        One at least.
    center : (x, y)
        Middle of the whole group [m].
    practice : Practice
        `art.gap_between`.
    gap : float, optional
        Between frames [m]; of practice without it.

    Raises
    ------
    InputError
        As `group.checked`.

    Source: common practice: a group is treated as one object. Checked by: tests/art/test_groups.py.
    """
    say = Words(practice)
    between = checked(works, gap, practice)
    tall = sum(w.height for w in works) + between * (len(works) - 1)
    y, hung = center[1] + tall / 2, []
    for work in works:
        hung.append(Hung(work, Rect.about((center[0], y - work.height / 2), work.width, work.height)))
        y -= work.height + between
    working = Working("Stack")
    working.step("height of the stack", "sum of the frames + gaps between them",
                 f"{' + '.join(say(w.height) for w in works)} + {len(works) - 1} × {say(between)}", say(tall),
                 source=say.cited(GAP) if gap is None else "gap as asked for")  # fmt: skip
    return Group("stack", tuple(hung), between, (), working)
