"""A work to hang: its frame, its mass, and how much it weighs on the eye."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfdrop.base.errors import InputError

#: No frame or mirror of a home is larger [m]; a slip of units is.
LARGEST = 12.0


@dataclass(frozen=True, slots=True)
class Work:
    """A picture, a mirror or a relief, frame and all.

    Attributes
    ----------
    name : str
        What it is called.
    width, height : float
        Outer size of the frame [m]; above 0, at most 12.
    tone : float
        How heavy a square of it looks: 1 a mid-toned picture, more a dark or loud one, less a pale one.

    Raises
    ------
    InputError
        For a size or a tone outside what is allowed.
    """

    name: str
    width: float
    height: float
    tone: float = 1.0

    def __post_init__(self) -> None:
        for what, size in (("wide", self.width), ("high", self.height)):
            if not (math.isfinite(size) and 0 < size <= LARGEST):
                raise InputError(
                    f"work `{self.name}` is {size:g} m {what}; allowed is above 0, at most {LARGEST:g} m",
                    hint="write the frame as width x height, such as 24x30 in",
                )
        if not (math.isfinite(self.tone) and self.tone > 0):
            raise InputError(f"work `{self.name}` has a tone of {self.tone:g}; allowed is above 0")

    @property
    def weight(self) -> float:
        """Visual weight: area times tone [m²]."""
        return self.width * self.height * self.tone
