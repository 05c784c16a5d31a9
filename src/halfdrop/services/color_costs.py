"""What the steps of a scheme from art cost, as far as prices are known: paint by the can, cloth by its unit of sale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import HalfdropError
from halfdrop.base.units import Money, sum_money
from halfdrop.drapery import ClothTakeoff, cloth_takeoff, price_of_units
from halfdrop.services.color_places import Wearer
from halfdrop.walls import PaintAnswer, PaintRoom, faces_of, paint_job, paint_room


@dataclass(frozen=True)
class StepCost:
    """What is known of the cost of a step, and in words what has no price."""

    cost: Money | None = None
    unpriced: tuple[str, ...] = ()


def step_costs(
    after: Auditor, room: str, steps: Sequence[tuple[Wearer, str, list[dict[str, Any]]]]
) -> tuple[StepCost, ...]:
    """Return what each step of a scheme costs: paint by the cans it takes, cloth by what is cut of it.

    A can without a price costs what its color's swatch does; a primer that several steps want is counted on, step by step.

    Parameters
    ----------
    after : Auditor
        The job under the scheme.
    steps : sequence of (Wearer, str, patch)
        What changes, the name of the swatch it gets, and the patch.

    Source: our own composition of the take-off. Checked by: tests/services/test_color_costs.py.
    """
    counter = _Counter(after, room)
    return tuple(counter.cost(*step) for step in steps)


class _Counter:
    """Counts step by step; what earlier steps took of a paint counts with it."""

    def __init__(self, after: Auditor, room: str) -> None:
        self.after, self.job, self.room = after, after.job, after.case(room).room
        self.taken: dict[str, list[PaintRoom]] = {}
        self._cloths: dict[str, ClothTakeoff] | None = None

    def cost(self, wearer: Wearer, color: str, patch: list[dict[str, Any]]) -> StepCost:
        paint, fabric = next(_new(patch, "paints"), None), next(_new(patch, "fabrics"), None)
        if paint is not None:
            return self._paint(paint)
        if fabric is not None:
            return self._cloth(fabric, wearer, color)
        if wearer.part.role == "floor":
            return StepCost(unpriced=(f"floor in {color}",))
        if wearer.kind == "rugs":
            return StepCost(unpriced=(f"rug in {color}",))
        return StepCost(unpriced=(f"{wearer.name} in {color}: new, painted or covered",))

    def _paint(self, paint: str) -> StepCost:
        finishes = [(i, f) for i, f in self.room.model.finishes.items() if f.paint == paint]
        slope = self.room.survey.heights.ceiling
        try:
            faces = faces_of(self.room)
            counted = [
                paint_room(
                    f"{self.room.path}/finishes/{i}", f, self.job.paints, faces, self.room.area, self.after.practice,
                    rise=slope.rise if slope is not None else 0.0,
                )
                for i, f in finishes
            ]  # fmt: skip
        except HalfdropError as error:
            return StepCost(unpriced=(f"{self.job.paints[paint].name}, not counted: {error.message}",))
        known: list[Money] = []
        unpriced: list[str] = []
        for key in dict.fromkeys(key for one in counted for key in one.wanted):
            before = self.taken.get(key, [])
            now = [*before, *(one for one in counted if key in one.wanted)]
            self.taken[key] = now
            price = self._cans(key, now)
            named = self.job.paints.get(key)
            if price is None:
                unpriced.append(named.name if named else "primer, not yet chosen")
                continue
            earlier = self._cans(key, before) if before else None
            known.append(price if earlier is None else price - earlier)
        return StepCost(_sum(known), tuple(unpriced))

    def _cans(self, key: str, rooms: list[PaintRoom]) -> Money | None:
        paint = self.job.paints.get(key)
        answer = paint_job(key, paint, rooms, self.after.practice)
        if answer.cans.cost is not None or paint is None or paint.swatch is None:
            return answer.cans.cost
        price = self.job.swatches[paint.swatch].price
        return None if price is None else price * _many(answer)

    def _cloth(self, fabric: str, wearer: Wearer, color: str) -> StepCost:
        if self._cloths is None:
            try:
                self._cloths = cloth_takeoff(self.job, {self.room.id: self.room}, self.after.practice)
            except HalfdropError:
                self._cloths = {}
        counted, cloth = self._cloths.get(fabric), self.job.fabrics[fabric]
        if counted is None:
            return StepCost(unpriced=(f"{cloth.name}, not counted",))
        units = len(counted.plan.bolts) if cloth.sale == "bolt" else counted.plan.paid / counted.cloth.unit
        price = price_of_units(cloth, units)
        return StepCost(price, () if price is not None else (f"cloth in {color} for {wearer.name}",))


def _many(answer: PaintAnswer) -> int:
    """Return how many cans of the largest size counted hold all: a swatch has one price, which is taken as that can's."""
    largest = max(float(can.size) for can, _ in answer.cans.cans)
    return max(1, ceil(answer.with_reserve / largest - 1e-9))


def _new(patch: Iterable[dict[str, Any]], kind: str) -> Iterator[str]:
    """Yield the ids that a patch adds to a map of the job."""
    for op in patch:
        steps = op["path"].split("/")[1:]
        if op["op"] == "add" and steps[0] == kind:
            yield from steps[1:2] or op["value"]


def _sum(known: list[Money]) -> Money | None:
    """Return the sum of what is of one currency; None where nothing is, or they differ."""
    if not known or len({one.currency for one in known}) > 1:
        return None
    return sum_money(known)
