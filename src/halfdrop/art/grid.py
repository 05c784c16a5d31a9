"""A grid: frames of one size in columns and rows, the same gap across and up."""

from __future__ import annotations

import math
from collections.abc import Sequence

from halfdrop.art.group import GAP, Group, Hung, checked
from halfdrop.art.rect import Point, Rect
from halfdrop.art.work import Work
from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def grid(
    works: Sequence[Work],
    center: Point,
    practice: Practice,
    *,
    columns: int | None = None,
    gap: float | None = None,
) -> Group:
    """Return works of one size hung in a grid, row by row from the top left.

    Parameters
    ----------
    works : sequence of Work
        As many as fill every row.
    center : (x, y)
        Middle of the whole group [m].
    practice : Practice
        `art.gap_between`.
    columns : int, optional
        Works in a row; without it the count of columns nearest to as many rows as columns, and rather wide than high.
    gap : float, optional
        Between frames [m]; of practice without it.

    Raises
    ------
    InputError
        As `group.checked`; for frames of two sizes; for a row that is not full.

    Source: common practice. Checked by: tests/art/test_groups.py.
    """
    say = Words(practice)
    between = checked(works, gap, practice)
    w, h = works[0].width, works[0].height
    odd = next((o for o in works if abs(o.width - w) > SAME or abs(o.height - h) > SAME), None)
    if odd is not None:
        raise InputError(
            f"work `{odd.name}` is {say.pair(odd.width, odd.height)} in a grid of {say.pair(w, h)}; all are one size",
            hint="hang frames of several sizes as a cluster",
        )
    count = len(works)
    across = columns or next(n for n in range(math.ceil(math.sqrt(count)), count + 1) if count % n == 0)
    if not 1 <= across <= count or count % across:
        raise InputError(
            f"{count} works do not fill rows of {across}",
            hint=f"take a count of columns that divides {count}",
        )
    rows = count // across
    wide, tall = across * w + (across - 1) * between, rows * h + (rows - 1) * between
    hung = []
    for i, work in enumerate(works):
        r, c = divmod(i, across)
        x = center[0] - wide / 2 + w / 2 + c * (w + between)
        y = center[1] + tall / 2 - h / 2 - r * (h + between)
        hung.append(Hung(work, Rect.about((x, y), work.width, work.height)))
    working = Working("Grid")
    working.step("size of the grid", "columns × width + gaps; rows × height + gaps",
                 f"{across} × {say(w)} + {across - 1} × {say(between)}; {rows} × {say(h)} + {rows - 1} × {say(between)}",
                 say.pair(wide, tall), source=say.cited(GAP) if gap is None else "gap as asked for")  # fmt: skip
    return Group("grid", tuple(hung), between, (), working)
