"""Hue templates."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.color.areas import ColorArea
from halfdrop.color.hue_templates import TEMPLATES, best_template, misfit, template_fits
from tests.color.published import rows
from tests.color.rooms import US


def _hues(*hues: float, chroma: float = 40) -> list[ColorArea]:
    return [
        ColorArea(f"{h}", (60, chroma * math.cos(math.radians(h)), chroma * math.sin(math.radians(h))), 1)
        for h in hues
    ]


def test_the_sectors_are_the_published_ones() -> None:
    """Center and width of every sector."""
    published: dict[str, list[tuple[float, float]]] = {}
    for row in rows("color_templates.csv"):
        published.setdefault(row["template"], []).append((float(row["center"]), float(row["width"])))
    assert {name: list(sectors) for name, sectors in TEMPLATES.items()} == published


@pytest.mark.parametrize(
    ("hues", "name"),
    [
        ((30, 40), "i"), ((30, 210, 215), "I"), ((10, 50, 90), "V"), ((0, 80, 120), "L"), ((0, -55, -70, -90, -105, -128), "mirrored L"),
        ((0, 45, 80, 220), "Y"), ((0, 60, 120, 175), "T"), ((0, 45, 90, 180, 225, 270), "X"),
    ],
)  # fmt: skip
def test_the_narrowest_that_fits_is_found(hues: tuple[float, ...], name: str) -> None:
    """Hues made for each template find it, at no misfit."""
    found = best_template(_hues(*hues), US)
    assert found.name == name
    assert found.misfit == pytest.approx(0, abs=1e-6)
    assert found.outside == ()


def test_without_hues_there_is_none() -> None:
    """Greys and near-neutrals fit template N."""
    assert best_template(_hues(10, 200, chroma=5), US).name == "N"


def test_what_lies_outside_is_named() -> None:
    """Three hues 120° apart fit nothing narrow; the best says which lies outside."""
    found = {fit.name: fit for fit in template_fits(_hues(0, 120, 240), US)}
    assert found["i"].misfit > 50
    assert len(found["i"].outside) == 2
    assert best_template(_hues(0, 120, 240), US).misfit > 3


@given(st.lists(st.floats(0, 359), min_size=1, max_size=6), st.floats(0, 360))
def test_no_turn_of_a_fine_grid_is_better_and_turning_the_colors_turns_the_answer(
    hues: list[float], turn: float
) -> None:
    """The turns tried hold the best; the misfit does not depend on where the colors lie."""
    for fit, turned in zip(
        template_fits(_hues(*hues), US), template_fits(_hues(*(h + turn for h in hues)), US), strict=True
    ):
        grid = min(float(misfit(np.array(hues), fit.name, t).mean()) for t in range(0, 360, 3))
        assert fit.misfit <= grid + 1e-6
        assert turned.misfit == pytest.approx(fit.misfit, abs=1e-6)
