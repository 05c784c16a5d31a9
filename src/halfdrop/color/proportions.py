"""How much of a room each color family has, against 60 / 30 / 10."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.color.areas import ColorArea, measured
from halfdrop.color.ciede2000 import delta_e
from halfdrop.practice import Practice


@dataclass(frozen=True)
class Family:
    """Colors that read as one.

    Attributes
    ----------
    members : tuple of int
        Which of the areas, in their order.
    lab : (float, float, float)
        Mean color by area.
    share : float
        0 to 1.
    """

    members: tuple[int, ...]
    lab: tuple[float, float, float]
    share: float


@dataclass(frozen=True)
class Proportions:
    """A room's color families, the largest first, and how they stand against the rule of thumb.

    Attributes
    ----------
    families : tuple of Family
        Shares add to 1.
    dominant, secondary, accent : float
        Share of the largest, of the second, and of all the rest.
    off : (float, float, float)
        How far each is from 60, 30, 10 (practice `color.dominant_share` …), as shares; above 0 is too much.
    within : bool
        All three within `color.share_tolerance`.
    dominants : tuple of int
        Families with at least `color.dominant_from` of the room: more than one or two compete.
    """

    families: tuple[Family, ...]
    dominant: float
    secondary: float
    accent: float
    off: tuple[float, float, float]
    within: bool
    dominants: tuple[int, ...]


def families_of(areas: Sequence[ColorArea], apart: float) -> tuple[Family, ...]:
    """Return the families of colors: the two nearest are joined while they differ by less than `apart` [CIEDE2000].

    Nearness of two families is that of their furthest members, so a family never spans more than `apart`. Colors of one hue
    but far apart in lightness are two families.

    Source: complete linkage; the limit is our choice, no source.

    Checked by: tests/color/test_measures.py.
    """
    labs, shares = measured(areas)
    groups = [[n] for n in range(len(labs)) if shares[n] > 0]
    seen = labs[[group[0] for group in groups]]
    spans = delta_e(seen[:, None, :], seen[None, :, :])
    np.fill_diagonal(spans, np.inf)
    while len(groups) > 1:
        i, j = sorted(divmod(int(np.argmin(spans)), len(groups)))
        if spans[i, j] >= apart:
            break
        groups[i] = sorted(groups[i] + groups.pop(j))
        joined = np.maximum(spans[i], spans[j])
        spans[i], spans[:, i] = joined, joined
        spans[i, i] = np.inf
        spans = np.delete(np.delete(spans, j, axis=0), j, axis=1)
    found = []
    for group in groups:
        weight = shares[group]
        mean = (labs[group] * weight[:, None]).sum(axis=0) / weight.sum()
        found.append(
            Family(tuple(group), (float(mean[0]), float(mean[1]), float(mean[2])), float(weight.sum()))
        )
    return tuple(sorted(found, key=lambda f: (-round(f.share, 12), f.members)))


def proportions(areas: Sequence[ColorArea], practice: Practice) -> Proportions:
    """Return a room's color proportions.

    Parameters
    ----------
    areas : sequence of ColorArea
        What is seen, in one unit of area.
    practice : Practice
        `color.family_apart`, `color.dominant_share`, `color.secondary_share`, `color.accent_share`, `color.share_tolerance`,
        `color.dominant_from`.

    Source: common practice, no source: 60 % dominant, 30 % secondary, 10 % accent.

    Checked by: tests/color/test_measures.py.
    """
    families = families_of(areas, practice.number("color.family_apart"))
    shares = [family.share for family in families]
    found = (shares[0], shares[1] if len(shares) > 1 else 0.0, sum(shares[2:]))
    keys = ("color.dominant_share", "color.secondary_share", "color.accent_share")
    off = tuple(share - practice.number(key) for share, key in zip(found, keys, strict=True))
    most = practice.number("color.share_tolerance") + 1e-9
    large = practice.number("color.dominant_from") - 1e-9
    return Proportions(
        families, *found, (off[0], off[1], off[2]), all(abs(o) <= most for o in off),
        tuple(n for n, share in enumerate(shares) if share >= large),
    )  # fmt: skip
