"""What every color function takes: finite numbers in threes, `(..., 3)`."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfdrop.base.errors import InputError

Floats = NDArray[np.float64]


def triples(values: ArrayLike, what: str) -> Floats:
    """Return values as an array of shape `(..., 3)`.

    Raises
    ------
    InputError
        Where they are not numbers in threes, or one of them is not finite.

    Checked by: tests/color/test_spaces.py.
    """
    try:
        array = np.asarray(values, dtype=np.float64)
    except (TypeError, ValueError):
        raise InputError(f"{what} is not numbers in threes", hint="give three numbers a color") from None
    if array.ndim == 0 or array.shape[-1] != 3:
        raise InputError(
            f"{what} has the shape {array.shape}; wanted is (..., 3)", hint="give three numbers a color"
        )
    if not np.isfinite(array).all():
        raise InputError(f"{what} has a number that is not finite", hint="leave such a color out")
    return array


def one(values: ArrayLike, what: str) -> tuple[float, float, float]:
    """Return a single color as three floats; InputError where it is not one."""
    array = triples(values, what)
    if array.ndim != 1:
        raise InputError(f"{what} has the shape {array.shape}; wanted is one color, (3,)")
    return float(array[0]), float(array[1]), float(array[2])
