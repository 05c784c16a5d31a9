"""Swatch libraries from CSV."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from halfdrop.base.errors import InputError, InputErrors
from halfdrop.color.lab import lab_of_srgb
from halfdrop.color.library import library_of_csv, read_library
from tests.color.charts import chart


def test_each_way_of_giving_a_color_is_read() -> None:
    """Hex, Lab under daylight, Lab under print's white, and a spectrum that goes before the rest; price and code are kept."""
    waves = list(range(400, 701, 10))
    spectrum = chart()[3][[(w - 380) // 5 for w in waves]]
    head = f"name,code,srgb,L,a,b,white,price,currency,{','.join(map(str, waves))},note"
    blank = "," * len(waves)
    lines = [
        head,
        f"Fern,F1,#738c64,,,,,$48.00,{blank},x",
        f"Bone,,,90,1,8,,52,EUR{blank},",
        f"Print white,,,100,0,0,D50,,{blank},",
        f"Sky,,#000000,,,,,,,{','.join(f'{v:.4f}' for v in spectrum)},",
        "",
    ]
    fern, bone, white, sky = library_of_csv("\n".join(lines)).swatches
    assert fern.lab == pytest.approx(lab_of_srgb([0x73 / 255, 0x8C / 255, 0x64 / 255]))
    assert (fern.code, str(fern.price), fern.how) == ("F1", "$48.00", "estimated")
    assert bone.lab == (90, 1, 8)
    assert bone.price is not None
    assert (bone.price.amount, bone.price.currency) == (52, "EUR")
    assert white.lab == pytest.approx((100, 0, 0), abs=1e-9)
    assert sky.how == "measured"
    assert sky.lab[0] > 20


def test_the_nearest_comes_first() -> None:
    """Asked for a green, the green comes, then the grey; differences rise."""
    library = library_of_csv("name,srgb\nRed,#c03030\nGrey,#808080\nGreen,#508050\n")
    found = library.nearest([50, -20, 15], 3)
    assert [swatch.name for swatch, _ in found] == ["Green", "Grey", "Red"]
    assert sorted(d for _, d in found) == [d for _, d in found]
    with pytest.raises(InputError, match="no swatches"):
        library_of_csv("name,srgb\n").nearest([50, 0, 0])


def test_all_faults_are_told_by_their_line() -> None:
    """A bad hex, a word for a number, no name, no color, a color out of range, a price without currency: line and column."""
    text = "name,srgb,L,a,b,price\nA,#12,,,,\nB,,x,1,1,\n,#fff,,,,\nC,,,,,\nD,,150,0,0,\nE,#fff,,,,12\nF,#fff,,,,$-3\nG,#fff,,,,\n"
    with pytest.raises(InputErrors) as caught:
        library_of_csv(text, "lib.csv")
    columns = ["srgb", "L", "name", "srgb", "L", "price", "price"]
    wanted = [f"lib.csv:{n} column {c}" for n, c in enumerate(columns, 2)]
    assert [str(e.at) for e in caught.value.errors] == wanted
    assert "is not a hex code" in caught.value.errors[0].message


def test_a_row_over_two_lines_keeps_later_lines_right() -> None:
    """A quoted name with a line break in it is one row; the fault after it is told by the line of the file."""
    with pytest.raises(InputErrors) as caught:
        library_of_csv('name,srgb\n"Pale\ngreen",#cde0c8\nB,#12\n', "lib.csv")
    assert [str(e.at) for e in caught.value.errors] == ["lib.csv:4 column srgb"]


@pytest.mark.parametrize(
    ("text", "fault"),
    [("", "is empty"), ("code,srgb\n", "no column `name`"), ("name,price\n", "no column for a color")],
)
def test_a_file_without_what_is_needed_is_refused(text: str, fault: str) -> None:
    """Empty, without names, without colors."""
    with pytest.raises(InputError, match=fault):
        library_of_csv(text)


def test_files_that_cannot_be_read_are_refused(tmp_path: Path) -> None:
    """Missing, or not UTF-8; one with a byte order mark is read."""
    with pytest.raises(InputError, match="cannot be read"):
        read_library(tmp_path / "none.csv")
    path = tmp_path / "a.csv"
    path.write_bytes(b"name,srgb\n\xff\xfe,#fff\n")
    with pytest.raises(InputError, match="not UTF-8"):
        read_library(path)
    path.write_bytes("\ufeffname,srgb\nÉcru,#f0e8d0\n".encode())
    assert [s.name for s in read_library(path).swatches] == ["Écru"]


def test_twenty_thousand_rows_are_searched() -> None:
    """A row of a large library is found as itself, at no difference."""
    codes = np.random.default_rng(4).integers(0, 1 << 24, 20_000)
    library = library_of_csv("name,srgb\n" + "\n".join(f"n{n},#{c:06x}" for n, c in enumerate(codes)))
    found, difference = library.nearest(library.swatches[12_345].lab)[0]
    assert difference == 0
    assert found.lab == library.swatches[12_345].lab
