"""The near-neutrals of a room lean the same way.

Why: A pinkish white beside a greenish gray makes both look dirty, and nobody can say why; two that lean together
    look clean.
Source: practice values color.undertone_apart, color.clash_least and color.pale_from: our choice, no source.
Fails: of the pale near-neutrals (color.pale_from) that have enough of the room (color.clash_from) two lean further apart in hue than the
    value, and differ in a*, b* by more than the least a person tells apart. The worst pair speaks. Taste.
Passes exactly: at either value, and just below the lightness from which a color counts as pale.
Silent: where most of the room's colors are not recorded; for colors that are no near-neutrals, for those of middle
    lightness, which read as muted colors, and for those too gray
    to lean.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.changes import by_size, in_color, named, swatches
from halfdrop.audit.rules.color.shared import inventory_swatches, judged, subject, the
from halfdrop.color.areas import ColorArea
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.inventory import Inventory, Part, SwatchShare
from halfdrop.color.undertones import clashes, undertones

GRADE = Grade.TASTE
PRACTICE = ("color.undertone_apart", "color.clash_least", "color.pale_from")
_ROLES = ("walls", "ceiling", "trim", "floor", "large", "medium", "small")


def _worst(case: RoomCase, found: Inventory) -> tuple[SwatchShare, SwatchShare, float] | None:
    """Return the two swatches that clash most, the one with more of the room first, and by what angle [degrees]."""
    enough = case.practice.number("color.clash_from") - 1e-9
    pale = case.practice.number(PRACTICE[2]) - 1e-9
    large = [s for s in found.shares if s.share >= enough and s.swatch.lab[0] >= pale]
    if len(large) < 2:
        return None
    least = case.practice.number(PRACTICE[1]) + 1e-9
    for clash in clashes([ColorArea(s.id, s.swatch.lab, s.area) for s in large], case.practice):
        one, two = large[clash.first], large[clash.second]
        if math.dist(one.swatch.lab[1:], two.swatch.lab[1:]) > least:
            return one, two, clash.degrees
    return None


def _wearers(found: Inventory, swatch: str) -> list[Part]:
    return [p for p in by_size(found, _ROLES) if swatch in p.colors]


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield one finding, about the two near-neutrals that lean furthest apart."""
    found = judged(case)
    worst = _worst(case, found) if found is not None else None
    if found is None or worst is None:
        return
    one, two, degrees = worst
    wanted = float(case.practice.number(PRACTICE[0]))
    parts = [w[0] for s in (two, one) if (w := _wearers(found, s.id))]
    leans = [s.lean(case.practice) for s in (one, two)]
    on = [the(s.on[0]) for s in (one, two)]
    yield case.finding(
        rule_id(__name__),
        GRADE,
        [subject(case, part) for part in parts],
        f"{named(case, one.id)} on {on[0]} leans to {leans[0]} and {named(case, two.id)} on {on[1]} to {leans[1]}, "
        f"{degrees:.0f}° apart; at most {wanted:.0f}° is wanted, or each makes the other look dirty.",
        measured=math.radians(degrees),
        wanted=math.radians(wanted),
        quantity="angle",
        sense="at most",
        practice=PRACTICE[0],
        name="+".join(sorted((one.id, two.id))),
    )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Give what wears one of the two the near-neutral that the other wears, or one that leans its way."""
    found = judged(case)
    worst = _worst(case, found) if found is not None else None
    if found is None or worst is None:
        return
    one, two, _ = worst
    labs = {key: s.lab for key, s in inventory_swatches(case).items()}
    for stays, goes in ((one, two), (two, one)):
        leaning = [
            (float(delta_e(np.array(lab), np.array(goes.swatch.lab))), key)
            for key, lab in labs.items()
            if key != goes.id and not _clash(case, lab, stays.swatch.lab)
        ]
        for key in swatches(case, [stays.id, *(k for _, k in sorted(leaning) if k != stays.id)]):
            for part in _wearers(found, goes.id)[:3]:
                yield from in_color(case, part, key)


def _clash(case: RoomCase, lab: tuple[float, float, float], other: tuple[float, float, float]) -> bool:
    """Return whether a color is no near-neutral, or one that clashes with another."""
    areas = [ColorArea("", lab, 1.0), ColorArea("", other, 1.0)]
    near = {u.of for u in undertones(areas, case.practice)}
    return 0 not in near or bool(clashes(areas, case.practice))
