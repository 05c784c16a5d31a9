"""Flat roman shades: the cut, the folds, the stack when raised."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_WIDTH, _LENGTH = "drapery.roman_width_allowance", "drapery.roman_length_allowance"
_FOLD, _EDGE, _HEAD = "drapery.roman_fold", "drapery.roman_ring_edge", "drapery.roman_heading"


@dataclass(frozen=True)
class RomanAnswer:
    """A flat roman shade.

    Attributes
    ----------
    cut_width, cut_length : float
        Cloth [m]; wider than the cloth it is joined.
    folds : int
        Full folds.
    panel : float
        Rod to rod [m].
    skirt : float
        Below the lowest rod [m]: half a panel and what stays to be seen.
    rings : tuple of float
        Rows of rings from the left edge [m].
    stack : float
        Height when raised [m].
    working : Working
        The steps.
    """

    cut_width: float
    cut_length: float
    folds: int
    panel: float
    skirt: float
    rings: tuple[float, ...]
    stack: float
    working: Working


def roman_cut(width: float, length: float, practice: Practice) -> tuple[float, float]:
    """Return width + 4 in and length + 5 in [m]: side hems; hem and the wrap over the board.

    Source: common practice (a home workroom). Checked by: tests/published/drapery_shades.csv.
    """
    return width + float(practice.length(_WIDTH)), length + float(practice.length(_LENGTH))


def roman_flat(width: float, length: float, practice: Practice) -> RomanAnswer:
    """Return a flat roman shade of a finished width and length [m].

    The shade is a heading and panels of one height; the lowest half panel hangs as the skirt, so that it ends behind no fold.
    Raised, each fold hangs half a panel deep and the folds lie on one another: the stack is the heading and half a panel.

    Raises
    ------
    InputError
        Where the shade is shorter than its heading and one fold.

    Source: common practice, from memory; the cut from a home workroom. Checked by: tests/drapery/test_shades.py.
    """
    say = Words(practice)
    cut_width, cut_length = roman_cut(width, length, practice)
    head, aim, edge = (float(practice.length(k)) for k in (_HEAD, _FOLD, _EDGE))
    body = length - head
    if body < aim or width <= 2 * edge:
        raise InputError(f"a roman shade of {say.pair(width, length)} has no room for a fold of {say(aim)}")
    folds = max(1, round(body / aim - 0.5))
    panel = body / (folds + 0.5)
    spaces = max(1, -(-round((width - 2 * edge) * 1e6) // round(aim * 1e6)))
    rings = tuple(edge + (width - 2 * edge) * i / spaces for i in range(spaces + 1))
    working = Working("Roman shade")
    working.step("cut width", "finished + both side hems", f"{say(width)} + {say(practice.length(_WIDTH))}", say(cut_width),
                 source=say.cited(_WIDTH))  # fmt: skip
    working.step("cut length", "finished + hem and board", f"{say(length)} + {say(practice.length(_LENGTH))}", say(cut_length),
                 source=say.cited(_LENGTH))  # fmt: skip
    working.step("folds", "(length − heading) ÷ aim − ½, nearest whole", f"({say(length)} − {say(head)}) ÷ {say(aim)} − ½",
                 f"{folds}, {say(panel)} from rod to rod", rounding="nearest", source=say.cited(_FOLD, _HEAD))  # fmt: skip
    working.step("rings", "rows no farther apart than a fold", f"{say(width)} − 2 × {say(edge)}", f"{len(rings)} rows",
                 source=say.cited(_EDGE))  # fmt: skip
    working.step("raised", "heading + half a panel", f"{say(head)} + {say(panel / 2)}", say(head + panel / 2))
    return RomanAnswer(cut_width, cut_length, folds, panel, panel / 2, rings, head + panel / 2, working)
