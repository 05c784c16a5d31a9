"""What a treatment weighs: the cloth of its cuts with their linings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.cloth import format_cloth_weight
from halfdrop.base.units import format_mass
from halfdrop.base.working import Working
from halfdrop.job.treatments import FabricKind
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


@dataclass(frozen=True)
class Layer:
    """One layer of cloth: what it is, its area as cut [m²], its weight [kg/m²]."""

    name: str
    area: float
    weight: float


@dataclass(frozen=True)
class WeightAnswer:
    """The mass of all layers [kg], the weight of a square of them together [kg/m²], and the steps."""

    mass: float
    per_area: float
    working: Working


def cloth_weight(kind: FabricKind, practice: Practice) -> float:
    """Return the weight of a kind of cloth where its label does not say [kg/m²].

    Source: from memory, unverified. Checked by: tests/drapery/test_brackets.py.
    """
    return practice.number(f"drapery.weight_{kind}")


def weigh(layers: Sequence[Layer], practice: Practice) -> WeightAnswer:
    """Return what the layers weigh together.

    Source: area × weight. Checked by: tests/drapery/test_brackets.py.
    """
    say = Words(practice)
    working = Working("Weight of the cloth")
    for layer in layers:
        working.step(layer.name, "area as cut × weight",
                     f"{say.area(layer.area)} × {format_cloth_weight(layer.weight, say.units)}",
                     format_mass(layer.area * layer.weight, say.units))  # fmt: skip
    mass = sum(layer.area * layer.weight for layer in layers)
    working.step("together", "sum", " + ".join(format_mass(x.area * x.weight, say.units) for x in layers),
                 format_mass(mass, say.units))  # fmt: skip
    return WeightAnswer(mass, sum(layer.weight for layer in layers), working)
