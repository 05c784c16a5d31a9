"""Pleats and spaces of one panel to the millimeter: a pleat at the overlap's edge, one at the corner of the return."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.drapery.pleats.share import shared
from halfdrop.job.treatments import Heading
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_SPACE = "drapery.pleat_space_target"
#: Headings that are pleated by hand, with spaces between.
PLEATED: tuple[Heading, ...] = ("single pinch", "double pinch", "triple pinch", "goblet", "cartridge", "box")


@dataclass(frozen=True)
class PleatsAnswer:
    """One panel's heading, from its leading edge to its return, in whole millimeters.

    Attributes
    ----------
    pleats, spaces : tuple of int
        Cloth in each pleat; flat between two pleats [mm]. One space fewer than pleats.
    overlap, returns : int
        Flat before the first pleat and after the last [mm].
    fullness : float
        What the panel comes to: flat over finished.
    working : Working
        The steps.
    """

    pleats: tuple[int, ...]
    spaces: tuple[int, ...]
    overlap: int
    returns: int
    fullness: float
    working: Working

    @property
    def finished(self) -> int:
        """Finished width [mm]."""
        return self.overlap + sum(self.spaces) + self.returns

    @property
    def flat(self) -> int:
        """Flat width, hemmed [mm]."""
        return self.finished + sum(self.pleats)


def pleats_spaced(
    flat: float,
    finished: float,
    practice: Practice,
    *,
    overlap: float = 0.0,
    returns: float = 0.0,
    pleats: int | None = None,
) -> PleatsAnswer:
    """Return pleats and spaces of a panel.

    Parameters
    ----------
    flat : float
        Width of the panel hemmed, laid flat [m].
    finished : float
        Width it covers, overlap and return with it [m].
    practice : Practice
        `drapery.pleat_space_target`.
    overlap, returns : float
        Left flat at the leading edge and round the bracket [m].
    pleats : int, optional
        How many; by default as many as bring the space nearest to its aim.

    Raises
    ------
    InputError
        Where overlap and return leave nothing to pleat, or there is no cloth for pleats.

    Source: common practice. Checked by: tests/drapery/test_pleats.py.
    """
    say = Words(practice)
    mm = {
        name: round(1000 * x)
        for name, x in (("flat", flat), ("finished", finished), ("o", overlap), ("r", returns))
    }
    middle, taken = mm["finished"] - mm["o"] - mm["r"], mm["flat"] - mm["finished"]
    if middle <= 0:
        raise InputError(
            f"overlap and return take {say(overlap + returns)} of {say(finished)}; nothing is left to pleat"
        )
    if taken <= 0:
        raise InputError(
            f"{say(flat)} of cloth over {say(finished)} leaves none for pleats; more than {say(finished)} is wanted"
        )
    target = float(practice.length(_SPACE))
    count = max(2, round(middle / (1000 * target)) + 1) if pleats is None else pleats
    if count < 2:
        raise InputError(f"{count} pleats leave no space between; at least 2 are allowed")
    spaces, folds = shared(middle, count - 1), shared(taken, count)
    working = Working("Pleats")
    working.step("to space", "finished − overlap − return",
                 f"{mm['finished']} − {mm['o']} − {mm['r']} mm", f"{middle} mm")  # fmt: skip
    working.step("spaces", "to space ÷ aim, nearest whole", f"{middle} ÷ {1000 * target:.0f}", f"{count - 1}",
                 rounding="nearest", source=say.cited(_SPACE) if pleats is None else "pleats as chosen")  # fmt: skip
    working.step(
        "space",
        "to space ÷ spaces",
        f"{middle} ÷ {count - 1}",
        _range(spaces),
        rounding="whole mm that add up",
    )
    working.step("pleat", "(flat − finished) ÷ pleats", f"({mm['flat']} − {mm['finished']}) ÷ {count}", _range(folds),
                 rounding="whole mm that add up")  # fmt: skip
    return PleatsAnswer(folds, spaces, mm["o"], mm["r"], mm["flat"] / mm["finished"], working)


def _range(parts: tuple[int, ...]) -> str:
    low, high = min(parts), max(parts)
    return f"{low} mm" if low == high else f"{low} or {high} mm"
