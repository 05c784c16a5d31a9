"""The job's own swatches as colors, ready to be measured."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

import numpy as np

from halfdrop.base.errors import At, InputError
from halfdrop.color.adapt import adapted
from halfdrop.color.arrays import one
from halfdrop.color.lab import lab_of_srgb, lab_of_xyz, xyz_of_lab
from halfdrop.color.srgb import srgb_of_hex
from halfdrop.color.swatch import Swatch
from halfdrop.color.white import white_point
from halfdrop.job.colors import Swatch as JobSwatch


def swatch_of(swatch: JobSwatch) -> Swatch:
    """Return a swatch of the document as a color: a hex code by sRGB, L* a* b* brought to D65, a spectrum as measured.

    Raises
    ------
    InputError
        Where its spectrum cannot be used as a reflectance.

    Checked by: tests/color/test_inventory.py.
    """
    waves = tuple(sorted((float(nm), value) for nm, value in (swatch.spectrum or {}).items()))
    lab, known = _color(swatch.name, swatch.color, tuple(swatch.lab or ()), swatch.white, waves)
    return Swatch(swatch.name, lab, swatch.code or "", known.spectrum if known else None, swatch.price)


def swatches_of(swatches: Mapping[str, JobSwatch], wanted: Iterable[str] | None = None) -> dict[str, Swatch]:
    """Return a job's swatches by id, all or those wanted; a fault says which of them it lies in.

    Raises
    ------
    InputError
        As `swatch_of`.
    """
    found = {}
    for key in swatches if wanted is None else wanted:
        try:
            found[key] = swatch_of(swatches[key])
        except InputError as error:
            raise error.placed(At(path=f"swatches/{key}")) from None
    return found


@lru_cache(maxsize=4096)
def _color(
    name: str,
    code: str | None,
    lab: tuple[float, ...],
    white: str,
    waves: tuple[tuple[float, float], ...],
) -> tuple[tuple[float, float, float], Swatch | None]:
    if code is not None:
        return one(lab_of_srgb(srgb_of_hex(code)), "Lab"), None
    if lab:
        if white == "D65":
            return (lab[0], lab[1], lab[2]), None
        point = white_point(white)
        return one(lab_of_xyz(adapted(xyz_of_lab(np.array(lab), point), point)), "Lab"), None
    made = Swatch.of_spectrum(name, np.array([w for w, _ in waves]), np.array([v for _, v in waves]))
    return made.lab, made
