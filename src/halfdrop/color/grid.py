"""The wavelengths that spectra are worked at, and the standard observer on them."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats
from halfdrop.color.science import science

#: Wavelengths [nm]: 380 to 780 in steps of 5, as CIE 15 allows for sums.
WAVELENGTHS: Floats = np.arange(380.0, 781.0, 5.0)
WAVELENGTHS.setflags(write=False)


@cache
def observer() -> Floats:
    """Return the CIE 1931 2° color-matching functions on the grid, shape `(81, 3)`.

    Source: CIE 15:2018 (ISO/CIE 11664-1), by way of colour-science.

    Checked by: tests/color/test_light.py.
    """
    table = science().MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    rows = np.searchsorted(np.asarray(table.wavelengths), WAVELENGTHS)
    return np.asarray(table.values, dtype=np.float64)[rows]


def on_grid(wavelengths: ArrayLike, values: ArrayLike, what: str) -> Floats:
    """Return a spectrum on the grid: straight lines between its samples, its end values beyond them.

    Parameters
    ----------
    wavelengths : array, shape (n,)
        [nm], rising; from 420 or below to 680 or above.
    values : array, shape (..., n)
        At those wavelengths.
    what : str
        What it is, for the message.

    Raises
    ------
    InputError
        Where wavelengths do not rise, do not cover 420 to 680 nm, lie over 20 nm apart, or a value is below 0.

    Source: CIE 15:2018, 7.2.2.1 takes straight lines for missing values where no better is known.

    Checked by: tests/color/test_light.py.
    """
    nm, v = np.asarray(wavelengths, dtype=np.float64), np.asarray(values, dtype=np.float64)
    if nm.ndim != 1 or nm.size < 2 or v.shape[-1:] != nm.shape:
        raise InputError(f"{what} has {v.shape} values for {nm.shape} wavelengths")
    steps = np.diff(nm)
    if not (steps > 0).all() or steps.max() > 20.0 + 1e-9:
        raise InputError(f"{what} has wavelengths that do not rise in steps of 20 nm or less")
    if nm[0] > 420.0 or nm[-1] < 680.0:
        raise InputError(f"{what} runs from {nm[0]:g} to {nm[-1]:g} nm; wanted is 420 to 680 nm at the least")
    if not (np.isfinite(v).all() and (v >= 0).all()):
        raise InputError(f"{what} has a value that is not 0 or above")
    place = np.clip(np.searchsorted(nm, WAVELENGTHS) - 1, 0, nm.size - 2)
    part = np.clip((WAVELENGTHS - nm[place]) / steps[place], 0.0, 1.0)
    spectrum: Floats = v[..., place] * (1.0 - part) + v[..., place + 1] * part
    return spectrum
