"""What each place is offered: the swatches nearest to its tones, with what each costs a scheme."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art.place import Place, Role, Style
from halfdrop.color.from_art.tones import ArtColor, Tone, tones, walls_range
from halfdrop.color.lab import lch_of_lab
from halfdrop.color.library import Library
from halfdrop.practice import Practice

#: Most swatches a place is offered, and how far they are from each other [CIEDE2000] while there are others: of a rich library
#: the nearest to one tone are all alike. Our choice.
MOST, APART = 16, 3.0
#: Steps of L* that are offered in turn, so that a room can have its light and its dark; our choice.
LEVEL = 12.0
#: Swatches looked up for each tone.
_EACH = 3
#: What a unit of chroma or lightness outside of what a role may have costs; our choice.
_OUTSIDE = 3.0
#: Least L* of what should be light; our choice, no source.
_LIGHT = {"ceiling": 85.0, "trim": 75.0}


@dataclass(frozen=True)
class Offer:
    """A swatch offered to a role.

    Attributes
    ----------
    swatch : int
        Row of the library.
    tone : Tone
        What it stands for.
    off : float
        CIEDE2000 from the tone.
    cost : float
        0 or more: the tone's own, how far the swatch is off it, and what it has too much of for the role.
    """

    swatch: int
    tone: Tone
    off: float
    cost: float


def offers(
    art: Sequence[ArtColor], library: Library, places: Sequence[Place], style: Style, practice: Practice
) -> dict[str, tuple[Offer, ...]]:
    """Return the offers of each place whose color is open, by its key, the cheapest first.

    Raises
    ------
    InputError
        Where the art has no color, or the library no swatch.

    Checked by: tests/color/from_art/test_offers.py.
    """
    if not art:
        raise InputError("the picture has no colors to start from", hint="lift its palette first")
    by_role: dict[Role, tuple[Offer, ...]] = {}
    for place in places:
        if not place.kept and place.role not in by_role:
            by_role[place.role] = _offered(art, library, place.role, style, practice)
    return {place.key: by_role[place.role] for place in places if not place.kept}


def _offered(
    art: Sequence[ArtColor], library: Library, role: Role, style: Style, practice: Practice
) -> tuple[Offer, ...]:
    wanted = tones(art, role, style, practice)
    rows, far = library.search(np.array([tone.lab for tone in wanted]), _EACH)
    found: dict[int, Offer] = {}
    excess = _excess(library, rows, role, style, practice)
    for n, tone in enumerate(wanted):
        for row, off, over in zip(rows[n].tolist(), far[n].tolist(), excess[n].tolist(), strict=True):
            offer = Offer(row, tone, off, tone.cost + off + _OUTSIDE * over)
            if row not in found or offer.cost < found[row].cost:
                found[row] = offer
    return _spread(sorted(found.values(), key=lambda o: (round(o.cost, 9), o.swatch)), library)


def _spread(offered: list[Offer], library: Library) -> tuple[Offer, ...]:
    """Return the cheapest offers of each lightness that are no doubles of cheaper ones; of a poor library all."""
    kept: list[Offer] = []
    ranks: dict[int, int] = {}
    ranked: list[tuple[int, int]] = []
    for offer in offered:
        lab = library.labs[offer.swatch]
        if kept and float(delta_e(lab, library.labs[[o.swatch for o in kept]]).min()) < APART:
            continue
        level = round(float(lab[0]) / LEVEL)
        ranks[level] = ranks.get(level, -1) + 1
        ranked.append((ranks[level], len(kept)))
        kept.append(offer)
    chosen = sorted(n for _, n in sorted(ranked)[:MOST])
    return tuple(kept[n] for n in chosen)


def _excess(library: Library, rows: np.ndarray, role: Role, style: Style, practice: Practice) -> Floats:
    """Return by how much swatches are outside of what a role may have: chroma, and lightness on walls."""
    lch = lch_of_lab(library.labs[rows])
    L, C = lch[..., 0], lch[..., 1]
    if role == "walls":
        low, high, most = walls_range(style, practice)
        out: Floats = np.maximum(low - L, 0.0) + np.maximum(L - high, 0.0) + np.maximum(C - most, 0.0)
        return out
    if role == "medium":
        return np.maximum(C - float(practice.number(f"color.second_chroma_{style}")), 0.0)
    if role == "small":
        return np.zeros(C.shape)
    least = _LIGHT.get(role, 0.0)
    return np.maximum(C - float(practice.number("color.neutral_to")), 0.0) + np.maximum(least - L, 0.0)
