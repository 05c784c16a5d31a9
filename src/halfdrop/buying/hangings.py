"""What treatments buy: cloth as the bolt plan lays it, rods and shades; the same figures as the take-off's."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_length
from halfdrop.buying.lines import Bought, Work
from halfdrop.drapery import as_hung, cloth_of, cloth_takeoff, price_of_units, rod_price, rods_to_buy
from halfdrop.job.model import Job
from halfdrop.practice import Practice
from halfdrop.room import ResolvedRoom

ROD_CAUTION = (
    "Measure again before it is cut. Brackets go into studs or solid wall, or into fixings rated for the load; see the "
    "installer's sheet."
)


Why = Callable[[str], tuple[str, tuple[str, ...]]]


def compared(
    found: Job, proposed: Job, rooms: Mapping[str, ResolvedRoom], practice: Practice, why: Why
) -> tuple[list[Bought], list[Bought], list[Work]]:
    """Return what hangings buy: what is new against the job as found, what it had arriving already, and what cannot be counted.

    Parameters
    ----------
    found, proposed : Job
        The job as found, and behind its scheme.
    rooms : mapping of str to ResolvedRoom
        The proposed rooms to list, resolved.
    practice : Practice
        All `drapery.` values.
    why : callable
        Gives the titles of the steps that touch a path, and the findings they clear.
    """
    try:
        lines = list(hangings(proposed, rooms, practice))
    except InputError as error:
        path = error.at.path if error.at and error.at.path else ""
        room = path.split("/")[1] if path.startswith("rooms/") else next(iter(rooms), "")
        return [], [], [Work(room, path, f"Cloth and rods cannot be counted yet: {error.message}.")]
    bought: list[Bought] = []
    coming: list[Bought] = []
    for line in lines:
        whys = [why("/".join(path.split("/")[:4])) for path in line.paths]
        titles = "; ".join(dict.fromkeys(title for title, _ in whys if title))
        findings = tuple(dict.fromkeys(f for _, fs in whys for f in fs))
        fresh = any(_is_new(found, proposed, path) for path in line.paths)
        (bought if fresh else coming).append(replace(line, why=titles, findings=findings))
    return bought, coming, []


def _is_new(found: Job, proposed: Job, path: str) -> bool:
    """Return whether what hangs or is sewn at a path is not so in the job as found."""
    _, room, kind, key, *_ = path.split("/")
    before = found.rooms.get(room)
    return before is None or getattr(before, kind).get(key) != getattr(proposed.rooms[room], kind)[key]


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
        size = format_length(rod.length, units, feet=False)
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
