"""sRGB: screens, pictures and hex codes, to and from XYZ."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import InputError
from halfdrop.base.notation import shown
from halfdrop.color.arrays import Floats, one, triples
from halfdrop.color.white import D65

#: Primaries (x, y) of red, green, blue. Source: IEC 61966-2-1 (ITU-R BT.709).
_PRIMARIES = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))


def _matrix() -> Floats:
    """Derive linear sRGB → XYZ from primaries and white, so that white comes back as white to the last digit."""
    columns = np.array([[x / y, 1.0, (1.0 - x - y) / y] for x, y in _PRIMARIES]).T
    matrix: Floats = columns * np.linalg.solve(columns, D65)
    return matrix


_TO_XYZ = _matrix()
_FROM_XYZ = np.linalg.inv(_TO_XYZ)
_HEX = re.compile(r"#?([0-9a-fA-F]{6}|[0-9a-fA-F]{3})")


def linear_of_srgb(srgb: ArrayLike) -> Floats:
    """Return linear light of encoded sRGB, both in [0, 1], shape `(..., 3)`; below 0 it is mirrored.

    Source: IEC 61966-2-1, 5.2.

    Checked by: tests/color/test_spaces.py.
    """
    v = triples(srgb, "sRGB")
    size = np.abs(v)
    return np.sign(v) * np.where(size <= 0.04045, size / 12.92, ((size + 0.055) / 1.055) ** 2.4)


def srgb_of_linear(linear: ArrayLike) -> Floats:
    """Return encoded sRGB of linear light, both in [0, 1], shape `(..., 3)`; below 0 it is mirrored.

    Source: IEC 61966-2-1, 5.2.

    Checked by: tests/color/test_spaces.py.
    """
    v = triples(linear, "linear RGB")
    size = np.abs(v)
    return np.sign(v) * np.where(size <= 0.0031308, size * 12.92, 1.055 * size ** (1 / 2.4) - 0.055)


def xyz_of_srgb(srgb: ArrayLike) -> Floats:
    """Return XYZ (Y of white = 100, D65) of sRGB in [0, 1], shape `(..., 3)`.

    Source: IEC 61966-2-1; the matrix is derived from the primaries, not the four-digit one printed there.

    Checked by: tests/color/test_spaces.py, tests/color/test_against_science.py.
    """
    xyz: Floats = linear_of_srgb(srgb) @ _TO_XYZ.T
    return xyz


def srgb_of_xyz(xyz: ArrayLike) -> Floats:
    """Return sRGB of XYZ (Y of white = 100, D65), shape `(..., 3)`.

    A color that no screen shows has a channel outside [0, 1]; nothing is clipped here.

    Source: IEC 61966-2-1.

    Checked by: tests/color/test_spaces.py, tests/color/test_against_science.py.
    """
    return srgb_of_linear(triples(xyz, "XYZ") @ _FROM_XYZ.T)


def in_gamut(srgb: ArrayLike, slack: float = 1e-3) -> np.bool_ | np.ndarray:
    """Return whether a screen can show each sRGB color: all channels in [0, 1] within `slack`."""
    v = triples(srgb, "sRGB")
    inside: np.bool_ | np.ndarray = ((v >= -slack) & (v <= 1.0 + slack)).all(axis=-1)
    return inside


def srgb_of_hex(text: str) -> tuple[float, float, float]:
    """Return the sRGB in [0, 1] of a hex code: `#8a9a5b`, `8A9A5B` or `#fff`.

    Raises
    ------
    InputError
        Where it is not three or six hex digits.

    Checked by: tests/color/test_spaces.py.
    """
    found = _HEX.fullmatch(text.strip())
    if found is None:
        raise InputError(
            f"color `{shown(text)}` is not a hex code", hint="write six hex digits, as in #8a9a5b"
        )
    digits = found[1]
    if len(digits) == 3:
        digits = "".join(2 * d for d in digits)
    red, green, blue = (int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4))
    return red, green, blue


def hex_of_srgb(srgb: ArrayLike) -> str:
    """Return the hex code of one sRGB color, `#8a9a5b`; a channel outside [0, 1] is held at its end."""
    channels = np.clip(one(srgb, "sRGB"), 0.0, 1.0)
    return "#" + "".join(f"{round(float(c) * 255):02x}" for c in channels)
