"""The resolved room: the document's room with its outline adjusted and every thing a shape on the plan.

Frame of the plan: seen from above, y up, corner A at the origin, wall AB on the x axis, the room above it (y > 0
next to AB). A counterclockwise survey runs to the right along AB, a clockwise one to the left; the document's own x
always runs from A to B, so it is mirrored here for a clockwise survey.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

from halfdrop.base.errors import At, InputError
from halfdrop.geometry.plane import (
    Array,
    closest,
    ellipse,
    heading,
    left_of,
    placed,
    rectangle,
    snapped_turn,
    span_along,
    turned,
    xy,
)
from halfdrop.job.art import Art, OnWall
from halfdrop.job.model import AtPoint, AtWall, Fitting, Opening, Piece, Room, Rug, corners_of
from halfdrop.practice import Practice, piece_key
from halfdrop.room.things import (
    FixedFitting,
    HungArt,
    HungTreatment,
    LyingRug,
    StandingPiece,
    Thing,
    WallOpening,
    sector,
)
from halfdrop.room.walls import Anchor, Wall, sigma_between, wall_anchor
from halfdrop.survey import SurveyResult

T = TypeVar("T", WallOpening, FixedFitting, StandingPiece, LyingRug, HungArt)


@dataclass(frozen=True, eq=False)
class ResolvedRoom:
    """One room as shapes on the plan [m]; built by `resolve_room`.

    Attributes
    ----------
    id, path : str
        Its id in the job, and `rooms/<id>`.
    model : Room
        The document's room.
    survey : SurveyResult
        The adjusted survey.
    walls : tuple of Wall
        In walking order.
    outline : Polygon
        The floor, counterclockwise.
    openings, fittings, pieces, rugs, art : dict
        By id, in the document's order; of the works, those that hang.
    """

    id: str
    path: str
    model: Room
    survey: SurveyResult
    walls: tuple[Wall, ...]
    outline: Polygon
    openings: dict[str, WallOpening]
    fittings: dict[str, FixedFitting]
    pieces: dict[str, StandingPiece]
    rugs: dict[str, LyingRug]
    art: dict[str, HungArt]

    @cached_property
    def area(self) -> float:
        """Floor area [m²]."""
        return float(self.outline.area)

    @cached_property
    def floor_pieces(self) -> dict[str, StandingPiece]:
        """The pieces that stand on the floor."""
        return {i: p for i, p in self.pieces.items() if p.on_floor}

    @cached_property
    def treatments(self) -> dict[str, HungTreatment]:
        """What hangs at the openings, by id."""
        return {
            i: HungTreatment(
                id=i,
                path=f"{self.path}/treatments/{i}",
                model=t,
                openings=tuple(self.openings[o] for o in t.openings),
            )
            for i, t in self.model.treatments.items()
        }

    @cached_property
    def blocks(self) -> dict[str, Thing]:
        """Whatever a walker cannot walk through, by path: pieces on the floor, and fittings that stand out below head height."""
        found: dict[str, Thing] = {p.path: p for p in self.floor_pieces.values()}
        for fitting in self.fittings.values():
            low = float(fitting.model.bottom or 0.0)
            if (
                fitting.depth > 0.03
                and low < 1.98
                and fitting.model.kind not in ("stair head", "outlet", "switch")
            ):
                found[fitting.path] = fitting
        return found

    def wall(self, pair: str) -> Wall:
        """Return the wall between two corners, either way round."""
        ends = set(corners_of(pair))
        return next(w for w in self.walls if {w.first, w.second} == ends)

    def wall_gap(self, thing: Thing, wall: Wall) -> float | None:
        """Return the gap from a thing to a wall [m], or None where the thing does not stand before that wall."""
        low, high = span_along(thing.corners, wall.start, wall.direction)
        if high <= 0 or low >= wall.length:
            return None
        part = Polygon([wall.start, wall.end, wall.end + 1e-4 * wall.inward, wall.start + 1e-4 * wall.inward])
        return float(part.distance(thing.footprint))

    def sigma(
        self,
        a: Thing | WallOpening | HungArt | Wall,
        b: Thing | WallOpening | HungArt | Wall,
        p: Array,
        q: Array,
    ) -> float:
        """Return the standard error of the distance from point `p` on `a` to point `q` on `b` [m]."""
        first = wall_anchor(a) if isinstance(a, Wall) else a.anchor
        second = wall_anchor(b) if isinstance(b, Wall) else b.anchor
        return sigma_between(p, first, q, second, self.survey.covariance)

    def distance(self, a: Thing, b: Thing) -> tuple[float, Array, Array, float]:
        """Return distance [m], closest points and the distance's standard error [m] of two things."""
        p, q, d = closest(a.footprint, b.footprint)
        return d, p, q, self.sigma(a, b, p, q)

    @cached_property
    def clear_height(self) -> float | None:
        """Least clear height under the ceiling and any beam [m], or None where no height was taped."""
        heights = [float(h) for h in self.model.survey.heights.values()]
        heights += [
            float(f.model.bottom) for f in self.fittings.values() if f.model.kind == "beam" and f.model.bottom
        ]
        return min(heights) if heights else None

    def free_floor(self, grow: float = 0.0) -> Polygon | MultiPolygon:
        """Return the floor not stood on, things grown by `grow` [m]."""
        things = unary_union(
            [t.footprint.buffer(grow) if grow else t.footprint for t in self.blocks.values()]
        )
        return self.outline.difference(things)


def _walls(survey: SurveyResult) -> tuple[Wall, ...]:
    names, points = survey.corners, survey.xy
    n = len(names)
    turn = left_of if survey.round == "counterclockwise" else (lambda v: -left_of(v))
    walls = []
    for i in range(n):
        j = (i + 1) % n
        d = points[j] - points[i]
        inward = turn(d) / float(np.hypot(*d))
        walls.append(Wall(names[i] + names[j], names[i], names[j], points[i], points[j], (i, j), inward))
    return tuple(walls)


@dataclass(frozen=True, eq=False)
class _Frame:
    """Places things by the document's positions."""

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
        wall = self.wall(at.wall)
        origin, u, indices = wall.seen_from(corners_of(at.wall)[0])
        near = origin + float(at.along) * u
        far = near + float(work.width) * u
        start, end = (near, far) if origin is wall.start else (far, near)
        over = max(wall.along(end) - wall.length, -wall.along(start))
        if over > 0.02:
            raise InputError(
                f"`{key}` runs {over * 1000:.0f} mm past the end of wall {wall.name}",
                at=At(path=f"{path}/at"),
                hint="check `along` and `width`: along is taped from the wall's first-named corner to the frame's near edge",
            )
        anchor = Anchor(path, indices, origin, u, wall.inward, wall.length, self.position_sigma, 0.0)
        return HungArt(
            id=key, path=path, model=work, wall=wall, start=start, end=end, anchor=anchor
        )  # fmt: skip

    def opening(self, path: str, key: str, opening: Opening) -> WallOpening:
        wall = self.wall(opening.wall)
        origin, u, indices = wall.seen_from(corners_of(opening.wall)[0])
        near = origin + float(opening.along) * u
        far = near + float(opening.width) * u
        start, end = (near, far) if origin is wall.start else (far, near)
        if (end - wall.start) @ wall.direction > wall.length + 0.02 or (
            start - wall.start
        ) @ wall.direction < -0.02:
            over = max(
                (end - wall.start) @ wall.direction - wall.length, -((start - wall.start) @ wall.direction)
            )
            raise InputError(
                f"{opening.kind} `{key}` runs {over * 1000:.0f} mm past the end of wall {wall.name}",
                at=At(path=path),
                hint="check `along` and `width`: along is taped from the wall's first-named corner to the near jamb",
            )
        anchor = Anchor(path, indices, origin, u, wall.inward, wall.length, self.position_sigma, 0.0)
        swing, leaves = _leaves(opening, wall, start, end)
        return WallOpening(
            id=key,
            path=path,
            model=opening,
            wall=wall,
            start=start,
            end=end,
            anchor=anchor,
            swing=swing,
            leaves=leaves,
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


def resolve_room(
    room_id: str, room: Room, survey: SurveyResult, practice: Practice, was: ResolvedRoom | None = None
) -> ResolvedRoom:
    """Return the room as shapes on the plan.

    Parameters
    ----------
    room_id : str
        Its id in the job.
    room : Room
        The document's room.
    survey : SurveyResult
        Its adjusted survey, from `halfdrop.survey.adjust_survey`.
    practice : Practice
        For what the document leaves open: legs' setback, the error of a taped position.
    was : ResolvedRoom, optional
        The room before a change, by the same practice: what the change left alone keeps its shape.

    Raises
    ------
    InputError
        Where an opening or a work runs past its wall's end.
    """
    same = was if was is not None and was.survey is survey else None
    walls = same.walls if same else _walls(survey)
    outline = same.outline if same else _outline(survey)
    frame = _Frame(walls, practice.length("survey.position_sigma"))
    path = f"rooms/{room_id}"
    return ResolvedRoom(
        id=room_id,
        path=path,
        model=room,
        survey=survey,
        walls=walls,
        outline=outline,
        openings={
            i: _kept(same.openings if same else {}, i, o) or frame.opening(f"{path}/openings/{i}", i, o)
            for i, o in room.openings.items()
        },
        fittings={
            i: _kept(same.fittings if same else {}, i, f) or frame.fitting(f"{path}/fittings/{i}", i, f)
            for i, f in room.fittings.items()
        },
        pieces={
            i: _kept(same.pieces if same else {}, i, p) or frame.piece(f"{path}/pieces/{i}", i, p, practice)
            for i, p in room.pieces.items()
        },
        rugs={
            i: _kept(same.rugs if same else {}, i, r) or frame.rug(f"{path}/rugs/{i}", i, r)
            for i, r in room.rugs.items()
        },
        art={
            i: _kept(same.art if same else {}, i, a) or frame.art(f"{path}/art/{i}", i, a, a.at)
            for i, a in room.art.items()
            if a.at is not None
        },
    )


def _outline(survey: SurveyResult) -> Polygon:
    return Polygon(survey.xy if survey.round == "counterclockwise" else survey.xy[::-1])


def _kept(old: dict[str, T], key: str, model: object) -> T | None:
    """Return a thing as it was resolved before, where the document's own object for it is still the same."""
    thing = old.get(key)
    return thing if thing is not None and thing.model is model else None
