"""A panel's heading laid flat, to scale: pleats and the spaces between them, from the leading edge to the return."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.formats import Units
from halfdrop.drawing.figure import Figure
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.paper import largest_scale
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Area, Begin, End, Line, Text, Verb

#: Height of the strip, and of the rows of lettering over and under it [mm].
STRIP = 9.0
ABOVE = 5.0
UNDER = 5.0


@dataclass(frozen=True)
class Stretch:
    """A part of the heading: a pleat, a space, or a flat end; its width [m], and what is lettered on it."""

    kind: str
    width: float
    text: str


def heading_figure(
    name: str, path: str, stretches: Sequence[Stretch], units: Units, *, wide: float = 172.0
) -> Figure:
    """Return the heading of one panel laid flat, its leading edge at the left.

    Pleats are washed and numbered below; what each takes is lettered over it where it has room, else on the first and last alone.

    Parameters
    ----------
    name, path : str
        What is drawn, and its place in the document.
    stretches : sequence of Stretch
        From the leading edge.
    units : {"imperial", "metric"}
        Whose scales.
    wide : float
        Of the figure [mm].

    Raises
    ------
    InputError
        Where the heading is too long for the page at the smallest scale.
    """
    total = sum(s.width for s in stretches)
    scale = largest_scale((total, 0.1), (wide, 60.0), units)
    mm = 1000 * scale.ratio
    small = tokens().sizes["small"]
    top = ABOVE
    verbs: list[Verb] = [Begin("I-CLTH-CUTS", path)]
    x, number = 0.0, 0
    for part in stretches:
        w = part.width * mm
        ring = ((x, top), (x + w, top), (x + w, top + STRIP), (x, top + STRIP))
        if part.kind == "pleat":
            number += 1
            verbs.append(Area((ring,), "wash", "thin"))
            verbs.append(Line(((x, top), (x + w / 2, top + STRIP), (x + w, top)), "hair", "graphite"))
            if text_width(str(number), small) < w + 1:
                verbs.append(
                    Text((x + w / 2, top + STRIP + 3.8), str(number), small, "medium", "ink", "middle")
                )
        else:
            verbs.append(Area((ring,), "paper", "hair", "graphite"))
        if text_width(part.text, small) < w - 0.4:
            verbs.append(Text((x + w / 2, top - 1.5), part.text, small, "lettering", "graphite", "middle"))
        x += w
    verbs += [
        Line(((0.0, top - 2), (0.0, top + STRIP + 2)), "wide"),
        Line(((0.0, top), (x, top)), "medium"),
        Line(((0.0, top + STRIP), (x, top + STRIP)), "thin"),
        Line(((x, top - 2), (x, top + STRIP + 2)), "medium"),
        End(),
    ]
    return Figure(name, wide, top + STRIP + UNDER, tuple(verbs), scale)
