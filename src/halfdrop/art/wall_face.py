"""One wall with what hangs on it: frames, what they keep clear of, what reads as one, what stands below.

Frame of an elevation: x to the right from the wall's left end as one who faces it sees it, y up from the floor [m].
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from halfdrop.art.rect import Rect
from halfdrop.base.tolerance import SAME
from halfdrop.practice import Practice
from halfdrop.room import HungArt, ResolvedRoom
from halfdrop.room.elevation import elevation_of
from halfdrop.room.face import Elevation, Seen

#: What a work may hang over, and as what its gap is judged.
BELOW = {
    "sofa": "sofa", "loveseat": "sofa", "sectional": "sofa", "bed": "headboard", "crib": "cot", "console": "console",
    "desk": "console", "sideboard": "sideboard", "media unit": "sideboard", "chest": "chest", "dresser": "chest",
    "cabinet": "chest", "bookcase": "chest", "hearth": "mantel",
}  # fmt: skip
WIRED = frozenset({"outlet", "switch", "thermostat", "sconce"})
#: Fittings that a frame may hang over, since nothing of them is on the wall at its height.
_LOW = frozenset({"register", "beam"})
#: Pieces that may stand before a picture without harm to either.
_BEFORE = frozenset(
    {
        "floor lamp",
        "table lamp",
        "plant",
        "armchair",
        "dining chair",
        "desk chair",
        "stool",
        "ottoman",
        "other",
    }
)
#: What stands farther off the wall than this is no neighbor of what hangs on it [m].
_STANDS_OFF = 0.4


@dataclass(frozen=True)
class Mark:
    """What is on a wall, or stands high before it, that a frame keeps clear of.

    Attributes
    ----------
    name, path, kind : str
        What a message calls it; its place in the document; "opening", "treatment", "piece", or a fitting's kind.
    rect : Rect
        Its box [m].
    """

    name: str
    path: str
    kind: str
    rect: Rect

    @property
    def bounds(self) -> bool:
        """Whether it ends a stretch of wall, as a switch does not."""
        return self.kind not in WIRED


@dataclass(frozen=True, eq=False)
class Unit:
    """A work by itself, or those of a group on one wall: what reads as one.

    Attributes
    ----------
    works : tuple of HungArt
        By id.
    rects : tuple of Rect
        Their frames.
    group : str or None
        The group's id.
    below : Seen or None
        What it hangs over.
    """

    works: tuple[HungArt, ...]
    rects: tuple[Rect, ...]
    group: str | None
    below: Seen | None

    @cached_property
    def box(self) -> Rect:
        """The least rectangle round it [m]."""
        return Rect.round_all(self.rects)

    @property
    def id(self) -> str:
        """The group's id, or the work's."""
        return self.group or self.works[0].id

    @property
    def name(self) -> str:
        """What a message calls it."""
        if len(self.works) == 1:
            return self.works[0].name
        names = [work.name for work in self.works]
        if len(names) > 3:
            return f"group of {len(names)} works from {names[0]} to {names[-1]}"
        return f"group of {', '.join(names[:-1])} and {names[-1]}"

    @property
    def below_kind(self) -> str | None:
        """As what the gap below it is judged."""
        return None if self.below is None else kind_below(self.below)

    @property
    def kept(self) -> bool:
        """Whether the client keeps any of it."""
        return any(w.model.keep for w in self.works)


@dataclass(frozen=True, eq=False)
class ArtWall:
    """One wall and its art.

    Attributes
    ----------
    face : Elevation
    marks : tuple of Mark
        What frames keep clear of.
    units : tuple of Unit
        What hangs, by id.
    """

    face: Elevation
    marks: tuple[Mark, ...]
    units: tuple[Unit, ...]

    @property
    def name(self) -> str:
        """The wall's corners."""
        return self.face.name

    @cached_property
    def free(self) -> Rect:
        """The wall from floor to its lowest ceiling [m]."""
        low = min(min(s.ceiling) for s in self.face.stretches)
        return Rect(0.0, max(0.0, *(max(s.floor) for s in self.face.stretches)), self.face.width, low)

    def stretch(self, box: Rect, ignore: Iterable[str] = ()) -> tuple[float, float]:
        """Return from where to where the wall is bare round a box, at the box's height [m]."""
        left, right, x = 0.0, self.face.width, box.center[0]
        skipped = set(ignore)
        for mark in self.marks:
            if not mark.bounds or mark.path in skipped or box.apart(mark.rect)[1] >= -SAME:
                continue
            if mark.rect.center[0] <= x:
                left = max(left, mark.rect.x1)
            else:
                right = min(right, mark.rect.x0)
        return left, right

    def bare(self, low: float, high: float) -> list[tuple[float, float]]:
        """Return the stretches of wall that are bare from one height to another [m], from left to right."""
        spans, x = [], 0.0
        marks = [
            m.rect for m in self.marks if m.bounds and m.rect.y0 < high - SAME and m.rect.y1 > low + SAME
        ]
        for rect in sorted(marks, key=lambda r: (r.x0, r.x1)):
            if rect.x0 > x + SAME:
                spans.append((x, min(rect.x0, self.face.width)))
            x = max(x, rect.x1)
        if x < self.face.width - SAME:
            spans.append((x, self.face.width))
        return spans

    def hits(self, rect: Rect, clear: float, ignore: Iterable[str] = ()) -> list[tuple[Mark, float]]:
        """Return what a frame is nearer to than `clear`, and how near [m]; 0 where it covers it."""
        skipped = set(ignore)
        near = [(m, rect.gap(m.rect)) for m in self.marks if m.path not in skipped]
        return [(m, gap) for m, gap in near if gap < clear - SAME]


def _type(seen: Seen) -> str:
    model = seen.thing.model
    return str(getattr(model, "type", None) or getattr(model, "kind", ""))


def kind_below(seen: Seen) -> str:
    """Return as what the gap over a piece is judged: `bookcase` is a chest."""
    return BELOW[_type(seen)]


def pieces_below(face: Elevation) -> list[Seen]:
    """Return what a work may hang over on a wall: furniture against it, and a hearth's mantel."""
    standing = [
        s
        for s in face.pieces
        if _type(s) in BELOW and s.off <= _STANDS_OFF and getattr(s.thing, "on_floor", False)
    ]
    return standing + [s for s in face.fittings if _type(s) == "hearth"]


def below_of(face: Elevation, box: Rect, named: str | None) -> Seen | None:
    """Return what a frame or group hangs over: what it is said to, else the highest that shares half the narrower width."""
    found = []
    for seen in pieces_below(face):
        if named is not None and seen.thing.id == named and seen.path.split("/")[-2] == "pieces":
            return seen
        shared = min(box.x1, seen.right) - max(box.x0, seen.left)
        if shared >= min(box.width, seen.right - seen.left) / 2 - SAME and box.center[1] > seen.top:
            found.append(seen)
    return max(found, key=lambda s: (round(s.top, 6), s.path), default=None)


def marks_of(face: Elevation) -> list[Mark]:
    """Return what is in and on a wall, and what stands high against it."""
    found = []
    for seen in face.openings:
        trim = float(getattr(seen.thing.model, "trim", None) or 0.0)
        rect = Rect(seen.left, seen.bottom, seen.right, seen.top).grown(trim)
        found.append(Mark(seen.thing.name, seen.path, "opening", rect))
    for seen in face.fittings:
        if _type(seen) not in _LOW and seen.off <= _STANDS_OFF:
            rect = Rect(seen.left, seen.bottom, seen.right, seen.top)
            found.append(Mark(seen.thing.name, seen.path, _type(seen), rect))
    for seen in face.pieces:
        if seen.off <= _STANDS_OFF and _type(seen) not in _BEFORE:
            rect = Rect(seen.left, seen.bottom, seen.right, seen.top)
            found.append(Mark(seen.thing.name, seen.path, "piece", rect))
    return found


def art_wall(
    room: ResolvedRoom,
    wall: str,
    practice: Practice,
    cloth: Sequence[Mark] = (),
    *,
    face: Elevation | None = None,
) -> ArtWall:
    """Return a wall with its art.

    Parameters
    ----------
    room : ResolvedRoom
        The room.
    wall : str
        By its corners, either way round.
    practice : Practice
        For heights that were not taped.
    cloth : sequence of Mark
        What hangs at its openings, shut.
    face : Elevation, optional
        The wall's elevation, where it is at hand.

    Raises
    ------
    InputError
        Where the name is no wall of the room.

    Source: our own. Checked by: tests/art/test_wall_face.py.
    """
    seen = face if face is not None else elevation_of(room, wall, practice)
    by_group: dict[str, list[HungArt]] = {}
    frames: dict[str, Rect] = {}
    for one in seen.art:
        work = one.thing
        assert isinstance(work, HungArt)
        frames[work.id] = Rect(one.left, one.bottom, one.right, one.top)
        by_group.setdefault(f"+{work.model.group}" if work.model.group else work.id, []).append(work)
    units = []
    for key, unsorted in by_group.items():
        works = sorted(unsorted, key=lambda w: w.id)
        rects = tuple(frames[w.id] for w in works)
        named = {w.model.above for w in works}
        over = below_of(seen, Rect.round_all(rects), named.pop() if len(named) == 1 else None)
        units.append(Unit(tuple(works), rects, key[1:] if key[0] == "+" else None, over))
    return ArtWall(
        seen, (*marks_of(seen), *cloth), tuple(sorted(units, key=lambda u: (u.group is None, u.id)))
    )


def sits(room: ResolvedRoom) -> bool:
    """Return whether people mostly sit in a room: a dining room or a study, where that is all it is."""
    uses = {use for use, on in room.model.use.items() if on}
    return bool(uses) and uses <= {"dining", "study"}
