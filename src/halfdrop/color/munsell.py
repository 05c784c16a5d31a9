"""Munsell notation, both ways: hue, value and chroma as the color atlas has them."""

from __future__ import annotations

import re
import warnings

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import InputError
from halfdrop.base.notation import shown
from halfdrop.color.adapt import adapted
from halfdrop.color.arrays import Floats, one
from halfdrop.color.lab import lab_of_xyz, xyz_of_lab
from halfdrop.color.science import science
from halfdrop.color.white import white_point

_NOTATION = re.compile(
    r"(?:N\s*(?P<grey>[0-9.]+)/?)|(?:(?P<hue>[0-9.]+)\s*(?P<family>R|YR|Y|GY|G|BG|B|PB|P|RP)\s+"
    r"(?P<value>[0-9.]+)\s*/\s*(?P<chroma>[0-9.]+))"
)


def lrv_of_value(value: float) -> float:
    """Return the light reflectance value [percent] of a Munsell value [0 to 10], a perfect white being 100.

    Raises
    ------
    InputError
        Where the value is outside 0 to 10.

    Source: ASTM D1535, quintic.

    Checked by: tests/color/test_munsell.py (tests/published/color_munsell_value.csv).
    """
    if not 0.0 <= value <= 10.0:
        raise InputError(f"Munsell value is {value:g}; allowed is 0 to 10")
    terms = (1.1914, -0.22533, 0.23352, -0.020484, 0.00081939)
    return float(sum(term * value ** (n + 1) for n, term in enumerate(terms)))


def lab_of_munsell(notation: str) -> Floats:
    """Return L* a* b* (D65) of a Munsell notation: `5R 5/10`, `2.5YR 6/8`, `N 5`.

    The renotation stands under illuminant C; it is carried to D65 by CAT16.

    Raises
    ------
    InputError
        Where it is no notation, or lies outside the renotation.

    Source: Newhall, Nickerson, Judd (1943), JOSA 33, renotation; ASTM D1535; by way of colour-science.

    Checked by: tests/color/test_munsell.py (tests/published/color_munsell.csv).
    """
    hint = "write it as 5R 5/10, a grey as N 5"
    found = _NOTATION.fullmatch(notation.strip().upper())
    if found is None:
        raise InputError(f"`{shown(notation)}` is no Munsell notation", hint=hint)
    grey, colored = "N{grey}", "{hue}{family} {value}/{chroma}"
    text = (grey if found["grey"] else colored).format(**found.groupdict())
    package = science()
    try:
        lrv_of_value(float(found["grey"] or found["value"]))
        xyY = package.munsell_colour_to_xyY(text)
    except (InputError, ValueError, AssertionError, RuntimeError):
        raise InputError(f"Munsell `{shown(notation)}` lies outside the renotation", hint=hint) from None
    return lab_of_xyz(adapted(package.xyY_to_XYZ(xyY) * 100.0, white_point("C")))


def munsell_of_lab(lab: ArrayLike) -> str:
    """Return the Munsell notation of one L* a* b* (D65), to a tenth: `5R 5/10`, `N 5.1`.

    Takes up to a second: the renotation is searched.

    Raises
    ------
    InputError
        Where it is no color that a surface can have, or the search does not end.

    Source: as `lab_of_munsell`; the search as in colour-science.

    Checked by: tests/color/test_munsell.py.
    """
    one(lab, "Lab")
    package = science()
    xyY = package.XYZ_to_xyY(adapted(xyz_of_lab(lab), white_point("D65"), white_point("C")) / 100.0)
    xyY[..., 2] = np.clip(xyY[..., 2], 0.0, 1.0)
    try:
        with warnings.catch_warnings():
            warnings.filterwarnings("error", message=r'(?s).*is not within "MacAdam" limits.*')
            text = package.xyY_to_munsell_colour(xyY)
    except (ValueError, AssertionError, RuntimeError, Warning):
        raise InputError(
            "the color has no Munsell notation", hint="give a color that a surface can have"
        ) from None
    words = re.sub(r"\.0(?![0-9])", "", str(text))
    return re.sub(r"^N(?=[0-9])", "N ", words).removesuffix("/")
