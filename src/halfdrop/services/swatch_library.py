"""A library of swatches beside a job: searched by nearness or by name, and taken from into the job's own swatches."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.base.notation import shown
from halfdrop.color.lab import lab_of_srgb, srgb_of_lab
from halfdrop.color.library import Library, read_library
from halfdrop.color.lrv import lrv_of_lab
from halfdrop.color.srgb import hex_of_srgb, srgb_of_hex
from halfdrop.color.swatch import Swatch

Lab = tuple[float, float, float]
_NUMBERS = re.compile(
    r"\s*([+\-−]?[0-9]+(?:\.[0-9]+)?)" + r"\s*[, ]\s*([+\-−]?[0-9]+(?:\.[0-9]+)?)" * 2 + r"\s*"
)


@dataclass(frozen=True)
class Found:
    """One swatch of a library: its row, and how far it is from what was asked for [CIEDE2000], where that was a color."""

    row: int
    swatch: Swatch
    off: float | None

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "row": self.row,
            **swatch_json(self.swatch),
            "off": None if self.off is None else round(self.off, 2),
        }


def swatch_json(swatch: Swatch) -> dict[str, Any]:
    """Return what is told of a swatch: name, code, color, LRV, price."""
    return {
        "name": swatch.name,
        "code": swatch.code,
        "hex": hex_of_srgb(srgb_of_lab(swatch.lab)),
        "lab": [round(v, 2) for v in swatch.lab],
        "lrv": round(float(lrv_of_lab(swatch.lab)), 1),
        "how": swatch.how,
        "price": swatch.price.text if swatch.price is not None else None,
    }


def lab_of_text(text: str) -> Lab:
    """Return the L* a* b* (D65) of a color as typed: `#7a8b6f`, or `61.5, -8, 21`.

    Raises
    ------
    InputError
        Where it is neither.
    """
    numbers = _NUMBERS.fullmatch(text)
    if numbers is not None:
        L, a, b = (float(part.replace("−", "-")) for part in numbers.groups())
        if not (0.0 <= L <= 100.0 and abs(a) <= 200.0 and abs(b) <= 200.0):
            raise InputError(f"color is {L:g}, {a:g}, {b:g}; allowed is L* 0 to 100, a* and b* −200 to 200")
        return L, a, b
    try:
        lab = lab_of_srgb(srgb_of_hex(text.strip()))
    except InputError:
        raise InputError(
            f"`{shown(text)}` is no color",
            hint="write six hex digits, as in #8a9a5b, or L*, a*, b*: 61.5, -8, 21",
        ) from None
    return float(lab[0]), float(lab[1]), float(lab[2])


def search(library: Library, *, near: Lab | None, words: str = "", count: int = 8) -> list[Found]:
    """Return swatches nearest to a color, or in the library's order; only those whose name or code has all the words.

    Parameters
    ----------
    near : (float, float, float), optional
        L* a* b*, D65.
    words : str
        Words or beginnings of words, in any order; letters of either case.
    count : int
        Most swatches, 1 or more.

    Raises
    ------
    InputError
        Where the library is empty.
    """
    asked = words.casefold().split()
    if not asked and near is not None:
        rows, far = library.search([near], count)
        pairs = zip(rows[0].tolist(), far[0].tolist(), strict=True)
        return [Found(row, library.swatches[row], off) for row, off in pairs]
    named = [
        n for n, s in enumerate(library.swatches) if all(w in f"{s.name} {s.code}".casefold() for w in asked)
    ]
    if near is None or not named:
        return [Found(n, library.swatches[n], None) for n in named[:count]]
    few = Library(tuple(library.swatches[n] for n in named))
    rows, far = few.search([near], count)
    pairs = zip(rows[0].tolist(), far[0].tolist(), strict=True)
    return [Found(named[row], few.swatches[row], off) for row, off in pairs]


def library_at(path: Path) -> Library:
    """Return a library file read, once for as long as the file stays the same.

    Raises
    ------
    InputError
        As `read_library`.
    """
    try:
        stat = path.stat()
    except OSError:
        return read_library(path)
    return _read(path, stat.st_mtime_ns, stat.st_size)


@lru_cache(maxsize=4)
def _read(path: Path, changed: int, size: int) -> Library:
    return read_library(path)
