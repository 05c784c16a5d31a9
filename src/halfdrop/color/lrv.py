"""Light reflectance value: the luminous reflectance of a finish, in percent."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats
from halfdrop.color.lab import xyz_of_lab


def lightness_of_lrv(lrv: ArrayLike) -> Floats:
    """Return L* of a light reflectance value [percent, 0 to 100], any shape.

    Raises
    ------
    InputError
        Where a value is outside 0 to 100.

    Source: BS 8493:2008 takes Y as the value; L* by CIE 15:2018, 8.2.1.

    Checked by: tests/color/test_lrv.py.
    """
    y = np.asarray(lrv, dtype=np.float64)
    _within(y, "light reflectance value")
    scaled = y / 100.0
    return np.where(scaled > (6 / 29) ** 3, 116.0 * np.cbrt(scaled) - 16.0, (29 / 3) ** 3 * scaled)


def lrv_of_lightness(lightness: ArrayLike) -> Floats:
    """Return the light reflectance value [percent] of L* [0 to 100], any shape.

    Raises
    ------
    InputError
        Where L* is outside 0 to 100.

    Source: the inverse of `lightness_of_lrv`.

    Checked by: tests/color/test_lrv.py.
    """
    value = np.asarray(lightness, dtype=np.float64)
    _within(value, "L*")
    return np.where(value > 8.0, 100.0 * ((value + 16.0) / 116.0) ** 3, 100.0 * value * (3 / 29) ** 3)


def lrv_of_lab(lab: ArrayLike) -> Floats:
    """Return the light reflectance value [percent] of L* a* b*, shape `(...)`: the Y of XYZ.

    Source: BS 8493:2008.

    Checked by: tests/color/test_lrv.py.
    """
    y: Floats = xyz_of_lab(lab)[..., 1]
    return y


def _within(values: Floats, what: str) -> None:
    outside = ~((values >= 0.0) & (values <= 100.0))
    if outside.any():
        raise InputError(f"{what} is {float(values[outside].flat[0]):g}; allowed is 0 to 100")
