"""What treatments buy: cloth as the bolt plan lays it, rods and shades; the same figures as the take-off's."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from halfdrop.base.formats import format_length
from halfdrop.buying.lines import Bought
from halfdrop.drapery import as_hung, cloth_of, cloth_takeoff, price_of_units, rod_price, rods_to_buy
from halfdrop.job.model import Job
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom

ROD_CAUTION = (
    "Measure again before it is cut. Brackets go into studs or solid wall, or into fixings rated for the load; see the "
    "installer's sheet."
)


def hangings(job: Job, rooms: Mapping[str, ResolvedRoom], practice: Practice) -> Iterator[Bought]:
    """Give the cloth, the rods and the shades that a job buys, in that order.

    Raises
    ------
    InputError
        Where a treatment cannot be worked out, or bolts do not hold its cuts.
    """
    if not any(room.model.treatments or room.model.cushions for room in rooms.values()):
        return
    units = job.job.units
    for key, counted in cloth_takeoff(job, rooms, practice).items():
        fabric, plan = job.fabrics[key], counted.plan
        count = float(len(plan.bolts)) if fabric.sale == "bolt" else plan.paid / counted.cloth.unit
        price = price_of_units(fabric, count)
        short = {"yard": "yd", "meter": "m", "bolt": "bolt" if count == 1 else "bolts"}[fabric.sale]
        paths = tuple(line.path for line in counted.lines)
        yield Bought(
            paths[0].split("/")[1], paths, "cloth", fabric.name, f"{count:.4g} {short}", 1, "length", price,
            "job" if price is not None else "no price is given for the cloth",
        )  # fmt: skip
    cloths = {i: cloth_of(i, fabric, practice) for i, fabric in job.fabrics.items()}
    for rod in rods_to_buy(rooms, cloths, practice):
        price, source = rod_price(job, rod)
        size = format_length(rod.length, units, round_to="up", feet=False)
        yield Bought(
            rod.room, (rod.path,), "rod", rod.name, size, 1, "piece", price, source, caution=ROD_CAUTION
        )
    for i, room in rooms.items():
        for key, treatment in room.model.treatments.items():
            shade = (
                as_hung(room, key, cloths, practice)
                if treatment.kind == "roller" and treatment.arrives
                else None
            )
            if shade is not None:
                left, right = shade.panels[0].shut
                sides = (right - left, shade.top - shade.panels[0].hem[0])
                size = " × ".join(format_length(side, units, feet=False) for side in sides)
                yield Bought(
                    i, (shade.path,), "shade", shade.name, size, 1, "piece", treatment.price,
                    "job" if treatment.price is not None else "not in the stock list",
                )  # fmt: skip
