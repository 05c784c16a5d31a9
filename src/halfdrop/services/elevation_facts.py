"""What a treatment comes to: rod, cloth, widths, price; each as a person reads it."""

from __future__ import annotations

from halfdrop.audit.case import RoomCase
from halfdrop.audit.hung import cloths_of
from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_money
from halfdrop.base.units import format_mass
from halfdrop.drapery import hang
from halfdrop.drapery.as_hung import AsHung
from halfdrop.drapery.made import is_made
from halfdrop.drapery.price import price_of_units, units_of
from halfdrop.drapery.repeats import hand_cuts

_PLURAL = {"yard": "yd", "meter": "m", "bolt": "bolts"}


def treatment_facts(case: RoomCase, hung: AsHung) -> list[list[str]]:
    """Return label and text of each thing worth telling about what hangs at a window, as it is given or designed.

    Cloth is counted by the hand rule of its match, each treatment by itself; on bolts with the job's other windows it may
    come to less.
    """
    said = case.say
    out: list[list[str]] = []
    if hung.kind == "panels":
        made = " (worked out)" if not {"left", "right"} <= hung.given else ""
        out.append(["rod", f"{said(hung.right - hung.left)} long{made}"])
        if "height" not in hung.given and hung.treatment.mount != "inside":
            out.append(["rod's top", f"{said(hung.height)} above the floor (worked out)"])
        if hung.fullness is not None:
            out.append(["fullness", f"{hung.fullness:.2f} times the width"])
        gap, _ = max((hung.gap(panel) for panel in hung.panels), default=(0.0, 0.0))
        out.append(["hem", f"{said(abs(gap))} {'off the floor' if gap >= 0 else 'on the floor'}"])
    return [*out, *_cloth(case, hung)]


def _cloth(case: RoomCase, hung: AsHung) -> list[list[str]]:
    treatment = hung.treatment
    if hung.kind != "panels" or treatment.fabric is None:
        return []
    try:
        made = hang(case.room, hung.id, cloths_of(case), case.practice)
    except InputError as error:
        return [["cloth", error.message]]
    cloth, fabric = cloths_of(case)[treatment.fabric], case.job.fabrics[treatment.fabric]
    cuts = hand_cuts(made.cut.length, cloth.repeat, cloth.match, made.widths.cuts, case.practice)
    units = units_of(cloth, cuts.total)
    if not is_made(treatment):
        return [["cloth", "none to buy: what hangs there stays"]]
    price = price_of_units(fabric, units)
    widths = f"{made.widths.widths:g} {'width' if made.widths.widths == 1 else 'widths'}"
    anew = " when it is made anew" if treatment.drop is not None else ""
    return [
        ["finished length", f"{case.say(made.lengths.longest)}{anew}"],
        ["cloth", f"{widths}, {made.widths.cuts} cuts of {case.say(cuts.total / made.widths.cuts)}"],
        [
            "to buy",
            f"{units:g} {_PLURAL[fabric.sale]} of {fabric.name}"
            + (f", {format_money(price)}" if price else ""),
        ],
        ["brackets", f"{len(made.brackets.at)}, at most {case.say(made.brackets.span)} apart"],
        ["weight", format_mass(made.weight.mass, case.units)],
    ]
