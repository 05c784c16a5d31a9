"""Colors as entries of a job's document."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container
from typing import Any

from halfdrop.color.lab import srgb_of_lab
from halfdrop.color.srgb import hex_of_srgb
from halfdrop.color.swatch import Swatch


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


def free_id(words: str, taken: Container[str]) -> str:
    """Return an id made of a person's words that is not taken."""
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    base = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:34].strip("-") or "swatch"
    found, n = base, 2
    while found in taken:
        found, n = f"{base}-{n}", n + 1
    return found
