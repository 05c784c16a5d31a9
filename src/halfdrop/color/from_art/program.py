"""One color for each place, as an integer program solved by CP-SAT: the proof says how far from the best it may be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from ortools.sat.python import cp_model

from halfdrop.color.areas import ColorArea
from halfdrop.color.arrays import Floats
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.from_art.offers import Offer
from halfdrop.color.from_art.place import SURFACES, Place
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.harmony import harmony
from halfdrop.color.library import Library
from halfdrop.color.proportions import families_of
from halfdrop.color.undertones import clashes
from halfdrop.practice import Practice

#: Areas are counted in thousandths of the room.
WHOLE = 1000
#: The solver's own measure of work, the same on every machine.
EFFORT = 2.0
#: What each fault of a scheme costs, against one thousandth of the room off 60 / 30 / 10 costing 1. Our choice, no source.
CLASH, ORDER, NO_VALUE, MISSING, DISCORD, ANOTHER, ALIKE = 600, 400, 300, 150, 8, 15, 400
#: What a step of CIEDE2000 off what is asked for costs: in itself, and for each thousandth of the room that wears it.
FIT, FIT_AREA = 4.0, 0.25
#: So much more than practice asks of a light and a dark: works are seen too, and are no place here. Our choice.
ENOUGH = 1.25


@dataclass(frozen=True)
class Chosen:
    """What the program chose.

    Attributes
    ----------
    offers : dict
        By the place's key.
    cost, bound : float
        What it costs, and what no choice among these offers costs less than.
    """

    offers: dict[str, Offer]
    cost: float
    bound: float

    @property
    def gap(self) -> float:
        """How far from the best it may be, 0 (proven best) to 1."""
        return 0.0 if self.cost <= 0 else max(0.0, (self.cost - self.bound) / self.cost)


@dataclass
class _Pool:
    """Every color that may be in the room: the offered swatches, then what stays."""

    labs: list[tuple[float, float, float]] = field(default_factory=list)
    rows: dict[int, int] = field(default_factory=dict)
    stays: list[tuple[int, int, str]] = field(default_factory=list)  # color, thousandths, key of its place


def choose(
    places: Sequence[Place],
    offers: Mapping[str, Sequence[Offer]],
    art: Sequence[ArtColor],
    library: Library,
    practice: Practice,
    *,
    before: Sequence[Mapping[str, tuple[float, float, float]]] = (),
    seed: int = 0,
) -> Chosen | None:
    """Return the color of every open place; None where no choice differs enough from `before`.

    Parameters
    ----------
    offers : mapping
        By the place's key; a place that is not in it keeps what it has.
    before : sequence of mapping
        Colors of earlier schemes by place, which this one must differ from (practice `color.scheme_apart`).
    seed : int
        Another seed, another choice among those that are nearly as good.

    Checked by: tests/color/from_art/test_program.py: against every choice of a small room.
    """
    program = _Program(places, offers, art, library, practice, seed)
    for earlier in before:
        program.differ(earlier)
    return program.solved()


class _Program:
    """The variables of one room."""

    def __init__(
        self,
        places: Sequence[Place],
        offers: Mapping[str, Sequence[Offer]],
        art: Sequence[ArtColor],
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
        self._fit()
        self.used = self._used()
        self._proportions()
        self._pairs()
        self._values()
        self._order()
        self._belongs(art)

    def _pooled(self, library: Library) -> _Pool:
        pool = _Pool()
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

    def _open(self, n: int) -> list[tuple[int, Offer]]:
        return list(enumerate(self.offers.get(self.places[n].key, ())))

    def _fit(self) -> None:
        """Each open place wears one; what is asked for costs nothing."""
        jitter = np.random.default_rng(self.seed)
        for n, _ in enumerate(self.places):
            if not self._open(n):
                continue
            self.model.add_exactly_one(self.pick[n, k] for k, _ in self._open(n))
            for k, offer in self._open(n):
                weight = FIT + FIT_AREA * self.parts[n]
                sway = 1.0 + (0.3 * jitter.random() if self.seed else 0.0)
                self.terms.append(round(weight * offer.cost * sway) * self.pick[n, k])

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

    def _share(self, colors: Sequence[int]) -> tuple[cp_model.LinearExpr, int]:
        """Return how many thousandths some colors have: what is chosen, and what stays."""
        of = set(colors)
        chosen = [
            self.parts[n] * x
            for (n, k), x in self.pick.items()
            if self.pool.rows[self.offers[self.places[n].key][k].swatch] in of
        ]
        stays = sum(part for color, part, _ in self.pool.stays if color in of)
        return cp_model.LinearExpr.sum(chosen), stays

    def _proportions(self) -> None:
        """The largest family near 60, the second near 30, the rest near 10."""
        apart = float(self.practice.number("color.family_apart"))
        families = families_of([ColorArea("", lab, 1.0) for lab in self.pool.labs], apart)
        first, second, largest, next_ = [], [], [], []
        dominant = self.model.new_int_var(0, WHOLE, "dominant")
        for f, family in enumerate(families):
            chosen, stays = self._share(family.members)
            share = self.model.new_int_var(0, WHOLE, f"s{f}")
            self.model.add(share == chosen + stays)
            one, two = self.model.new_bool_var(f"d{f}"), self.model.new_bool_var(f"e{f}")
            top, under = self.model.new_int_var(0, WHOLE, f"t{f}"), self.model.new_int_var(0, WHOLE, f"v{f}")
            self.model.add(top <= share)
            self.model.add(top <= WHOLE * one)
            self.model.add(under <= share)
            self.model.add(under <= WHOLE * two)
            self.model.add(dominant >= share)
            self.model.add(one + two <= 1)
            first.append(one)
            second.append(two)
            largest.append(top)
            next_.append(under)
        self.model.add_exactly_one(first)
        self.model.add_at_most_one(second)
        self.model.add(dominant == cp_model.LinearExpr.sum(largest))
        secondary = cp_model.LinearExpr.sum(next_)
        for found, key in (
            (dominant, "dominant"),
            (secondary, "secondary"),
            (WHOLE - dominant - secondary, "accent"),
        ):
            off = self.model.new_int_var(0, WHOLE, f"off {key}")
            wanted = round(WHOLE * float(self.practice.number(f"color.{key}_share")))
            self.model.add(off >= found - wanted)
            self.model.add(off >= wanted - found)
            self.terms.append(off)

    def _pairs(self) -> None:
        """Undertones that clash, and pairs below the floor of harmony, cost; what stays is nobody's choice."""
        stay = {color for color, _, _ in self.pool.stays}
        clashing = {
            (c.first, c.second)
            for c in clashes([ColorArea("", lab, 1.0) for lab in self.pool.labs], self.practice)
        }
        floor = float(self.practice.number("color.harmony_floor"))
        together = harmony(self.labs[:, None, :], self.labs[None, :, :]).total
        for i in range(len(self.labs)):
            for j in range(i + 1, len(self.labs)):
                cost = CLASH * ((i, j) in clashing) + DISCORD * bool(together[i, j] < floor)
                if not cost or (i in stay and j in stay):
                    continue
                both = self.model.new_bool_var(f"b{i}.{j}")
                self.model.add_bool_or([self.used[i].negated(), self.used[j].negated(), both])
                self.terms.append(cost * both)

    def _values(self) -> None:
        """A light and a dark, each enough to be seen."""
        enough = round(WHOLE * ENOUGH * float(self.practice.number("color.value_share")))
        for name, of in (
            ("light", self.labs[:, 0] >= float(self.practice.number("color.light_from"))),
            ("dark", self.labs[:, 0] <= float(self.practice.number("color.dark_to"))),
        ):
            chosen, stays = self._share(np.flatnonzero(of).tolist())
            missing = self.model.new_bool_var(f"no {name}")
            self.model.add(chosen + stays + WHOLE * missing >= enough)
            self.terms.append(NO_VALUE * missing)

    def _order(self) -> None:
        """The floor darker than the walls, the walls darker than the ceiling."""
        step = round(10 * float(self.practice.number("color.order_step")))
        levels = {role: self._lightness(role) for role in ("floor", "walls", "ceiling")}
        for below, above in (("floor", "walls"), ("walls", "ceiling")):
            low, high = levels[below], levels[above]
            if low is None or high is None:
                continue
            wrong = self.model.new_bool_var(f"{below} over {above}")
            self.model.add(high - low + 2 * WHOLE * wrong >= step)
            self.terms.append(ORDER * wrong)

    def _lightness(self, role: str) -> cp_model.LinearExpr | None:
        """Return the L* of a surface in tenths; None where there is none."""
        for n, place in enumerate(self.places):
            if place.role != role:
                continue
            if place.kept:
                level = round(10 * sum(lab[0] * share for lab, share in place.kept))
                return cp_model.LinearExpr.sum([]) + level
            return cp_model.LinearExpr.weighted_sum(
                [self.pick[n, k] for k, _ in self._open(n)],
                [round(10 * self.pool.labs[self.pool.rows[offer.swatch]][0]) for _, offer in self._open(n)],
            )
        return None

    def _belongs(self, art: Sequence[ArtColor]) -> None:
        """Each color of the art is in the room too; the more of the picture it has, the more it is missed."""
        apart = float(self.practice.number("color.family_apart"))
        for n, color in enumerate(art):
            near = np.flatnonzero(delta_e(np.array(color.lab), self.labs) < apart).tolist()
            missing = self.model.new_bool_var(f"m{n}")
            self.model.add_bool_or([missing, *(self.used[c] for c in near)])
            self.terms.append(round(MISSING * min(1.0, 0.3 + 2.0 * color.share)) * missing)

    def differ(self, earlier: Mapping[str, tuple[float, float, float]]) -> None:
        """Make it differ from an earlier scheme in another family: on enough of what is open, and of the things among it; on
        walls where it can."""
        apart = float(self.practice.number("color.family_apart"))
        share = float(self.practice.number("color.scheme_apart"))
        open_parts, others = {True: 0, False: 0}, {True: [], False: []}  # type: ignore[var-annotated]
        for n, place in enumerate(self.places):
            if place.key not in earlier or not self._open(n):
                continue
            surface = place.role in SURFACES
            open_parts[surface] += self.parts[n]
            for k, offer in self._open(n):
                lab = self.labs[self.pool.rows[offer.swatch]]
                far = float(delta_e(np.array(earlier[place.key]), lab)) >= apart
                if far:
                    others[surface].append(self.parts[n] * self.pick[n, k])
                elif place.role == "walls":
                    self.terms.append(ALIKE * self.pick[n, k])
        things = int(open_parts[False] * share)
        self.model.add(cp_model.LinearExpr.sum(others[False]) >= things)
        whole = int(sum(open_parts.values()) * share)
        self.model.add(cp_model.LinearExpr.sum(others[True] + others[False]) >= whole)

    def solved(self) -> Chosen | None:
        self.model.minimize(cp_model.LinearExpr.sum(self.terms))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = self.seed
        solver.parameters.max_deterministic_time = EFFORT
        status = solver.solve(self.model)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None
        chosen = {
            self.places[n].key: self.offers[self.places[n].key][k]
            for (n, k), x in self.pick.items()
            if solver.boolean_value(x)
        }
        return Chosen(chosen, float(solver.objective_value), float(solver.best_objective_bound))


def _thousandths(areas: Sequence[float]) -> list[int]:
    total = sum(areas)
    return [round(WHOLE * area / total) if total > 0 else 0 for area in areas]
