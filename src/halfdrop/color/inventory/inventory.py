"""A room's colors measured: how much of each swatch, families, values, temperature, undertones, harmony, hues."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from halfdrop.base.working import Working
from halfdrop.color.areas import ColorArea
from halfdrop.color.harmony import least_harmony
from halfdrop.color.hue_templates import TemplateFit, best_template
from halfdrop.color.inventory.part import Part
from halfdrop.color.job_swatches import swatches_of
from halfdrop.color.lab import lch_of_lab, srgb_of_lab
from halfdrop.color.lrv import lrv_of_lab
from halfdrop.color.proportions import Proportions, proportions
from halfdrop.color.srgb import hex_of_srgb
from halfdrop.color.swatch import Swatch
from halfdrop.color.temperature import Temperature, temperature
from halfdrop.color.undertones import Clash, clashes, undertone_name
from halfdrop.color.value_range import ValueRange, value_range
from halfdrop.job.colors import Swatch as JobSwatch
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


@dataclass(frozen=True)
class SwatchShare:
    """How much of a room one swatch has.

    Attributes
    ----------
    id : str
        Of the job's swatch.
    swatch : Swatch
    area : float
        [m²].
    share : float
        Of all that is recorded, 0 to 1.
    on : tuple of str
        What wears it, most first.
    """

    id: str
    swatch: Swatch
    area: float
    share: float
    on: tuple[str, ...]

    @property
    def lrv(self) -> float:
        """Light reflectance value [percent]."""
        return float(lrv_of_lab(self.swatch.lab))

    def lean(self, practice: Practice) -> str:
        """Return its undertone in a word where it is a near-neutral that leans; else its hue's."""
        chroma, hue = (float(v) for v in lch_of_lab(self.swatch.lab)[1:])
        if chroma < practice.number("color.undertone_from"):
            return "none"
        return undertone_name(hue)


@dataclass(frozen=True, eq=False)
class Inventory:
    """A room's colors; `areas` names each color by the part that wears it.

    Attributes
    ----------
    parts : tuple of Part
        All surfaces and things, whether their color is recorded or not.
    swatches : Mapping
        Those that are worn, by id.
    practice : Practice
        What it is measured by.
    """

    parts: tuple[Part, ...]
    swatches: Mapping[str, Swatch]
    practice: Practice

    @cached_property
    def worn(self) -> tuple[tuple[Part, str, float], ...]:
        """Each part with one of its swatches and the area of that [m²], nothing of no area."""
        return tuple(
            (part, key, part.area * share)
            for part in self.parts
            for key, share in part.colors.items()
            if part.area * share > 0
        )

    @cached_property
    def areas(self) -> tuple[ColorArea, ...]:
        """The same as the measures of color take them."""
        return tuple(ColorArea(part.what, self.swatches[key].lab, area) for part, key, area in self.worn)

    @property
    def seen(self) -> float:
        """All that is seen of the room [m²]."""
        return sum(part.area for part in self.parts)

    @property
    def recorded(self) -> float:
        """Share of what is seen whose color is recorded, 0 to 1."""
        return sum(part.recorded for part in self.parts) / self.seen if self.seen else 0.0

    @cached_property
    def shares(self) -> tuple[SwatchShare, ...]:
        """Each swatch with its share, the largest first; shares add to 1."""
        total = sum(area for *_, area in self.worn)
        found = []
        for key in {key: None for _, key, _ in self.worn}:
            on = sorted(
                ((area, part.what) for part, k, area in self.worn if k == key), key=lambda a: (-a[0], a[1])
            )
            area = sum(a for a, _ in on)
            names = tuple(dict.fromkeys(what for _, what in on))
            found.append(SwatchShare(key, self.swatches[key], area, area / total, names))
        return tuple(sorted(found, key=lambda s: (-round(s.share, 9), s.id)))

    @cached_property
    def proportions(self) -> Proportions:
        """Its color families against 60 / 30 / 10."""
        return proportions(self.areas, self.practice)

    @cached_property
    def values(self) -> ValueRange:
        """Its light, middle and dark."""
        return value_range(self.areas, self.practice)

    @cached_property
    def temperature(self) -> Temperature:
        """Warm or cool."""
        return temperature(self.areas, self.practice)

    @cached_property
    def clashes(self) -> tuple[Clash, ...]:
        """Near-neutrals that lean apart, by index of `areas`."""
        return clashes(self.areas, self.practice)

    @cached_property
    def template(self) -> TemplateFit:
        """The hue template that fits."""
        return best_template(self.areas, self.practice)

    @cached_property
    def least(self) -> tuple[str, str, float] | None:
        """The two swatches that harmonize least, and their harmony; None with fewer than two."""
        if len(self.shares) < 2:
            return None
        one, two, value = least_harmony(np.array([s.swatch.lab for s in self.shares]))
        return self.shares[one].id, self.shares[two].id, value

    def family_name(self, number: int) -> str:
        """Return what a family is called: by the swatch that has most of it."""
        members = self.proportions.families[number].members
        by_key: dict[str, float] = {}
        for n in members:
            _, key, area = self.worn[n]
            by_key[key] = by_key.get(key, 0.0) + area
        best = max(by_key.items(), key=lambda item: (round(item[1], 9), item[0]))[0]
        return self.swatches[best].name

    def workings(self) -> tuple[Working, ...]:
        """Return how areas and measures came about."""
        return (self._area_working(), *((self._measure_working(),) if self.areas else ()))

    def _area_working(self) -> Working:
        say = Words(self.practice)
        work = Working("What is seen of each surface and thing")
        for part in self.parts:
            worn = ", ".join(
                f"{self.swatches[k].name} {100 * share:.0f}%" for k, share in part.colors.items()
            )
            work.step(
                part.what, "faces seen", part.how, f"{say.area(part.area, 2)}: {worn or 'color not recorded'}"
            )
        work.step(
            "recorded", "area with a color ÷ area seen",
            f"{say.area(sum(p.recorded for p in self.parts))} ÷ {say.area(self.seen)}", f"{100 * self.recorded:.0f}%",
        )  # fmt: skip
        return work

    def _measure_working(self) -> Working:
        p, work = self.proportions, Working("What the colors come to")
        families = ", ".join(f"{self.family_name(n)} {100 * f.share:.0f}%" for n, f in enumerate(p.families))
        wanted = "dominant / second / the rest"
        work.step("families", wanted, families, f"{100 * p.dominant:.0f} / {100 * p.secondary:.0f} / {100 * p.accent:.0f}",
                  source=self._cite("color.family_apart", "color.dominant_share", "color.secondary_share"))  # fmt: skip
        v = self.values
        work.step("values", "share from L* light on, up to L* dark",
                  f"light {100 * v.light:.0f}%, middle {100 * v.middle:.0f}%, dark {100 * v.dark:.0f}%",
                  f"L* {v.darkest:.0f} to {v.lightest:.0f}, mean {v.mean:.0f}",
                  source=self._cite("color.light_from", "color.dark_to", "color.value_share"))  # fmt: skip
        t = self.temperature
        work.step("temperature", "color heat by area",
                  f"warm {100 * t.warm:.0f}%, cool {100 * t.cool:.0f}%, neutral {100 * t.neutral:.0f}%",
                  f"{t.mean:+.2f}: {'warm' if t.mean > 0 else 'cool'}", source="Ou et al. (2004)")  # fmt: skip
        fit = self.template
        work.step("hues", "narrowest template that fits", f"{fit.misfit:.1f}° outside it", f"template {fit.name}",
                  source="Cohen-Or et al. (2006), with CIELAB hues")  # fmt: skip
        if self.least is not None:
            one, two, value = self.least
            names = f"{self.swatches[one].name} and {self.swatches[two].name}"
            work.step("least harmony of two", "HC + HL + HH", names, f"{value:.2f}",
                      source="Ou and Luo (2006); a floor, not an aim")  # fmt: skip
        return work

    def _cite(self, *keys: str) -> str:
        return Words(self.practice).cited(*keys)

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object, areas in m²."""
        made: dict[str, Any] = {
            "seen": round(self.seen, 4),
            "recorded": round(self.recorded, 4),
            "parts": [
                {
                    "path": p.path, "what": p.what, "role": p.role, "area": round(p.area, 4), "how": p.how,
                    "colors": {k: round(v, 4) for k, v in p.colors.items()}, "kept": p.kept, "patterned": p.patterned,
                }
                for p in self.parts
            ],
            "swatches": [
                {
                    "id": s.id, "name": s.swatch.name, "code": s.swatch.code, "hex": hex_of_srgb(srgb_of_lab(s.swatch.lab)),
                    "lab": [round(v, 2) for v in s.swatch.lab], "area": round(s.area, 4), "share": round(s.share, 4),
                    "lrv": round(s.lrv, 1), "leans": s.lean(self.practice), "on": list(s.on),
                }
                for s in self.shares
            ],
        }  # fmt: skip
        if self.areas:
            made |= self._measures_json()
        return made | {"working": [w.to_json() for w in self.workings()]}

    def _measures_json(self) -> dict[str, Any]:
        p, v, t, fit = self.proportions, self.values, self.temperature, self.template
        return {
            "families": [
                {"name": self.family_name(n), "share": round(f.share, 4), "dominant": n in p.dominants}
                for n, f in enumerate(p.families)
            ],
            "proportions": [round(x, 4) for x in (p.dominant, p.secondary, p.accent)],
            "values": {k: round(getattr(v, k), 4) for k in ("light", "middle", "dark", "lightest", "darkest", "mean")},
            "temperature": {k: round(getattr(t, k), 4) for k in ("mean", "warm", "cool", "neutral")},
            "clashes": [
                {"first": self.areas[c.first].what, "second": self.areas[c.second].what, "degrees": round(c.degrees, 1)}
                for c in self.clashes
            ],
            "template": {"name": fit.name, "turned": round(fit.turned, 1), "misfit": round(fit.misfit, 2)},
            "least_harmony": None
            if self.least is None
            else {"first": self.least[0], "second": self.least[1], "harmony": round(self.least[2], 3)},
        }  # fmt: skip


def inventory_of(parts: Sequence[Part], swatches: Mapping[str, JobSwatch], practice: Practice) -> Inventory:
    """Return a room's color inventory.

    Parameters
    ----------
    parts : sequence of Part
        From `parts_of`.
    swatches : mapping
        The job's.

    Raises
    ------
    InputError
        Where a swatch that is worn cannot be used as a color.

    Source: our own composition of the measures. Checked by: tests/color/test_inventory.py.
    """
    wanted = dict.fromkeys(key for part in parts for key in part.colors)
    return Inventory(tuple(parts), swatches_of(swatches, wanted), practice)
