"""How a rug comes to do for what it lies under: moved, turned, changed for a made size, or layered over a base.

Each trade's rule says what is wanted (`Want`); the candidates are the same for all.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np
from shapely.affinity import translate

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Proposal
from halfdrop.audit.moves import moved_together, shifted, step
from halfdrop.audit.rules.rugs.free import rooms_round
from halfdrop.audit.rules.rugs.gather import Moves
from halfdrop.audit.rules.rugs.lying import Owner, Under, owner_of, owner_pieces, sides_in, stacks
from halfdrop.audit.rules.rugs.offers import added, laid_at, replaced, rug_of
from halfdrop.audit.rules.rugs.spots import Spots, Want, article, choices, largest, toward
from halfdrop.audit.rules.seating.together import listed
from halfdrop.base.working import Working
from halfdrop.geometry.plane import Array
from halfdrop.job.model import Rug
from halfdrop.room import LyingRug
from halfdrop.rugs import Box, Laid, layer_base

#: The farthest furniture is brought to a rug that stays: a small move, or the rug is the wrong one [m].
SMALL = 0.6


def ways_to_fit(case: RoomCase, under: Under, want: Want) -> Iterator[Proposal]:
    """Yield every way worth trying, the rug that is there before a new one."""
    spots = spots_of(case, want, under.owner)
    main = under.main
    over = [r for s in under.stacks if s.main is main for r in s.rugs if r is not main]
    yield from _moves(spots, main, over)
    yield from _turns(spots, main, over)
    if not main.model.keep:
        yield from _sizes(spots, main, over)
    elif main.model.over is None and not over:
        yield from _layers(spots, main)


def workings_to_fit(case: RoomCase, under: Under, want: Want) -> Iterator[Working]:
    """Yield how the size wanted came about and, for a kept rug, which bases were tried under it and why each does not do."""
    spots, main = spots_of(case, want, under.owner), under.main
    yield _standing(want.answer(spots.rooms[0] if spots.rooms else None).working)
    if main.model.keep and main.model.over is None and all(r is main for s in under.stacks for r in s.rugs):
        across, along = sides_in(want.frame, main) or (main.width, main.depth)
        top = Box.sized(across, along, spots.free.target.center)
        within = spots.withins[0] if spots.withins else None
        base = layer_base(top, case.practice, needed=spots.wanted[-1], room=within, shape=main.model.shape)
        yield _standing(base.working)


def _standing(working: Working) -> Working:
    """Say in a working's title that no piece is moved in it; a remedy may draw the furniture in as well."""
    return replace(working, title=f"{working.title}, as the furniture stands")


def new_rugs(
    case: RoomCase, owner: Owner, want: Want, what: str, like: Rug | None = None
) -> Iterator[Proposal]:
    """Yield made sizes to lay under what has no rug yet; where none reaches, with the furniture drawn onto it."""
    spots, frame = spots_of(case, want, owner), want.frame

    def laid(size: Laid, lies: Box, going: Moves | None) -> Proposal:
        buy = rug_of(case, size, frame.polygon(lies), like=like)
        _, patch = added(
            case, buy, frame.plan(lies.center), frame.angle, "rug", owner_pieces(owner)[0].model.group
        )
        title = f"Lay {article(buy.name)} under {what}"
        if going:
            patch += shifted(case, going)
            title += f" and {_draw(case, going)}"
        return Proposal("add", title + ".", patch, buy.cost, buy.unpriced)

    for size, lies in choices(spots):
        yield laid(size, lies, None)
    if want.follow is not None:
        for size, lies in largest(spots):
            for going in want.follow(frame.polygon(lies), True):
                yield laid(size, lies, going)


def spots_of(case: RoomCase, want: Want, owner: Owner) -> Spots:
    """Return where a rug may lie for a group, a table or a bed, clear of the rugs of the others by the gap practice wants."""
    free = want.answer(None)
    gap = case.length("rugs.coordinate_gap")
    mine = owner_pieces(owner)[0].id
    others = []
    for stack in stacks(case):
        theirs = owner_of(case, stack)
        if theirs is not None and owner_pieces(theirs)[0].id != mine:
            others.append(stack.shape.buffer(gap, join_style="mitre"))
    return Spots(case, want, free, rooms_round(case, want.frame, free.floor, others))


def _moves(spots: Spots, rug: LyingRug, over: list[LyingRug]) -> Iterator[Proposal]:
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
            if max(float(np.hypot(*v)) for _, v in going) > SMALL:
                continue
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


def _turns(spots: Spots, rug: LyingRug, over: list[LyingRug]) -> Iterator[Proposal]:
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
            by = center - rug.center
            word = "a quarter" if sides is not None else "square"
            also = f" and move it {toward(case, by)}" if float(np.hypot(*by)) > step(case) else ""
            yield Proposal("turn", f"Turn the {rug.name} {word}{also}.", laid_at(case, rug, center, angle))


def _sizes(spots: Spots, rug: LyingRug, over: list[LyingRug]) -> Iterator[Proposal]:
    """Lay a made size in the rug's stead; where none reaches, the largest that goes, and the furniture onto it."""
    frame = spots.want.frame
    seen: list[tuple[float, Box]] = []
    for laid, lies in choices(spots):
        if any(a == laid.size.area and lies.covers(b, 1e-3) for a, b in seen):
            continue
        seen.append((laid.size.area, lies))
        yield _in_stead(spots, rug, over, laid, lies, None)
    if spots.want.follow is None:
        return
    for laid, lies in largest(spots):
        for going in spots.want.follow(frame.polygon(lies), True):
            yield _in_stead(spots, rug, over, laid, lies, going)


def _in_stead(
    spots: Spots, rug: LyingRug, over: Iterable[LyingRug], laid: Laid, lies: Box, going: Moves | None
) -> Proposal:
    case, frame = spots.case, spots.want.frame
    buy = rug_of(case, laid, frame.polygon(lies), like=rug.model)
    center = frame.plan(lies.center)
    patch = replaced(case, rug, buy, center, frame.angle)
    for top in over:
        patch += laid_at(case, top, center)
    title = f"Lay {article(buy.name)} in place of the {rug.name}"
    if going:
        patch += shifted(case, going)
        title += f" and {_draw(case, going)}"
    return Proposal("size", title + ".", patch, buy.cost, buy.unpriced)


def _layers(spots: Spots, rug: LyingRug) -> Iterator[Proposal]:
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
    spots: Spots,
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
    title = f"Lay the {rug.name} over {article(buy.name)}, {shows} showing"
    if going:
        patch += shifted(case, going)
        title += f"; {_draw(case, going)}"
    return Proposal("layer", title + ".", patch, buy.cost, buy.unpriced)
