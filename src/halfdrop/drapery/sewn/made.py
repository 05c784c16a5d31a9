"""Ties, cushions and valances in the treatment's own cloth."""

from __future__ import annotations

from halfdrop.drapery.sewn.strips import StripsAnswer, strips
from halfdrop.drapery.widths import count_widths
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_EDGE, _HEM, _HEAD = "drapery.tie_allowance", "drapery.hem_short", "drapery.heading_tape"


def tie_strips(
    length: float, width: float, count: int, usable: float, practice: Practice, *, turn: bool = True
) -> StripsAnswer:
    """Return the cloth of ties [m]: face and back of each, an allowance on every edge.

    Source: common practice; the allowance is our choice. Checked by: tests/drapery/test_sewn.py.
    """
    edge = 2 * float(practice.length(_EDGE))
    return strips("Ties", length + edge, 2 * width + edge, count, usable, practice, turn=turn)


def cushion_strips(
    width: float, height: float, count: int, usable: float, practice: Practice
) -> StripsAnswer:
    """Return the cloth of cushions [m]: a front and a back each, an allowance on every edge; pieces stay upright.

    Source: common practice; the allowance is our choice. Checked by: tests/drapery/test_sewn.py.
    """
    edge = 2 * float(practice.length(_EDGE))
    return strips("Cushions", width + edge, height + edge, 2 * count, usable, practice)


def valance_strips(
    covered: float, depth: float, usable: float, practice: Practice, *, fullness: float | None = None
) -> StripsAnswer:
    """Return the cloth of a valance that covers a width, returns with it [m]: whole widths of its depth, hem and heading.

    Source: common practice. Checked by: tests/drapery/test_sewn.py.
    """
    say = Words(practice)
    full = practice.number("drapery.fullness_valance") if fullness is None else fullness
    widths = count_widths(covered * full, usable, practice, panels=1)
    cut = depth + float(practice.length(_HEM)) + float(practice.length(_HEAD))
    working = widths.working
    working.title = "Valance"
    working.step("cut", "depth + hem + heading", f"{say(depth)} + {say(practice.length(_HEM))} + {say(practice.length(_HEAD))}",
                 say(cut), source=say.cited(_HEM, _HEAD))  # fmt: skip
    return StripsAnswer(widths.cuts, cut, 1, working)
