"""The two numbers a person needs for each hook: from a fixed edge, and from the floor."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from halfdrop.art.rect import Rect
from halfdrop.art.wire import Hang
from halfdrop.base.errors import InputError
from halfdrop.base.formats import steps
from halfdrop.base.units import INCH
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Edge = Literal["left", "right"]


@dataclass(frozen=True)
class HookPoint:
    """Where one hook bears.

    Attributes
    ----------
    name : str
        Of the work, with `left` or `right` where it has two.
    x, y : float
        From the wall's left end and above the floor [m].
    """

    name: str
    x: float
    y: float


@dataclass(frozen=True)
class TwoNumbers:
    """One hook as it is set out.

    Attributes
    ----------
    name : str
        Of the hook.
    from_edge, from_floor : float
        Rounded to what is printed [m].
    said_edge, said_floor : str
        The same, in inches to 1/16 or centimeters to the millimeter.
    """

    name: str
    from_edge: float
    from_floor: float
    said_edge: str
    said_floor: str


def hook_points(name: str, frame: Rect, hang: Hang) -> tuple[HookPoint, ...]:
    """Return where the hooks of a frame bear, from left to right.

    Raises
    ------
    InputError
        Where one would stand outside the frame.

    Source: geometry. Checked by: tests/art/test_wire.py.
    """
    middle, y = frame.center[0], frame.y1 - hang.drop
    sides = ("",) if len(hang.offsets) == 1 else (" left", " right")
    points = tuple(HookPoint(name + s, middle + o, y) for s, o in zip(sides, hang.offsets, strict=True))
    for point in points:
        if not frame.holds(point.x, point.y):
            raise InputError(
                f"the hook of `{point.name}` would be outside its frame", hint="set the hooks closer"
            )
    return points


def two_numbers(
    points: tuple[HookPoint, ...],
    practice: Practice,
    *,
    edge: Edge = "left",
    wall: float | None = None,
    of: str = "wall",
) -> tuple[tuple[TwoNumbers, ...], Working]:
    """Return the two numbers of each hook, rounded once.

    Parameters
    ----------
    points : tuple of HookPoint
        The hooks.
    practice : Practice
        Its set decides the units: 1/16 in or 1 mm.
    edge : {"left", "right"}
        The end of the wall that is taped from.
    wall : float, optional
        Width of the wall [m]; needed from the right.
    of : str
        What is taped along instead of the wall, such as "sofa"; `wall` is then its width, and x runs from its left end.

    Raises
    ------
    InputError
        From the right without the wall's width.

    Source: setting-out from one fixed edge: common practice. Checked by: tests/art/test_wire.py.
    """
    if edge == "right" and wall is None:
        raise InputError(
            f"numbers from the right need the width of the {of}",
            hint="give `--wall-width`, or tape from the left",
        )
    say = Words(practice)
    step = INCH / 16 if say.units == "imperial" else 0.001
    finest = "1/16 in" if say.units == "imperial" else "1 mm"
    working = Working("Setting-out of the hooks")
    found = []
    for point in points:
        x = point.x if edge == "left" or wall is None else wall - point.x
        numbers = TwoNumbers(point.name, _rounded(x, step), _rounded(point.y, step), say(x), say(point.y))
        found.append(numbers)
        working.step(point.name, f"from the {edge} end of the {of}; from the floor", f"{x:.4f} m; {point.y:.4f} m",
                     f"{numbers.said_edge}; {numbers.said_floor}",
                     rounding=f"to the nearest {finest}, once, at the end")  # fmt: skip
    return tuple(found), working


def _rounded(x: float, step: float) -> float:
    size = Fraction(step).limit_denominator(10**7)
    return float(steps(x, size) * size)
