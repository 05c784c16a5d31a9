"""A wire on two hooks: the middle part lies level between them, the outer parts carry half the weight each."""

from __future__ import annotations

import math

from halfdrop.art.wire import ANGLE_HIGH, ANGLE_LOW, Hang, angle_notes, check_drop, tension_of
from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_angle
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def two_hooks(
    height: float, down: float, hangers: float, length: float, spacing: float, practice: Practice
) -> Hang:
    """Return how a frame hangs by its wire on two level hooks.

    s = d − √(((L − c)/2)² − ((b − c)/2)²). The wire slides freely, so its pull is the same all along: each outer part carries
    half the weight upright, and each hook is pulled down by half the weight and inward by what the level part pulls more.

    Parameters
    ----------
    height, down, hangers, length : float
        As for one hook [m].
    spacing : float
        Between the hooks, c [m]; above 0, less than `hangers`.
    practice : Practice
        `art.wire_angle_low`, `art.wire_angle_high`, `art.hook_below_top`.

    Raises
    ------
    InputError
        For hooks as far apart as the hangers, a wire no longer than those are apart, or hooks outside the frame.

    Source: geometry and statics, computed. Checked by: tests/art/test_wire.py, tests/published/art_wire.csv.
    """
    say = Words(practice)
    if min(height, down, hangers, length) <= 0:
        raise InputError("a frame, its hangers and its wire all measure above 0")
    if not 0 < spacing < hangers:
        raise InputError(
            f"the hooks are {say(spacing)} apart and the hangers {say(hangers)}; hooks stand closer than hangers",
            hint="give a hook spacing of a third to a half of the frame's width",
        )
    if length <= hangers:
        raise InputError(
            f"the wire is {say(length)} long between hangers {say(hangers)} apart; it has to be longer",
            hint="measure the wire pulled up taut, hanger to hanger",
        )
    part, reach = (length - spacing) / 2, (hangers - spacing) / 2
    rise = math.sqrt(part**2 - reach**2)
    drop = down - rise
    angle = math.asin(rise / part)
    tension = tension_of(angle)
    pull = math.hypot(0.5, tension * (1 - math.cos(angle)))
    working = Working("Wire on two hooks")
    working.step("rise of the wire", "√(((wire − hooks) ÷ 2)² − ((hangers − hooks) ÷ 2)²)",
                 f"√((({say(length)} − {say(spacing)}) ÷ 2)² − (({say(hangers)} − {say(spacing)}) ÷ 2)²)", say(rise),
                 source="geometry")  # fmt: skip
    working.step(
        "top of the frame to the hooks",
        "hangers below the top − rise",
        f"{say(down)} − {say(rise)}",
        say(drop),
    )
    working.step("angle of the outer parts", "asin(rise ÷ outer part)", f"asin({say(rise)} ÷ {say(part)})",
                 format_angle(angle, digits=2), source=say.cited(ANGLE_LOW, ANGLE_HIGH))  # fmt: skip
    working.step("pull in the wire", "weight ÷ (2 sin angle)", f"1 ÷ (2 sin {format_angle(angle, digits=2)})",
                 f"{tension:.3f} × the weight", source="statics")  # fmt: skip
    working.step("pull on one hook", "√((weight ÷ 2)² + (pull × (1 − cos angle))²)",
                 f"√(0.5² + ({tension:.3f} × {1 - math.cos(angle):.3f})²)", f"{pull:.3f} × the weight",
                 source="statics, the wire sliding freely")  # fmt: skip
    notes = (
        *check_drop(drop, height, practice),
        *angle_notes(angle, hangers, spacing, length, practice),
    )
    offsets = (-spacing / 2, spacing / 2)
    return Hang("wire on two hooks", drop, offsets, angle, tension, pull, notes, working)
