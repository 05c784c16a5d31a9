"""One surface or thing of a room: how much of it is seen, and what it wears."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.geometry.plane import Array
from halfdrop.job.colors import Colors

#: What a part is to a scheme: `large` is bought for decades, `medium` rugs, curtains and chairs, `small` what is cheap to change.
Role = Literal["walls", "ceiling", "trim", "floor", "large", "medium", "small", "art"]


@dataclass(frozen=True, eq=False)
class Cover:
    """Cloth that hangs before a wall: what is seen of it, and which piece of the wall it hides.

    Attributes
    ----------
    path : str
        The treatment's.
    what : str
        What a person calls it.
    wall : str
        The wall behind it.
    start, end : Array (2,)
        Its edges on the wall's line [m].
    bottom, top : float
        Above the floor [m].
    full : float
        Flat over finished width as it hangs so, 1 or more.
    fabric : str or None
        Its cloth's id.
    kept : bool
        The client keeps it.
    """

    path: str
    what: str
    wall: str
    start: Array
    end: Array
    bottom: float
    top: float
    full: float
    fabric: str | None
    kept: bool


@dataclass(frozen=True)
class Part:
    """A surface or a thing.

    Attributes
    ----------
    path : str
        In the document: `rooms/living/pieces/sofa`, `rooms/living/surfaces/walls`, `rooms/living/finishes/head-wall`.
    what : str
        What a person calls it.
    role : str
    area : float
        What is seen of it [m²], 0 or more.
    how : str
        How the area came about, for a person to follow.
    colors : mapping of str to float
        Its swatches with their shares of it; empty where nothing is recorded.
    kept : bool
        The client keeps it as it is.
    patterned : bool
    fixes : str or None
        Where its colors stand in the document, where that is elsewhere than in the part itself: `fabrics/print/colors`.
    """

    path: str
    what: str
    role: Role
    area: float
    how: str
    colors: Colors
    kept: bool = False
    patterned: bool = False
    fixes: str | None = None

    @property
    def recorded(self) -> float:
        """Area whose color is recorded [m²]."""
        return self.area * min(sum(self.colors.values()), 1.0)
