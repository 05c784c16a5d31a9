"""The look's values: contrast, fonts, pens."""

from __future__ import annotations

import hashlib
import json
from itertools import pairwise

import pytest

from halfdrop.drawing.metrics import has_glyph
from halfdrop.drawing.tokens import contrast_ratio, fonts_folder, tokens


def test_contrast_of_known_pairs() -> None:
    """Black on white is 21:1, a color on itself 1:1, and #767676 on white is the well-known 4.54:1."""
    assert contrast_ratio("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast_ratio("#A63A24", "#A63A24") == pytest.approx(1.0)
    assert contrast_ratio("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("ground", ["light", "dark"])
def test_every_text_and_ground_meets_aa(ground: str) -> None:
    """Every ink that carries text reaches 4.5:1 on every ground it may stand on (WCAG 2.2, 1.4.3)."""
    look = tokens()
    inks = look.inks[ground]
    assert len(look.pairs) == 8
    low = {pair: contrast_ratio(inks[pair[0]], inks[pair[1]]) for pair in look.pairs}
    assert {pair: ratio for pair, ratio in low.items() if ratio < 4.5} == {}


def test_light_and_dark_have_the_same_inks() -> None:
    """No ink is missing on one of the grounds."""
    assert set(tokens().inks["light"]) == set(tokens().inks["dark"])


def test_pens_are_of_the_standard_series() -> None:
    """Pen widths are those of ISO 128: each about the square root of two times the one before."""
    pens = sorted(tokens().pens.values())
    assert pens == [0.18, 0.25, 0.35, 0.5, 0.7]
    assert all(1.3 < b / a < 1.5 for a, b in pairwise(pens))


def test_fonts_are_the_ones_of_the_manifest() -> None:
    """Every shipped face has its package, version and sha256 in the manifest, and its licence beside it."""
    folder = fonts_folder()
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    assert sorted(manifest) == sorted(p.name for p in folder.glob("*.ttf"))
    for name, row in manifest.items():
        assert hashlib.sha256((folder / name).read_bytes()).hexdigest() == row["sha256"]
        assert row["licence"] == "OFL-1.1"
        stem = name.split("-")[0]
        licence = (folder / f"{stem}-OFL.txt").read_text(encoding="utf-8")
        assert "SIL Open Font License, Version 1.1" in licence


@pytest.mark.parametrize("font", sorted(tokens().fonts))
def test_faces_hold_what_sheets_letter(font: str) -> None:
    """Each face has primes, multiplication sign, dashes, fractions, and the letters of western languages."""
    wanted = "′″×–—−½¼¾⅛⅜⅝⅞⁄°±²•…·éèñüßøœÆ“”‘’€£$%&0123456789"
    assert [c for c in wanted if not has_glyph(font, c)] == []  # type: ignore[arg-type]
