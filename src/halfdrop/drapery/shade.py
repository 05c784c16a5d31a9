"""A roman or roller shade at its opening: its width, its length, how far it gathers when raised."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.working import Working
from halfdrop.drapery.run import Run
from halfdrop.drapery.shades import inside_width, roller_inside, roller_outside, roman_flat
from halfdrop.job.treatments import Treatment
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_PAST, _TUBE = "drapery.shade_overlap", "drapery.roller_tube"


@dataclass(frozen=True)
class Shade:
    """A shade.

    Attributes
    ----------
    width : float
        Finished; of a roller the width that is ordered [m].
    cloth : float
        Of the cloth as it hangs [m]; a roller's is narrower than what is ordered inside an opening.
    length, top : float
        From its top to its hem, lowered; its top above the floor [m].
    stack : float
        From its top to its hem, raised [m].
    folds : int
        Full folds of a roman; 0 of a roller.
    fits : bool
        Whether the opening takes it inside: square and deep enough as far as that was taped.
    working : Working
        The steps.
    """

    width: float
    cloth: float
    length: float
    top: float
    stack: float
    folds: int
    fits: bool
    working: Working


def shade_of(treatment: Treatment, run: Run, height: float, practice: Practice) -> Shade:
    """Return a shade as its opening takes it.

    Inside, the smallest of the widths taped counts; outside, it goes past the opening on each side, and above it where no height
    is given.

    Parameters
    ----------
    treatment : Treatment
        A roman or a roller.
    run : Run
        Its openings as one.
    height : float
        Top of the hardware where the document gives it [m above the floor].
    practice : Practice
        `drapery.shade_`, `drapery.roman_`, `drapery.roller_` values.

    Raises
    ------
    InputError
        Where the opening leaves it no width, or a roman no fold.

    Source: common practice; each value's own. Checked by: tests/drapery/test_shade.py.
    """
    say, past = Words(practice), float(practice.length(_PAST))
    inside = treatment.mount == "inside"
    placed = treatment.hardware.height is not None or treatment.mount == "ceiling"
    top = run.head if inside else height if placed else run.head + past
    length = top - run.sill
    working = Working(f"{treatment.kind.capitalize()} shade")
    if treatment.kind == "roller":
        widths = _widths(treatment, run)
        found = (
            roller_inside(widths, practice, depth=_depth(treatment))
            if inside
            else roller_outside(run.width, practice)
        )
        working.steps.extend(found.working.steps)
        working.step("length", "top − sill", f"{say(top)} − {say(run.sill)}", say(length))
        return Shade(
            found.ordered, found.cloth, length, top, float(practice.length(_TUBE)), 0, found.fits, working
        )
    if inside:
        room = inside_width(_widths(treatment, run), practice, depth=_depth(treatment))
        width, fits = room.width, room.square and room.deep
        working.steps.extend(room.working.steps)
    else:
        width, fits = run.width + 2 * past, True
        working.step("width", "opening + 2 × past it", f"{say(run.width)} + 2 × {say(past)}", say(width),
                     source=say.cited(_PAST))  # fmt: skip
    working.step("length", "top − sill", f"{say(top)} − {say(run.sill)}", say(length))
    roman = roman_flat(width, length, practice)
    working.steps.extend(roman.working.steps)
    return Shade(width, width, length, top, roman.stack, roman.folds, fits, working)


def _widths(treatment: Treatment, run: Run) -> Sequence[float]:
    taped = treatment.measured.width
    return [run.width] if taped is None else [float(taped.top), float(taped.middle), float(taped.bottom)]


def _depth(treatment: Treatment) -> float | None:
    return None if treatment.measured.depth is None else float(treatment.measured.depth)
