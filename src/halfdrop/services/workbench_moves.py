"""A hand's move as a patch: the thing goes with what stands on it, and stays at its own wall."""

from __future__ import annotations

from typing import Any

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch
from halfdrop.audit.moves import moved, placed_at, step, text, with_what_it_carries
from halfdrop.base.errors import InputError
from halfdrop.base.formats import format_angle
from halfdrop.geometry.plane import Array, turned, xy
from halfdrop.job.model import AtWall
from halfdrop.practice import Practice
from halfdrop.room import FixedFitting, LyingRug, ResolvedRoom, StandingPiece, WallOpening
from halfdrop.room.clearances import all_clearances
from halfdrop.room.snaps import Snap, snaps
from halfdrop.services.workbench_view import point

#: Distances off a wall that a hand may be drawn to, by what is moved.
WALL_OFFSETS = {
    "seating": ("seating.wall_pull_off",),
    "rug": ("rugs.bare_floor_min", "rugs.bare_floor_target"),
}
_UPHOLSTERY = frozenset({"sofa", "loveseat", "sectional", "armchair", "chaise", "recliner"})

#: Less than this is no move [m].
STILL = 1e-6

Anything = StandingPiece | LyingRug | FixedFitting | WallOpening


def thing_at(room: ResolvedRoom, path: str) -> Anything:
    """Return the thing of a room at a path of the document.

    Raises
    ------
    InputError
        Where nothing of this room stands there.
    """
    things: list[Anything] = [
        *room.pieces.values(), *room.rugs.values(), *room.fittings.values(), *room.openings.values(),
    ]  # fmt: skip
    found = next((t for t in things if t.path == path.strip("/")), None)
    if found is None:
        raise InputError(f"nothing in the room stands at `{path[:120]}`")
    return found


def move_patch(
    case: RoomCase, path: str, by: tuple[float, float], turn: float = 0.0, *, exact: bool = False
) -> Patch:
    """Return the patch of a hand's move.

    Parameters
    ----------
    case : RoomCase
    path : str
        The thing.
    by : (x, y)
        On the plan [m]; rounded to what is set out by tape (1/2 in or 1 cm) unless `exact`.
    turn : float
        Counterclockwise about its middle [rad].

    Returns
    -------
    list of operations
        Empty where the thing stays where it is.
    """
    thing, way = thing_at(case.room, path), xy(*by)
    if isinstance(thing, WallOpening):
        return _along(case, thing.path, thing.anchor.direction, float(thing.model.along), way, exact)
    if isinstance(thing, FixedFitting):
        if thing.model.along is not None:
            return _along(case, thing.path, thing.anchor.direction, float(thing.model.along), way, exact)
        anchor = thing.anchor
        at = thing.model.at
        assert at is not None
        parts = (("x", float(at.x), anchor.direction), ("y", float(at.y), anchor.normal))
        return [
            op for key, old, d in parts for op in _along(case, f"{thing.path}/at", d, old, way, exact, key)
        ]
    together = with_what_it_carries(case, thing) if isinstance(thing, StandingPiece) else [thing]
    if turn:
        return _turned(case, together, thing.center, turn, way)
    if isinstance(thing.model.at, AtWall):
        off = float(thing.model.at.off)
        outward = float(way @ thing.anchor.normal)
        if off + outward < 0:
            way = way - (off + outward) * thing.anchor.normal
    return [op for part in together for op in _moved(case, part, way, exact)]


def _moved(case: RoomCase, part: StandingPiece | LyingRug, way: Array, exact: bool) -> Patch:
    if isinstance(part.model.at, AtWall):
        least = -float(part.model.at.off)
        outward = float(way @ part.anchor.normal)
        if outward < least:
            way = way + (least - outward) * part.anchor.normal
    if not exact:
        s = step(case)
        along, off = float(way @ part.anchor.direction), float(way @ part.anchor.normal)
        way = round(along / s) * s * part.anchor.direction + round(off / s) * s * part.anchor.normal
        if (
            isinstance(part.model.at, AtWall)
            and float(part.model.at.off) + float(way @ part.anchor.normal) < 0
        ):
            way = way - (float(part.model.at.off) + float(way @ part.anchor.normal)) * part.anchor.normal
    parts = {"along": part.anchor.direction, "x": part.anchor.direction}
    return [
        op
        for op in moved(case, part, way, exact=True)
        if abs(float(way @ parts.get(op["path"].rsplit("/", 1)[-1], part.anchor.normal))) > STILL
    ]


def _turned(
    case: RoomCase, parts: list[StandingPiece] | list[LyingRug], pivot: Array, by: float, way: Array
) -> Patch:
    patch: Patch = []
    first = parts[0]
    if isinstance(first.model.at, AtWall) and _is_quarter(by) and not way.any():
        patch, went = _turned_at_wall(case, first, by)
        parts, way = parts[1:], went
    for part in parts:
        at = part.model.at
        if isinstance(at, AtWall):
            patch += placed_at(case, part, pivot + turned(part.center - pivot, by) + way, part.angle + by)
            continue
        center = pivot + turned(part.center - pivot, by) + way
        if float(np.hypot(*(center - part.center))) > STILL:
            patch += moved(case, part, center - part.center, exact=True)
        front = (part.angle + by) % (2 * np.pi)
        patch.append({"op": "add", "path": f"/{part.path}/turn", "value": format_angle(front)})
    return patch


def _is_quarter(by: float) -> bool:
    """Return whether a turn is by 90 degrees or a multiple of it."""
    return abs(by / (np.pi / 2) - round(by / (np.pi / 2))) < 1e-9


def _turned_at_wall(case: RoomCase, part: StandingPiece | LyingRug, by: float) -> tuple[Patch, Array]:
    """Return the patch that turns a thing by quarters at its wall, as far off it as it was, and how its middle goes."""
    anchor, at = part.anchor, part.model.at
    assert isinstance(at, AtWall)
    box = np.asarray(
        part.box(-part.width / 2, part.width / 2, -part.depth / 2, part.depth / 2).exterior.coords
    )
    there = part.center + turned(box - part.center, by)
    along, off = (there - anchor.origin) @ anchor.direction, (there - anchor.origin) @ anchor.normal
    near = max(0.0, min(float(along.min()), anchor.span - float(np.ptp(along))))
    turn = (float(part.model.turn or 0.0) + by) % (2 * np.pi)
    patch: Patch = [{"op": "add", "path": f"/{part.path}/turn", "value": format_angle(turn)}]
    if abs(near - float(at.along)) > STILL:
        patch.insert(0, {"op": "replace", "path": f"/{part.path}/at/along", "value": text(case, near)})
    went = (near - float(along.min())) * anchor.direction + (float(at.off) - float(off.min())) * anchor.normal
    return patch, went


def _along(
    case: RoomCase, path: str, direction: Array, old: float, way: Array, exact: bool, key: str = "along"
) -> Patch:
    by = float(way @ direction)
    s = step(case)
    new = old + (by if exact else round(by / s) * s)
    if key == "along":
        new = max(new, 0.0)
    if abs(new - old) < STILL:
        return []
    return [{"op": "replace", "path": f"/{path}/{key}", "value": text(case, new)}]


def clearances_json(case: RoomCase, paths: set[str]) -> list[dict[str, Any]]:
    """Return the gaps of what is moved, in words and numbers."""
    return [
        {
            "from": c.origin,
            "to": c.to,
            "side": c.side,
            "length": round(c.length, 5),
            "text": case.say(c.length),
            "sigma": round(c.sigma, 6),
            "p": point(c.p),
            "q": point(c.q),
        }
        for c in all_clearances(case.room, paths)
    ]


def snaps_json(case: RoomCase, paths: set[str], most: int = 4) -> list[dict[str, Any]]:
    """Return what the moved thing is nearly doing, each with the patch that does it, the least move first."""
    things = [t for p in sorted(paths) if isinstance(t := _movable(case.room, p), StandingPiece | LyingRug)]
    if not things:
        return []
    first = things[0]
    carried = (
        {p.path for p in with_what_it_carries(case, first)} if isinstance(first, StandingPiece) else set()
    )
    found = snaps(
        case.room, first, offsets=_offsets(case.practice, first), ignore=(paths | carried) - {first.path}
    )
    out = []
    for snap in found[:most]:
        patch = move_patch(case, snap.path, (float(snap.by[0]), float(snap.by[1])), snap.turn, exact=True)
        if patch:
            out.append(
                {
                    "path": snap.path,
                    "kind": snap.kind,
                    "to": snap.to,
                    "by": point(snap.by),
                    "turn": round(snap.turn, 6),
                    "text": _words(case, snap),
                    "practice": snap.practice,
                    "line": [point(snap.line[0]), point(snap.line[1])],
                    "patch": patch,
                }
            )
    return out


def _movable(room: ResolvedRoom, path: str) -> Anything | None:
    try:
        return thing_at(room, path)
    except InputError:
        return None


def _offsets(practice: Practice, thing: StandingPiece | LyingRug) -> list[tuple[float, str]]:
    if isinstance(thing, LyingRug):
        keys = WALL_OFFSETS["rug"]
    elif thing.type in _UPHOLSTERY:
        keys = WALL_OFFSETS["seating"]
    else:
        keys = ()
    return [(float(practice.length(key)), key) for key in keys]


def _words(case: RoomCase, snap: Snap) -> str:
    to = snap.to.rsplit("/", 1)[-1]
    if "/survey/walls/" in snap.to:
        to = f"wall {to}"
    else:
        thing = _movable(case.room, snap.to)
        to = thing.name if thing is not None else to
    return {
        "square": f"square to {to}",
        "flush": f"flush to {to}",
        "set off": f"{case.say(snap.distance)} off {to}",
        "centered": f"centered on {to}",
        "in line": f"in line with {to}",
    }[snap.kind]
