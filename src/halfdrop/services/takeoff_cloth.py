"""Cloth and what it hangs from, as lines of the take-off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from halfdrop.base.money import minor_digits
from halfdrop.base.tolerance import SAME
from halfdrop.base.units import Money
from halfdrop.drapery import ClothTakeoff, LaidBolt, cloth_of, cloth_takeoff, hang
from halfdrop.job.model import Job
from halfdrop.job.naming import thing_name
from halfdrop.job.treatments import Fabric
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom
from halfdrop.services.takeoff_line import Line


def cloths(job: Job, rooms: Mapping[str, ResolvedRoom], practice: Practice) -> Iterator[Line]:
    """Give each cloth that treatments and cushions take, laid on bolts.

    Raises
    ------
    InputError
        Where a treatment cannot be worked out, or bolts do not hold its cuts.
    """
    say = Words(practice)
    for key, counted in cloth_takeoff(job, rooms, practice).items():
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
            _price(fabric, units), tuple(notes), _detail(counted),
            (*(line.working for line in counted.lines), counted.working),
        )  # fmt: skip


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


def _price(fabric: Fabric, units: float) -> Money | None:
    """Return the price of so many sale units, to the currency's smallest coin."""
    if fabric.price is None:
        return None
    coin = Decimal(1).scaleb(-minor_digits(fabric.price.currency))
    amount = fabric.price.amount * Decimal(str(round(units, 6)))
    return Money(amount.quantize(coin, ROUND_HALF_UP), fabric.price.currency)


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
        "used": _m(bolt.used),
        "paid": _m(bolt.paid),
        "cuts": [{"cut": c.cut.id, "start": _m(c.start), "end": _m(c.end)} for c in bolt.cuts],
    }


def hardware(job: Job, rooms: Mapping[str, ResolvedRoom], practice: Practice) -> Iterator[Line]:
    """Give the rod, pole or track of each treatment of panels that is made, with its brackets.

    What the client keeps, and panels whose cloth is not named, are left out; shades bring their own.
    """
    say = Words(practice)
    cloth = {i: cloth_of(i, fabric, practice) for i, fabric in job.fabrics.items()}
    for room_id, room in rooms.items():
        for key, treatment in room.model.treatments.items():
            if treatment.keep or treatment.fabric is None or treatment.kind != "panels":
                continue
            hung = hang(room, key, cloth, practice)
            rod, brackets = hung.place.rod, hung.brackets
            kind, count = treatment.hardware.kind, len(brackets.at)
            notes = [f"Floor to its top: {say(hung.place.height)}."]
            if not brackets.holds:
                notes.append(
                    "Its load is more than these brackets may carry: see the working, and ask the maker."
                )
            detail = {
                "length": _m(rod.length),
                "height": _m(hung.place.height),
                "brackets_at": [_m(at) for at in brackets.at],
                "load_kg": _m(brackets.load),
                "allowed_kg": _m(brackets.allowed),
                "panels": hung.panels,
                "widths": _m(hung.widths.cuts),
            }
            workings = (rod.working, hung.place.span.working, hung.weight.working, brackets.working)
            yield Line(
                "hardware", hung.path, f"{kind} for {treatment.name or key}", (room_id,), 1, "piece",
                f"{kind} {say(rod.length)}, {count} brackets", None, tuple(notes), detail, workings,
            )  # fmt: skip


def _m(x: float) -> float:
    return round(float(x), 4) + 0.0
