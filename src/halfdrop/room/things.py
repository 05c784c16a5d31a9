"""The things of a resolved room: openings, fittings, pieces and rugs as shapes on the plan."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from shapely.geometry import Polygon

from halfdrop.geometry.plane import Array, placed, turned, xy
from halfdrop.job.art import Art
from halfdrop.job.model import Fitting, Opening, Piece, Rug
from halfdrop.job.naming import art_name, fixed_name, in_words, rug_name, treatment_name
from halfdrop.job.treatments import Treatment
from halfdrop.room.walls import Anchor, Wall

SEATING = frozenset({"sofa", "loveseat", "sectional", "armchair", "chaise", "recliner"})
#: What takes a person in a conversation besides upholstery.
LIGHT_SEATING = frozenset({"ottoman", "bench", "stool"})
SURFACES = frozenset(
    {"coffee table", "side table", "console", "nightstand", "dining table", "desk", "ottoman"}
)
STORAGE = frozenset({"dresser", "chest", "wardrobe", "bookcase", "cabinet", "media unit", "sideboard"})
TABLES = frozenset({"coffee table", "side table", "console", "dining table", "desk", "nightstand"})
BEDS = frozenset({"bed", "crib"})


@dataclass(frozen=True, kw_only=True, eq=False)
class Thing:
    """A thing with a footprint.

    Attributes
    ----------
    id, path : str
        Its id in the room, and its path in the document: `rooms/living/pieces/sofa`.
    footprint : Polygon
        On the plan [m].
    center : Array (2,)
        Center of its width × depth box [m].
    angle : float
        Direction of its front, turned from +y counterclockwise [rad]: 0 looks along +y.
    width, depth : float
        Across the front, and from front to back [m].
    """

    id: str
    path: str
    footprint: Polygon
    center: Array
    angle: float
    width: float
    depth: float
    anchor: Anchor

    @cached_property
    def front(self) -> Array:
        """Unit vector out of the front."""
        return turned(xy(0, 1), self.angle)

    @cached_property
    def right(self) -> Array:
        """Unit vector to the right hand of a person who looks at the front (local +x)."""
        return turned(xy(1, 0), self.angle)

    def at(self, x: float, y: float) -> Array:
        """Return a plan point [m] from local ones: x to local right, y toward the front, from the center."""
        return placed(xy(x, y), self.center, self.angle)

    def box(self, left: float, right: float, back: float, front: float) -> Polygon:
        """Return a rectangle in the thing's own frame [m]: between local x `left`..`right`, y `back`..`front`."""
        corners = np.array(((left, back), (right, back), (right, front), (left, front)))
        return Polygon(placed(corners, self.center, self.angle))

    @cached_property
    def corners(self) -> Array:
        """Vertices of the footprint (n, 2) [m]."""
        return np.asarray(self.footprint.exterior.coords)[:-1]

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return self.id


@dataclass(frozen=True, kw_only=True, eq=False)
class StandingPiece(Thing):
    """A piece of furniture where it stands."""

    model: Piece
    leg_setback: float

    @property
    def type(self) -> str:
        """The piece's type."""
        return self.model.type

    @property
    def height(self) -> float:
        """Height [m]."""
        return float(self.model.height)

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return self.model.name or in_words(self.id)

    @property
    def on_floor(self) -> bool:
        """Whether it stands on the floor (not on another piece)."""
        return self.model.on is None

    def front_zone(self, reach: float) -> Polygon:
        """Return the strip of floor in front of it, as deep as `reach` [m]."""
        return self.box(-self.width / 2, self.width / 2, self.depth / 2, self.depth / 2 + reach)

    def back_zone(self, reach: float) -> Polygon:
        """Return the strip of floor behind it, as deep as `reach` [m]."""
        return self.box(-self.width / 2, self.width / 2, -self.depth / 2 - reach, -self.depth / 2)

    def side_zone(self, hand: int, reach: float) -> Polygon:
        """Return the strip of floor beside it: hand +1 is local right, -1 local left."""
        x = self.width / 2
        low, high = (x, x + reach) if hand > 0 else (-x - reach, -x)
        return self.box(low, high, -self.depth / 2, self.depth / 2)

    @cached_property
    def front_legs(self) -> Array:
        """Points (k, 2) where the front legs stand [m]: inset by the legs' setback from front and sides."""
        s = self.leg_setback
        x, y = self.width / 2 - s, self.depth / 2 - s
        if self.model.ret is None:
            return placed(np.array(((-x, y), (x, y))), self.center, self.angle)
        # An L: the short leg reaches its length from the back, at one hand as seated (left hand: local -x).
        ret = self.model.ret
        hand = -1.0 if ret.hand == "left" else 1.0
        reach = float(ret.length) - self.depth / 2
        outer, inner = hand * x, hand * (self.width / 2 - float(ret.width) + s)
        body_front = float(self.model.depth) - self.depth / 2
        legs = ((outer, reach - s), (inner, reach - s), (-hand * x, body_front - s))
        return placed(np.array(legs), self.center, self.angle)


@dataclass(frozen=True, kw_only=True, eq=False)
class LyingRug(Thing):
    """A rug where it lies; width across, depth along (the document's `length`)."""

    model: Rug

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return rug_name(self.id, self.model)


@dataclass(frozen=True, kw_only=True, eq=False)
class FixedFitting(Thing):
    """A fitting where it is fixed."""

    model: Fitting
    wall: Wall | None

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return self.model.name or self.model.kind


@dataclass(frozen=True, kw_only=True, eq=False)
class WallOpening:
    """An opening in its wall.

    Attributes
    ----------
    start, end : Array (2,)
        Its jambs on the wall's line [m], in walking order.
    swing : Polygon or None
        Floor swept by leaves that open into this room.
    leaves : tuple
        Hinge point, tip when shut and tip when open of each leaf that swings (in or out).
    """

    id: str
    path: str
    model: Opening
    wall: Wall
    start: Array
    end: Array
    anchor: Anchor
    swing: Polygon | None
    leaves: tuple[tuple[Array, Array, Array], ...] = field(default=())

    @cached_property
    def center(self) -> Array:
        """Middle of the opening on the wall's line [m]."""
        return (self.start + self.end) / 2

    @property
    def is_way(self) -> bool:
        """Whether a person walks through it."""
        return self.model.kind != "window"

    @property
    def clear(self) -> float:
        """Clear width to walk through [m]: as measured where given, else the opening's width."""
        return float(self.model.clear or self.model.width)

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return fixed_name(self.id, self.model)

    def approach(self, depth: float, width: float | None = None) -> Polygon:
        """Return the floor before it, `depth` deep [m], as wide as the opening or `width`."""
        half = (width if width is not None else float(self.model.width)) / 2
        u, v = self.wall.direction, self.wall.inward
        c = self.center
        return Polygon([c - half * u, c + half * u, c + half * u + depth * v, c - half * u + depth * v])


@dataclass(frozen=True, kw_only=True, eq=False)
class HungTreatment:
    """A treatment at its openings; where its cloth hangs, `drapery` works out.

    Attributes
    ----------
    openings : tuple of WallOpening
        Those it hangs at, in the document's order.
    """

    id: str
    path: str
    model: Treatment
    openings: tuple[WallOpening, ...]

    @cached_property
    def center(self) -> Array:
        """Middle of its openings on the plan [m]."""
        return np.asarray(np.mean([o.center for o in self.openings], axis=0))

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return treatment_name(self.id, self.model)


@dataclass(frozen=True, kw_only=True, eq=False)
class HungArt:
    """A work where it hangs; where that is on the wall's elevation, `halfdrop.room.elevation` works out.

    Attributes
    ----------
    start, end : Array (2,)
        The frame's edges on the wall's line [m], in walking order.
    """

    id: str
    path: str
    model: Art
    wall: Wall
    start: Array
    end: Array
    anchor: Anchor

    @cached_property
    def center(self) -> Array:
        """Middle of the frame on the wall's line [m]."""
        return np.asarray((self.start + self.end) / 2)

    @property
    def name(self) -> str:
        """What to call it on a sheet."""
        return art_name(self.id, self.model)

    @property
    def width(self) -> float:
        """Of the frame [m]."""
        return float(self.model.width)

    @property
    def height(self) -> float:
        """Of the frame [m]."""
        return float(self.model.height)

    @property
    def bottom(self) -> float:
        """Of the frame, above the floor [m]."""
        assert self.model.at is not None
        return float(self.model.at.bottom)

    @property
    def top(self) -> float:
        """Of the frame, above the floor [m]."""
        return self.bottom + self.height


def sector(hinge: Array, shut: Array, opened: Array, steps: int = 24) -> Polygon:
    """Return the quarter disk a leaf sweeps from shut to open.

    The arc is drawn through points outside the chord error: the radius is enlarged so that the polygon contains the
    true sector (safe side).
    """
    radius = float(np.hypot(*(shut - hinge)))
    a0 = math.atan2(*(shut - hinge)[::-1])
    a1 = math.atan2(*(opened - hinge)[::-1])
    delta = (a1 - a0 + math.pi) % (2 * math.pi) - math.pi
    r = radius / math.cos(abs(delta) / steps / 2)
    t = a0 + delta * (np.arange(steps + 1) / steps)
    arc = np.column_stack((np.cos(t), np.sin(t))) * r + hinge
    return Polygon(np.vstack((hinge, arc)))
