"""One color for each place, as an integer program solved by CP-SAT: the proof says how far from the best it may be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from halfdrop.color.from_art import wishes
from halfdrop.color.from_art.offers import Offer
from halfdrop.color.from_art.place import Place
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.from_art.variables import Variables
from halfdrop.color.library import Library
from halfdrop.practice import Practice

#: The solver's own measure of work, the same on every machine.
EFFORT = 2.0


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
    room = Variables(places, offers, library, practice, seed)
    for ask in (wishes.fit, wishes.proportions, wishes.pairs, wishes.values, wishes.order):
        ask(room)
    wishes.belongs(room, art)
    for earlier in before:
        wishes.differ(room, earlier)
    return _solved(room)


def _solved(room: Variables) -> Chosen | None:
    room.model.minimize(cp_model.LinearExpr.sum(room.terms))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = room.seed
    solver.parameters.max_deterministic_time = EFFORT
    status = solver.solve(room.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    chosen = {
        room.places[n].key: room.offers[room.places[n].key][k]
        for (n, k), x in room.pick.items()
        if solver.boolean_value(x)
    }
    return Chosen(chosen, float(solver.objective_value), float(solver.best_objective_bound))
