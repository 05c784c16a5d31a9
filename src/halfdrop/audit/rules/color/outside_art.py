"""Walls and large pieces belong to the picture's colors, or keep quiet.

Why: Where the room starts from a picture, a wall or a sofa of a hue the picture has not pulls against it at every
    glance; a near-neutral lets it speak.
Source: practice value color.kin_hue: our choice, no source.
Fails: the color a wall or a large piece wears most of has a hue (its chroma above color.neutral_to) that lies
    further than the value from every color of every work that hangs, and is not near one either
    (color.family_apart). Taste.
Passes exactly: at the value.
Silent: where most of the room's colors are not recorded; where no work with colors hangs that the room takes up
    (color.art-alone tells of one it does not); for near-neutrals, and for the hues of wood and leather on what is not
    upholstered.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.color.changes import in_color, named, swatches
from halfdrop.audit.rules.color.shared import (
    Lab,
    inventory_swatches,
    judged,
    main_swatch,
    pictures,
    subject,
    taken_up,
    the,
    wooden,
)
from halfdrop.base.tolerance import at_least, at_most
from halfdrop.color.arrays import Floats
from halfdrop.color.inventory import Inventory
from halfdrop.color.kin import chromatic, hue_apart, kin

GRADE = Grade.TASTE
PRACTICE = ("color.kin_hue",)


def _art(case: RoomCase, found: Inventory) -> Floats | None:
    """Return the colors of the works that the room takes up."""
    wanted = case.practice.number("color.art_taken_up")
    works = [p for p in pictures(case, found) if at_least(taken_up(case, found, p), wanted, 1e-9)]
    return np.concatenate([p.labs for p in works]) if works else None


def _apart(case: RoomCase, lab: Lab, art: Floats) -> float | None:
    """Return the hue's angle to the nearest of the art's [degrees]; None where it is quiet or near one."""
    if not bool(chromatic(lab, case.practice)):
        return None
    away = float(hue_apart(art, lab).min())
    if away > case.practice.number(PRACTICE[0]) and bool(kin(art, lab, case.practice).any()):
        return None
    return away


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each wall or large piece of a foreign hue."""
    found = judged(case)
    art = _art(case, found) if found is not None else None
    if found is None or art is None:
        return
    wanted = float(case.practice.number(PRACTICE[0]))
    for part in found.parts:
        main = main_swatch(part)
        if part.role not in ("walls", "large") or main is None or part.area <= 0 or wooden(case, part, found):
            continue
        away = _apart(case, found.swatches[main].lab, art)
        if away is None or at_most(away, wanted, 1e-6):
            continue
        verb = "wear" if part.role == "walls" and not part.what.startswith("wall ") else "wears"
        text = the(part.what)
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (subject(case, part),),
            f"{text[0].upper()}{text[1:]} {verb} {named(case, main)}, {away:.0f}° of hue from the nearest color of the art; "
            f"at most {wanted:.0f}° is wanted, or a near-neutral, so that they do not pull against it.",
            measured=math.radians(away),
            wanted=math.radians(wanted),
            quantity="angle",
            sense="at most",
            practice=PRACTICE[0],
        )


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Give it a near-neutral, or a color of the art's family, nearest in lightness to what it wears."""
    found = judged(case)
    art = _art(case, found) if found is not None else None
    if found is None or art is None:
        return
    part = next(p for p in found.parts if p.path == finding.subjects[0])
    main = main_swatch(part)
    assert main is not None
    labs = {key: one.lab for key, one in inventory_swatches(case).items()}
    fits = []
    for key, lab in labs.items():
        away = _apart(case, lab, art)
        if away is None or away <= case.practice.number(PRACTICE[0]):
            fits.append((abs(lab[0] - labs[main][0]), key))
    for key in swatches(case, [key for _, key in sorted(fits)]):
        yield from in_color(case, part, key)
