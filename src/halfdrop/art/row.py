"""A row: frames side by side, the same gap between each two."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from halfdrop.art.group import GAP, Group, Hung, checked
from halfdrop.art.rect import Point, Rect
from halfdrop.art.work import Work
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Align = Literal["middle", "top", "bottom"]


def row(
    works: Sequence[Work],
    center: Point,
    practice: Practice,
    *,
    gap: float | None = None,
    align: Align = "middle",
) -> Group:
    """Return works hung in a row, from left to right in the order given.

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
    align : {"middle", "top", "bottom"}
        What runs level.

    Raises
    ------
    InputError
        As `group.checked`.

    Source: common practice: a group is treated as one object. Checked by: tests/art/test_groups.py.
    """
    say = Words(practice)
    between = checked(works, gap, practice)
    wide = sum(w.width for w in works) + between * (len(works) - 1)
    tall = max(w.height for w in works)
    x, hung = center[0] - wide / 2, []
    for work in works:
        y = {"middle": center[1], "top": center[1] + (tall - work.height) / 2,
             "bottom": center[1] - (tall - work.height) / 2}[align]  # fmt: skip
        hung.append(Hung(work, Rect.about((x + work.width / 2, y), work.width, work.height)))
        x += work.width + between
    working = Working("Row")
    working.step("width of the row", "sum of the frames + gaps between them",
                 f"{' + '.join(say(w.width) for w in works)} + {len(works) - 1} × {say(between)}", say(wide),
                 source=say.cited(GAP) if gap is None else "gap as asked for")  # fmt: skip
    return Group("row", tuple(hung), between, (), working)
