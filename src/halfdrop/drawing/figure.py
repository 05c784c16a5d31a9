"""A figure: a drawing to scale that stands on a page among text; no margin, no title strip of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.drawing.embed import font_rules
from halfdrop.drawing.metrics import text_width, wrap
from halfdrop.drawing.paper import Scale
from halfdrop.drawing.svg import to_svg
from halfdrop.drawing.tokens import Font, Ground, Ink, tokens
from halfdrop.drawing.verbs import XY, Dimension, Text, Verb

#: A dimension's value stands this far over its line [mm].
LIFT = 0.9


@dataclass(frozen=True)
class Figure:
    """A finished figure.

    Attributes
    ----------
    name : str
        What a reader calls it.
    width, height : float
        As it stands on the page [mm].
    verbs : tuple of Verb
        From its top left corner [mm].
    scale : Scale or None
        None where it is not drawn to one.
    """

    name: str
    width: float
    height: float
    verbs: tuple[Verb, ...]
    scale: Scale | None = None

    def svg(self, ground: Ground = "light", *, fonts: bool = False) -> str:
        """Return it as SVG at its true size; with `fonts`, the glyphs it letters travel inside it."""
        rules = font_rules(self.verbs) if fonts else ""
        return to_svg(self.verbs, self.width, self.height, title=self.name, ground=ground, fonts=rules)


def chain_across(feet: Sequence[float], top: float, base: float, texts: Sequence[str]) -> list[Verb]:
    """Return a level chain of dimensions: its feet at `top`, its line at `base` [mm]; values too wide stand a row higher by turns."""
    small = tokens().sizes["small"]
    out: list[Verb] = []
    lifted = False
    for a, b, text in zip(feet, feet[1:], texts, strict=False):
        lifted = text_width(text, small) > b - a - 1.0 and not lifted
        y = base - LIFT - (small if lifted else 0.0)
        out.append(Dimension((a, top), (b, top), (a, base), text, ((a + b) / 2, y), 0.0, small))
    return out


def chain_up(feet: Sequence[float], edge: float, base: float, texts: Sequence[str]) -> list[Verb]:
    """Return an upright chain of dimensions from the lowest foot on: feet at `edge`, its line at `base` [mm]."""
    small = tokens().sizes["small"]
    out: list[Verb] = []
    for a, b, text in zip(feet, feet[1:], texts, strict=False):
        middle = (base - LIFT, (a + b) / 2)
        out.append(Dimension((edge, a), (edge, b), (base, a), text, middle, -90.0, small))
    return out


def lettered(
    lines: Sequence[str], at: XY, width: float, high: float, *, font: Font = "lettering", ink: Ink = "ink"
) -> list[Verb]:
    """Return as much of some lines as fits a box from its top left corner [mm], each wrapped between words, never in one."""
    small = tokens().sizes["small"]
    step = small * 1.2
    out: list[Verb] = []
    y = at[1] + small * 0.8
    for text in lines:
        if any(text_width(word, small, font) > width for word in text.split()):
            continue
        for part in wrap(text, width, small, font):
            if y > at[1] + high or text_width(part, small, font) > width + 0.1:
                return out
            out.append(Text((at[0], y), part, small, font, ink))
            y += step
    return out
