"""Color emotion: how active, heavy and warm a color strikes people."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.color.arrays import Floats, triples
from halfdrop.color.lab import lch_of_lab


def activity(lab: ArrayLike) -> Floats:
    """Return color activity, shape `(...)`: above 0 active, below 0 passive; about −2 to 4.

    Source: Ou et al. (2004), Color Research and Application 29, 232-240; constants read in public implementations, not in the
    paper.

    Checked by: tests/color/test_measures.py (tests/published/color_emotion.csv).
    """
    v = triples(lab, "Lab")
    far = (v[..., 0] - 50.0) ** 2 + (v[..., 1] - 3.0) ** 2 + ((v[..., 2] - 17.0) / 1.4) ** 2
    found: Floats = -2.1 + 0.06 * np.sqrt(far)
    return found


def weight(lab: ArrayLike) -> Floats:
    """Return color weight, shape `(...)`: above 0 heavy, below 0 light.

    Source: as `activity`.

    Checked by: tests/color/test_measures.py (tests/published/color_emotion.csv).
    """
    v = lch_of_lab(lab)
    found: Floats = -1.8 + 0.04 * (100.0 - v[..., 0]) + 0.45 * np.cos(np.radians(v[..., 2] - 100.0))
    return found


def heat(lab: ArrayLike) -> Floats:
    """Return color heat, shape `(...)`: above 0 warm, below 0 cool; a grey is −0.5.

    Source: as `activity`; one public implementation prints −.05 for −0.5.

    Checked by: tests/color/test_measures.py (tests/published/color_emotion.csv).
    """
    v = lch_of_lab(lab)
    found: Floats = -0.5 + 0.02 * v[..., 1] ** 1.07 * np.cos(np.radians(v[..., 2] - 50.0))
    return found
