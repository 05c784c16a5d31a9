"""Small pieces side by side across the cloth: how many strips, how long each."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


@dataclass(frozen=True)
class StripsAnswer:
    """Strips across the cloth, each `cut` long [m], with `across` pieces side by side; together `total` [m]; the steps.

    A piece takes `piece` of the cloth's width [m]; 0 where it takes all of it. `pieces` are wanted in all.
    """

    strips: int
    cut: float
    across: int
    working: Working
    piece: float = 0.0
    pieces: int = 0

    @property
    def total(self) -> float:
        """Cloth in all, plain [m]."""
        return self.strips * self.cut

    def widths(self, strip: int) -> tuple[float, ...]:
        """Return the widths of the pieces of a strip, counted from 1 [m]; none where it is one of full width."""
        here = min(self.across, self.pieces - self.across * (strip - 1))
        return (self.piece,) * here if self.piece else ()


def strips(
    title: str,
    width: float,
    length: float,
    count: int,
    usable: float,
    practice: Practice,
    *,
    turn: bool = False,
) -> StripsAnswer:
    """Return the strips that hold `count` pieces.

    Parameters
    ----------
    title : str
        What the pieces are.
    width, length : float
        A piece as cut: across the cloth and along it [m].
    count : int
        How many.
    usable : float
        Usable width of the cloth [m].
    practice : Practice
        For the units of the working.
    turn : bool
        Whether a piece may lie on its side: plain cloth without a nap. Then the way that takes less is chosen.

    Raises
    ------
    InputError
        Where a piece is wider than the cloth.

    Source: common practice. Checked by: tests/drapery/test_sewn.py.
    """
    say = Words(practice)
    ways = [(width, length)] + ([(length, width)] if turn else [])
    fitting = [
        (-(-count // n) * b, i, n, b)
        for i, (a, b) in enumerate(ways)
        if (n := math.floor(usable / a + 1e-9)) > 0
    ]
    if not fitting:
        raise InputError(
            f"{title}: a piece {say(width)} wide does not lie across cloth {say(usable)} wide", hint="join it"
        )
    _, _, across, cut = min(fitting)
    rows = -(-count // across)
    working = Working(title)
    working.step("side by side", "usable width ÷ piece, down", f"{say(usable)} ÷ {say(ways[min(fitting)[1]][0])}", f"{across}",
                 rounding="down")  # fmt: skip
    working.step(
        "strips", "pieces ÷ side by side, up", f"{count} ÷ {across}", f"{rows} of {say(cut)}", rounding="up"
    )
    return StripsAnswer(rows, cut, across, working, ways[min(fitting)[1]][0], count)
