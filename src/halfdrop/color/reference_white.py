"""What was white in a photograph: a patch that somebody pointed out, or an estimate that says it is one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from halfdrop.base.errors import InputError
from halfdrop.color.adapt import adapted
from halfdrop.color.arrays import Floats
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lab_of_xyz, lch_of_lab
from halfdrop.color.picture import Picture
from halfdrop.color.srgb import linear_of_srgb, xyz_of_srgb
from halfdrop.color.white import D65

#: A channel at or above this is burnt out, and tells nothing of the light.
_BURNT = 0.992
#: Darker than this [L*], a patch is mostly noise.
_DARK = 15.0
#: The brightest share of a picture that is looked at for a white, and the most chroma it may have. Our choice, no source.
_BRIGHTEST, _CHROMA = 0.02, 10.0


@dataclass(frozen=True)
class White:
    """What was taken for white, and how.

    Attributes
    ----------
    how : str
        "given" (a patch pointed out), "estimated" (from the brightest near-neutral parts) or "as recorded" (nothing changed).
    xyz : (float, float, float)
        Of the light, Y = 100.
    shifts : float
        How far a white moves by it [CIEDE2000].
    gain : float
        What light was multiplied by; 1 where nobody said how light the patch is.
    why : str
        In words.
    """

    how: Literal["given", "estimated", "as recorded"]
    xyz: tuple[float, float, float]
    shifts: float
    gain: float
    why: str


@dataclass(frozen=True)
class Patch:
    """A patch of white paper or a grey card, in pixels of the upright picture, from its top left corner.

    Attributes
    ----------
    x, y, width, height : int
        [pixels].
    lrv : float, optional
        Light reflectance value of the card [percent]: 18 for a grey card. Sets the exposure too.
    """

    x: int
    y: int
    width: int
    height: int
    lrv: float | None = None


def white_of_patch(picture: Picture, patch: Patch) -> White:
    """Return the light by a patch that is known to be neutral.

    Raises
    ------
    InputError
        Where the patch lies outside the picture, is burnt out, or too dark to tell.

    Checked by: tests/color/test_reference_white.py.
    """
    name = f"white patch {patch.x},{patch.y},{patch.width},{patch.height}"
    inside = patch.x >= 0 and patch.y >= 0 and patch.width > 0 and patch.height > 0
    if not inside or patch.x + patch.width > picture.width or patch.y + patch.height > picture.height:
        raise InputError(
            f"{name} lies outside the picture, which is {picture.width} × {picture.height} pixels",
            hint="give it as left,top,width,height in pixels of the upright picture",
        )
    if patch.lrv is not None and not 0.0 < patch.lrv <= 100.0:
        raise InputError(f"light reflectance value is {patch.lrv:g}; allowed is above 0 to 100")
    rows, columns = picture.srgb.shape[:2]
    top, bottom = _span(patch.y, patch.height, rows / picture.height, rows)
    left, right = _span(patch.x, patch.width, columns / picture.width, columns)
    pixels = picture.srgb[top:bottom, left:right].reshape(-1, 3)
    if np.mean((pixels >= _BURNT).any(axis=1)) > 0.05:
        raise InputError(
            f"{name} is burnt out: it tells nothing of the light",
            hint="take a patch that is grey, or a darker picture",
        )
    xyz = np.median(xyz_of_srgb(pixels), axis=0)
    lightness = float(lab_of_xyz(xyz)[0])
    if lightness < _DARK:
        raise InputError(f"{name} is too dark to tell: L* {lightness:.0f}; wanted is {_DARK:g} and above")
    gain = 1.0 if patch.lrv is None else patch.lrv / float(xyz[1])
    return _white("given", xyz, gain, "by the patch pointed out")


def estimated_white(picture: Picture) -> White:
    """Return the light by the brightest parts of a picture that are near neutral; as recorded where there are none.

    A guess: a picture that has nothing white in it, or a cream ground, is taken wrongly. Point out a patch where one is there.

    Source: the brightest patch as white (Land and McCann 1971), held to near-neutral ones; limits our choice, no source.

    Checked by: tests/color/test_reference_white.py.
    """
    pixels = picture.srgb[picture.solid]
    usable = pixels[(pixels < _BURNT).all(axis=1)]
    if not len(usable):
        return as_recorded("no part of it that is not burnt out")
    light = linear_of_srgb(usable) @ np.array([0.2126, 0.7152, 0.0722])
    bright = usable[light >= np.quantile(light, 1.0 - _BRIGHTEST)]
    xyz = np.median(xyz_of_srgb(bright), axis=0)
    lch = lch_of_lab(lab_of_xyz(xyz))
    if lch[0] < 60.0 or lch[1] > _CHROMA:
        return as_recorded("its brightest parts are not near neutral")
    return _white("estimated", xyz, 1.0, "by its brightest near-neutral parts: an estimate")


def as_recorded(why: str = "as asked for") -> White:
    """Return the white that changes nothing."""
    return _white("as recorded", D65, 1.0, why)


def under_daylight(picture: Picture, white: White) -> Floats:
    """Return the picture's XYZ as it would be under D65, shape `(rows, columns, 3)`.

    Source: CAT16, whole adaptation.

    Checked by: tests/color/test_reference_white.py.
    """
    return adapted(xyz_of_srgb(picture.srgb), white.xyz) * white.gain


def _white(how: Literal["given", "estimated", "as recorded"], xyz: Floats, gain: float, why: str) -> White:
    scaled = xyz * (100.0 / xyz[1])
    moved = float(delta_e(lab_of_xyz(scaled), lab_of_xyz(D65)))
    return White(how, (float(scaled[0]), float(scaled[1]), float(scaled[2])), moved, gain, why)


def _span(start: int, length: int, scale: float, size: int) -> tuple[int, int]:
    """Return the working pixels wholly within a span, or the one nearest its middle where none is."""
    low, high = int(np.ceil(start * scale - 1e-9)), int(np.floor((start + length) * scale + 1e-9))
    if high > low:
        return low, high
    middle = min(int((start + length / 2) * scale), size - 1)
    return middle, middle + 1
