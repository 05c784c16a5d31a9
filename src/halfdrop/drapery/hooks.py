"""Hooks of one panel: how many, and where along the finished heading."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import accumulate

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.drapery.pleats import PleatsAnswer
from halfdrop.job.treatments import Heading
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_TAPE, _RING = "drapery.hook_tape_spacing", "drapery.ring_spacing"
#: A hook at an edge and one at a pleat nearer than this are one [m].
_ONE = 0.02


@dataclass(frozen=True)
class HooksAnswer:
    """Hooks of one panel.

    Attributes
    ----------
    at : tuple of float
        From the leading edge along the finished heading [m]; empty where the heading takes none or the tape's maker says.
    what : str
        `hook`, `ring`, or in words why there are none.
    working : Working
        The steps.
    """

    at: tuple[float, ...]
    what: str
    working: Working


def hooks_for(
    heading: Heading, finished: float, practice: Practice, *, pleats: PleatsAnswer | None = None
) -> HooksAnswer:
    """Return where the hooks of a panel go.

    A pleated panel has one behind each pleat, one at the leading edge and one at the end of the return. A gathering tape has
    them evenly; a flat heading hangs from rings. Eyelets, tabs and a pocket ride on the rod itself; a wave's gliders are spaced
    by the maker of its tape.

    Parameters
    ----------
    heading : str
        How the top is made.
    finished : float
        Width the panel covers, overlap and return with it [m].
    practice : Practice
        `drapery.hook_tape_spacing`, `drapery.ring_spacing`.
    pleats : PleatsAnswer, optional
        Of a pleated heading.

    Raises
    ------
    InputError
        Where the panel has no width.

    Source: common practice, from memory, unverified. Checked by: tests/drapery/test_hooks.py.
    """
    if finished <= 0:
        raise InputError("a panel without width takes no hooks")
    say = Words(practice)
    working = Working("Hooks")
    if pleats is not None:
        marks = accumulate((pleats.overlap, *pleats.spaces))
        inner = [mark / 1000 for mark in marks]
        wide = pleats.finished / 1000
        edges = [x for x in (0.0, wide) if all(abs(x - y) > _ONE for y in inner)]
        at = tuple(sorted([*inner, *edges]))
        working.step("hooks", "one behind each pleat, one at each edge that no pleat stands at",
                     f"{len(inner)} pleats, {len(edges)} edges", str(len(at)), source="common practice, from memory")  # fmt: skip
        return HooksAnswer(at, "hook", working)
    if heading not in ("pencil", "flat"):
        why = {"wave": "gliders as the maker of its tape spaces them"}.get(
            heading, "none: it rides on the rod"
        )
        if heading in ("eyelet", "tab", "rod pocket", "wave"):
            return HooksAnswer((), why, working)
    key = _RING if heading == "flat" else _TAPE
    spaces = max(1, math.ceil(finished / float(practice.length(key)) - 1e-9))
    what = "ring" if heading == "flat" else "hook"
    working.step(f"{what}s", "width ÷ spacing, up, and one more", f"{say(finished)} ÷ {say(practice.length(key))}", str(spaces + 1),
                 rounding="up", source=say.cited(key))  # fmt: skip
    return HooksAnswer(tuple(finished * i / spaces for i in range(spaces + 1)), what, working)
