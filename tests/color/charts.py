"""Measured reflectances of a public chart, to try predictions on."""

from __future__ import annotations

import numpy as np

from halfdrop.color.arrays import Floats
from halfdrop.color.grid import on_grid
from halfdrop.color.science import science


def chart() -> Floats:
    """Return the reflectances of the 24 patches of ISO 17321-1, on the grid."""
    spectra = science().SDS_COLOURCHECKERS["ISO 17321-1"].values()
    return np.array([on_grid(one.wavelengths, one.values, "patch") for one in spectra])
