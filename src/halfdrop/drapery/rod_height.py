"""Rod height: between the frame and the ceiling, one line of heads for a room where its windows allow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from halfdrop.base.tolerance import at_most
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_LEAST, _TARGET = "drapery.rod_above_frame", "drapery.rod_above_frame_target"
_BELOW, _SHARE = "drapery.rod_below_ceiling", "drapery.rod_height_share"


@dataclass(frozen=True)
class RodHeight:
    """Where the top of the rod may be and where it is best [m above the floor].

    Attributes
    ----------
    height : float
        As aimed for.
    low, high : float
        The least and the most; `low > high` where frame and ceiling leave no room, and `height` is then `high`.
    working : Working
        The steps.
    """

    height: float
    low: float
    high: float
    working: Working

    @property
    def fits(self) -> bool:
        """Whether frame and ceiling leave room for it."""
        return at_most(self.low, self.high)


def rod_height(
    frame: float,
    ceiling: float,
    practice: Practice,
    *,
    stands_above: float = 0.0,
    obstacles: Sequence[tuple[float, float]] = (),
) -> RodHeight:
    """Return the height of a rod over one window.

    Parameters
    ----------
    frame : float
        Top of the window's frame or trim, at its highest [m above the floor].
    ceiling : float
        Ceiling or underside of the crown, at its lowest [m above the floor].
    practice : Practice
        `drapery.rod_above_frame`, `drapery.rod_above_frame_target`, `drapery.rod_below_ceiling`, `drapery.rod_height_share`.
    stands_above : float
        How much heading, ring or bracket stands above the rod's top [m].
    obstacles : sequence of (float, float)
        Bottom and top of what is on the wall in the rod's way: a duct grille, a beam, an alarm [m]. The rod goes below or
        above each; where both are open, where it is nearer to its aim.

    Source: common practice. Checked by: tests/drapery/test_rod.py.
    """
    say = Words(practice)
    low = frame + float(practice.length(_LEAST))
    high = ceiling - float(practice.length(_BELOW)) - stands_above
    share = practice.number(_SHARE)
    aim = max(frame + float(practice.length(_TARGET)), frame + share * (ceiling - frame))
    height = min(max(aim, low), high)
    free = _free(low, high, [(a - stands_above, b) for a, b in obstacles])
    working = Working("Rod height")
    working.step(
        "the least",
        "frame + least",
        f"{say(frame)} + {say(practice.length(_LEAST))}",
        say(low),
        source=say.cited(_LEAST),
    )
    working.step("the most", "ceiling − below it − what stands above the rod",
                 f"{say(ceiling)} − {say(practice.length(_BELOW))} − {say(stands_above)}", say(high),
                 source=say.cited(_BELOW))  # fmt: skip
    working.step("as aimed for", "frame + the greater of target and share × (ceiling − frame)",
                 f"{say(frame)}, share {share:g}", say(aim), source=say.cited(_TARGET, _SHARE))  # fmt: skip
    if free:
        a, b = min(free, key=lambda span: (max(span[0] - height, height - span[1], 0.0), span[0]))
        height = min(max(height, a), b)
    working.step("rod", "aim, within least and most, clear of what is in the way", "", say(height))
    return RodHeight(height, low, high, working)


def _free(low: float, high: float, taken: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the spans of `low` to `high` that nothing takes."""
    free, at = [], low
    for bottom, top in sorted(taken):
        if bottom > at and at <= high:
            free.append((at, min(bottom, high)))
        at = max(at, top)
    return [*free, (at, high)] if at <= high else free


def one_line(heights: dict[str, RodHeight]) -> dict[str, float]:
    """Return one height for as many windows of a room as allow it, their own for the others [m].

    The line lies within the span of as many windows as can be, and of such lines nearest to what most aim for.

    Source: common practice: one line of heads in a room. Checked by: tests/drapery/test_rod.py.
    """
    fitting = {i: h for i, h in heights.items() if h.fits}
    if not fitting:
        return {i: h.height for i, h in heights.items()}
    edges = sorted({x for h in fitting.values() for x in (h.low, h.high, h.height)})

    def worth(line: float) -> tuple[int, float, float]:
        held = [h for h in fitting.values() if at_most(h.low, line) and at_most(line, h.high)]
        return -len(held), sum(abs(h.height - line) for h in held) if held else inf, -line

    line = min(edges, key=worth)
    return {
        i: line if h.fits and at_most(h.low, line) and at_most(line, h.high) else h.height
        for i, h in heights.items()
    }
