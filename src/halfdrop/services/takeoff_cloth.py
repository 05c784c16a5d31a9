"""Cloth and what it hangs from, as lines of the take-off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from halfdrop.base.tolerance import SAME
from halfdrop.base.working import Working
from halfdrop.drapery import (
    ClothTakeoff,
    LaidBolt,
    LaidCut,
    RodToBuy,
    cloth_of,
    cloth_takeoff,
    place_of,
    price_of_units,
    rod_price,
    rods_to_buy,
    shade_of,
)
from halfdrop.drapery import Line as ClothLine
from halfdrop.job.model import Job
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Fabric, Treatment
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom
from halfdrop.services.takeoff_line import Line


def cloths(
    job: Job,
    rooms: Mapping[str, ResolvedRoom],
    practice: Practice,
    known: Mapping[str, ClothTakeoff] | None = None,
) -> Iterator[Line]:
    """Give each cloth that treatments and cushions take, laid on bolts; `known` is the same, where it was counted before.

    Raises
    ------
    InputError
        Where a treatment cannot be worked out, or bolts do not hold its cuts.
    """
    say = Words(practice)
    for key, counted in (cloth_takeoff(job, rooms, practice) if known is None else known).items():
        fabric, plan = job.fabrics[key], counted.plan
        bolts = len(plan.bolts)
        units = bolts if fabric.sale == "bolt" else plan.paid / counted.cloth.unit
        notes = [_by_hand(counted, fabric, say)]
        if counted.turned:
            turned = ", ".join(f"the {thing_name(job, path)}" for path in counted.turned)
            notes.append(f"Cut with the cloth on its side: {turned}.")
        named = {"yard": "yd", "meter": "m", "bolt": f"bolt{'s' if bolts != 1 else ''}"}[fabric.sale]
        yield Line(
            "cloth", f"fabrics/{key}", fabric.name, tuple(dict.fromkeys(line.path.split("/")[1] for line in counted.lines)),
            round(units, 4), {"yard": "yard", "meter": "meter", "bolt": "bolt"}[fabric.sale], f"{units:.4g} {named}",
            price_of_units(fabric, units), tuple(notes), _detail(counted),
            (*(_named(job, line) for line in counted.lines), counted.working),
        )  # fmt: skip


def _named(job: Job, line: ClothLine) -> Working:
    """Return a line's working, headed by what the cloth is for."""
    return Working(f"Cloth for the {thing_name(job, line.path)}", line.working.steps)


def _by_hand(counted: ClothTakeoff, fabric: Fabric, say: Words) -> str:
    """Return what the hand formula comes to beside the bolt plan, in the unit of sale."""
    plan, unit = counted.plan, counted.cloth.unit
    short = {"yard": "yd", "meter": "m"}.get(fabric.sale, "")

    def said(x: float) -> str:
        return f"{x / unit:.4g} {short}" if unit else say(x)

    hand, bought = said(counted.hand), said(plan.paid)
    if plan.bound > counted.hand + SAME:
        return f"By hand it would be {hand}, and run short: no plan cuts these pieces from less than {said(plan.bound)}."
    if counted.saved > SAME:
        return f"By hand it would be {hand}; laid on the bolt together it is {bought}, {said(counted.saved)} less."
    if counted.saved < -SAME:
        return f"By hand it would be {hand}; whole bolts come to {bought}."
    return f"By hand it would be {hand} too."


def _detail(counted: ClothTakeoff) -> dict[str, Any]:
    plan = counted.plan
    return {
        "by_hand": _m(counted.hand),
        "on_bolts": _m(plan.paid),
        "bound": _m(plan.bound),
        "saved": _m(counted.saved),
        "things": [{"path": line.path, "by_hand": _m(line.hand)} for line in counted.lines],
        "turned": list(counted.turned),
        "bolts": [_bolt(bolt) for bolt in plan.bolts],
    }


def _bolt(bolt: LaidBolt) -> dict[str, Any]:
    return {
        "bolt": bolt.kind.id,
        "number": bolt.number,
        "motif": _m(bolt.motif),
        "used": _m(bolt.used),
        "paid": _m(bolt.paid),
        "cuts": [_cut(cut) for cut in bolt.cuts],
    }


def _cut(laid: LaidCut) -> dict[str, Any]:
    line = None if laid.cut.line is None else _m(laid.start + laid.cut.line)
    across = [_m(width) for width in laid.cut.across]
    return {"cut": laid.cut.id, "start": _m(laid.start), "end": _m(laid.end), "line": line, "across": across}


def hardware(job: Job, rooms: Mapping[str, ResolvedRoom], practice: Practice) -> Iterator[Line]:
    """Give the rod, pole or track of each treatment of panels that is made, with its brackets, and what arrives for panels that stay.

    Panels whose cloth is not named are left out; shades bring their own, and those that are ordered made are lines of their own.
    """
    cloth = {i: cloth_of(i, fabric, practice) for i, fabric in job.fabrics.items()}
    for rod in rods_to_buy(rooms, cloth, practice):
        yield _rod(job, rod, practice)
    for room in rooms.values():
        for key, treatment in room.model.treatments.items():
            if treatment.kind == "roller" and treatment.arrives:
                yield _roller(room, key, treatment, practice)


def _rod(job: Job, rod: RodToBuy, practice: Practice) -> Line:
    say = Words(practice)
    kind, hung, brackets = rod.treatment.hardware.kind, rod.hung, rod.brackets
    notes = [f"Floor to its top: {say(rod.height)}."]
    if hung is None:
        notes.append(
            "Its panels stay: their weight is reckoned from their width, their length and their kind of cloth."
        )
    if not brackets.holds:
        notes.append("Its load is more than these brackets may carry: see the working, and ask the maker.")
    price, source = rod_price(job, rod)
    detail: dict[str, Any] = {
        "length": _m(rod.length),
        "height": _m(rod.height),
        "price_from": source,
        "brackets_at": [_m(at) for at in brackets.at],
        "load_kg": _m(brackets.load),
        "allowed_kg": _m(brackets.allowed),
    }
    workings: tuple[Working, ...] = (rod.weight.working, brackets.working)
    if hung is not None:
        detail |= {"panels": hung.panels, "widths": _m(hung.widths.cuts)}
        workings = (hung.place.rod.working, hung.place.span.working, *workings)
    said = f"{kind} {say(rod.length)}, {len(brackets.at)} brackets"
    return Line(
        "hardware", rod.path, rod.name, (rod.room,), 1, "piece", said, price, tuple(notes), detail, workings
    )


def _roller(room: ResolvedRoom, key: str, treatment: Treatment, practice: Practice) -> Line:
    say, path = Words(practice), f"{room.path}/treatments/{key}"
    place = place_of(room, treatment, path, "blackout", practice)
    shade = shade_of(treatment, place.run, place.height, practice)
    notes = (
        () if shade.fits else ("The opening is out of square or too shallow for it inside: hang it outside.",)
    )
    detail = {"width": _m(shade.width), "length": _m(shade.length), "cloth": _m(shade.cloth)}
    return Line(
        "hardware", path, treatment.name or key.replace("-", " "), (room.id,), 1, "piece",
        f"roller shade {say.pair(shade.width, shade.length)}", treatment.price, notes, detail, (shade.working,),
    )  # fmt: skip


def _m(x: float) -> float:
    return round(float(x), 4) + 0.0
