"""Where things of a room are: the document's positions, along a wall or free on the floor, made shapes on the plan."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon
from shapely.ops import unary_union

from halfdrop.base.errors import At, InputError
from halfdrop.geometry.plane import (
    Array,
    ellipse,
    heading,
    placed,
    rectangle,
    snapped_turn,
    span_along,
    turned,
    xy,
)
from halfdrop.job.art import Art, OnWall
from halfdrop.job.model import AtPoint, AtWall, Fitting, Opening, Piece, Rug, corners_of
from halfdrop.practice import Practice, piece_key
from halfdrop.room.things import FixedFitting, HungArt, LyingRug, StandingPiece, WallOpening, sector
from halfdrop.room.walls import Anchor, Wall

#: How far what is on a wall may seem to run past its end [m] before it is refused: the adjusted wall and the tape differ by
#: a little. Our choice, no source.
_PAST = 0.02


@dataclass(frozen=True, eq=False)
class Frame:
    """Places things of one room by the document's positions: each method gives one kind of thing as a shape on the plan."""

    walls: tuple[Wall, ...]
    position_sigma: float

    def wall(self, pair: str) -> Wall:
        ends = set(corners_of(pair))
        return next(w for w in self.walls if {w.first, w.second} == ends)

    def base_angle(self, at: AtWall | AtPoint) -> float:
        """Angle of the front at turn 0: square into the room from its wall (AB for a free-standing thing)."""
        if isinstance(at, AtPoint):
            return 0.0
        return heading(self.wall(at.wall).inward) - math.pi / 2

    def place(self, key: str, local: Array, at: AtWall | AtPoint, turn: float) -> tuple[Array, float, Anchor]:
        """Return center, front angle and anchor of a thing with local corners `local`."""
        angle = snapped_turn(self.base_angle(at) + turn)
        if isinstance(at, AtPoint):
            base = self.walls[0]
            center = base.start + float(at.x) * base.direction + float(at.y) * base.inward
            anchor = Anchor(
                key, base.indices, base.start, base.direction, base.inward, base.length,
                self.position_sigma, self.position_sigma,
            )  # fmt: skip
            return center, angle, anchor
        wall = self.wall(at.wall)
        origin, u, indices = wall.seen_from(corners_of(at.wall)[0])
        shape = turned(local, angle)
        near, _ = span_along(shape, xy(0, 0), u)
        back, _ = span_along(shape, xy(0, 0), wall.inward)
        center = origin + (float(at.along) - near) * u + (float(at.off) - back) * wall.inward
        sigma_off = self.position_sigma if float(at.off) > 0 else 0.0
        anchor = Anchor(key, indices, origin, u, wall.inward, wall.length, self.position_sigma, sigma_off)
        return center, angle, anchor

    def piece(self, path: str, key: str, piece: Piece, practice: Practice) -> StandingPiece:
        depth = max(float(piece.depth), float(piece.ret.length) if piece.ret else 0.0)
        local = _outline_of(piece, depth)
        box = rectangle(float(piece.width), depth)
        center, angle, anchor = self.place(path, box, piece.at, float(piece.turn or 0.0))
        return StandingPiece(
            id=key, path=path, footprint=Polygon(placed(local, center, angle)), center=center, angle=angle,
            width=float(piece.width), depth=depth, anchor=anchor, model=piece,
            leg_setback=_setback(piece, practice),
        )  # fmt: skip

    def rug(self, path: str, key: str, rug: Rug) -> LyingRug:
        w, d = float(rug.width), float(rug.length)
        local = rectangle(w, d) if rug.shape == "rectangle" else ellipse(w, d)
        center, angle, anchor = self.place(path, rectangle(w, d), rug.at, float(rug.turn or 0.0))
        return LyingRug(
            id=key, path=path, footprint=Polygon(placed(local, center, angle)), center=center, angle=angle,
            width=w, depth=d, anchor=anchor, model=rug,
        )  # fmt: skip

    def fitting(self, path: str, key: str, fitting: Fitting) -> FixedFitting:
        w, d = float(fitting.width), float(fitting.depth or 0.0)
        thick = max(d, 1e-3)
        wall = None
        at: AtWall | AtPoint
        if fitting.at is not None:
            at = fitting.at
        else:
            assert fitting.wall is not None
            assert fitting.along is not None
            wall = self.wall(fitting.wall)
            at = AtWall.model_construct(wall=fitting.wall, along=fitting.along, off=0.0)
        box = rectangle(w, thick)
        center, angle, anchor = self.place(path, box, at, float(fitting.turn or 0.0))
        return FixedFitting(
            id=key, path=path, footprint=Polygon(placed(box, center, angle)), center=center, angle=angle,
            width=w, depth=d, anchor=anchor, model=fitting, wall=wall,
        )  # fmt: skip

    def art(self, path: str, key: str, work: Art, at: OnWall) -> HungArt:
        wall, start, end, anchor = self._on_wall(path, at.wall, float(at.along), float(work.width), f"`{key}`", At(path=f"{path}/at"),
                                                 "the frame's near edge")  # fmt: skip
        return HungArt(id=key, path=path, model=work, wall=wall, start=start, end=end, anchor=anchor)

    def opening(self, path: str, key: str, opening: Opening) -> WallOpening:
        named = f"{opening.kind} `{key}`"
        wall, start, end, anchor = self._on_wall(path, opening.wall, float(opening.along), float(opening.width), named, At(path=path),
                                                 "the near jamb")  # fmt: skip
        swing, leaves = _leaves(opening, wall, start, end)
        return WallOpening(id=key, path=path, model=opening, wall=wall, start=start, end=end, anchor=anchor, swing=swing,
                           leaves=leaves)  # fmt: skip

    def _on_wall(
        self, path: str, pair: str, along: float, width: float, named: str, at: At, edge: str
    ) -> tuple[Wall, Array, Array, Anchor]:
        """Return the wall, both ends in its walking order, and the anchor of what is taped along a wall."""
        wall = self.wall(pair)
        origin, u, indices = wall.seen_from(corners_of(pair)[0])
        near = origin + along * u
        far = near + width * u
        start, end = (near, far) if origin is wall.start else (far, near)
        over = max(wall.along(end) - wall.length, -wall.along(start))
        if over > _PAST:
            raise InputError(
                f"{named} runs {over * 1000:.0f} mm past the end of wall {wall.name}",
                at=at,
                hint=f"check `along` and `width`: along is taped from the wall's first-named corner to {edge}",
            )
        return (
            wall,
            start,
            end,
            Anchor(path, indices, origin, u, wall.inward, wall.length, self.position_sigma, 0.0),
        )


def _setback(piece: Piece, practice: Practice) -> float:
    """Return how far its front legs stand behind its front edge [m]: as written down, else by its type."""
    if piece.leg_setback is not None:
        return float(piece.leg_setback)
    return float(practice.length(piece_key(piece.type, "leg_setback")))


def _outline_of(piece: Piece, depth: float) -> Array:
    w = float(piece.width)
    if piece.shape != "rectangle":
        return ellipse(w, depth)
    if piece.ret is None:
        return rectangle(w, depth)
    hand = -1.0 if piece.ret.hand == "left" else 1.0
    back, body, front = -depth / 2, float(piece.depth) - depth / 2, float(piece.ret.length) - depth / 2
    inner, outer = hand * (w / 2 - float(piece.ret.width)), hand * w / 2
    return np.array(
        ((-outer, back), (outer, back), (outer, front), (inner, front), (inner, body), (-outer, body))
    )


def _leaves(
    opening: Opening, wall: Wall, start: Array, end: Array
) -> tuple[Polygon | None, tuple[tuple[Array, Array, Array], ...]]:
    """Return the floor swept inside the room, and each swinging leaf as hinge, shut tip and open tip."""
    if opening.kind != "door" or opening.leaf in ("sliding", "pocket"):
        return None, ()
    side = wall.inward if opening.opens != "out" else -wall.inward
    width = float(opening.width)
    if opening.leaf == "double":
        middle = (start + end) / 2
        pairs = [(start, middle), (end, middle)]
    else:
        hinge_first = opening.hinge is None or opening.hinge == wall.first
        pairs = [(start, end)] if hinge_first else [(end, start)]
        if opening.leaf == "bifold":  # folds to half its width, standing half a width into the room
            hinge, tip = pairs[0]
            pairs = [(hinge, (hinge + tip) / 2)]
            width /= 2
    leaves = tuple((h, t, h + float(np.hypot(*(t - h))) * side) for h, t in pairs)
    if opening.opens == "out":
        return None, leaves
    swept = unary_union([sector(h, t, o) for h, t, o in leaves])
    return swept, leaves
