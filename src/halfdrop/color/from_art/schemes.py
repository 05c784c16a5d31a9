"""Three schemes from one picture, each different by construction, each measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.color.from_art.offers import Offer, offers
from halfdrop.color.from_art.place import STYLES, Lab, Place, Style
from halfdrop.color.from_art.program import Chosen, choose
from halfdrop.color.from_art.score import Score, score
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.lab import srgb_of_lab
from halfdrop.color.library import Library
from halfdrop.color.srgb import hex_of_srgb
from halfdrop.color.swatch import Swatch
from halfdrop.practice import Practice


@dataclass(frozen=True)
class Worn:
    """What one place wears: a swatch, and the color of the art it was taken from or tuned to."""

    place: Place
    swatch: Swatch
    row: int
    of: int
    how: str
    off: float

    @property
    def hex(self) -> str:
        """Its color on a screen."""
        return hex_of_srgb(srgb_of_lab(self.swatch.lab))


@dataclass(frozen=True)
class ColorScheme:
    """One scheme.

    Attributes
    ----------
    style : str
    worn : tuple of Worn
        The open places, in their order.
    score : Score
    gap : float
        How far its cost may be from the least one, 0 (proven least) to 1.
    apart : bool
        Whether it differs as much as is wanted from the schemes before it.
    """

    style: Style
    worn: tuple[Worn, ...]
    score: Score
    gap: float
    apart: bool
    art: tuple[ArtColor, ...]

    @property
    def colors(self) -> dict[str, Lab]:
        """The color of each open place by its key."""
        return {one.place.key: one.swatch.lab for one in self.worn}

    @property
    def sureness(self) -> str:
        """How far the search went, in words."""
        if self.gap < 1e-6:
            return "no other choice of these swatches costs less"
        return f"another choice of these swatches may cost up to {100 * self.gap:.0f}% less"

    def said(self, one: Worn) -> str:
        """Return where a color comes from, in words: "#7a8b6f of the picture as a tint, 1.2 off"."""
        art = hex_of_srgb(srgb_of_lab(self.art[one.of].lab))
        ways = {"as it is": "as it is", "tint": "as a tint", "shade": "as a shade", "greyed": "greyed"}
        way = ways.get(one.how, f"as a {one.how}")
        if one.how.startswith("neutral"):
            return f"a neutral tuned to {art} of the picture, {one.off:.1f} off"
        return f"{art} of the picture {way}, {one.off:.1f} off"

    def working(self) -> Working:
        """Return what each place wears and why, and the marks."""
        working = Working(f"{self.style.capitalize()} scheme from the picture")
        for one in self.worn:
            art = hex_of_srgb(srgb_of_lab(self.art[one.of].lab))
            working.step(
                one.place.what, "swatch nearest to a tone of the picture", f"{art}, {one.how}",
                f"{one.swatch.name} {one.swatch.code}".strip(), rounding=f"{one.off:.1f} (CIEDE2000) off the tone",
            )  # fmt: skip
        for mark in self.score.marks:
            working.step(mark.name, "measured against wanted", f"wanted {mark.wanted}", mark.measured)
        working.step("score", "mean of the marks", " + ".join(f"{m.mark:.2f}" for m in self.score.marks),
                     f"{self.score.total:.0f} of 100")  # fmt: skip
        working.step("search", "cost of all faults, by an integer program", "", self.sureness)
        return working

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "style": self.style,
            "score": self.score.to_json(),
            "gap": round(self.gap, 4),
            "apart": self.apart,
            "worn": [
                {
                    "path": one.place.key,
                    "what": one.place.what,
                    "role": one.place.role,
                    "area": round(one.place.area, 4),
                    "swatch": one.swatch.name,
                    "code": one.swatch.code,
                    "hex": one.hex,
                    "said": self.said(one),
                    "of": one.of,
                    "how": one.how,
                    "off": round(one.off, 2),
                }
                for one in self.worn
            ],
            "working": self.working().to_json(),
        }


def color_schemes(
    places: Sequence[Place],
    art: Sequence[ArtColor],
    library: Library,
    practice: Practice,
    *,
    styles: Sequence[Style] = STYLES,
    seed: int = 0,
    given: Sequence[ColorScheme] = (),
) -> tuple[ColorScheme, ...]:
    """Return a scheme of each style, each differing from those before it.

    Parameters
    ----------
    places : sequence of Place
        Surfaces and pieces; one at least whose color is open.
    art : sequence of ArtColor
        The picture's colors, the largest share first.
    library : Library
        What colors may be chosen from.
    seed : int
        The same seed gives the same schemes; 0 is the best found.
    given : sequence of ColorScheme
        Schemes of the first styles that are settled already.

    Raises
    ------
    InputError
        Where nothing is open, or art or library is empty.

    Checked by: tests/color/from_art/test_schemes.py.
    """
    if all(place.kept for place in places):
        raise InputError(
            "every color of the room stays: there is nothing to give a color to",
            hint="take `keep` off what may change color",
        )
    made: list[ColorScheme] = list(given)
    for style in styles[len(made) :]:
        offered = offers(art, library, places, style, practice)
        before = [scheme.colors for scheme in made]
        chosen = choose(places, offered, art, library, practice, before=before, seed=seed)
        apart = chosen is not None
        if chosen is None:
            chosen = choose(places, offered, art, library, practice, seed=seed)
        assert chosen is not None, "each place may wear any of its offers"
        made.append(_scheme(style, places, art, library, practice, chosen, apart))
    return tuple(made)


def _scheme(
    style: Style,
    places: Sequence[Place],
    art: Sequence[ArtColor],
    library: Library,
    practice: Practice,
    chosen: Chosen,
    apart: bool,
) -> ColorScheme:
    worn = tuple(
        _worn(place, chosen.offers[place.key], library) for place in places if place.key in chosen.offers
    )
    colors = {one.place.key: one.swatch.lab for one in worn}
    return ColorScheme(style, worn, score(places, colors, art, practice), chosen.gap, apart, tuple(art))


def _worn(place: Place, offer: Offer, library: Library) -> Worn:
    return Worn(place, library.swatches[offer.swatch], offer.swatch, offer.tone.of, offer.tone.how, offer.off)
