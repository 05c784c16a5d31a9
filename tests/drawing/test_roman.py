"""A roman shade drawn from behind: as many rods as folds, to scale, dimensioned from the hem up."""

from __future__ import annotations

import pytest

from halfdrop.drapery.shades import roman_flat
from halfdrop.drawing.roman import roman_figure
from halfdrop.drawing.verbs import Arc, Dimension
from halfdrop.practice import load_practice


def test_rods_rings_and_their_sum() -> None:
    """A shade of 1.2 × 1.4 m: its chain of heights adds up to its length; rings stand on every rod."""
    roman = roman_flat(1.2, 1.4, load_practice("metric"))
    top = 1.4 - roman.skirt - (roman.folds - 1) * roman.panel
    heights = [roman.skirt, *[roman.panel] * (roman.folds - 1), top]
    assert sum(heights) == pytest.approx(1.4)
    figure = roman_figure("rooms/r/treatments/t", 1.2, [(h, f"{h:.3f}") for h in heights], roman.rings,
                          ["a"] * (len(roman.rings) + 1), "metric")  # fmt: skip
    assert figure.scale is not None
    rings = [v for v in figure.verbs if isinstance(v, Arc)]
    assert len(rings) == len(roman.rings) * roman.folds
    ups = [v for v in figure.verbs if isinstance(v, Dimension) and v.turn]
    assert sum(abs(v.a[1] - v.b[1]) for v in ups) == pytest.approx(1400 * figure.scale.ratio)
