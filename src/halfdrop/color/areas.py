"""Colors with the areas they cover: what every measure of a room's colors takes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats, triples


@dataclass(frozen=True)
class ColorArea:
    """A color and the area of it that is seen.

    Attributes
    ----------
    what : str
        The surface or piece: "walls", "sofa".
    lab : (float, float, float)
        L* a* b*, D65.
    area : float
        [m²], 0 or more; any other unit does, if all are in it.
    """

    what: str
    lab: tuple[float, float, float]
    area: float


def measured(areas: Sequence[ColorArea]) -> tuple[Floats, Floats]:
    """Return the colors, shape `(n, 3)`, and their shares, shape `(n,)`, adding to 1.

    Raises
    ------
    InputError
        Where there is nothing to see, or an area is not 0 or above.

    Checked by: tests/color/test_measures.py.
    """
    for one in areas:
        if not (math.isfinite(one.area) and one.area >= 0.0):
            raise InputError(f"area of {one.what} is {one.area:g} m²; allowed is 0 and above")
    sizes = np.array([one.area for one in areas], dtype=np.float64)
    if not sizes.sum() > 0.0:
        raise InputError("no colored surface has an area", hint="give at least one surface its size")
    return triples([one.lab for one in areas], "Lab"), sizes / sizes.sum()
