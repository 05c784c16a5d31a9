"""Walls seen face on: what an elevation shows of a room. The mapping itself is in `halfdrop.room.face`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from shapely.geometry import LineString

from halfdrop.base.errors import At, InputError, did_you_mean
from halfdrop.base.tolerance import SAME
from halfdrop.geometry.plane import Array, span_along
from halfdrop.job.part import corners_in
from halfdrop.practice import Practice
from halfdrop.room.face import Elevation, Seen, Side, Stretch, right_hand, runs_right, wall_run
from halfdrop.room.resolved import ResolvedRoom
from halfdrop.room.things import FixedFitting, StandingPiece
from halfdrop.room.walls import Wall

#: Fittings of the ceiling and the floor, which no wall shows.
_NOT_SHOWN = frozenset({"smoke alarm", "stair head", "beam"})


def elevation_of(room: ResolvedRoom, walls: str | Sequence[str], practice: Practice) -> Elevation:
    """Return the elevation of a wall, or of several in a row.

    Parameters
    ----------
    room : ResolvedRoom
        With its outline adjusted.
    walls : str or sequence of str
        A wall by its corners, either way round (`CD`); of several, those between are shown too.
    practice : Practice
        `elevation.reach`, `elevation.ceiling`, and the usual heights of fittings.

    Raises
    ------
    InputError
        Where a name is no wall of the room.

    Source: our own. Checked by: tests/room/test_elevation.py.
    """
    names = [walls] if isinstance(walls, str) else list(walls)
    for name in names:
        _known(room, name)
    chain = wall_run(room, names)
    ceilings, untaped, taped = _ceilings(room, practice)
    floors = {c: float(room.model.survey.level.get(c, 0.0)) for c in room.survey.corners}
    stretches: list[Stretch] = []
    at, zero = 0.0, 0.0
    for wall in chain:
        ends = (wall.first, wall.second) if runs_right(wall) else (wall.second, wall.first)
        if not stretches:
            zero = floors[ends[0]]
        low = (floors[ends[0]] - zero, floors[ends[1]] - zero)
        high = (low[0] + ceilings[ends[0]], low[1] + ceilings[ends[1]])
        stretches.append(Stretch(wall, at, at + wall.length, *ends, low, high))
        at += wall.length
    shown = {corner for s in stretches for corner in (s.left_corner, s.right_corner)}
    bare = Elevation(room, tuple(stretches), (), (), (), (), tuple(c for c in untaped if c in shown), taped)
    return Elevation(
        room,
        bare.stretches,
        tuple(_openings(bare)),
        tuple(_fittings(bare, practice)),
        tuple(_pieces(bare, practice)),
        tuple(_art(bare)),
        bare.untaped,
        taped,
    )


def _known(room: ResolvedRoom, name: str) -> None:
    walls = {frozenset((w.first, w.second)): w.name for w in room.walls}
    if frozenset(corners_in(name)) not in walls:
        raise InputError(
            f"`{name}` is no wall of room `{room.id}`; its walls: {' '.join(walls.values())}",
            at=At(path=f"{room.path}/survey/walls"),
            hint=did_you_mean(name, walls.values()),
        )


def _ceilings(room: ResolvedRoom, practice: Practice) -> tuple[dict[str, float], tuple[str, ...], bool]:
    """Return floor to ceiling at each corner [m], the corners not taped, and whether any place was."""
    taped = {place: float(h) for place, h in room.model.survey.heights.items()}
    corners = room.survey.corners
    if not taped:
        return dict.fromkeys(corners, float(practice.length("elevation.ceiling"))), tuple(corners), False
    mean = sum(taped.values()) / len(taped)
    return {c: taped.get(c, mean) for c in corners}, tuple(c for c in corners if c not in taped), True


def _openings(face: Elevation) -> Iterable[Seen]:
    found = []
    for stretch in face.stretches:
        for opening in face.room.openings.values():
            if opening.wall is not stretch.wall:
                continue
            left, right = sorted((stretch.x(opening.start), stretch.x(opening.end)))
            bottom = face.floor((left + right) / 2) + float(opening.model.sill or 0.0)
            found.append(Seen(opening, left, right, bottom, bottom + float(opening.model.height)))
    return sorted(found, key=lambda s: (s.left, s.path))


def _art(face: Elevation) -> Iterable[Seen]:
    found = []
    for stretch in face.stretches:
        for work in face.room.art.values():
            if work.wall is not stretch.wall:
                continue
            left, right = sorted((stretch.x(work.start), stretch.x(work.end)))
            ground = face.floor((left + right) / 2)
            found.append(Seen(work, left, right, ground + work.bottom, ground + work.top))
    return sorted(found, key=lambda s: (s.left, s.path))


def _fittings(face: Elevation, practice: Practice) -> Iterable[Seen]:
    found = []
    for fitting in face.room.fittings.values():
        if fitting.model.kind in _NOT_SHOWN:
            continue
        stretch = next((s for s in face.stretches if s.wall is fitting.wall), None)
        off = 0.0
        if stretch is None:
            if fitting.wall is not None:
                continue
            near = _before(face, fitting, practice)
            if near is None:
                continue
            stretch, off = near
        left, right = _span(stretch, fitting.corners)
        low, high, usual = usual_heights(fitting, practice)
        ground = face.floor((left + right) / 2)
        top = face.ceiling((left + right) / 2) if high is None else ground + high
        found.append(Seen(fitting, left, right, ground + low, top, off, usual=usual))
    return sorted(found, key=lambda s: (s.off, s.left, s.path))


def usual_heights(fitting: FixedFitting, practice: Practice) -> tuple[float, float | None, bool]:
    """Return bottom and top of a fitting above the floor [m], and whether either is practice's usual one.

    A column, a closet and a shower reach the ceiling where nothing is said: their top is None.
    """
    model = fitting.model
    key = f"elevation.{model.kind.replace(' ', '_')}"
    bottom = float(model.bottom if model.bottom is not None else practice.length(f"{key}_bottom"))
    if model.height is not None:
        return bottom, bottom + float(model.height), model.bottom is None
    if model.kind in ("column", "closet", "shower"):
        return bottom, None, True
    return bottom, bottom + float(practice.length(f"{key}_height")), True


def _span(stretch: Stretch, corners: Array) -> tuple[float, float]:
    at = [stretch.x(p) for p in corners]
    return min(at), max(at)


def _before(
    face: Elevation, thing: StandingPiece | FixedFitting, practice: Practice
) -> tuple[Stretch, float] | None:
    """Return the wall of the elevation a thing stands at and how far off it is [m]; None where it stands at none."""
    reach = float(practice.length("elevation.reach"))
    near: list[tuple[float, float, Stretch]] = []
    for stretch in face.stretches:
        wall = stretch.wall
        low, high = span_along(thing.corners, wall.start, wall.direction)
        shared = min(high, wall.length) - max(low, 0.0)
        if shared <= max(SAME, (high - low) / 2):
            continue
        off = float(LineString([wall.start, wall.end]).distance(thing.footprint))
        if off <= reach + SAME:
            near.append((off, -shared, stretch))
    if not near:
        return None
    off, _, stretch = min(near, key=lambda n: (round(n[0], 6), n[1]))
    return stretch, off


def _pieces(face: Elevation, practice: Practice) -> Iterable[Seen]:
    found: list[tuple[tuple[float, int, str], Seen]] = []
    for piece in face.room.pieces.values():
        near = _before(face, piece, practice)
        if near is None:
            continue
        stretch, off = near
        left, right = _span(stretch, piece.corners)
        under, depth = _stands_on(face.room, piece)
        bottom = face.floor((left + right) / 2) + under
        base = piece if not depth else _lowest(face.room, piece)
        held = _before(face, base, practice)
        order = (held[1] if held else off, depth, piece.path)
        seen = Seen(piece, left, right, bottom, bottom + piece.height, off, _side(piece, stretch.wall))
        found.append((order, seen))
    return [seen for _, seen in sorted(found, key=lambda f: f[0])]


def _chain_below(room: ResolvedRoom, piece: StandingPiece) -> list[StandingPiece]:
    """Return what a piece stands on, the nearest first."""
    below: list[StandingPiece] = []
    at = piece
    while at.model.on is not None and at.model.on in room.pieces and len(below) < 8:
        at = room.pieces[at.model.on]
        below.append(at)
    return below


def _stands_on(room: ResolvedRoom, piece: StandingPiece) -> tuple[float, int]:
    below = _chain_below(room, piece)
    return sum(p.height for p in below), len(below)


def _lowest(room: ResolvedRoom, piece: StandingPiece) -> StandingPiece:
    return _chain_below(room, piece)[-1]


def _side(piece: StandingPiece, wall: Wall) -> Side:
    out, across = float(piece.front @ wall.inward), float(piece.front @ right_hand(wall))
    if abs(out) >= abs(across) - 1e-9:
        return "front" if out > 0 else "back"
    return "right" if across > 0 else "left"


def every_elevation(room: ResolvedRoom, practice: Practice) -> tuple[Elevation, ...]:
    """Return the elevation of each wall of a room, in the survey's walking order."""
    return tuple(elevation_of(room, wall.name, practice) for wall in room.walls)


__all__ = [
    "Elevation",
    "Seen",
    "Stretch",
    "elevation_of",
    "every_elevation",
    "runs_right",
    "usual_heights",
    "wall_run",
]
