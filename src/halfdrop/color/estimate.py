"""A reflectance for a color known only by its coordinates: the smoothest one that has them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.color.arrays import Floats, triples
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lab_of_xyz, xyz_of_lab
from halfdrop.color.light import light
from halfdrop.color.white import D65

_STEPS = 40
_DONE = 1e-8
_BLOCK = 512
#: How far a color that no surface can have is drawn towards a mid grey, tried in this order.
_DRAWN = (0.0, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7)
_GREY = 0.5


@dataclass(frozen=True, eq=False)
class Estimate:
    """Reflectances estimated from coordinates.

    Attributes
    ----------
    reflectance : array, shape (..., 81)
        On the grid, between 0 and 1.
    off : array, shape (...)
        CIEDE2000 between the color asked for and the one it has by daylight: 0 but for colors no surface can have,
        such as a screen's white or its primaries.
    """

    reflectance: Floats
    off: Floats


def daylight_weights() -> Floats:
    """Return weights from reflectance on the grid to XYZ under D65, a perfect white being D65 to the last digit."""
    weights = light("D65").weights
    scaled: Floats = weights * (D65 / weights.sum(axis=0))
    return scaled


def estimate(lab: ArrayLike) -> Estimate:
    """Return the smoothest reflectances that have these L* a* b* by daylight (D65, 2°).

    Among all reflectances between 0 and 1 with the wanted XYZ, the one whose hyperbolic-tangent argument has the least sum
    of squared slopes. Paints and dyes are smooth, so this is near them; it is an estimate all the same, and a measured
    spectrum goes before it.

    Parameters
    ----------
    lab : array, shape (..., 3)
        Outside the colors a surface can have, the color is drawn towards mid grey until one exists; `off` says how far.

    Source: Burns (2020), Color Research and Application 45, 8-21, "least hyperbolic tangent slope squared"; Newton's method.

    Checked by: tests/color/test_estimate.py: against measured charts under other lights.
    """
    wanted = triples(lab, "Lab")
    xyz = xyz_of_lab(wanted).reshape(-1, 3)
    weights = daylight_weights()
    grey = _GREY * D65
    made = np.full((len(xyz), len(weights)), _GREY)
    open_ = np.arange(len(xyz))
    for drawn in _DRAWN:
        goal = xyz[open_] + drawn * (grey - xyz[open_])
        blocks = [_newton(goal[i : i + _BLOCK], weights) for i in range(0, len(goal), _BLOCK)]
        if blocks:
            found = np.concatenate([b[0] for b in blocks])
            good = np.concatenate([b[1] for b in blocks])
            made[open_[good]] = found[good]
            open_ = open_[~good]
        if not len(open_):
            break
    off = delta_e(wanted.reshape(-1, 3), lab_of_xyz(made @ weights))
    return Estimate(
        made.reshape((*wanted.shape[:-1], len(weights))),
        np.where(off < 1e-3, 0.0, off).reshape(wanted.shape[:-1]),
    )


def _newton(xyz: Floats, weights: Floats) -> tuple[Floats, np.ndarray]:
    """Return reflectances of a block of XYZ, and for which of them the search ended."""
    count, size = len(xyz), len(weights)
    slope = np.diag(np.full(size, 4.0)) - 2.0 * (np.eye(size, k=1) + np.eye(size, k=-1))
    slope[0, 0] = slope[-1, -1] = 2.0
    scale = weights / 100.0
    goal = xyz / 100.0
    z = np.zeros((count, size))
    pull = np.zeros((count, 3))
    done = np.zeros(count, dtype=bool)
    system = np.zeros((count, size + 3, size + 3))
    with np.errstate(all="ignore"):
        for _ in range(_STEPS):
            tanh = np.tanh(z)
            sech = 1.0 - tanh * tanh
            rate = 0.5 * sech[..., None] * scale
            miss = np.concatenate(
                [z @ slope + (rate @ pull[..., None])[..., 0], (0.5 * (1.0 + tanh)) @ scale - goal], axis=1
            )
            done = np.abs(miss).max(axis=1) < _DONE
            if done.all():
                break
            system[:, :size, :size] = slope
            bend = -sech * tanh * (pull @ scale.T)
            system[:, np.arange(size), np.arange(size)] += bend
            system[:, :size, size:] = rate
            system[:, size:, :size] = rate.transpose(0, 2, 1)
            held = ~done & np.isfinite(system).all(axis=(1, 2)) & np.isfinite(miss).all(axis=1)
            if not held.any():
                break
            step = _solved(system[held], miss[held])
            z[held] -= np.clip(step[:, :size], -4.0, 4.0)
            pull[held] -= step[:, size:]
    return 0.5 * (1.0 + np.tanh(np.where(done[:, None], z, 0.0))), done


def _solved(system: Floats, miss: Floats) -> Floats:
    """Solve each system; one that cannot be solved takes no step."""
    try:
        return np.asarray(np.linalg.solve(system, miss[..., None])[..., 0])
    except np.linalg.LinAlgError:
        out = np.zeros_like(miss)
        for n, (a, b) in enumerate(zip(system, miss, strict=True)):
            try:
                out[n] = np.linalg.solve(a, b)
            except np.linalg.LinAlgError:
                continue
        return out
