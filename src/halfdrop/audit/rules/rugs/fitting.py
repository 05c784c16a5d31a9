"""How a rug comes to do for what it lies under: moved, turned, changed for a made size, or layered over a base.

Each trade's rule says what is wanted (`Want`); the candidates are the same for all.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Proposal
from halfdrop.audit.moves import moved, moved_together, shifted, step
from halfdrop.audit.rules.rugs.gather import Moves
from halfdrop.audit.rules.rugs.lying import Frame, Under, bare_key, rooms_round, sides_in
from halfdrop.audit.rules.rugs.offers import added, laid_at, replaced, rug_of
from halfdrop.audit.rules.seating.together import listed
from halfdrop.geometry.plane import Array
from halfdrop.room import LyingRug
from halfdrop.rugs import Box, Laid, RugAnswer, cover, lay, layer_base, made_sizes


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
    follow : callable or None
        `follow(shape, square)`: how the furniture comes onto a rug that covers a shape of the plan, a rectangle square to
        the frame or not; each way its moves, the least first.
    """

    frame: Frame
    answer: Callable[[Box | None], RugAnswer]
    made: str = "rectangle"
    begins: float | None = None
    follow: Callable[[BaseGeometry, bool], Iterator[Moves]] | None = None


def ways_to_fit(case: RoomCase, under: Under, want: Want) -> Iterator[Proposal]:
    """Yield every way worth trying, the rug that is there before a new one."""
    free = want.answer(None)
    rooms = rooms_round(case, want.frame, free.floor)
    spots = _Spots(case, want, free, rooms)
    main = under.main
    over = [r for s in under.stacks if s.main is main for r in s.rugs if r is not main]
    yield from _moves(spots, main, over)
    yield from _turns(spots, main, over)
    if not main.model.keep:
        yield from _sizes(spots, main, over)
    elif main.model.over is None and not over:
        yield from _layers(spots, main)


@dataclass(frozen=True, eq=False)
class _Spots:
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
        return [self.free.target, self.free.floor.grown(step(self.case))]

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


def _moves(spots: _Spots, rug: LyingRug, over: list[LyingRug]) -> Iterator[Proposal]:
    """Move the rug; move the furniture onto it; or both."""
    case, frame = spots.case, spots.want.frame
    sides = sides_in(frame, rug)
    shifts: list[Array] = [np.zeros(2)]
    if sides is not None:
        near = frame.local(rug.center)
        for place in (*spots.places(*sides, near), *spots.middles(*sides)):
            by = frame.plan(place.center) - rug.center
            shifts.append(by)
            patch = moved_together(case, [rug, *over], by) if float(np.hypot(*by)) > 1e-3 else []
            if patch:
                yield Proposal("move", f"Move the {rug.name} {toward(case, by)}.", patch)
    if spots.want.follow is None:
        return
    for by in shifts[:3]:
        shape = translate(rug.footprint, *by)
        rugs = [(r, by) for r in (rug, *over)] if float(np.hypot(*by)) > 1e-3 else []
        for going in spots.want.follow(shape, sides is not None and rug.model.shape == "rectangle"):
            patch = shifted(case, [*going, *rugs])
            lead = f"Move the {rug.name} {toward(case, by)} and " if rugs else ""
            title = f"{lead}{_draw(case, going)}."
            if patch:
                yield Proposal("move", title[0].upper() + title[1:], patch)


def _draw(case: RoomCase, going: Moves) -> str:
    """Say which furniture comes in, and how far."""
    far = max(float(np.hypot(*by)) for _, by in going)
    upto = "" if len(going) == 1 else "up to "
    names = listed([t for t, _ in going]) if len(going) < 3 else "the group"
    return f"draw {names} in, {upto}{case.say(far, 'up')}"


def _turns(spots: _Spots, rug: LyingRug, over: list[LyingRug]) -> Iterator[Proposal]:
    """Turn the rug a quarter, or square to what it lies for."""
    case, frame = spots.case, spots.want.frame
    if rug.model.shape == "round" or over:
        return
    sides = sides_in(frame, rug)
    there = () if sides is None else (sides,)
    for across, along, angle in (
        (rug.width, rug.depth, frame.angle),
        (rug.depth, rug.width, frame.angle + math.pi / 2),
    ):
        if (across, along) in there:
            continue
        for place in spots.places(across, along, frame.local(rug.center)):
            center = frame.plan(place.center)
            word = "a quarter" if sides is not None else "square to it"
            yield Proposal(
                "turn",
                f"Turn the {rug.name} {word} and lay it under the middle.",
                laid_at(case, rug, center, angle),
            )


def _choices(spots: _Spots) -> Iterator[tuple[Laid, Box]]:
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


def _sizes(spots: _Spots, rug: LyingRug, over: list[LyingRug]) -> Iterator[Proposal]:
    """Lay a made size in the rug's stead; where none reaches, the largest that goes, and the furniture onto it."""
    frame = spots.want.frame
    seen: list[tuple[float, Box]] = []
    for laid, lies in _choices(spots):
        if any(a == laid.size.area and lies.covers(b, 1e-3) for a, b in seen):
            continue
        seen.append((laid.size.area, lies))
        yield _in_stead(spots, rug, over, laid, lies, None)
    if spots.want.follow is None:
        return
    for laid, lies in _largest(spots):
        for going in spots.want.follow(frame.polygon(lies), True):
            yield _in_stead(spots, rug, over, laid, lies, going)


def _largest(spots: _Spots) -> Iterator[tuple[Laid, Box]]:
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


def _in_stead(
    spots: _Spots, rug: LyingRug, over: Iterable[LyingRug], laid: Laid, lies: Box, going: Moves | None
) -> Proposal:
    case, frame = spots.case, spots.want.frame
    buy = rug_of(case, laid, frame.polygon(lies), like=rug.model)
    center = frame.plan(lies.center)
    patch = replaced(case, rug, buy, center, frame.angle)
    for top in over:
        patch += laid_at(case, top, center)
    title = f"Lay {_article(buy.name)} in place of the {rug.name}"
    if going:
        patch += shifted(case, going)
        title += f" and {_draw(case, going)}"
    return Proposal("size", title + ".", patch, buy.cost, buy.unpriced)


def _article(name: str) -> str:
    return f"an {name}" if name.startswith(("8", "11", "18")) else f"a {name}"


def _layers(spots: _Spots, rug: LyingRug) -> Iterator[Proposal]:
    """Lay the kept rug in the middle of a larger plain base; where none reaches, bring the furniture onto it too."""
    case, frame = spots.case, spots.want.frame
    shape = rug.model.shape
    center = spots.free.target.center
    ways = [(rug.width, rug.depth, frame.angle), (rug.depth, rug.width, frame.angle + math.pi / 2)]
    here = sides_in(frame, rug)
    ways.sort(key=lambda w: (w[0], w[1]) != here)  # as it lies now before turned
    for needed in (*spots.wanted, None):
        for within in spots.withins if needed is not None else spots.withins[:1]:
            for across, along, angle in ways[: 1 if shape == "round" else 2]:
                top = Box.sized(across, along, center)
                answer = layer_base(top, case.practice, needed=needed, room=within, shape=shape)
                if answer.base is None or answer.lies is None or answer.margins is None:
                    continue
                base = (answer.base, answer.lies, answer.margins)
                if needed is not None:
                    yield _layered(spots, rug, base, angle, None)
                elif spots.want.follow is not None:
                    for going in spots.want.follow(frame.polygon(answer.lies), True):
                        yield _layered(spots, rug, base, angle, going)


def _layered(
    spots: _Spots,
    rug: LyingRug,
    base: tuple[Laid, Box, tuple[float, float]],
    angle: float,
    going: Moves | None,
) -> Proposal:
    case, frame = spots.case, spots.want.frame
    laid, lies, (side, end) = base
    buy = rug_of(case, laid, frame.polygon(lies), base=True)
    center = frame.plan(lies.center)
    key, patch = added(case, buy, center, frame.angle, "base", rug.model.group)
    patch += [{"op": "add", "path": f"/{rug.path}/over", "value": key}]
    patch += laid_at(case, rug, center, angle)
    shows = case.say(side) if abs(side - end) < 1e-3 else f"{case.say(side)} and {case.say(end)}"
    title = f"Lay the {rug.name} over {_article(buy.name)}, {shows} showing"
    if going:
        patch += shifted(case, going)
        title += f"; {_draw(case, going)}"
    return Proposal("layer", title + ".", patch, buy.cost, buy.unpriced)


def away_moves(case: RoomCase, rug: LyingRug, ways: Iterable[Array]) -> Iterator[Proposal]:
    """Yield the plain moves of one rug by the given vectors [m]."""
    for by in ways:
        patch = moved(case, rug, by)
        if patch:
            yield Proposal("move", f"Move the {rug.name} {toward(case, by)}.", patch)
