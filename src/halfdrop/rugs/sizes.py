"""Made sizes: what the trade weaves, the next size up, the next size down.

A made size goes by its name (8×10 ft); the rug itself often runs short of it, so the actual size is
what is ordered by.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from halfdrop.base.formats import Units, format_length, format_size
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.practice import Practice
from halfdrop.rugs.box import Box, Point, lay

Made = Literal["rectangle", "square", "round", "runner"]


@dataclass(frozen=True, slots=True)
class MadeSize:
    """A size the trade makes.

    Attributes
    ----------
    made : str
        "rectangle", "square", "round" or "runner".
    width, length : float
        As named, the shorter first; a round rug has its diameter for both [m].
    """

    made: Made
    width: float
    length: float

    @property
    def area(self) -> float:
        """Area as named [m²]."""
        return self.width * self.length * (math.pi / 4 if self.made == "round" else 1.0)

    def name(self, units: Units) -> str:
        """Return its name in the trade: `8 × 10 ft`, `240 × 340 cm`, `8′ round`."""
        if self.made == "round":
            size = (
                format_length(self.width, units, unit="cm")
                if units == "metric"
                else format_length(self.width, units)
            )
            return f"{size} round"
        return format_size(self.width, self.length, units)

    def actual(self, practice: Practice) -> tuple[float, float]:
        """Return the width and length a machine-made rug of this name may have, short as they run [m].

        Source: practice `rugs.made_size_short`.
        """
        short = practice.length("rugs.made_size_short")
        return self.width - short, self.length - short


@dataclass(frozen=True, slots=True)
class Laid:
    """A made size, and which way round it lies.

    Attributes
    ----------
    size : MadeSize
        The size.
    across, along : float
        Its extent along the asked width and the asked length [m].
    """

    size: MadeSize
    across: float
    along: float


def made_sizes(practice: Practice, made: Made = "rectangle") -> tuple[MadeSize, ...]:
    """Return the sizes of one kind, the smallest area first.

    Source: practice `rugs.made_sizes_rectangle`, `_square`, `_round`, `_runner`.

    Checked by: tests/rugs/test_sizes.py.
    """
    key = f"rugs.made_sizes_{made}"
    pairs = [(d, d) for d in practice.length_list(key)] if made == "round" else practice.size_list(key)
    sizes = {MadeSize(made, float(min(pair)), float(max(pair))) for pair in pairs}
    return tuple(sorted(sizes, key=lambda s: (s.area, s.length)))


def next_size_up(width: float, length: float, sizes: Sequence[MadeSize]) -> Laid | None:
    """Return the smallest size that covers width × length, either way round.

    Parameters
    ----------
    width, length : float
        What has to be covered [m]; for round sizes, what the circle's box has to cover.
    sizes : sequence of MadeSize
        What there is.

    Returns
    -------
    Laid or None
        None where every size is too small.

    Checked by: tests/published/rugs_wanted.csv, tests/rugs/test_sizes.py.
    """
    for laid in _ways(sizes):
        if at_least(laid.across, width) and at_least(laid.along, length):
            return laid
    return None


def next_size_down(width: float, length: float, sizes: Sequence[MadeSize]) -> Laid | None:
    """Return the largest size that lies within width × length, either way round; None where none does."""
    fitting = [laid for laid in _ways(sizes) if at_most(laid.across, width) and at_most(laid.along, length)]
    return max(fitting, key=lambda laid: laid.size.area, default=None)


def cover(
    wanted: Box,
    sizes: Sequence[MadeSize],
    within: Box | None = None,
    prefer: Point | None = None,
    worth: Callable[[Box], float] | None = None,
) -> tuple[Laid, Box] | None:
    """Return the size that covers a box and stays within another, and where it lies.

    It is the smallest that does (without `within`: `next_size_up` with a place), or, where `worth` is given,
    the one that is worth most where it lies, the smallest of equals.
    """
    found: list[tuple[Laid, Box]] = []
    for laid in _ways(sizes):
        place = lay(wanted, laid.across, laid.along, within, prefer)
        if place is not None:
            if worth is None:
                return laid, place
            found.append((laid, place))
    return max(found, key=lambda f: round(worth(f[1]), 6), default=None) if worth else None


def _ways(sizes: Sequence[MadeSize]) -> Iterator[Laid]:
    """Give each size both ways round, the smallest area first, long side along before across."""
    for size in sorted(sizes, key=lambda s: (s.area, s.length)):
        yield Laid(size, size.width, size.length)
        if size.width != size.length:
            yield Laid(size, size.length, size.width)
