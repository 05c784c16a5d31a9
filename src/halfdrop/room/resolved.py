"""The resolved room: the document's room with its outline adjusted and every thing a shape on the plan.

Frame of the plan: seen from above, y up, corner A at the origin, wall AB on the x axis, the room above it (y > 0
next to AB). A counterclockwise survey runs to the right along AB, a clockwise one to the left; the document's own x
always runs from A to B, so it is mirrored here for a clockwise survey.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

from halfdrop.geometry.plane import (
    Array,
    closest,
    left_of,
    span_along,
)
from halfdrop.job.model import Room, corners_of
from halfdrop.practice import Practice
from halfdrop.room.placing import Frame
from halfdrop.room.things import (
    FixedFitting,
    HungArt,
    HungTreatment,
    LyingRug,
    StandingPiece,
    Thing,
    WallOpening,
)
from halfdrop.room.walls import Wall, sigma_between, wall_anchor
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
    frame = Frame(walls, practice.length("survey.position_sigma"))
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
