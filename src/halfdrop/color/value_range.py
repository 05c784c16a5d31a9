"""From the lightest to the darkest: whether a room has a light, a dark, and something between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.color.areas import ColorArea, measured
from halfdrop.practice import Practice


@dataclass(frozen=True)
class ValueRange:
    """A room's range of values, by L*.

    Attributes
    ----------
    lightest, darkest : float
        L* of the lightest and the darkest color that is enough to count.
    span : float
        Between them.
    mean : float
        By area.
    light, middle, dark : float
        Share of each, 0 to 1: by `color.light_from` and `color.dark_to`.
    has_light, has_dark : bool
        At least `color.value_share` of the room.
    """

    lightest: float
    darkest: float
    span: float
    mean: float
    light: float
    middle: float
    dark: float
    has_light: bool
    has_dark: bool


def value_range(areas: Sequence[ColorArea], practice: Practice) -> ValueRange:
    """Return a room's range of values.

    Parameters
    ----------
    practice : Practice
        `color.light_from`, `color.dark_to` (L*), `color.value_share`.

    Source: a light, a middle and a dark in each room: common practice, no source; limits our choice.

    Checked by: tests/color/test_measures.py.
    """
    labs, shares = measured(areas)
    lightness = labs[:, 0]
    light = float(shares[lightness >= practice.number("color.light_from") - 1e-9].sum())
    dark = float(shares[lightness <= practice.number("color.dark_to") + 1e-9].sum())
    enough = practice.number("color.value_share") - 1e-9
    order = np.argsort(lightness, kind="stable")
    upward = np.cumsum(shares[order])
    downward = np.cumsum(shares[order[::-1]])
    least = min(enough, 1.0 - 1e-9)
    darkest = float(lightness[order][int(np.searchsorted(upward, least))])
    lightest = float(lightness[order[::-1]][int(np.searchsorted(downward, least))])
    return ValueRange(
        lightest, darkest, max(lightest - darkest, 0.0), float(lightness @ shares), light, max(1.0 - light - dark, 0.0), dark,
        light >= enough, dark >= enough,
    )  # fmt: skip
