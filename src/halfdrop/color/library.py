"""A library of swatches, from a CSV file."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from halfdrop.base.errors import At, InputError, InputErrors
from halfdrop.base.money import Money
from halfdrop.base.notation import shown
from halfdrop.color.adapt import adapted
from halfdrop.color.arrays import Floats
from halfdrop.color.lab import lab_of_srgb, lab_of_xyz, xyz_of_lab
from halfdrop.color.nearest import Nearest
from halfdrop.color.srgb import srgb_of_hex
from halfdrop.color.swatch import Swatch
from halfdrop.color.white import white_point

if TYPE_CHECKING:
    from _csv import Reader

_MAX_BYTES = 256 << 20
_MAX_FAULTS = 20
_EXAMPLE = "head the columns name, code, srgb (as #8a9a5b), price; or name, code, L, a, b; or name, code, 400, 410 … 700"
_WORDS = ("name", "code", "srgb", "L", "a", "b", "white", "price", "currency")


@dataclass(frozen=True, eq=False)
class Library:
    """Swatches, ready to be searched by nearness.

    Attributes
    ----------
    swatches : tuple of Swatch
        In the file's order.
    """

    swatches: tuple[Swatch, ...]

    @cached_property
    def labs(self) -> Floats:
        """Their L* a* b*, shape `(n, 3)`."""
        return np.array([s.lab for s in self.swatches], dtype=np.float64).reshape(-1, 3)

    @cached_property
    def _search(self) -> Nearest:
        return Nearest(self.labs)

    def nearest(self, lab: ArrayLike, count: int = 1) -> list[tuple[Swatch, float]]:
        """Return the swatches nearest to one color with their difference [CIEDE2000], the nearest first.

        Raises
        ------
        InputError
            Where the library is empty, or `count` is below 1.

        Checked by: tests/color/test_library.py.
        """
        rows, far = self.search(np.asarray(lab, dtype=np.float64).reshape(1, 3), count)
        return [(self.swatches[int(row)], float(d)) for row, d in zip(rows[0], far[0], strict=True)]

    def search(self, labs: ArrayLike, count: int = 1) -> tuple[np.ndarray, Floats]:
        """Return rows and differences of the swatches nearest to many colors; as `Nearest.search`."""
        return self._search.search(labs, count)


def read_library(path: Path) -> Library:
    """Return the swatches of a CSV file (UTF-8, first line the column names).

    Columns: `name`; `code` (may be left out); one of `srgb` (hex), `L` `a` `b`, or wavelengths in nm (`400`, `410`, …, as
    fractions); `white` ("D65", "D50", "C", "A": what Lab stands under, D65 where left out); `price` (`$48.00`), or a
    number with `currency`. Other columns are left alone. A row that has a spectrum takes it before its other color.

    Raises
    ------
    InputErrors
        All rows that cannot be read, the first twenty, each by its line and column.
    InputError
        Where the file cannot be read, or has no column for a color.

    Checked by: tests/color/test_library.py.
    """
    try:
        size = path.stat().st_size
        if size > _MAX_BYTES:
            raise InputError(
                f"swatch file {path.name} has {size >> 20} MiB; at most {_MAX_BYTES >> 20} are read",
                at=At(str(path)),
            )
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        why = (error.strerror or "unreadable").lower()
        raise InputError(f"swatch file {path.name} cannot be read: {why}", at=At(str(path))) from None
    except UnicodeDecodeError:
        raise InputError(
            f"swatch file {path.name} is not UTF-8 text", at=At(str(path)), hint="save it as CSV UTF-8"
        ) from None
    return library_of_csv(text, str(path))


def library_of_csv(text: str, file: str = "swatches") -> Library:
    """Return the swatches of a CSV text; as `read_library`."""
    reader = csv.reader(io.StringIO(text, newline=""))
    try:
        head = [cell.strip() for cell in next(reader)]
    except StopIteration:
        raise InputError(f"swatch file {file} is empty", at=At(file), hint=_EXAMPLE) from None
    columns = _Columns(head, file)
    faults: list[InputError] = []
    labs: list[tuple[int, str, tuple[float, float, float], str]] = []
    swatches: list[Swatch | None] = []
    rest: list[tuple[str, str, Money | None]] = []
    for line, row in _lines(reader, file):
        if not any(cell.strip() for cell in row):
            continue
        try:
            name, code, price = columns.words(row)
            spectrum = columns.spectrum(name, code, price, row)
            if spectrum is None:
                labs.append((len(swatches), *columns.color(row)))
            swatches.append(spectrum)
            rest.append((name, code, price))
        except InputError as error:
            column = error.at.path if error.at else None
            faults.append(InputError(error.message, at=At(file, line, column), hint=error.hint))
            if len(faults) >= _MAX_FAULTS:
                break
    if faults:
        raise InputErrors(faults)
    for n, lab in zip((entry[0] for entry in labs), _in_d65(labs), strict=True):
        name, code, price = rest[n]
        swatches[n] = Swatch(name, (float(lab[0]), float(lab[1]), float(lab[2])), code, None, price)
    return Library(tuple(s for s in swatches if s is not None))


def _lines(reader: Reader, file: str) -> Iterator[tuple[int, list[str]]]:
    """Give each row with the line it begins on: a quoted cell may run over several."""
    line = reader.line_num + 1
    try:
        for row in reader:
            yield line, row
            line = reader.line_num + 1
    except csv.Error as error:
        raise InputError(f"swatch file {file} is no CSV: {error}", at=At(file, line)) from None


def _in_d65(entries: Sequence[tuple[int, str, tuple[float, float, float], str]]) -> Floats:
    """Return L* a* b* under D65 of colors given as sRGB, or as L* a* b* under some white."""
    out = np.array([e[2] for e in entries], dtype=np.float64).reshape(-1, 3)
    kinds = np.array([e[1] + e[3] for e in entries])
    for kind in np.unique(kinds):
        of = kinds == kind
        if kind == "srgb":
            out[of] = lab_of_srgb(out[of])
        elif kind != "labD65":
            white = white_point(str(kind)[3:])
            out[of] = lab_of_xyz(adapted(xyz_of_lab(out[of], white), white))
    return out


class _Columns:
    """Which column holds what."""

    def __init__(self, head: list[str], file: str) -> None:
        lower = {name.lower(): n for n, name in reversed(list(enumerate(head)))}
        self.at = {word: lower.get(word.lower()) for word in _WORDS}
        waves = sorted(
            (float(name), n) for n, name in enumerate(head) if name.isdigit() and 300 <= int(name) <= 900
        )
        self.waves = np.array([w for w, _ in waves])
        self.wave_columns = [n for _, n in waves]
        self.has_lab = all(self.at[word] is not None for word in ("L", "a", "b"))
        if self.at["name"] is None:
            raise InputError(f"swatch file {file} has no column `name`", at=At(file, 1), hint=_EXAMPLE)
        if not (self.has_lab or self.at["srgb"] is not None or waves):
            raise InputError(f"swatch file {file} has no column for a color", at=At(file, 1), hint=_EXAMPLE)

    def cell(self, row: Sequence[str], word: str) -> str:
        place = self.at[word]
        return row[place].strip() if place is not None and place < len(row) else ""

    def words(self, row: Sequence[str]) -> tuple[str, str, Money | None]:
        name = self.cell(row, "name")
        if not name:
            raise InputError("the swatch has no name", at=_column("name"), hint="fill in the column `name`")
        price, currency = self.cell(row, "price"), self.cell(row, "currency")
        with _in_column("price"):
            money = _price(f"{currency} {price}".strip()) if price else None
            if money is not None and money.amount < 0:
                raise InputError(f"price of `{shown(name)}` is {shown(price)}; allowed is 0 and above")
        return name, self.cell(row, "code"), money

    def spectrum(self, name: str, code: str, price: Money | None, row: Sequence[str]) -> Swatch | None:
        cells = [row[n].strip() if n < len(row) else "" for n in self.wave_columns]
        given = [bool(cell) for cell in cells]
        if not any(given):
            return None
        named = zip(cells, self.waves, strict=True)
        values = np.array([_number(cell, name, f"{wave:g}") for cell, wave in named if cell])
        with _in_column(f"{self.waves[given.index(True)]:g} and after"):
            return Swatch.of_spectrum(name, self.waves[np.array(given)], values, code=code, price=price)

    def color(self, row: Sequence[str]) -> tuple[str, tuple[float, float, float], str]:
        name, code = self.cell(row, "name"), self.cell(row, "srgb")
        lab = [self.cell(row, word) for word in ("L", "a", "b")]
        if code:
            with _in_column("srgb"):
                return "srgb", srgb_of_hex(code), ""
        if not all(lab):
            missing = next((w for w, cell in zip("Lab", lab, strict=True) if any(lab) and not cell), None)
            where = missing or ("srgb" if self.at["srgb"] is not None else "L" if self.has_lab else "400 …")
            raise InputError(f"swatch `{shown(name)}` has no color", at=_column(where), hint=_EXAMPLE)
        L, a, b = (_number(cell, name, word) for cell, word in zip(lab, "Lab", strict=True))
        if not (0.0 <= L <= 100.0 and abs(a) <= 200.0 and abs(b) <= 200.0):
            wrong = "L" if not 0.0 <= L <= 100.0 else "a" if abs(a) > 200.0 else "b"
            raise InputError(
                f"Lab of `{shown(name)}` is {L:g}, {a:g}, {b:g}; allowed is L 0 to 100, a and b −200 to 200",
                at=_column(wrong),
            )
        white = self.cell(row, "white") or "D65"
        with _in_column("white"):
            white_point(white)
        return "lab", (L, a, b), white


def _column(name: str) -> At:
    return At(path=f"column {name}")


@contextmanager
def _in_column(name: str) -> Iterator[None]:
    """Say of a fault which column it lies in."""
    try:
        yield
    except InputError as error:
        raise error.placed(_column(name)) from None


@lru_cache(maxsize=4096)
def _price(text: str) -> Money:
    return Money.parse(text)


def _number(cell: str, name: str, column: str) -> float:
    try:
        value = float(cell)
    except ValueError:
        value = float("nan")
    if not np.isfinite(value):
        raise InputError(
            f"`{shown(cell)}` of swatch `{shown(name)}` is not a number",
            at=_column(column),
            hint="write it with a point: 61.5",
        )
    return value
