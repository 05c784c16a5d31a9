"""The area method: wall area over the usable yield of a single roll. It can run a roll short; strips cannot."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_BANDS = (
    (6 * 0.0254, "walls.yield_to_6"), (12 * 0.0254, "walls.yield_to_12"),
    (18 * 0.0254, "walls.yield_to_18"), (math.inf, "walls.yield_to_23"),
)  # fmt: skip


@dataclass(frozen=True)
class AreaMethodAnswer:
    """Rolls by the area method.

    Attributes
    ----------
    gross, net : float
        Wall area before and after openings [m²].
    singles_exact : float
        Area over yield, not rounded.
    singles : int
        Single rolls, up to a whole roll as sold.
    rolls : int
        Rolls as sold.
    """

    gross: float
    net: float
    singles_exact: float
    singles: int
    rolls: int
    working: Working


def yield_key(repeat: float) -> str:
    """Return the practice key of a single roll's usable yield at a repeat [m]."""
    return next(key for most, key in _BANDS if repeat <= most + 1e-6)


def area_method(
    run: float,
    height: float,
    practice: Practice,
    *,
    deduct: float = 0.0,
    repeat: float = 0.0,
    usable: float | None = None,
    singles_per_roll: int = 2,
) -> AreaMethodAnswer:
    """Return the rolls a room wants by area.

    Parameters
    ----------
    run, height : float
        Wall lengths together and height [m].
    practice : Practice
        `walls.yield_to_6` … `walls.yield_to_23`.
    deduct : float
        Area of the openings [m²].
    repeat : float
        Vertical repeat [m]; decides the yield where `usable` is not given.
    usable : float, optional
        Usable area of a single roll [m²].
    singles_per_roll : int
        How many singles a roll as sold holds: 1, 2 (double) or 3 (triple).

    Source: common practice, a maker's method. It counts area, not strips: where strips leave a long end on every
    roll, or the match wastes more than the table, it is short.

    Checked by: tests/walls/test_area_method.py.
    """
    say = Words(practice)
    working = Working("Paper by area")
    gross = run * height
    net = max(gross - deduct, 0.0)
    working.step("walls", "run × height", f"{say(run)} × {say(height)}", say.area(gross))
    if deduct:
        working.step(
            "less openings", "walls − openings", f"{say.area(gross)} − {say.area(deduct)}", say.area(net)
        )
    key = yield_key(repeat)
    each = practice.area(key) if usable is None else usable
    exact = net / each
    singles = math.ceil(exact - 1e-9)
    rolls = -(-singles // singles_per_roll)
    working.step(
        "single rolls", "area / usable yield", f"{say.area(net)} / {say.area(each)}", f"{exact:.2f}",
        source=say.cited(key) if usable is None else "yield as given",
    )  # fmt: skip
    working.step(
        "rolls as sold", f"ceil(singles / {singles_per_roll})", f"ceil({singles} / {singles_per_roll})", str(rolls),
        rounding="up to a whole roll as sold", source="common practice, no source",
    )  # fmt: skip
    return AreaMethodAnswer(gross, net, exact, rolls * singles_per_roll, rolls, working)
