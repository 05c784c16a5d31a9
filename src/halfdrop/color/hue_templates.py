"""Hue templates: the sectors of the hue circle that a room's colors fit into."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.color.areas import ColorArea, measured
from halfdrop.color.arrays import Floats
from halfdrop.color.lab import lch_of_lab
from halfdrop.practice import Practice

#: Center and width of each sector [degrees], the narrowest template first.
#: Source: Matsuda (1995), Tokumaru et al. (2002), as in Cohen-Or et al. (2006); the L sector is 0.22 of the circle, 79.2°,
#: where one public code prints 72.2.
TEMPLATES: dict[str, tuple[tuple[float, float], ...]] = {
    "i": ((0.0, 18.0),),
    "I": ((0.0, 18.0), (180.0, 18.0)),
    "V": ((0.0, 93.6),),
    "L": ((0.0, 18.0), (90.0, 79.2)),
    "mirrored L": ((0.0, 18.0), (-90.0, 79.2)),
    "Y": ((0.0, 93.6), (180.0, 18.0)),
    "T": ((0.0, 180.0),),
    "X": ((0.0, 93.6), (180.0, 93.6)),
}


@dataclass(frozen=True)
class TemplateFit:
    """How well a template fits, turned as it fits best.

    Attributes
    ----------
    name : str
        "i", "I", "V", "L", "mirrored L", "Y", "T", "X", or "N" (no hue at all).
    turned : float
        Where its 0° lies [degrees of h_ab].
    misfit : float
        Mean angle by which hues lie outside its sectors, by area and chroma [degrees]; 0 fits.
    outside : tuple of int
        Which areas lie outside.
    """

    name: str
    turned: float
    misfit: float
    outside: tuple[int, ...]


def misfit(hues: Floats, name: str, turned: float) -> Floats:
    """Return the angle from each hue to the nearest sector of a turned template [degrees], 0 inside one.

    Parameters
    ----------
    hues : array, shape (n,)
        h_ab [degrees].
    name : str
        A key of `TEMPLATES`.
    turned : float
        Where its 0° lies [degrees].

    Checked by: tests/color/test_hue_templates.py.
    """
    away = np.full(hues.shape, np.inf)
    for center, width in TEMPLATES[name]:
        apart = np.abs((hues - turned - center + 180.0) % 360.0 - 180.0)
        away = np.minimum(away, np.maximum(apart - width / 2, 0.0))
    return np.where(away < 1e-9, 0.0, away)


def template_fits(areas: Sequence[ColorArea], practice: Practice) -> tuple[TemplateFit, ...]:
    """Return how each template fits, the narrowest first; only "N" where nothing has a hue.

    The misfit is a sum of straight lines in the angle of turning, bent upward only where a hue meets a sector's edge: so the
    best turn is one of these, and all are tried. Of equal turns the one whose sectors' middles lie nearest the hues.

    Parameters
    ----------
    practice : Practice
        `color.neutral_to`: colors of less chroma have no say.

    Source: Cohen-Or et al. (2006), ACM Transactions on Graphics 25, 624-630, with CIELAB hue and chroma for its hue and
    saturation, and areas for its pixels: our choice.

    Checked by: tests/color/test_hue_templates.py (tests/published/color_templates.csv).
    """
    labs, shares = measured(areas)
    lch = lch_of_lab(labs)
    say = np.flatnonzero((lch[:, 1] > practice.number("color.neutral_to")) & (shares > 0))
    if not len(say):
        return (TemplateFit("N", 0.0, 0.0, ()),)
    hues = lch[say, 2]
    weights = lch[say, 1] * shares[say]
    weights = weights / weights.sum()
    return tuple(_best(name, hues, weights, say) for name in TEMPLATES)


def best_template(areas: Sequence[ColorArea], practice: Practice) -> TemplateFit:
    """Return the narrowest template that fits to `color.template_misfit`; where none does, the one that fits best.

    Checked by: tests/color/test_hue_templates.py.
    """
    fits = template_fits(areas, practice)
    most = practice.number("color.template_misfit") + 1e-9
    return next((fit for fit in fits if fit.misfit <= most), min(fits, key=lambda fit: fit.misfit))


def _best(name: str, hues: Floats, weights: Floats, say: np.ndarray) -> TemplateFit:
    edges = [c + side * w / 2 for c, w in TEMPLATES[name] for side in (-1.0, 1.0)]
    middles = [c for c, _ in TEMPLATES[name]]
    turns = np.unique(np.round(np.concatenate([hues - at for at in (*edges, *middles)]) % 360.0, 9))
    scored = [
        (
            round(float(misfit(hues, name, turn) @ weights), 9),
            round(float(_off_middle(hues, name, turn) @ weights), 9),
            turn,
        )
        for turn in turns.tolist()
    ]
    least, _, turned = min(scored)
    outside = misfit(hues, name, turned) > 1e-6
    return TemplateFit(name, turned, least, tuple(int(n) for n in say[outside]))


def _off_middle(hues: Floats, name: str, turned: float) -> Floats:
    away = [np.abs((hues - turned - center + 180.0) % 360.0 - 180.0) for center, _ in TEMPLATES[name]]
    nearest: Floats = np.min(away, axis=0)
    return nearest
