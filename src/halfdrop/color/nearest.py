"""The nearest of many colors by CIEDE2000, without measuring against all of them, and never a wrong one.

A tree over L* a* b* gives a first guess; its CIEDE2000 bounds how far away in L* a* b* anything nearer can lie; only what
lies within that bound is measured. From equations of CIEDE2000: with d the difference, SL ≤ 1.75, SC and SH ≤ 1 + 0.045 C′,
the rotation term takes at most sin 60° of the chroma and hue parts, and a′ lies between a* and 1.5 a*.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike
from scipy.spatial import cKDTree

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats, triples
from halfdrop.color.ciede2000 import delta_e

_SL = 1.0 + 0.015 * 2500.0 / math.sqrt(2520.0)
_ROTATED = math.sqrt(1.0 - math.sin(math.radians(60.0)))


def reach(chroma: Floats, difference: Floats) -> Floats:
    """Return how far in L* a* b* a color within a CIEDE2000 difference can lie; infinite where there is no bound.

    Parameters
    ----------
    chroma : array
        C*ab of the color it is seen from, 0 or more.
    difference : array
        CIEDE2000, 0 or more.

    Source: derived from Sharma et al. (2005), equations 2-22: see the module's head.

    Checked by: tests/color/test_nearest.py: no pair of any colors lies further.
    """
    scaled = difference / _ROTATED
    share = 1.0 - scaled * 0.045 * 0.75
    bound = np.where(
        share > 0.0, scaled * (1.0 + 0.045 * 1.5 * chroma) / np.where(share > 0, share, 1.0), np.inf
    )
    return np.maximum(bound, _SL * difference) * (1.0 + 1e-9) + 1e-9


class Nearest:
    """Many colors, ready to be searched.

    Parameters
    ----------
    labs : array, shape (n, 3)
        L* a* b*, D65; at least one.

    Raises
    ------
    InputError
        Where there is none.
    """

    def __init__(self, labs: ArrayLike) -> None:
        self.labs = triples(labs, "Lab").reshape(-1, 3)
        if not len(self.labs):
            raise InputError("no swatches to search", hint="import a swatch library first")
        self._tree = cKDTree(self.labs)

    def search(self, lab: ArrayLike, count: int = 1) -> tuple[np.ndarray, Floats]:
        """Return the nearest colors to each, and their differences [CIEDE2000], the nearest first.

        Parameters
        ----------
        lab : array, shape (..., 3)
            What is looked for.
        count : int
            How many, 1 or more; fewer come back where there are fewer.

        Returns
        -------
        (rows, differences), each of shape (..., count)
            Of equal ones the earlier row first.

        Raises
        ------
        InputError
            Where `count` is below 1.

        Checked by: tests/color/test_nearest.py: equal to a plain scan.
        """
        if count < 1:
            raise InputError(f"{count} swatches are asked for; allowed is 1 and above")
        wanted = triples(lab, "Lab")
        flat = wanted.reshape(-1, 3)
        count = min(count, len(self.labs))
        rows = np.empty((len(flat), count), dtype=np.intp)
        far = np.empty((len(flat), count))
        guess = min(count + 8, len(self.labs))
        found = self._tree.query(flat, k=guess)[1].reshape(len(flat), guess)
        differences = np.sort(delta_e(flat[:, None, :], self.labs[found]), axis=1)[:, count - 1]
        radius = reach(np.hypot(flat[:, 1], flat[:, 2]), differences)
        for n, (color, r) in enumerate(zip(flat, radius, strict=True)):
            if math.isfinite(r):
                near = np.sort(np.asarray(self._tree.query_ball_point(color, r), dtype=np.intp))
            else:
                near = np.arange(len(self.labs))
            measured = delta_e(color, self.labs[near])
            best = np.argsort(measured, kind="stable")[:count]
            rows[n], far[n] = near[best], measured[best]
        shape = (*wanted.shape[:-1], count)
        return rows.reshape(shape), far.reshape(shape)


def pairs_within(labs: ArrayLike, difference: float) -> np.ndarray:
    """Return all pairs of colors within a CIEDE2000 difference, shape `(m, 2)`, in order.

    Parameters
    ----------
    labs : array, shape (n, 3)
        L* a* b*.
    difference : float
        CIEDE2000, 0 or more.

    Checked by: tests/color/test_nearest.py: equal to a plain scan.
    """
    colors = triples(labs, "Lab").reshape(-1, 3)
    radius = reach(np.hypot(colors[:, 1], colors[:, 2]), np.full(len(colors), difference))
    tree = cKDTree(colors)
    everything = range(len(colors))
    kept: list[np.ndarray] = []
    for n, r in enumerate(radius):
        near = np.asarray(
            tree.query_ball_point(colors[n], r) if math.isfinite(r) else everything, dtype=np.intp
        )
        near = np.sort(near[near > n])
        close = near[delta_e(colors[n], colors[near]) <= difference] if len(near) else near
        if len(close):
            kept.append(np.stack([np.full(len(close), n, dtype=np.intp), close], axis=1))
    return np.concatenate(kept) if kept else np.empty((0, 2), dtype=np.intp)
