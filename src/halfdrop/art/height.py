"""How high a work or a whole group hangs: what every method answers."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.base.working import Working


@dataclass(frozen=True)
class HangHeight:
    """The height of one work, or of a group taken as one.

    Attributes
    ----------
    center : float
        Its middle above the floor [m].
    height : float
        Its own height [m].
    method : str
        The method by name.
    gap : float or None
        From the piece below it to its bottom [m]; None on a bare wall.
    conflicts : tuple of str
        Which wishes could not be met together, by how much, and which one gave way.
    heights_that_meet : (float, float) or None
        Heights of a work that would meet all wishes there [m]; None where this one does, or none would.
    working : Working
        The steps.
    """

    center: float
    height: float
    method: str
    gap: float | None
    conflicts: tuple[str, ...]
    heights_that_meet: tuple[float, float] | None
    working: Working

    @property
    def bottom(self) -> float:
        """Bottom of the frame above the floor [m]."""
        return self.center - self.height / 2

    @property
    def top(self) -> float:
        """Top of the frame above the floor [m]."""
        return self.center + self.height / 2
