"""The pad under a rug: smaller all round, as thick as pile and door allow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import at_most
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_INSET, _THICK, _THIN = "rugs.pad_inset", "rugs.pad_thickness", "rugs.pad_thin"
_DOOR, _FLAT = "rugs.door_over_rug", "rugs.flat_weave_pile"


@dataclass(frozen=True)
class PadAnswer:
    """The pad for a rug.

    Attributes
    ----------
    width, length : float
        Its size; for a round or oval rug the pad is cut to the rug's shape [m].
    thickness : float
        Uncompressed [m].
    kind : {"felt", "grip"}
        Felt under pile, grip under a flat weave or a door.
    door_short : float
        How much the door leaf is short of clearing rug and pad even so [m]; 0 where it clears.
    working : Working
        The steps.
    """

    width: float
    length: float
    thickness: float
    kind: Literal["felt", "grip"]
    door_short: float
    working: Working


def pad_for(
    width: float,
    length: float,
    practice: Practice,
    *,
    pile: float | None = None,
    undercut: float | None = None,
    inset: float | None = None,
) -> PadAnswer:
    """Return the pad a rug wants.

    Parameters
    ----------
    width, length : float
        The rug's actual size [m].
    practice : Practice
        `rugs.pad_inset`, `rugs.pad_thickness`, `rugs.pad_thin`, `rugs.door_over_rug`, `rugs.flat_weave_pile`,
        `rugs.pile_default`.
    pile : float, optional
        Thickness of the rug [m]; by default `rugs.pile_default`.
    undercut : float, optional
        Floor to the underside of the door leaf that swings over the rug [m]; None where none does.
    inset : float, optional
        Pad smaller than the rug, each side [m]; by default practice's.

    Raises
    ------
    InputError
        Where the rug is not wider than twice the inset.

    Source: common practice, from memory: 1/8 in grip under flat weave or door, 1/4 to 3/8 in felt under pile.

    Checked by: tests/rugs/test_pad.py.
    """
    say = Words(practice)
    edge = float(practice.length(_INSET)) if inset is None else inset
    if min(width, length) <= 2 * edge:
        raise InputError(
            f"a rug of {say.pair(width, length)} takes no pad {say(edge)} smaller on each side",
            hint="give the pad a smaller inset",
        )
    working = Working("Pad under the rug")
    working.step("size", "rug − 2 × inset", f"{say.pair(width, length)} − 2 × {say(edge)}",
                 say.pair(width - 2 * edge, length - 2 * edge),
                 source=say.cited(_INSET) if inset is None else "inset as chosen")  # fmt: skip
    height = float(practice.length("rugs.pile_default")) if pile is None else pile
    thick, thin = practice.length(_THICK), practice.length(_THIN)
    flat = at_most(height, practice.length(_FLAT))
    thickness, short = (thin if flat else thick), 0.0
    why = "flat weave" if flat else "pile"
    working.step("thickness by the rug", "grip under a flat weave, felt under pile",
                 f"rug {say(height)}, flat up to {say(practice.length(_FLAT))}",
                 f"{say(thickness)}: {why}", source=say.cited(_FLAT, _THIN if flat else _THICK))  # fmt: skip
    if undercut is not None:
        left = undercut - practice.length(_DOOR) - height
        if not at_most(thickness, left):
            thickness = thin
            short = 0.0 if at_most(thin, left) else float(thin) - left
        sum_ = f"{say(undercut)} − {say(practice.length(_DOOR))} − {say(height)}"
        says = f"{say(thickness)} goes" if not short else f"the door is {say(short)} short"
        working.step("room under the door", "undercut − clearance − rug", sum_, f"{say(left)}: {says}",
                     source=say.cited(_DOOR))  # fmt: skip
    kind: Literal["felt", "grip"] = "felt" if thickness > thin else "grip"
    return PadAnswer(width - 2 * edge, length - 2 * edge, float(thickness), kind, short, working)
