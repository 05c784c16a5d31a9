"""The few colors a picture is made of, and how much of each."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.lab import lab_of_xyz, srgb_of_lab
from halfdrop.color.picture import Picture, open_picture
from halfdrop.color.reference_white import (
    Patch,
    White,
    as_recorded,
    estimated_white,
    under_daylight,
    white_of_patch,
)
from halfdrop.color.srgb import hex_of_srgb

#: Side of a cell that pixels are gathered in [L*a*b* units], starting centers, rounds of refinement.
_CELL, _STARTS, _ROUNDS = 3.0, 24, 60
#: Colors nearer than this are one [CIEDE2000]; a share below this is left out. Our choice, no source.
APART, SHARE = 8.0, 0.004
#: A step to the next pixel that makes an edge [L*a*b* units]; the least share of a picture that flats must be to count alone.
_EDGE, _FLATS = 10.0, 0.3


@dataclass(frozen=True)
class PaletteColor:
    """One color of a picture: L* a* b* (D65), hex code, and the share of the picture it stands for, 0 to 1."""

    lab: tuple[float, float, float]
    hex: str
    share: float


@dataclass(frozen=True)
class Palette:
    """The colors of a picture, the largest share first; shares add to 1.

    Attributes
    ----------
    colors : tuple of PaletteColor
        At least one.
    white : White
        What was taken for white, and how.
    profile : str
        What its pixels were taken for.
    """

    colors: tuple[PaletteColor, ...]
    white: White
    profile: str

    def to_json(self) -> dict[str, Any]:
        """Return the palette as a JSON-compatible object: colors and white; nothing else of the picture."""
        return {
            "colors": [
                {"lab": [round(v, 2) for v in c.lab], "hex": c.hex, "share": round(c.share, 4)}
                for c in self.colors
            ],
            "white": {
                "how": self.white.how,
                "why": self.white.why,
                "xyz": [round(v, 2) for v in self.white.xyz],
                "shifts": round(self.white.shifts, 1),
            },
            "profile": self.profile,
        }


def palette_of_file(
    path: Path, *, white: Patch | None = None, recorded: bool = False, most: int = 8, apart: float = APART
) -> Palette:
    """Return the palette of a picture file; as `open_picture` and `palette`."""
    return palette(open_picture(path), white=white, recorded=recorded, most=most, apart=apart)


def palette(
    picture: Picture,
    *,
    white: Patch | None = None,
    recorded: bool = False,
    most: int = 8,
    apart: float = APART,
) -> Palette:
    """Return the colors a picture is made of.

    Pixels are gathered in cells of L* a* b*; centers start at the heaviest cell and then where weight times squared distance
    is most, are refined by k-means, and merged, nearest first, until they are `apart` and no more than `most`. Nothing is
    drawn at random; turning the picture changes nothing but the last digits.

    Parameters
    ----------
    white : Patch, optional
        A patch known to be neutral; estimated where not given.
    recorded : bool
        Take the picture's colors as they are instead of estimating a white.
    most : int
        Most colors, 1 to 24.
    apart : float
        Least CIEDE2000 between two of them, 0 or more.

    Raises
    ------
    InputError
        Where the picture is see-through all over, or an argument is out of its range.

    Checked by: tests/color/test_palette.py.
    """
    if not 1 <= most <= _STARTS:
        raise InputError(f"{most} colors are asked for; allowed is 1 to {_STARTS}")
    if not picture.solid.any():
        raise InputError("the picture is see-through all over", hint="give a picture with something in it")
    light = (
        white_of_patch(picture, white) if white else as_recorded() if recorded else estimated_white(picture)
    )
    labs = lab_of_xyz(under_daylight(picture, light))
    centers, _ = _merged(*_cells(labs[_flat(labs, picture.solid)]), most, apart)
    cells, sizes = _cells(labs[picture.solid])
    weights = np.bincount(_owner(cells, centers), sizes, minlength=len(centers))
    order = sorted(range(len(centers)), key=lambda n: (-round(float(weights[n]), 9), *centers[n].tolist()))
    total = float(weights.sum())
    colors = tuple(
        PaletteColor(
            (float(centers[n][0]), float(centers[n][1]), float(centers[n][2])),
            hex_of_srgb(srgb_of_lab(centers[n])),
            float(weights[n]) / total,
        )
        for n in order
    )
    return Palette(colors, light, picture.profile)


def _flat(labs: Floats, solid: np.ndarray) -> np.ndarray:
    """Return which pixels are part of a flat, not of an edge, whose mixed colors depend on the size of the picture.

    Where flats are less than `_FLATS` of the picture (a fine pattern), all pixels count.
    """
    edge = np.zeros(solid.shape, dtype=bool)
    for axis in (0, 1):
        step = (np.diff(labs, axis=axis) ** 2).sum(axis=-1) > _EDGE**2
        before: list[tuple[int, int]] = [(0, 0), (0, 0)]
        after = list(before)
        before[axis], after[axis] = (1, 0), (0, 1)
        edge |= np.pad(step, before) | np.pad(step, after)
    flat: np.ndarray = solid & ~edge
    return flat if flat.sum() >= _FLATS * solid.sum() else solid


def _owner(cells: Floats, centers: Floats) -> np.ndarray:
    """Return the center nearest to each cell."""
    owner: np.ndarray = ((cells[:, None, :] - centers[None, :, :]) ** 2).sum(axis=2).argmin(axis=1)
    return owner


def _cells(labs: Floats) -> tuple[Floats, Floats]:
    """Return the mean color and the share of each cell that has pixels, in the order of the cells."""
    keys, where, counts = np.unique(
        np.floor(labs / _CELL).astype(np.int64), axis=0, return_inverse=True, return_counts=True
    )
    where = where.reshape(-1)
    means = (
        np.stack([np.bincount(where, labs[:, k], minlength=len(keys)) for k in range(3)], axis=1)
        / counts[:, None]
    )
    shares: Floats = counts / float(counts.sum())
    return means, shares


def _merged(cells: Floats, weights: Floats, most: int, apart: float) -> tuple[Floats, Floats]:
    centers = _refined(cells, weights, _starts(cells, weights))
    while True:
        centers, sizes = _sizes(cells, weights, centers)
        if len(centers) == 1:
            return centers, sizes
        between = delta_e(centers[:, None, :], centers[None, :, :])
        np.fill_diagonal(between, np.inf)
        small = sizes < SHARE
        one, two = divmod(int(np.argmin(between)), len(centers))
        if small.any():
            one = int(np.argmin(sizes))
            two = int(np.argmin(between[one]))
        elif between[one, two] >= apart and len(centers) <= most:
            return centers, sizes
        both = sizes[one] + sizes[two]
        joined = (centers[one] * sizes[one] + centers[two] * sizes[two]) / both
        kept = np.delete(centers, [one, two], axis=0)
        centers = np.concatenate([kept, joined[None]])
        if not small.any():
            centers = _refined(cells, weights, centers)


def _starts(cells: Floats, weights: Floats) -> Floats:
    """Return where centers start: the heaviest cell, then where weight times squared distance is most."""
    chosen = [int(np.argmax(weights))]
    far = ((cells - cells[chosen[0]]) ** 2).sum(axis=1)
    while len(chosen) < min(_STARTS, len(cells)):
        after = int(np.argmax(weights * far))
        if far[after] <= 0.0:
            break
        chosen.append(after)
        far = np.minimum(far, ((cells - cells[after]) ** 2).sum(axis=1))
    return cells[chosen]


def _refined(cells: Floats, weights: Floats, centers: Floats) -> Floats:
    """Return centers after k-means (Lloyd's rounds) over the weighted cells."""
    for _ in range(_ROUNDS):
        moved, _sizes_now = _sizes(cells, weights, centers)
        if moved.shape == centers.shape and np.abs(moved - centers).max() < 1e-6:
            return moved
        centers = moved
    return centers


def _sizes(cells: Floats, weights: Floats, centers: Floats) -> tuple[Floats, Floats]:
    """Return the means and weights of the cells nearest to each center; a center without cells is dropped."""
    nearest = _owner(cells, centers)
    size = np.bincount(nearest, weights, minlength=len(centers)).astype(np.float64)
    sums = np.stack(
        [np.bincount(nearest, weights * cells[:, k], minlength=len(centers)) for k in range(3)], axis=1
    )
    kept = size > 0
    return sums[kept] / size[kept, None], size[kept]
