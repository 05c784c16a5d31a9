"""A wire on one hook: half the wire, half the hangers' spacing and the sag make a right triangle."""

from __future__ import annotations

import math

from halfdrop.art.wire import ANGLE_HIGH, ANGLE_LOW, Hang, angle_notes, check_drop, tension_of
from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_angle
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def one_hook(height: float, down: float, hangers: float, length: float, practice: Practice) -> Hang:
    """Return how a frame hangs by its wire on one hook.

    s = d − √((L/2)² − (b/2)²), a = asin(rise ÷ (L/2)), T = W ÷ (2 sin a).

    Parameters
    ----------
    height : float
        Of the frame, F [m].
    down : float
        Hangers below the top of the frame, d [m].
    hangers : float
        Between the hangers, b [m].
    length : float
        Wire from hanger to hanger, taut, L [m]; more than `hangers`.
    practice : Practice
        `art.wire_angle_low`, `art.wire_angle_high`, `art.hook_below_top`.

    Raises
    ------
    InputError
        For a wire no longer than the hangers are apart, or a hook that would stand outside the frame.

    Source: geometry and statics, computed. Checked by: tests/art/test_wire.py, tests/published/art_wire.csv.
    """
    say = Words(practice)
    if min(height, down, hangers, length) <= 0:
        raise InputError("a frame, its hangers and its wire all measure above 0")
    if length <= hangers:
        raise InputError(
            f"the wire is {say(length)} long between hangers {say(hangers)} apart; it has to be longer",
            hint="measure the wire pulled up taut, hanger to hanger",
        )
    rise = math.sqrt((length / 2) ** 2 - (hangers / 2) ** 2)
    drop = down - rise
    angle = math.asin(rise / (length / 2))
    tension = tension_of(angle)
    working = Working("Wire on one hook")
    working.step("rise of the wire", "√((wire ÷ 2)² − (hangers ÷ 2)²)",
                 f"√(({say(length)} ÷ 2)² − ({say(hangers)} ÷ 2)²)", say(rise), source="geometry")  # fmt: skip
    working.step(
        "top of the frame to the hook",
        "hangers below the top − rise",
        f"{say(down)} − {say(rise)}",
        say(drop),
    )
    working.step("angle of the wire", "asin(rise ÷ (wire ÷ 2))", f"asin({say(rise)} ÷ {say(length / 2)})",
                 format_angle(angle, digits=2), source=say.cited(ANGLE_LOW, ANGLE_HIGH))  # fmt: skip
    working.step("pull in the wire", "weight ÷ (2 sin angle)", f"1 ÷ (2 sin {format_angle(angle, digits=2)})",
                 f"{tension:.3f} × the weight", source="statics")  # fmt: skip
    notes = (
        *check_drop(drop, height, practice),
        *angle_notes(angle, hangers, 0.0, length, practice),
    )
    return Hang("wire on one hook", drop, (0.0,), angle, tension, 1.0, notes, working)
