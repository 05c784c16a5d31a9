"""What a scheme comes to, by the measures of a room's colors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from halfdrop.color.areas import ColorArea
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art.place import Lab, Place
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.harmony import least_harmony
from halfdrop.color.hue_templates import best_template
from halfdrop.color.lab import lch_of_lab
from halfdrop.color.proportions import proportions
from halfdrop.color.undertones import clashes
from halfdrop.color.value_range import value_range
from halfdrop.practice import Practice

#: Degrees of misfit, and harmony below its floor, that leave nothing of a mark; our choice, no source.
_MISFIT, _DISCORD = 20.0, 1.0


@dataclass(frozen=True)
class Mark:
    """One measure of a scheme: how well it does, 0 to 1, what was measured and what is wanted."""

    name: str
    mark: float
    measured: str
    wanted: str


@dataclass(frozen=True)
class Score:
    """The marks of a scheme; `total` is their mean [0 to 100]."""

    marks: tuple[Mark, ...]

    @property
    def total(self) -> float:
        """The mean of all marks [0 to 100]."""
        return 100.0 * sum(mark.mark for mark in self.marks) / len(self.marks)

    def __getitem__(self, name: str) -> Mark:
        return next(mark for mark in self.marks if mark.name == name)

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "total": round(self.total, 1),
            "marks": [{**vars(mark), "mark": round(mark.mark, 3)} for mark in self.marks],
        }


def score(
    places: Sequence[Place], colors: Mapping[str, Lab], art: Sequence[ArtColor], practice: Practice
) -> Score:
    """Return the marks of a room under a scheme.

    Parameters
    ----------
    colors : mapping
        The color of each place that has a new one, by its key; the others are as `kept` says.
    art : sequence of ArtColor
        What the scheme starts from.

    Raises
    ------
    InputError
        Where nothing has an area.

    Checked by: tests/color/from_art/test_score.py.
    """
    areas = areas_of(places, colors)
    return Score((
        *room_marks(areas, practice),
        _belongs(areas_of([p for p in places if p.role != "art"], colors), art, practice),
        _order(places, colors, practice), _long_lived(places, colors, practice),
    ))  # fmt: skip


def room_marks(areas: Sequence[ColorArea], practice: Practice) -> tuple[Mark, ...]:
    """Return the marks of a room's colors as they are: proportions, values, undertones, hues, harmony.

    Raises
    ------
    InputError
        Where nothing has an area.

    Checked by: tests/color/from_art/test_score.py.
    """
    return (
        _proportions(areas, practice),
        _values(areas, practice),
        _undertones(areas, practice),
        _template(areas, practice),
        _harmony(areas, practice),
    )


def areas_of(places: Sequence[Place], colors: Mapping[str, Lab]) -> tuple[ColorArea, ...]:
    """Return every color that is seen and its area [m²], in the order of the places."""
    found: list[ColorArea] = []
    for place in places:
        if place.key in colors:
            found.append(ColorArea(place.what, colors[place.key], place.area))
        else:
            found += [ColorArea(place.what, lab, place.area * share) for lab, share in place.kept]
    return tuple(found)


def _proportions(areas: Sequence[ColorArea], practice: Practice) -> Mark:
    found = proportions(areas, practice)
    wanted = [practice.number(f"color.{key}_share") for key in ("dominant", "secondary", "accent")]
    shares = (found.dominant, found.secondary, found.accent)
    return Mark(
        "proportions", max(0.0, 1.0 - sum(abs(o) for o in found.off) / 2),
        " / ".join(f"{100 * s:.0f}" for s in shares), " / ".join(f"{100 * w:.0f}" for w in wanted),
    )  # fmt: skip


def _values(areas: Sequence[ColorArea], practice: Practice) -> Mark:
    found = value_range(areas, practice)
    said = f"light {100 * found.light:.0f}%, middle {100 * found.middle:.0f}%, dark {100 * found.dark:.0f}%"
    return Mark("values", (found.has_light + found.has_dark) / 2, said, "a light, a middle and a dark")


def _undertones(areas: Sequence[ColorArea], practice: Practice) -> Mark:
    found = clashes(areas, practice)
    worst = found[0] if found else None
    said = f"{areas[worst.first].what} against {areas[worst.second].what}" if worst else "none clashes"
    return Mark("undertones", 1.0 / (1.0 + len(found)), said, "none clashes")


def _template(areas: Sequence[ColorArea], practice: Practice) -> Mark:
    fit = best_template(areas, practice)
    return Mark(
        "hues", max(0.0, 1.0 - fit.misfit / _MISFIT), f"template {fit.name}, {fit.misfit:.1f}° outside it",
        f"at most {practice.number('color.template_misfit'):g}° outside",
    )  # fmt: skip


def _harmony(areas: Sequence[ColorArea], practice: Practice) -> Mark:
    seen = list({area.lab: area.what for area in areas if area.area > 0}.items())
    floor = float(practice.number("color.harmony_floor"))
    if len(seen) < 2:
        return Mark("harmony", 1.0, "one color", f"at least {floor:g}")
    one, two, least = least_harmony(np.array([lab for lab, _ in seen]))
    first, second = seen[one][1], seen[two][1]
    where = f"within {first}" if first == second else f"between {first} and {second}"
    said = f"{least:.2f} {where}".replace("-", "−", 1) if least < 0 else f"{least:.2f} {where}"
    return Mark("harmony", min(1.0, max(0.0, 1.0 - (floor - least) / _DISCORD)), said, f"at least {floor:g}")


def _belongs(areas: Sequence[ColorArea], art: Sequence[ArtColor], practice: Practice) -> Mark:
    apart = float(practice.number("color.family_apart"))
    labs = np.array([area.lab for area in areas if area.area > 0])
    there = [bool(len(labs) and (delta_e(np.array(color.lab), labs) < apart).any()) for color in art]
    weight = [color.share for color in art]
    share = sum(w for w, here in zip(weight, there, strict=True) if here) / sum(weight)
    said = f"{sum(there)} of its {len(art)} colors, {100 * share:.0f}% of the picture"
    return Mark("belongs to the picture", share, said, "each of its colors somewhere in the room")


def _order(places: Sequence[Place], colors: Mapping[str, Lab], practice: Practice) -> Mark:
    step = float(practice.number("color.order_step"))
    levels: dict[str, float] = {}
    for place in places:
        lab = colors.get(place.key)
        if lab is not None:
            levels.setdefault(place.role, lab[0])
        elif place.kept:
            levels.setdefault(place.role, sum(kept[0] * share for kept, share in place.kept))
    known = [(role, levels[role]) for role in ("floor", "walls", "ceiling") if role in levels]
    steps = [high[1] - low[1] for low, high in pairwise(known)]
    right = sum(rise >= step - 1e-6 for rise in steps) / len(steps) if steps else 1.0
    said = ", ".join(f"{role} L* {level:.0f}" for role, level in known) or "none known"
    return Mark("dark below, light above", right, said, "floor, walls, ceiling: each lighter")


def _long_lived(places: Sequence[Place], colors: Mapping[str, Lab], practice: Practice) -> Mark:
    most = float(practice.number("color.neutral_to")) + 1e-9
    large = [(place, colors[place.key]) for place in places if place.role == "large" and place.key in colors]
    loud = [place.what for place, lab in large if float(lch_of_lab(lab)[1]) > most]
    said = f"not {', '.join(loud)}" if loud else f"all {len(large)}" if large else "none to color"
    quiet = 1.0 - len(loud) / len(large) if large else 1.0
    return Mark("long-lived pieces neutral", quiet, said, f"chroma at most {most:g}")
