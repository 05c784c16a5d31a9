"""What the circulation rules share: the room's ways, names for a sentence, and moves of things that belong together."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

import numpy as np
import shapely
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Patch, Proposal
from halfdrop.audit.moves import (
    Movable,
    clearing_move,
    directions,
    moved_together,
    placed_at,
    removed,
    stays_inside,
    step,
    text,
    with_what_it_carries,
)
from halfdrop.geometry.plane import Array
from halfdrop.room import LyingRug, StandingPiece, Wall, WallOpening
from halfdrop.room.groups import bed_sets, dining_sets, rug_serves, seating_groups
from halfdrop.room.places import AT_DESK
from halfdrop.room.things import BEDS, STORAGE
from halfdrop.room.way_floor import Owner, WayFloor, way_floor
from halfdrop.room.ways import WIDTHS, Ways, ways_of

#: The values by which the hazards judge the ways out, on the same floor.
WAYS_OUT = ("hazards.exit_path", "hazards.exit_place", "hazards.stair_head_pinch")
#: What stands with its back to a wall: it slides along its wall, or goes to another; it is not turned on the spot.
BACKED = STORAGE | BEDS | {"console", "piano", "screen", "mirror", "nightstand"}
#: A back this near to a wall stands against it [m].
AGAINST = 0.10

#: Beyond the least move that would do, these are tried as well [m]: the next thing may want room too.
FURTHER = (0.0, 0.1, 0.25, 0.5)


def ways(case: RoomCase) -> Ways:
    """Return the pinches and shut places of the room, worked out once."""
    return case.memo("ways", lambda: ways_of(case.room, case.practice, floor(case), elder=has_elder(case)))


def floor(case: RoomCase) -> WayFloor:
    """Return the floor cut by every gate that could be too narrow for any way, worked out once."""
    cap = max(case.length(key) for key in (*WIDTHS, *WAYS_OUT)) + 0.01
    return case.memo("floor", lambda: way_floor(case.room, case.practice, cap))


def has_elder(case: RoomCase) -> bool:
    """Return whether an elder lives here."""
    return any(person.age == "elder" for person in case.job.people.values())


def the(owner: Owner) -> str:
    """Return what a sentence calls it: `wall AB`, `the jamb of the hall door`, `the sofa`."""
    if isinstance(owner, Wall):
        return f"wall {owner.name}"
    if isinstance(owner, WallOpening):
        return f"the jamb of the {owner.name}"
    return f"the {owner.name}"


def short(owner: Owner) -> str:
    """Return what a finding's id calls it."""
    return f"wall-{owner.name}" if isinstance(owner, Wall) else owner.id


def shape(owner: Owner) -> BaseGeometry:
    """Return its shape on the plan: a wall's is its line, an opening's its jambs' line."""
    if isinstance(owner, Wall | WallOpening):
        return LineString((owner.start, owner.end))
    return owner.footprint


def listed(names: Iterable[str], most: int = 2) -> str:
    """Name things in a sentence: `the sofa, the bench and 3 more`."""
    given = list(dict.fromkeys(names))
    shown = given[:most] if len(given) > most + 1 else given
    if len(given) > len(shown):
        return f"{', '.join(shown)} and {len(given) - len(shown)} more"
    return shown[0] if len(shown) == 1 else f"{', '.join(shown[:-1])} and {shown[-1]}"


def pieces_in(case: RoomCase, finding: Finding) -> list[StandingPiece]:
    """Return the pieces among a finding's subjects, in order."""
    keys = [path.split("/") for path in finding.subjects]
    return [case.room.pieces[k[3]] for k in keys if k[2:3] == ["pieces"] and k[3] in case.room.pieces]


def goes_with(case: RoomCase, piece: StandingPiece) -> list[tuple[Movable, ...]]:
    """Return what may be moved so that a piece moves: it alone, then with its set, then with the set's rug too.

    A table's set are its chairs, a bed's its nightstands, a desk's its chair, a seat's its group with the tables.
    """
    alone = tuple(with_what_it_carries(case, piece))
    found: list[tuple[Movable, ...]] = [alone]
    for members, owner in case.memo("sets", lambda: _sets(case)):
        if piece.path not in {m.path for m in members}:
            continue
        whole = {p.path: p for m in members for p in with_what_it_carries(case, m)}
        found.append(tuple(whole.values()))
        rugs = tuple(r for r in case.room.rugs.values() if _serves(case, r) == owner)
        if rugs:
            found.append((*whole.values(), *rugs))
    return found


def _sets(case: RoomCase) -> list[tuple[tuple[StandingPiece, ...], str]]:
    room = case.room
    found = [((d.table, *d.chairs), d.table.path) for d in dining_sets(room)]
    found += [((b.bed, *b.nightstands), b.bed.path) for b in bed_sets(room)]
    found += [((*g.pieces, *g.tables), g.id) for g in seating_groups(room, case.practice)]
    pieces = room.floor_pieces.values()
    for desk in (p for p in pieces if p.type == "desk"):
        chairs = [
            p for p in pieces if p.type == "desk chair" and p.footprint.distance(desk.footprint) <= AT_DESK
        ]
        found.append(((desk, *chairs), desk.path))
    return [f for f in found if len(f[0]) > 1]


def _serves(case: RoomCase, rug: LyingRug) -> str | None:
    owner = rug_serves(case.room, rug, seating_groups(case.room, case.practice))
    if owner is None:
        return None
    thing = getattr(owner, "table", None) or getattr(owner, "bed", None)
    return str(thing.path) if thing is not None else str(getattr(owner, "id", ""))


def making_room(
    case: RoomCase,
    piece: StandingPiece,
    other: BaseGeometry,
    wanted: float = 0.0,
    ways_to_go: Iterable[Array] | None = None,
) -> Iterator[Proposal]:
    """Yield moves that bring a piece `wanted` [m] clear of a shape: alone or with what belongs to it, in each direction."""
    options = goes_with(case, piece)
    for way in directions_for(case, piece) if ways_to_go is None else list(ways_to_go):
        by = clearing_move(piece, other, way, wanted)
        if by is None or by < 1e-6:
            continue
        for more in (m for m in FURTHER if stays_inside(case, piece, way * (by + m))):
            for things in options:
                patch = moved_together(case, things, way * (by + more))
                if patch:
                    yield Proposal("move", move_title(case, piece, things, way, by + more), patch)


def directions_for(case: RoomCase, piece: StandingPiece) -> list[Array]:
    """Return where a piece may be moved: what stands with its back to a wall keeps to its wall."""
    back = piece.at(0, -piece.depth / 2)
    near = [w for w in case.room.walls if w.inward @ piece.front > 0.99 and 0 <= w.off(back) <= AGAINST]
    given = list(directions(case, piece))
    if piece.type in BACKED and near:
        return [way for way in given if abs(float(way @ piece.front)) < 0.05]
    return given


def placing(case: RoomCase, piece: StandingPiece) -> Iterator[Proposal]:
    """Yield places against each wall, at either end of it and in its middle, for a piece of no set that carries nothing."""
    if piece.type not in BACKED or [len(s) for s in goes_with(case, piece)] != [1]:
        return
    for wall in case.room.walls:
        spare = wall.length - piece.width
        if spare < 0:
            continue
        for along in (0.0, spare / 2, spare):
            at = {"wall": wall.name, "along": text(case, along), "off": "0"}
            patch: Patch = [{"op": "replace", "path": f"/{piece.path}/at", "value": at}]
            if piece.model.turn is not None:
                patch.append({"op": "remove", "path": f"/{piece.path}/turn"})
            end = wall.first if along == 0.0 else wall.second if along == spare else ""
            where = f"in the corner {end}" if end else f"{case.say(along)} from corner {wall.first}"
            yield Proposal("place", f"Stand {the(piece)} against wall {wall.name}, {where}.", patch)


def sharing_room(
    case: RoomCase, one: StandingPiece, two: StandingPiece, lack: float, away: Array
) -> Iterator[Proposal]:
    """Yield moves of two pieces apart, each by a part of what lacks [m]."""
    for share in (0.5, 0.25, 0.75):
        for mine in goes_with(case, one)[:2]:
            yours = goes_with(case, two)[0]
            if {t.path for t in mine} & {t.path for t in yours}:
                continue
            for more in FURTHER[:2]:
                first = moved_together(case, mine, away * (lack * share + more))
                second = moved_together(case, yours, -away * (lack * (1 - share) + more))
                if first and second:
                    title = f"Move {the(one)} and {the(two)} apart, {case.say(lack + 2 * more, 'up')} in all."
                    yield Proposal("move", title, first + second)


def back_in(case: RoomCase, footprint: Polygon) -> Array:
    """Return the plan vector [m] that brings a shape behind the lines of the walls it passes."""
    by = np.zeros(2)
    moved_shape = footprint
    for _ in range(3):
        if case.room.outline.covers(moved_shape):
            break
        out = moved_shape.difference(case.room.outline)
        for wall in case.room.walls:
            low = float(wall.off(shapely.get_coordinates(moved_shape)).min())
            if low < -1e-6 and out.distance(shape(wall)) < 1e-6:
                by = by - low * wall.inward
                moved_shape = translate(footprint, *by)
    return by


def turning(case: RoomCase, piece: StandingPiece) -> Iterator[Proposal]:
    """Yield quarter turns of a piece about its middle, with what it carries, pushed off a wall it would pass;
    for what stands with its back to a wall, another place at a wall instead.
    """
    if piece.type in BACKED:
        yield from placing(case, piece)
        return
    carried = with_what_it_carries(case, piece)
    for quarters, words in ((1, "a quarter turn"), (-1, "a quarter turn the other way"), (2, "right round")):
        by = quarters * math.pi / 2
        c, s = round(math.cos(by)), round(math.sin(by))
        spin = np.array(((c, s), (-s, c)), dtype=float)
        back = back_in(case, rotate(piece.footprint, by, origin=tuple(piece.center), use_radians=True))
        patch: Patch = []
        for part in carried:
            center = piece.center + (part.center - piece.center) @ spin + back
            patch += placed_at(case, part, center, part.angle + by)
        where = "and push it clear of the wall" if float(np.hypot(*back)) > 1e-6 else "where it stands"
        yield Proposal("turn", f"Turn {the(piece)} {words} {where}.", patch)


def taking_out(case: RoomCase, piece: StandingPiece) -> Iterator[Proposal]:
    """Yield the removal of a piece with what stands on it, where the client keeps none of it."""
    carried = with_what_it_carries(case, piece)
    if not any(p.model.keep for p in carried):
        patch = [op for part in reversed(carried) for op in removed(part)]
        yield Proposal("remove", f"Take {the(piece)} out of the room.", patch)


def _company(things: list[Movable]) -> str:
    """Name what goes along, several of a type as their number: `its 6 dining chairs and the flat-woven rug`."""
    kinds = [t.type if isinstance(t, StandingPiece) else "" for t in things]
    said: list[str] = []
    for thing, kind in zip(things, kinds, strict=True):
        many = kinds.count(kind) if kind else 1
        words = f"its {many} {kind}s" if many > 1 else the(thing)
        if words not in said:
            said.append(words)
    return listed(said, 3)


def move_title(case: RoomCase, piece: Movable, things: tuple[Movable, ...], way: Array, by: float) -> str:
    """Say a move: "Move the sofa with its table 6 in toward wall CD"."""
    s = step(case)
    amount = case.say(math.ceil(by / s - 1e-6) * s, "up")
    others = [t for t in things if t is not piece and not (isinstance(t, StandingPiece) and t.model.on)]
    company = f" with {_company(others)}" if others else ""
    toward = sorted(
        (w for w in case.room.walls if float(w.inward @ way) < -0.3),
        key=lambda w: (round(float(w.inward @ way), 2), round(float(w.off(piece.center)), 3), w.name),
    )
    if not toward:
        return f"Move {the(piece)}{company} {amount}."
    straight = float(toward[0].inward @ way) < -0.9
    across = [] if straight else [w for w in toward[1:] if abs(float(w.inward @ toward[0].inward)) < 0.9][:1]
    walls = " and ".join(w.name for w in (toward[0], *across))
    return f"Move {the(piece)}{company} {amount} toward wall{'s' if across else ''} {walls}."
