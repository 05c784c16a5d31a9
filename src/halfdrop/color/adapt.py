"""Chromatic adaptation: the color that looks the same once the eye has settled to another white."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats, triples
from halfdrop.color.white import D65

Transform = Literal["CAT16", "Bradford"]

#: XYZ → cone-like responses. CAT16: Li et al. (2017), Color Research and Application 42, 703-718.
#: Bradford: Lam (1985), as in ICC.1 annex E.
_RESPONSES: dict[str, Floats] = {
    "CAT16": np.array(
        [[0.401288, 0.650173, -0.051461], [-0.250268, 1.204414, 0.045854], [-0.002079, 0.048952, 0.953127]]
    ),
    "Bradford": np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]]),
}


def adapted(
    xyz: ArrayLike,
    white: ArrayLike,
    to: ArrayLike = D65,
    *,
    transform: Transform = "CAT16",
    degree: float = 1.0,
) -> Floats:
    """Return the XYZ that corresponds under the white `to`, shape `(..., 3)`.

    Parameters
    ----------
    xyz : array, shape (..., 3)
        Under `white`.
    white, to : array, shape (3,)
        XYZ of both whites, in one scale of Y.
    transform : str
        "CAT16", or "Bradford" as color management has it.
    degree : float
        0 (not adapted at all) to 1 (wholly).

    Raises
    ------
    InputError
        Where the degree is outside 0 to 1, or a white has no positive response.

    Source: von Kries scaling in the named responses; incomplete adaptation as in CIE 248:2022 (CIECAM16), D.

    Checked by: tests/color/test_adapt.py.
    """
    if not 0.0 <= degree <= 1.0:
        raise InputError(f"degree of adaptation is {degree:g}; allowed is 0 to 1")
    matrix = _RESPONSES[transform]
    old = matrix @ triples(white, "white")
    new = matrix @ triples(to, "white")
    if (old <= 0).any() or (new <= 0).any():
        raise InputError(
            "a white point has no positive response", hint="give the XYZ of a light, such as D65"
        )
    gain = degree * new / old + (1.0 - degree)
    moved: Floats = triples(xyz, "XYZ") @ (np.linalg.inv(matrix) @ (gain[:, None] * matrix)).T
    return moved


#: Surround factor F. Source: CIE 248:2022, table of viewing conditions.
_SURROUNDS = {"average": 1.0, "dim": 0.9, "dark": 0.8}


def degree_of_adaptation(luminance: float, surround: Literal["average", "dim", "dark"] = "average") -> float:
    """Return how far the eye settles to a light: 0 not at all, 1 wholly.

    Parameters
    ----------
    luminance : float
        Of what is looked at on the whole [cd/m²], 0 or more: about 60 in a day-lit room, 15 of an evening.
    surround : str
        "average", "dim" or "dark".

    Raises
    ------
    InputError
        Where the luminance is below 0.

    Source: CIE 248:2022 (CIECAM16), degree of adaptation D.

    Checked by: tests/color/test_adapt.py.
    """
    if not luminance >= 0.0:
        raise InputError(f"luminance is {luminance:g} cd/m²; allowed is 0 and above")
    degree = _SURROUNDS[surround] * (1.0 - math.exp(-(luminance + 42.0) / 92.0) / 3.6)
    return min(max(degree, 0.0), 1.0)
