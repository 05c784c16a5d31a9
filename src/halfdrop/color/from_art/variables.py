"""What the integer program of one room decides on: which swatch each open place wears, and which colors are then in the room."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from ortools.sat.python import cp_model

from halfdrop.color.arrays import Floats
from halfdrop.color.from_art.offers import Offer
from halfdrop.color.from_art.place import Place
from halfdrop.color.library import Library
from halfdrop.practice import Practice

#: Areas are counted in thousandths of the room.
WHOLE = 1000
#: What each swatch more costs, against one thousandth of the room off 60 / 30 / 10 costing 1. Our choice, no source.
ANOTHER = 15


@dataclass
class Pool:
    """Every color that may be in the room: the offered swatches, then what stays."""

    labs: list[tuple[float, float, float]] = field(default_factory=list)
    rows: dict[int, int] = field(default_factory=dict)
    stays: list[tuple[int, int, str]] = field(default_factory=list)  # color, thousandths, key of its place


class Variables:
    """The variables of one room, and the terms of what its choice costs."""

    def __init__(
        self,
        places: Sequence[Place],
        offers: Mapping[str, Sequence[Offer]],
        library: Library,
        practice: Practice,
        seed: int,
    ) -> None:
        self.places, self.offers, self.practice, self.seed = places, offers, practice, seed
        self.model = cp_model.CpModel()
        self.terms: list[cp_model.LinearExpr] = []
        self.parts = _thousandths([place.area for place in places])
        self.pool = self._pooled(library)
        self.labs: Floats = np.array(self.pool.labs).reshape(-1, 3)
        self.pick = {
            (n, k): self.model.new_bool_var(f"x{n}.{k}")
            for n, place in enumerate(places)
            for k in range(len(offers.get(place.key, ())))
        }
        self.used = self._used()

    def _pooled(self, library: Library) -> Pool:
        pool = Pool()
        for place in self.places:
            for offer in self.offers.get(place.key, ()):
                if offer.swatch not in pool.rows:
                    pool.rows[offer.swatch] = len(pool.labs)
                    pool.labs.append(library.swatches[offer.swatch].lab)
        for place, part in zip(self.places, self.parts, strict=True):
            if place.key in self.offers:
                continue
            for lab, share in place.kept:
                pool.stays.append((len(pool.labs), round(part * share), place.key))
                pool.labs.append(lab)
        return pool

    def open(self, n: int) -> list[tuple[int, Offer]]:
        """Return the offers of a place, numbered; none where it keeps what it has."""
        return list(enumerate(self.offers.get(self.places[n].key, ())))

    def _used(self) -> list[cp_model.IntVar]:
        """Which colors are in the room; each swatch more costs a little, so that a few hold it together."""
        used = [self.model.new_bool_var(f"u{c}") for c in range(len(self.labs))]
        worn: dict[int, list[cp_model.IntVar]] = {c: [] for c in range(len(self.labs))}
        for (n, k), x in self.pick.items():
            color = self.pool.rows[self.offers[self.places[n].key][k].swatch]
            worn[color].append(x)
        stay = {color for color, part, _ in self.pool.stays if part > 0}
        for color, xs in worn.items():
            if color in stay:
                self.model.add(used[color] == 1)
            elif not xs:
                self.model.add(used[color] == 0)
            else:
                self.model.add_max_equality(used[color], xs)
                self.terms.append(ANOTHER * used[color])
        return used

    def share(self, colors: Sequence[int]) -> tuple[cp_model.LinearExpr, int]:
        """Return how many thousandths some colors have: what is chosen, and what stays."""
        of = set(colors)
        chosen = [
            self.parts[n] * x
            for (n, k), x in self.pick.items()
            if self.pool.rows[self.offers[self.places[n].key][k].swatch] in of
        ]
        stays = sum(part for color, part, _ in self.pool.stays if color in of)
        return cp_model.LinearExpr.sum(chosen), stays

    def lightness(self, role: str) -> cp_model.LinearExpr | None:
        """Return the L* of a surface in tenths; None where there is none."""
        for n, place in enumerate(self.places):
            if place.role != role:
                continue
            if place.kept:
                level = round(10 * sum(lab[0] * share for lab, share in place.kept))
                return cp_model.LinearExpr.sum([]) + level
            return cp_model.LinearExpr.weighted_sum(
                [self.pick[n, k] for k, _ in self.open(n)],
                [round(10 * self.pool.labs[self.pool.rows[offer.swatch]][0]) for _, offer in self.open(n)],
            )
        return None


def _thousandths(areas: Sequence[float]) -> list[int]:
    total = sum(areas)
    return [round(WHOLE * area / total) if total > 0 else 0 for area in areas]
