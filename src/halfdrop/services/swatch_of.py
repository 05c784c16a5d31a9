"""Swatches of a job's document as colors to compute with, and back."""

from __future__ import annotations

from typing import Any

import numpy as np

from halfdrop.color.adapt import adapted
from halfdrop.color.lab import lab_of_srgb, lab_of_xyz, srgb_of_lab, xyz_of_lab
from halfdrop.color.srgb import hex_of_srgb, srgb_of_hex
from halfdrop.color.swatch import Swatch
from halfdrop.color.white import white_point
from halfdrop.job import colors as written


def swatch_of(swatch: written.Swatch) -> Swatch:
    """Return a swatch of the document as a color.

    Raises
    ------
    InputError
        Where its spectrum cannot be used as a reflectance.
    """
    price, code = swatch.price, swatch.code or ""
    if swatch.spectrum is not None:
        waves = sorted((float(w), v) for w, v in swatch.spectrum.items())
        w, v = np.array(waves).T
        return Swatch.of_spectrum(swatch.name, w, v, code=code, price=price)
    if swatch.lab is not None:
        lab = np.array(swatch.lab)
        if swatch.white != "D65":
            white = white_point(swatch.white)
            lab = lab_of_xyz(adapted(xyz_of_lab(lab, white), white))
    else:
        assert swatch.color is not None
        lab = lab_of_srgb(srgb_of_hex(swatch.color))
    return Swatch(swatch.name, (float(lab[0]), float(lab[1]), float(lab[2])), code, None, price)


def entry_of(swatch: Swatch) -> dict[str, Any]:
    """Return a color as an entry of the document's `swatches`: its spectrum where it was measured, else a hex code that a
    screen can show, else L* a* b*."""
    entry: dict[str, Any] = {"name": swatch.name[:120]}
    if swatch.code:
        entry["code"] = swatch.code[:120]
    srgb = srgb_of_lab(swatch.lab)
    if swatch.spectrum is not None:
        entry["spectrum"] = {
            str(380 + 5 * n): round(float(v), 4) for n, v in enumerate(swatch.spectrum) if n % 4 == 0
        }
    elif float(srgb.min()) < -0.002 or float(srgb.max()) > 1.002:
        entry["lab"] = [round(v, 2) for v in swatch.lab]
    else:
        entry["color"] = hex_of_srgb(srgb)
    if swatch.price is not None:
        entry["price"] = swatch.price.text
    return entry


def free_id(words: str, taken: Any) -> str:
    """Return an id made of a person's words that is not taken."""
    import re
    import unicodedata

    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    base = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:34].strip("-") or "swatch"
    found, n = base, 2
    while found in taken:
        found, n = f"{base}-{n}", n + 1
    return found
