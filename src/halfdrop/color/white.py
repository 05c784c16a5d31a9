"""White points: tristimulus of the lights that coordinates are given under."""

from __future__ import annotations

import numpy as np

from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.color.arrays import Floats

#: XYZ with Y = 100, 2° observer. D65 by its sRGB chromaticity (0.3127, 0.3290); the others from CIE 15
#: chromaticities (D50 0.34567, 0.35850; C 0.31006, 0.31616; A 0.44757, 0.40745).
_XY = {"D65": (0.3127, 0.3290), "D50": (0.34567, 0.35850), "C": (0.31006, 0.31616), "A": (0.44757, 0.40745)}


def _tristimulus(x: float, y: float) -> Floats:
    white = np.array([100.0 * x / y, 100.0, 100.0 * (1.0 - x - y) / y])
    white.setflags(write=False)
    return white


_WHITES = {name: _tristimulus(*xy) for name, xy in _XY.items()}
#: What every Lab in halfdrop stands under unless it says otherwise: standard daylight, CIE D65, 2° observer.
D65 = _WHITES["D65"]


def white_point(name: str) -> Floats:
    """Return the white point of a named light, XYZ with Y = 100, 2° observer, shape `(3,)`.

    Parameters
    ----------
    name : str
        "D65" (daylight), "D50" (print and measuring), "C" (Munsell), "A" (incandescent).

    Raises
    ------
    InputError
        Where no white has this name.

    Source: CIE 15:2018, tables of chromaticities; D65 to the four digits of IEC 61966-2-1.

    Checked by: tests/color/test_spaces.py.
    """
    if name not in _WHITES:
        raise InputError(f"no white point `{name}`", hint=did_you_mean(name, _WHITES))
    return _WHITES[name]
