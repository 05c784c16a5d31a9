"""What the cloth of a remedy costs, by hand rule; the bolt plan of the whole job may come to less."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.drapery.hangs import cloths_of
from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_money
from halfdrop.base.units import Money, sum_money
from halfdrop.base.working import Step
from halfdrop.drapery import AsHung, altered_strips, hang, price_of_units, units_of
from halfdrop.drapery.repeats import hand_cuts
from halfdrop.job.altered import Altered
from halfdrop.practice.words import Words
from halfdrop.room import ResolvedRoom


@dataclass(frozen=True)
class Cost:
    """What is bought: its price as far as it is known, what has none, and how the cloth was counted."""

    money: Money | None
    unpriced: tuple[str, ...]
    steps: tuple[Step, ...] = ()


def of_cloth(case: RoomCase, fabric: str, length: float) -> Cost:
    """Return what a length of one of the job's cloths costs [m]."""
    cloth, model = cloths_of(case)[fabric], case.job.fabrics[fabric]
    units = units_of(cloth, length)
    money = price_of_units(model, units)
    say, sale = Words(case.practice), model.sale if units == 1 else f"{model.sale}s"
    steps = [
        Step(
            f"{model.name}, bought",
            "length, the motif placed, to the step of sale",
            say(length),
            f"{units:.4g} {sale}",
            "up",
        )
    ]
    if money is not None and model.price is not None:
        steps.append(
            Step(
                f"{model.name}, price",
                f"{model.sale}s × price of one",
                f"{units:.4g} × {model.price.text}",
                format_money(money),
            )
        )
    return Cost(
        money, () if money is not None else (f"{model.name}, {case.say(length, 'up')}",), tuple(steps)
    )


def anew(case: RoomCase, room: ResolvedRoom, key: str) -> Cost | None:
    """Return what panels made anew cost in cloth and lining; None where they cannot be worked out."""
    treatment = room.model.treatments[key]
    if treatment.fabric is None:
        return Cost(None, (f"cloth for the {treatment.name or key.replace('-', ' ')}",))
    try:
        hung = hang(room, key, cloths_of(case), case.practice)
    except InputError:
        return None
    cloth = cloths_of(case)[treatment.fabric or ""]
    cuts = hand_cuts(hung.cut.length, cloth.repeat, cloth.match, hung.widths.cuts, case.practice)
    parts = [of_cloth(case, cloth.id, cuts.total)]
    if hung.lining is not None and treatment.lining is not None and treatment.lining.fabric is not None:
        parts.append(of_cloth(case, treatment.lining.fabric, hung.lining.total))
    return together([Cost(None, (), (*hung.sizes.steps, *cuts.working.steps)), *parts])


def of_altered(case: RoomCase, hung: AsHung, before: Altered | None) -> Cost:
    """Return what the cloth sewn on to panels that hang costs; none where nothing is sewn on that was not before."""
    altered = hung.treatment.altered
    if altered is None or altered == before:
        return Cost(None, ())
    cloth = cloths_of(case).get(altered.fabric or "")
    total, steps = 0.0, []
    for _, strips in altered_strips(hung, cloth, case.practice):
        cuts = (
            hand_cuts(strips.cut, cloth.repeat, cloth.match, strips.strips, case.practice) if cloth else None
        )
        total += cuts.total if cuts else strips.total
        steps += [*strips.working.steps, *(cuts.working.steps if cuts else [])]
    if not total:
        return Cost(None, ())
    if altered.fabric is None:
        return Cost(None, (f"cloth for the {hung.name}, {case.say(total, 'up')}",))
    return together([Cost(None, (), tuple(steps)), of_cloth(case, altered.fabric, total)])


def together(parts: list[Cost]) -> Cost:
    """Return several costs as one; those in another currency than the first stand with what has no price."""
    money = [p.money for p in parts if p.money is not None]
    unpriced = tuple(u for p in parts for u in p.unpriced)
    steps = tuple(step for p in parts for step in p.steps)
    if not money:
        return Cost(None, unpriced, steps)
    same = [m for m in money if m.currency == money[0].currency]
    return Cost(
        sum_money(same, money[0].currency), unpriced + tuple(m.text for m in money if m not in same), steps
    )
