"""Where a rug would lie for what is wanted of it, and which made sizes do."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.moves import step
from halfdrop.audit.rules.rugs.free import bare_key
from halfdrop.audit.rules.rugs.gather import Moves
from halfdrop.audit.rules.rugs.lying import Frame
from halfdrop.geometry.plane import Array
from halfdrop.rugs import Box, Laid, RugAnswer, cover, lay, made_sizes


@dataclass(frozen=True, eq=False)
class Want:
    """What a rug is wanted for.

    Attributes
    ----------
    frame : Frame
        What the rug lies square to.
    answer : callable
        The trade's calculator: `answer(room)`, the room a box of the frame or None.
    made : "rectangle" or "round"
        In which sizes the rug is made.
    begins : float or None
        Where the rug begins along the frame: beyond a bed's nightstands [m].
    least : Box or None
        What the rule itself holds the rug to, where that is less than the calculator's least: in the frame [m].
    follow : callable or None
        `follow(shape, square)`: how the furniture comes onto a rug that covers a shape of the plan, a rectangle square to
        the frame or not; each way its moves, the least first.
    """

    frame: Frame
    answer: Callable[[Box | None], RugAnswer]
    made: str = "rectangle"
    begins: float | None = None
    least: Box | None = None
    follow: Callable[[BaseGeometry, bool], Iterator[Moves]] | None = None


@dataclass(frozen=True, eq=False)
class Spots:
    """Where a rug would lie for what is wanted."""

    case: RoomCase
    want: Want
    free: RugAnswer
    rooms: list[Box]

    @property
    def withins(self) -> list[Box]:
        """Where a rug may lie: each room less its least bare floor."""
        bare, begins = self.case.length(bare_key(self.case)), self.want.begins
        inner = [room.grown(-bare) for room in self.rooms]
        return inner if begins is None else [Box(r.x0, max(r.y0, begins), r.x1, r.y1) for r in inner]

    @property
    def wanted(self) -> list[Box]:
        """What it covers: as aimed for, and the least with half a step to spare for rounding."""
        slack = step(self.case)
        least = [] if self.want.least is None else [self.want.least.grown(slack)]
        return [self.free.target, self.free.floor.grown(slack), *least]

    def places(self, across: float, along: float, near: tuple[float, float] | None = None) -> Iterator[Box]:
        """Yield where a rug of this size covers what is wanted, as near to a point as it can; careful places first."""
        seen: list[Box] = []
        for within in (*self.withins, None):
            for wanted in self.wanted:
                place = lay(wanted, across, along, within, near)
                if place is not None and not any(place.covers(s, 1e-3) for s in seen):
                    seen.append(place)
                    yield place

    def middles(self, across: float, along: float) -> Iterator[Box]:
        """Yield where a rug of this size lies in the midst of what is wanted without covering it, two places at most."""
        x, y = self.free.target.center
        seen: list[Box] = []
        for within in self.withins[:2]:
            place = lay(Box(x, y, x, y), across, along, within, (x, y))
            if place is not None and not any(place.covers(s, 1e-3) for s in seen):
                seen.append(place)
                yield place


def toward(case: RoomCase, by: Array) -> str:
    """Say a plan vector as a person sets it out: `8 in toward wall CD and 3 in toward wall BC`."""
    left = np.asarray(by, dtype=float)
    said = []
    for _ in range(2):
        if float(np.hypot(*left)) < step(case):
            break
        wall = max(case.room.walls, key=lambda w: (round(float(-w.inward @ left), 6), w.name))
        much = float(-wall.inward @ left)
        said.append(f"{case.say(much)} toward {case.wall_name(wall)}")
        left = left + much * wall.inward
    return " and ".join(said) or case.say(0.0)


def choices(spots: Spots) -> Iterator[tuple[Laid, Box]]:
    """Yield made sizes that do, and where they lie: the calculator's in each room, then the next that go."""
    case, want = spots.case, spots.want
    sizes = made_sizes(case.practice, "round" if want.made == "round" else "rectangle")
    for room in spots.rooms:
        answer = want.answer(room)
        if answer.laid is not None and answer.lies is not None:
            yield answer.laid, answer.lies
    for within in spots.withins:
        for wanted in spots.wanted:
            left = list(sizes)
            while left:
                found = cover(wanted, left, within, wanted.center)
                if found is None:
                    break
                yield found
                left = [s for s in left if s.area > found[0].size.area + 1e-6]


def largest(spots: Spots) -> Iterator[tuple[Laid, Box]]:
    """Yield made sizes that lie in the midst of what is wanted, the largest first, four at most."""
    sizes = sorted(made_sizes(spots.case.practice), key=lambda s: -s.area)
    found = 0
    for size in sizes:
        for across, along in dict.fromkeys(((size.width, size.length), (size.length, size.width))):
            for place in list(spots.middles(across, along))[:1]:
                yield Laid(size, across, along), place
                found += 1
        if found >= 4:
            return


def article(name: str) -> str:
    return f"an {name}" if name.startswith(("8", "11", "18")) else f"a {name}"
