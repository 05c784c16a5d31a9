"""CIELAB and its polar form: how far colors look apart, roughly, and in which direction."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.color.arrays import Floats, triples
from halfdrop.color.srgb import srgb_of_xyz, xyz_of_srgb
from halfdrop.color.white import D65

_D = 6.0 / 29.0


def lab_of_xyz(xyz: ArrayLike, white: ArrayLike = D65) -> Floats:
    """Return L* a* b* of XYZ, shape `(..., 3)`.

    Parameters
    ----------
    xyz : array, shape (..., 3)
        In the scale of `white`; below 0 the linear part runs on.
    white : array, shape (3,) or (..., 3)
        XYZ of the white it is seen against; D65 with Y = 100 where not given.

    Source: CIE 15:2018, 8.2.1 (ISO/CIE 11664-4).

    Checked by: tests/color/test_spaces.py, tests/color/test_against_science.py.
    """
    t = triples(xyz, "XYZ") / triples(white, "white")
    f = np.where(t > _D**3, np.cbrt(t), t / (3 * _D * _D) + 4.0 / 29.0)
    x, y, z = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], axis=-1)


def xyz_of_lab(lab: ArrayLike, white: ArrayLike = D65) -> Floats:
    """Return XYZ of L* a* b*, in the scale of `white`, shape `(..., 3)`.

    Source: CIE 15:2018, annex (inverse of 8.2.1).

    Checked by: tests/color/test_spaces.py, tests/color/test_against_science.py.
    """
    v = triples(lab, "Lab")
    y = (v[..., 0] + 16.0) / 116.0
    f = np.stack([y + v[..., 1] / 500.0, y, y - v[..., 2] / 200.0], axis=-1)
    scaled: Floats = np.where(f > _D, f**3, 3 * _D * _D * (f - 4.0 / 29.0)) * triples(white, "white")
    return scaled


def lch_of_lab(lab: ArrayLike) -> Floats:
    """Return L*, chroma C*ab and hue h_ab [degrees, 0 to 360] of L* a* b*, shape `(..., 3)`; a grey's hue is 0.

    Source: CIE 15:2018, 8.2.1.

    Checked by: tests/color/test_spaces.py.
    """
    v = triples(lab, "Lab")
    a, b = v[..., 1], v[..., 2]
    hue = np.degrees(np.arctan2(b, a)) % 360.0
    return np.stack([v[..., 0], np.hypot(a, b), np.where(hue >= 360.0, 0.0, hue)], axis=-1)


def lab_of_lch(lch: ArrayLike) -> Floats:
    """Return L* a* b* of L*, chroma and hue [degrees], shape `(..., 3)`.

    Source: CIE 15:2018, 8.2.1.

    Checked by: tests/color/test_spaces.py.
    """
    v = triples(lch, "LCh")
    hue = np.radians(v[..., 2])
    return np.stack([v[..., 0], v[..., 1] * np.cos(hue), v[..., 1] * np.sin(hue)], axis=-1)


def lab_of_srgb(srgb: ArrayLike) -> Floats:
    """Return L* a* b* (D65) of sRGB in [0, 1], shape `(..., 3)`.

    Checked by: tests/color/test_spaces.py.
    """
    return lab_of_xyz(xyz_of_srgb(srgb))


def srgb_of_lab(lab: ArrayLike) -> Floats:
    """Return sRGB of L* a* b* (D65), shape `(..., 3)`; outside [0, 1] where no screen shows it.

    Checked by: tests/color/test_spaces.py.
    """
    return srgb_of_xyz(xyz_of_lab(lab))
