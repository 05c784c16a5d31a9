"""The rods, poles and tracks that a job buys."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from halfdrop.base.tolerance import at_least, at_most
from halfdrop.base.units import Money
from halfdrop.drapery.alter import flat_of
from halfdrop.drapery.as_hung import AsHung, as_hung
from halfdrop.drapery.brackets import BracketsAnswer, brackets_for
from halfdrop.drapery.cloth import Cloth
from halfdrop.drapery.hang import hang
from halfdrop.drapery.hung import Hung
from halfdrop.drapery.made import is_made
from halfdrop.drapery.weight import Layer, WeightAnswer, cloth_weight, weigh
from halfdrop.job.model import Job, Stock
from halfdrop.job.treatments import Treatment
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom


@dataclass(frozen=True)
class RodToBuy:
    """One rod, pole or track that is bought.

    Attributes
    ----------
    path, room : str
        The treatment's path; the room's id.
    treatment : Treatment
        What hangs from it.
    length, height : float
        End to end without finials; its top above the floor [m].
    brackets : BracketsAnswer
        Where they go, by span and load.
    weight : WeightAnswer
        Of what hangs from it; of panels that stay by their flat width, their length and the kind of their cloth.
    hung : Hung or None
        What hangs from it worked out, where it is made of a named cloth.
    """

    path: str
    room: str
    treatment: Treatment
    length: float
    height: float
    brackets: BracketsAnswer
    weight: WeightAnswer
    hung: Hung | None

    @property
    def name(self) -> str:
        """What it is called: `pole for the dining pair`."""
        what = self.treatment.name or self.path.rsplit("/", 1)[1].replace("-", " ")
        return f"{self.treatment.hardware.kind} for the {what}"


def rods_to_buy(
    rooms: Mapping[str, ResolvedRoom], cloths: Mapping[str, Cloth], practice: Practice
) -> Iterator[RodToBuy]:
    """Give the hardware of each treatment of panels that is made of a named cloth, and what `arrives` for panels that stay.

    Raises
    ------
    InputError
        Where a treatment that is made cannot be worked out.

    Source: our own. Checked by: tests/drapery/test_rods.py.
    """
    for i, room in rooms.items():
        for key, treatment in room.model.treatments.items():
            if treatment.kind != "panels":
                continue
            path = f"{room.path}/treatments/{key}"
            if is_made(treatment) and treatment.fabric is not None:
                hung = hang(room, key, cloths, practice)
                yield RodToBuy(
                    path,
                    i,
                    treatment,
                    hung.place.rod.length,
                    hung.place.height,
                    hung.brackets,
                    hung.weight,
                    hung,
                )
            elif treatment.hardware.arrives or treatment.arrives:
                seen: AsHung | None = as_hung(room, key, cloths, practice)
                if seen is not None:
                    yield rod_under(seen, i, cloths, practice)


def rod_under(seen: AsHung, room: str, cloths: Mapping[str, Cloth], practice: Practice) -> RodToBuy:
    """Return the rod of panels that stay: their weight is reckoned from what is seen of them.

    Source: our own. Checked by: tests/drapery/test_rods.py.
    """
    treatment, cloth = seen.treatment, cloths.get(seen.treatment.fabric or "")
    length = seen.right - seen.left
    area = flat_of(seen, practice) * (seen.top - min(min(panel.hem) for panel in seen.panels))
    layers = [
        Layer(
            cloth.name if cloth else "panels",
            area,
            cloth.weight if cloth else cloth_weight("medium", practice),
        )
    ]
    if treatment.lining is not None:
        layers.append(
            Layer(
                "lining",
                area,
                cloth_weight("blackout" if treatment.lining.kind == "blackout" else "lining", practice),
            )
        )
    weight = weigh(layers, practice)
    left, right = -seen.left, seen.right - seen.run.width
    stacks = {"left": (left, 0.0), "right": (0.0, right)}.get(treatment.side or treatment.draw, (left, right))
    capacity = treatment.hardware.capacity
    brackets = brackets_for(length, weight.mass, weight.per_area, practice, stacks=(max(0.0, stacks[0]), max(0.0, stacks[1])),
                            capacity=None if capacity is None else float(capacity),
                            bends=[x - seen.left for x in seen.run.bends])  # fmt: skip
    return RodToBuy(seen.path, room, treatment, length, seen.height, brackets, weight, None)


def rod_of(job: Job, length: float) -> Stock | None:
    """Return the cheapest rod of the stock list that reaches a length [m]; those without a price last.

    Source: our own. Checked by: tests/drapery/test_rods.py.
    """
    fits = [
        (math.inf if item.price is None else float(item.price.amount), key, item)
        for key, item in sorted(job.stock.items())
        if item.kind == "rod"
        and item.length is not None
        and at_least(float(item.length), length)
        and (item.shortest is None or at_most(float(item.shortest), length))
    ]
    return min(fits, key=lambda fit: fit[:2])[2] if fits else None


def rod_price(job: Job, rod: RodToBuy) -> tuple[Money | None, str]:
    """Return what a rod costs and where that was read: "job", "stock list"; or why there is no price.

    Source: our own. Checked by: tests/drapery/test_rods.py.
    """
    if rod.treatment.hardware.price is not None:
        return rod.treatment.hardware.price, "job"
    item = rod_of(job, rod.length)
    if item is None:
        return None, "not in the stock list"
    if item.price is None:
        return None, f"“{item.name}” of the stock list has no price"
    return item.price, "stock list"
