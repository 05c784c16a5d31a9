"""Pairs that part company between lights."""

from __future__ import annotations

import numpy as np
import pytest

from halfdrop.base.errors import InputError
from halfdrop.color.estimate import daylight_weights
from halfdrop.color.grid import WAVELENGTHS
from halfdrop.color.light import light
from halfdrop.color.metamers import metamerism_index, parting_pairs
from halfdrop.color.swatch import Swatch

DAY, LAMP = light("daylight"), light("warm triphosphor fluorescent")


def _wavy() -> np.ndarray:
    """Return a reflectance of a mid grey by day that is anything but flat: a wave, less what day's weights see of it."""
    weights = daylight_weights()
    wave = np.sin(WAVELENGTHS / 14.0)
    unseen = wave - weights @ np.linalg.lstsq(weights.T @ weights, weights.T @ wave, rcond=None)[0]
    return 0.4 + 0.25 * unseen / np.abs(unseen).max()


def test_a_pair_that_matches_by_day_and_parts_by_lamp_is_found() -> None:
    """A wavy grey and a flat one are one color by day; under three narrow bands they are two."""
    flat = Swatch.of_spectrum("flat", WAVELENGTHS, np.full(81, 0.4))
    wavy = Swatch.of_spectrum("wavy", WAVELENGTHS, _wavy())
    other = Swatch("red", (40, 50, 30))
    (pair,) = parting_pairs([other, flat, wavy], DAY, LAMP)
    assert (pair.first, pair.second, pair.how) == (1, 2, "measured")
    assert pair.matched < 0.1
    assert pair.parted > 3
    index = metamerism_index(np.full(81, 0.4), _wavy(), DAY, LAMP)
    assert index == pytest.approx(pair.parted, abs=0.15)


def test_with_one_only_known_by_coordinates_it_is_a_warning() -> None:
    """The same wavy grey beside a swatch of its coordinates: found, and said to be estimated."""
    wavy = Swatch.of_spectrum("wavy", WAVELENGTHS, _wavy())
    (pair,) = parting_pairs([wavy, Swatch("like", wavy.lab)], DAY, LAMP)
    assert pair.how == "estimated"
    assert parting_pairs([Swatch("a", wavy.lab), Swatch("b", wavy.lab)], DAY, LAMP) == ()


def test_equal_spectra_never_part() -> None:
    """A swatch beside itself, and a single one."""
    one = Swatch.of_spectrum("one", WAVELENGTHS, _wavy())
    assert parting_pairs([one, one], DAY, LAMP) == ()
    assert parting_pairs([one], DAY, LAMP) == ()
    assert metamerism_index(_wavy(), _wavy(), DAY, LAMP) == pytest.approx(0, abs=1e-6)


def test_limits_that_make_no_sense_are_refused() -> None:
    """A pair cannot match by more than it parts."""
    with pytest.raises(InputError, match="0 < match < part"):
        parting_pairs([], DAY, LAMP, match=4, part=3)
