"""A reflectance from coordinates: exact by day, near the truth by lamps."""

from __future__ import annotations

import numpy as np
import pytest

from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.estimate import daylight_weights, estimate
from halfdrop.color.lab import lab_of_srgb, lab_of_xyz
from halfdrop.color.light import light
from tests.color.charts import chart


def test_it_has_the_coordinates_it_was_asked_for() -> None:
    """2000 random screen colors: the reflectance lies within 0 and 1 and has their color by daylight, to 1e-4."""
    labs = lab_of_srgb(np.random.default_rng(2).uniform(0.02, 0.98, (2000, 3)))
    found = estimate(labs)
    assert found.reflectance.min() >= 0
    assert found.reflectance.max() <= 1
    assert found.off.max() == 0
    assert delta_e(labs, lab_of_xyz(found.reflectance @ daylight_weights())).max() < 1e-4


def test_a_grey_is_flat() -> None:
    """The smoothest reflectance of a grey has no slope at all."""
    spectrum = estimate([50.0, 0, 0]).reflectance
    assert np.ptp(spectrum) < 1e-6
    assert spectrum[0] == pytest.approx(0.18419, abs=1e-5)


def test_it_predicts_measured_patches_under_other_lights() -> None:
    """24 measured patches, known by daylight only: under lamps half are predicted to 1 and all to 3.3 (CIEDE2000).

    Taking the daylight color instead is off by 3 or more for half of them.
    """
    truth = chart()
    by_day = lab_of_xyz(truth @ daylight_weights())
    guess = estimate(by_day).reflectance
    for name in ("incandescent", "warm LED", "warm triphosphor fluorescent"):
        lamp = light(name)
        seen = lab_of_xyz(truth @ lamp.weights, lamp.white)
        off = delta_e(seen, lab_of_xyz(guess @ lamp.weights, lamp.white))
        assert np.median(off) < 1.0
        assert off.max() < 3.3
        assert np.median(delta_e(seen, by_day)) > 3.0


def test_what_no_surface_has_is_drawn_to_what_one_can_have_and_said() -> None:
    """Chroma 150 in a dark color: `off` says how far the reflectance found is from it; shapes are kept."""
    found = estimate([[[30.0, 140, 60], [50, 10, 10]]])
    assert found.off[0, 0] > 1
    assert found.off[0, 1] == 0
    assert found.reflectance.shape == (1, 2, 81)
    assert np.isfinite(found.reflectance).all()
    assert estimate(np.empty((0, 3))).reflectance.shape == (0, 81)
