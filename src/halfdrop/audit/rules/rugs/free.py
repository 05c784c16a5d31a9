"""The floor a rug may lie on: clear of walls, heaters, storage, low doors and other groups' rugs."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations

from shapely.geometry import box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from halfdrop.audit.case import RoomCase
from halfdrop.audit.rules.rugs.lying import Frame
from halfdrop.room.things import STORAGE
from halfdrop.rugs import Box

#: A wall that leans by less than this over a rug's length does not stop it [m].
LEAN = 0.02
#: Fittings that stand on the floor a rug would need.
_ON_FLOOR = frozenset({"closet", "counter", "bath", "shower", "toilet", "column", "hearth", "stair head"})
_HEATERS = {
    "heater": "hazards.heater_clear",
    "radiator": "hazards.radiator_clear",
    "hearth": "hazards.hearth_clear",
}


def bare_key(case: RoomCase) -> str:
    """Return the practice key of the least bare floor to the walls in this room."""
    small = case.room.area <= case.practice.area("rugs.small_room_area") + 1e-9
    return "rugs.bare_floor_small_room" if small else "rugs.bare_floor_min"


def kept_off(case: RoomCase, core: BaseGeometry) -> BaseGeometry:
    """Return the floor a new rug keeps off: heaters and their clearance, storage, what is built in, low doors' swings.

    What already reaches into `core` (what the rug must cover) is left out.
    """
    room = case.room
    shapes: list[BaseGeometry] = []
    for fitting in room.fittings.values():
        kind = fitting.model.kind
        if kind in _HEATERS:
            clear = fitting.model.clearance
            shapes.append(
                fitting.footprint.buffer(case.length(_HEATERS[kind]) if clear is None else float(clear))
            )
        elif kind in _ON_FLOOR:
            shapes.append(fitting.footprint)
    shapes += [p.footprint for p in room.floor_pieces.values() if p.type in STORAGE]
    thick = (
        case.length("rugs.pile_default") + case.length("rugs.pad_thin") + case.length("rugs.door_over_rug")
    )
    for door in room.openings.values():
        undercut = door.model.undercut
        if door.swing is not None and (undercut is None or float(undercut) < thick):
            shapes.append(door.swing)
    return unary_union([s for s in shapes if s.intersection(core).area < 1e-3])


def free_boxes(frame: Frame, floor: BaseGeometry, core: Box) -> list[Box]:
    """Return the largest boxes of a frame that lie on a floor and hold a core, the largest first.

    Each side of the core is pushed out until it meets what is not floor, the four sides in every order. Walls that lean by
    less than `LEAN` do not stop a side; the box is drawn in to them at the end.
    """
    here = frame.seen(floor)
    limits = here.bounds
    outside = box(*limits).buffer(1.0, join_style="mitre").difference(here)
    solid = outside.buffer(-LEAN, join_style="mitre")
    if solid.intersects(box(*core.corners[0], *core.corners[2])):
        return []
    found: set[tuple[float, ...]] = set()
    for order in permutations(range(4)):
        sides = [core.x0, core.y0, core.x1, core.y1]
        for k in order:
            sides[k] = _met(solid, sides, k, limits[k], limits[k])
        for k in range(4):
            inner = sides[k] + (2 * LEAN if k < 2 else -2 * LEAN)
            narrow = [s + (2 * LEAN if i < 2 else -2 * LEAN) for i, s in enumerate(sides)]
            narrow[k] = inner
            sides[k] = _met(outside, narrow, k, sides[k], sides[k])
        found.add(tuple(round(s, 5) for s in sides))
    boxes = [Box(*sides) for sides in found]
    return sorted(boxes, key=lambda b: (-round(b.area, 4), b.x0, b.y0))


def _met(outside: BaseGeometry, sides: list[float], k: int, to: float, free: float) -> float:
    """Return where side `k` (0 to 3: low x, low y, high x, high y) of a box, pushed out to `to`, first meets the outside."""
    strip = list(sides)
    strip[k], strip[(k + 2) % 4] = to, sides[k]
    x0, x1 = sorted((strip[0], strip[2]))
    y0, y1 = sorted((strip[1], strip[3]))
    met = outside.intersection(box(x0, y0, x1, y1))
    if met.is_empty or met.area < 1e-9:
        return free
    return float(met.bounds[(k + 2) % 4])


def rooms_round(case: RoomCase, frame: Frame, wanted: Box, others: Iterable[BaseGeometry] = ()) -> list[Box]:
    """Return the rectangles of floor a rug under `wanted` has, walls to walls, the most careful first.

    Where storage, a heater, a low door or one of `others` is nearer than the bare floor would be, the box ends short of it by as much less.
    """
    core = Box.sized(wanted.across / 2, wanted.along / 2, wanted.center)
    bare = case.length(bare_key(case))
    walls = free_boxes(frame, case.room.outline, core)
    middle = frame.polygon(core)
    off = unary_union([kept_off(case, middle), *(s for s in others if not s.intersects(middle))])
    clear = free_boxes(frame, case.room.outline.difference(off), core) if not off.is_empty else []
    found: list[Box] = []
    for c in clear[:4]:
        w = next((w for w in walls if w.covers(c, 2 * LEAN)), None)
        if w is not None:
            found.append(
                Box(
                    max(w.x0, c.x0 - bare),
                    max(w.y0, c.y0 - bare),
                    min(w.x1, c.x1 + bare),
                    min(w.y1, c.y1 + bare),
                )
            )
    return list(dict.fromkeys([*found, *walls[:2]]))
