"""The faces of a room's walls: how long, how high at each end, and which openings are cut out of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.base.errors import At, InputError
from halfdrop.job.part import corners_of
from halfdrop.room import ResolvedRoom
from halfdrop.room.walls import Wall


@dataclass(frozen=True)
class Hole:
    """An opening in a wall's face.

    Attributes
    ----------
    path, kind : str
        In the document; door, window or cased opening.
    start, end : float
        Along the face, from its start [m].
    bottom, top : float
        Above the floor [m].
    trim : float or None
        Width of its casing where it was taped [m].
    name : str
        What to call it; where it is not known, its kind and id.
    """

    path: str
    kind: str
    start: float
    end: float
    bottom: float
    top: float
    trim: float | None = None
    name: str = ""

    @property
    def called(self) -> str:
        """What a sum calls it: `hall door`, `window w1`."""
        return self.name or f"{self.kind} {self.id}"

    @property
    def width(self) -> float:
        """Jamb to jamb [m]."""
        return self.end - self.start

    @property
    def height(self) -> float:
        """Sill or floor to head [m]."""
        return self.top - self.bottom

    @property
    def id(self) -> str:
        """Its id in the room."""
        return self.path.rsplit("/", 1)[-1]


@dataclass(frozen=True)
class Face:
    """One wall as it is covered, in the survey's walking order.

    Attributes
    ----------
    name : str
        Its corners: `AB`.
    length : float
        Adjusted [m].
    height_start, height_end : float
        Floor to ceiling at its two corners [m].
    holes : tuple of Hole
        From its start on.
    inside_end : bool
        Whether its end corner is an inside one (the room's angle there is less than 180°).
    """

    name: str
    length: float
    height_start: float
    height_end: float
    holes: tuple[Hole, ...] = ()
    inside_end: bool = True

    def height(self, along: float) -> float:
        """Return the ceiling's height [m] at a place along the face [m]."""
        share = min(max(along / self.length, 0.0), 1.0)
        return self.height_start + share * (self.height_end - self.height_start)

    @property
    def highest(self) -> float:
        """The greater of its two heights [m]."""
        return max(self.height_start, self.height_end)

    @property
    def mean_height(self) -> float:
        """The mean of its two heights [m]."""
        return (self.height_start + self.height_end) / 2


def corner_heights(room: ResolvedRoom) -> tuple[dict[str, float], tuple[str, ...]]:
    """Return floor to ceiling at each corner [m], and the corners where it was not taped.

    Where it was not taped the greatest height taped in the room stands in, so that nothing is cut short.

    Raises
    ------
    InputError
        Where no height was taped in the room.
    """
    taped = {place: float(h) for place, h in room.model.survey.heights.items()}
    if not taped:
        raise InputError(
            f"room `{room.id}` has no ceiling height; its walls cannot be counted",
            at=At(path=f"{room.path}/survey"),
            hint="tape floor to ceiling and write it under `heights`, such as heights: {A: 8' 6\"}",
        )
    most = max(taped.values())
    corners = room.survey.corners
    return {c: taped.get(c, most) for c in corners}, tuple(c for c in corners if c not in taped)


def faces_of(room: ResolvedRoom) -> tuple[Face, ...]:
    """Return every wall of a room as a face, in walking order.

    Raises
    ------
    InputError
        Where no height was taped, or an opening stands higher than the ceiling over it.
    """
    heights, _ = corner_heights(room)
    return tuple(_face(room, n, wall, heights) for n, wall in enumerate(room.walls))


def _face(room: ResolvedRoom, n: int, wall: Wall, heights: dict[str, float]) -> Face:
    holes = []
    for opening in room.openings.values():
        if opening.wall is not wall:
            continue
        low, high = sorted((float(wall.along(opening.start)), float(wall.along(opening.end))))
        bottom = float(opening.model.sill or 0.0)
        trim = float(opening.model.trim) if opening.model.trim is not None else None
        top = bottom + float(opening.model.height)
        span = max(low, 0.0), min(high, wall.length)
        holes.append(Hole(opening.path, opening.model.kind, *span, bottom, top, trim, opening.name))
    holes.sort(key=lambda hole: (hole.start, hole.path))
    after = room.walls[(n + 1) % len(room.walls)]
    face = Face(
        wall.name,
        wall.length,
        heights[wall.first],
        heights[wall.second],
        tuple(holes),
        inside_end=float(wall.inward @ after.direction) > 0,
    )
    for hole in holes:
        least = min(face.height(hole.start), face.height(hole.end))
        if hole.top > least + 0.02:
            raise InputError(
                f"{hole.kind} `{hole.id}` reaches {hole.top * 1000:.0f} mm above the floor; "
                f"the ceiling over it is at {least * 1000:.0f} mm",
                at=At(path=hole.path),
                hint="check its `height` and `sill` against the heights taped in the room",
            )
    return face


def chosen(faces: Sequence[Face], walls: Sequence[str] | None) -> tuple[Face, ...]:
    """Return the faces that a finish names, in walking order; every one where it names none."""
    if walls is None:
        return tuple(faces)
    names = {frozenset(corners_of(pair)) for pair in walls}
    return tuple(face for face in faces if frozenset(corners_of(face.name)) in names)
