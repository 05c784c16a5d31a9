"""A frame on its hooks: what every way of hanging answers, and the checks they share."""

from __future__ import annotations

import math
from dataclasses import dataclass

from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_angle
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

BELOW_TOP = "art.hook_below_top"
ANGLE_LOW, ANGLE_HIGH = "art.wire_angle_low", "art.wire_angle_high"

#: A wire flatter than this pulls with over 57 times the weight [rad]; nothing holds that.
FLATTEST = math.radians(0.5)


@dataclass(frozen=True)
class Hang:
    """How a frame hangs.

    Attributes
    ----------
    method : str
        The method by name.
    drop : float
        From the top of the frame down to where it hangs on its hooks [m].
    offsets : tuple of float
        Each hook from the upright middle of the frame, to the right [m]; the same list mirrored.
    angle : float or None
        Of the wire at the hangers, above the level [rad]; None without a wire, or where it was not measured.
    tension : float or None
        Pull in the wire ÷ weight of the work; None as `angle`.
    pull : float
        Pull on one hook ÷ weight of the work, wire and all.
    notes : tuple of str
        What to know.
    working : Working
        The steps.
    """

    method: str
    drop: float
    offsets: tuple[float, ...]
    angle: float | None
    tension: float | None
    pull: float
    notes: tuple[str, ...]
    working: Working


def tension_of(angle: float) -> float:
    """Return the pull in each half of a wire ÷ the weight: 1 ÷ (2 sin angle).

    Parameters
    ----------
    angle : float
        Above the level, at the hangers [rad]; 0.5° to 90°.

    Raises
    ------
    InputError
        For an angle outside that.

    Source: statics; each half carries half the weight upright. Checked by: tests/art/test_wire.py, tests/published/art_wire.csv.
    """
    if not FLATTEST <= angle <= math.pi / 2 + 1e-12:
        raise InputError(
            f"the wire stands at {format_angle(angle)}; allowed is 0.5° to 90°",
            hint="take a longer wire; 30° to 60° is usual",
        )
    return 1 / (2 * math.sin(angle))


def length_for(angle: float, hangers: float, spacing: float = 0.0) -> float:
    """Return the wire that stands at an angle on its hooks [m], hanger to hanger.

    Parameters
    ----------
    angle : float
        Above the level [rad]; above 0, below 90°.
    hangers : float
        Between the two hangers [m].
    spacing : float
        Between two hooks [m]; 0 for one.

    Source: geometry. Checked by: tests/art/test_wire.py.
    """
    return spacing + (hangers - spacing) / math.cos(angle)


def check_drop(drop: float, height: float, practice: Practice) -> tuple[str, ...]:
    """Refuse a hook that stands outside the frame; say where it would show.

    Raises
    ------
    InputError
        Where the frame would hang below its hook, or the hook below the frame.
    """
    say = Words(practice)
    if not 0 <= drop < height:
        where = f"{say(-drop)} above the top" if drop < 0 else f"{say(drop)} below the top"
        raise InputError(
            f"the hook would be {where} of a frame {say(height)} high; it has to be behind the frame",
            hint="shorten the wire, or set the hangers lower",
        )
    least = float(practice.length(BELOW_TOP))
    if drop < least - 1e-9:
        return (
            f"The wire comes to {say(drop)} below the top of the frame; wanted {say(least)}, or the hook shows.",
        )
    return ()


def angle_notes(
    angle: float, hangers: float, spacing: float, length: float, practice: Practice
) -> tuple[str, ...]:
    """Say where the wire is flatter or steeper than wanted, and how long a wire would do."""
    low, high = float(practice.angle(ANGLE_LOW)), float(practice.angle(ANGLE_HIGH))
    if low - 1e-9 <= angle <= high + 1e-9:
        return ()
    say = Words(practice)
    aim, why = (low, "flatter, it pulls harder") if angle < low else (high, "steeper, the frame tips forward")
    return (
        f"The wire of {say(length)} stands at {format_angle(angle)}; wanted {format_angle(low)} to {format_angle(high)}. "
        f"A wire of {say(length_for(aim, hangers, spacing))} stands at {format_angle(aim)}; {why}.",
    )
