"""Measured lettering: widths from the font, breaking of lines."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.drawing.metrics import cap_height, runs, text_width, wrap
from halfdrop.drawing.tokens import fonts_folder


def test_width_is_the_sum_of_advances() -> None:
    """A word is as wide as its glyphs' advances in the shipped font."""
    font = TTFont(fonts_folder() / "Literata-Regular.ttf")
    names, advances = font.getBestCmap(), font["hmtx"].metrics
    wanted = sum(advances[names[ord(c)]][0] for c in "Sofa") / font["head"].unitsPerEm
    assert text_width("Sofa", 1.0, "prose") == pytest.approx(wanted)
    assert text_width("Sofa", 3.2, "prose") == pytest.approx(3.2 * wanted)


def test_figures_of_a_fraction_are_narrower_than_plain_ones() -> None:
    """Figures at a fraction slash are set small, so `15⁄16` is narrower than its parts."""
    whole = sum(text_width(part, 1.0) for part in ("15", "⁄", "16"))
    assert text_width("15⁄16", 1.0) < 0.85 * whole


def test_a_loose_prime_is_drawn_in() -> None:
    """Where a face's prime stands far off, what follows it is drawn in; another face is left alone."""
    assert [run.gap < 0 for run in runs("12′ 6½″")] == [False, True]
    assert len(runs("12′ 6½″", "prose")) == 1
    assert text_width("12′ 6½″", 1.0) < text_width("12′", 1.0) + text_width(" 6½″", 1.0)


def test_capitals_have_the_faces_height() -> None:
    """Capitals are 0.7 of the size in both families."""
    assert cap_height(10.0) == pytest.approx(7.0, abs=0.05)
    assert cap_height(10.0, "prose") == pytest.approx(7.0, abs=0.05)


@given(st.text(alphabet="abc de′″½ 0123mn.", max_size=120), st.floats(12, 90))
def test_no_line_is_wider_than_asked(text: str, width: float) -> None:
    """Lines keep within the width, and no letter is lost or added."""
    lines = wrap(text, width, 3.2)
    assert all(text_width(line, 3.2, "prose") <= width + 1e-9 or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_measure_stays_in_one_piece() -> None:
    """No line ends inside `7 in`, `12′ 6½″` or `9 15⁄16″`."""
    text = "The rug stops 7 in short, 12′ 6½″ from the wall and 9 15⁄16″ from the hearth"
    for width in range(14, 80):
        for line in wrap(text, float(width), 3.2):
            assert not line.endswith((" 7", "12′", " 9"))
