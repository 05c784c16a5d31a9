"""Cuts of patterned cloth by the hand rules, each under its name."""

from collections.abc import Callable
from typing import Literal

from halfdrop.drapery.repeats.answer import CutsAnswer
from halfdrop.drapery.repeats.consecutive import consecutive
from halfdrop.drapery.repeats.per_order import per_order
from halfdrop.drapery.repeats.per_panel import per_panel
from halfdrop.drapery.repeats.plain import plain_cuts
from halfdrop.drapery.repeats.straight import straight
from halfdrop.practice import Practice

#: The rules for half-drop cloth by their name in practice (`drapery.half_drop_method`).
HALF_DROP: dict[str, Callable[[float, float, int, Practice], CutsAnswer]] = {
    "consecutive": consecutive,
    "per panel": per_panel,
    "per order": per_order,
}


def hand_cuts(
    plain: float,
    repeat: float,
    match: Literal["straight", "half-drop"] | None,
    count: int,
    practice: Practice,
    *,
    method: str | None = None,
) -> CutsAnswer:
    """Return cuts by the rule that the cloth and practice want; `method` names another for half-drop cloth."""
    if repeat <= 0 or match is None:
        return plain_cuts(plain, count, practice)
    if match == "straight":
        return straight(plain, repeat, count, practice)
    return HALF_DROP[method or practice.text("drapery.half_drop_method")](plain, repeat, count, practice)


__all__ = [
    "HALF_DROP",
    "CutsAnswer",
    "consecutive",
    "hand_cuts",
    "per_order",
    "per_panel",
    "plain_cuts",
    "straight",
]
