"""Whether a box passes a door, a corridor, a turn, a stair, a lift; in which pose, with how much to spare.

Each station is judged by itself: the pose may change between two of them. Hand room is kept free on each side
and above. An answer errs to the safe side: a pose counts only when it is shown to pass, and nothing is
rounded in favor of it.

Not judged: a piece lifted over a handrail; a half turn at a landing other than as a quarter turn; parts that
give.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from halfdrop.base.formats import Units, format_angle, format_length
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.geometry.corner_turn import longest_round_turn
from halfdrop.geometry.least_width import least_width
from halfdrop.geometry.plane import Array, rectangle
from halfdrop.geometry.poses import Box, Pose, level_poses, tilted_poses


@dataclass(frozen=True)
class Sum:
    """One line of a working before it is printed: lengths [m] (or `{n:angle}` angles [rad]) in a template."""

    what: str
    formula: str
    template: str
    values: tuple[float, ...]
    result: float


@dataclass(frozen=True)
class Answer:
    """Whether a box passes, by its best pose.

    Attributes
    ----------
    pose : str
        How it is carried: "upright, end first".
    measure : str
        The measure that binds: "clear width", "clear height", "length round the turn", …
    needs, has : float
        What it needs there, hand room included, and what there is [m].
    sums : tuple of Sum
        How `needs` and `has` came about.
    """

    pose: str
    measure: str
    needs: float
    has: float
    sums: tuple[Sum, ...] = field(default=())

    @property
    def spare(self) -> float:
        """What is left over [m]; negative where it does not pass."""
        return self.has - self.needs

    @property
    def passes(self) -> bool:
        """Whether it passes; exactly at the limit it does."""
        return at_least(self.has, self.needs)

    def working(self, title: str, units: Units) -> Working:
        """Return the working, in the job's units: needs rounded up, what there is rounded down."""
        working = Working(title)
        for s in self.sums:
            printed = [format_length(v, units) for v in s.values]
            angles = [format_angle(v) for v in s.values]
            values = s.template
            for i, (length, angle) in enumerate(zip(printed, angles, strict=True)):
                values = values.replace(f"{{{i}:angle}}", angle).replace(f"{{{i}}}", length)
            working.step(s.what, s.formula, values, format_length(s.result, units, round_to="up"))
        there = format_length(self.has, units, round_to="down")
        needed = format_length(self.needs, units, round_to="up")
        working.step(
            self.measure,
            "there is − needs",
            f"{there} − {needed}",
            format_length(self.spare, units, round_to="down"),
            rounding="down: rounding never lets a piece pass",
        )
        return working


def best(answers: Iterable[Answer]) -> Answer:
    """Return the answer with most to spare, the first where several are alike."""
    return max(answers, key=lambda a: round(a.spare, 9))


def worst(answers: Iterable[Answer]) -> Answer:
    """Return the answer with least to spare, the first where several are alike."""
    return min(answers, key=lambda a: round(a.spare, 9))


def _named(face: str, turn: float) -> str:
    """Return what the pose is called when the leading face is turned by `turn` [rad] about the line of
    travel."""
    level, on_side = _FACES[face]
    if min(turn, math.pi - turn) < 1e-6:
        return level
    if abs(turn - math.pi / 2) < 1e-6:
        return on_side
    return f"{level.partition(', ')[2]}, tilted {min(math.degrees(turn), 180 - math.degrees(turn)):.0f}°"


#: What the two square turns of a face are called, by the dimension that leads.
_FACES = {
    "width": ("upright, end first", "on its back, end first"),
    "depth": ("upright, front first", "on end, front first"),
    "height": ("on its back, top first", "on end, top first"),
}


def _width(pose: str, need: float, has: float, hand: float) -> Answer:
    line = Sum(
        "width needed", "least width across + 2 × hand room", "{0} + 2 × {1}", (need, hand), need + 2 * hand
    )
    return Answer(pose, "clear width", need + 2 * hand, has, (line,))


def _height(pose: str, need: float, has: float, hand: float) -> Answer:
    line = Sum("height needed", "least height + hand room", "{0} + {1}", (need, hand), need + hand)
    return Answer(pose, "clear height", need + hand, has, (line,))


def _level(pose: Pose, width: float, height: float, hand: float) -> Answer:
    """Judge a level pose in a way of this width and height."""
    return worst((_width(pose.name, pose.across, width, hand), _height(pose.name, pose.up, height, hand)))


def _through(shape: Array, face: str, width: float, height: float, hand: float) -> Answer:
    """Judge a face in an opening, turned about its line of travel as is best."""
    found = least_width(shape, height - hand) if height > hand else None
    if found is not None:
        return _width(_named(face, found[1]), found[0], width, hand)
    flipped = least_width(shape[:, ::-1], width - 2 * hand) if width > 2 * hand else None
    if flipped is not None:
        return _height(_named(face, (math.pi - flipped[1]) % math.pi), flipped[0], height, hand)
    return _height(_named(face, 0.0), float(np.ptp(shape[:, 1])), height, hand)


@lru_cache(maxsize=4096)
def pass_door(box: Box, width: float, height: float, *, hand: float = 0.0) -> Answer:
    """Judge a door or any opening: one face of the box goes through it, turned about the line of travel.

    Parameters
    ----------
    box : Box
        What is carried.
    width, height : float
        Clear opening [m].
    hand : float
        Hand room on each side and above [m].

    Source: a box passes an opening when one of its faces fits into it; the sofa's slanted side is the trade's
    diagonal depth (common practice, no source).
    Checked by: tests/geometry/test_passing.py.
    """
    if box.upright_only:
        return best(_level(pose, width, height, hand) for pose in level_poses(box))
    return best(_through(box.side(face), face, width, height, hand) for face in _FACES)


@lru_cache(maxsize=4096)
def pass_corridor(box: Box, width: float, height: float, *, hand: float = 0.0) -> Answer:
    """Judge a straight corridor `width` wide and `height` high [m]: carried level, in any of six poses."""
    return best(_level(pose, width, height, hand) for pose in level_poses(box))


def _rounding(pose: Pose, a: float, b: float, height: float, hand: float) -> Iterator[Answer]:
    """Yield the ways a pose gets round a turn: slid along one way and sideways into the other, or turned."""
    up = _height(pose.name, pose.up, height, hand)
    name = f"{pose.name}, not turned"
    for first, second in ((pose.across, pose.along), (pose.along, pose.across)):
        yield worst((_width(name, first, a, hand), _width(name, second, b, hand), up))
    free_a, free_b = a - 2 * hand, b - 2 * hand
    long, short = max(pose.along, pose.across), min(pose.along, pose.across)
    if min(free_a, free_b) <= 0 or short > min(free_a, free_b):
        return
    length, angle = longest_round_turn(free_a, free_b, short)
    line = Sum(
        "longest that goes round",
        "least over α of a / sin α + b / cos α − d / (sin α · cos α), ways less 2 × hand room",
        "{0} / sin {3:angle} + {1} / cos {3:angle} − {2} / (sin {3:angle} · cos {3:angle})",
        (free_a, free_b, short, angle),
        length,
    )
    yield worst((Answer(pose.name, "length round the turn", long, length, (line,)), up))


@lru_cache(maxsize=4096)
def pass_turn(box: Box, a: float, b: float, height: float, *, hand: float = 0.0) -> Answer:
    """Judge a right-angled turn from a way `a` wide into one `b` wide, both `height` high [m].

    Each of the box's six level poses, and those with one end raised as far as the height allows, is a
    rectangle on the plan that is turned round the corner (`longest_round_turn`) or slid sideways into the
    second way.

    Source: the ladder problem with a depth, worked out in `corner_turn`.

    Checked by: tests/geometry/test_passing.py (the ladder problem, sweeps, monotone in every measure).
    """
    poses = tilted_poses(box, height - hand) if height > hand else level_poses(box)
    return best(answer for pose in poses for answer in _rounding(pose, a, b, height, hand))


@lru_cache(maxsize=4096)
def pass_stairs(
    box: Box, width: float, headroom: float, pitch: float, landing: float | None = None, *, hand: float = 0.0
) -> Answer:
    """Judge a stair: carried along its slope, then round its landing where there is one.

    Parameters
    ----------
    width, headroom : float
        Clear width; headroom upright above the nosings [m].
    pitch : float
        Slope of the stair [rad], 0 to less than π/2; square to it the headroom is `headroom` · cos(pitch).
    landing : float, optional
        Depth of the landing where the stair turns [m]; judged as a quarter turn from `width` into it.
    hand : float
        Hand room [m].
    """
    if not 0 <= pitch < math.pi / 2:
        raise ValueError(f"a stair pitched {math.degrees(pitch):.0f}°: 0° to less than 90° is allowed")
    square = headroom * math.cos(pitch)
    flight = best(_level(pose, width, square, hand) for pose in level_poses(box))
    if flight.measure == "clear height":
        line = Sum(
            "headroom square to the slope",
            "headroom × cos pitch",
            "{0} × cos {1:angle}",
            (headroom, pitch),
            square,
        )
        flight = Answer(
            flight.pose, "headroom square to the slope", flight.needs, flight.has, (*flight.sums, line)
        )
    if landing is None:
        return flight
    turn = pass_turn(box, width, landing, headroom, hand=hand)
    return worst((flight, Answer(turn.pose, f"landing: {turn.measure}", turn.needs, turn.has, turn.sums)))


@lru_cache(maxsize=4096)
def pass_lift(
    box: Box, width: float, height: float, car: tuple[float, float, float], *, hand: float = 0.0
) -> Answer:
    """Judge a lift: through its door, then inside its car, level, on end, leaning, or from corner to corner.

    Parameters
    ----------
    width, height : float
        Clear opening of the lift's door [m].
    car : tuple of float
        Width, depth and height inside the car [m].
    hand : float
        Hand room on each side and above [m].
    """
    door = pass_door(box, width, height, hand=hand)
    return worst(
        (door, best(_in_car(pose, car, hand) for pose in tilted_poses(box, max(car[2] - hand, 1e-6))))
    )


def _in_car(pose: Pose, car: tuple[float, float, float], hand: float) -> Answer:
    up = _height(pose.name, pose.up, car[2], hand)
    floor = rectangle(pose.along, pose.across)
    found = least_width(floor, car[1] - 2 * hand) if car[1] > 2 * hand else None
    if found is None:
        need = min(pose.along, pose.across)
        depth = Answer(pose.name, "car depth", need + 2 * hand, car[1])
        return worst((depth, up)) if not depth.passes else depth
    turn = min(found[1], math.pi - found[1])
    corner = min(turn, abs(math.pi / 2 - turn)) > 1e-6
    wide = _width(f"{pose.name}, corner to corner" if corner else pose.name, found[0], car[0], hand)
    return worst((Answer(wide.pose, "car width", wide.needs, wide.has, wide.sums), up))


def can_be_raised(box: Box, ceiling: float, *, hand: float = 0.0) -> Answer:
    """Judge whether a piece carried in lying can be stood up under a ceiling [m], over its shorter foot
    edge."""
    base = min(box.width, box.depth)
    needs = math.hypot(box.height, base)
    line = Sum(
        "swing as it is stood up", "√(height² + shorter base²) + hand room", "√({0}² + {1}²) + {2}",
        (box.height, base, hand), needs + hand,
    )  # fmt: skip
    return Answer("stood up", "ceiling height", needs + hand, ceiling, (line,))
