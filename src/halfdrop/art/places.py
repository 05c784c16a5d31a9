"""Places on the walls of a room where a work, or a group as it is, would hang rightly: over a piece, or on a bare stretch."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass

from halfdrop.art.above_piece import gap_keys, hang_above
from halfdrop.art.eye_height import hang_at_eye
from halfdrop.art.height import HangHeight
from halfdrop.art.place_clear import EDGE, FITTING, shortest_move
from halfdrop.art.rect import Rect
from halfdrop.art.tall_work import hang_tall, is_tall
from halfdrop.art.wall_face import ArtWall, Mark, kind_below, pieces_below
from halfdrop.practice import Practice
from halfdrop.room.face import Seen

BETWEEN = "art.gap_between"
#: Half of the finest step a place is written in, 1/16 in [m]: as far as a written place may be off.
WRITTEN = 0.0254 / 32 + 1e-6


@dataclass(frozen=True, eq=False)
class Spot:
    """One place.

    Attributes
    ----------
    wall : ArtWall
    over : Seen or None
        The piece below.
    rects : tuple of Rect
        The frames there [m].
    """

    wall: ArtWall
    over: Seen | None
    rects: tuple[Rect, ...]

    @property
    def said(self) -> str:
        """`over the sofa`, `on wall CD`."""
        return f"on wall {self.wall.name}" if self.over is None else f"over the {self.over.thing.name}"


def keep_off(
    wall: ArtWall, practice: Practice, over: Seen | None = None, without: Container[str] = ()
) -> list[tuple[str, Rect]]:
    """Return what frames keep `art.fitting_clear` from; what is to be farther off is larger by the rest [m].

    Parameters
    ----------
    wall : ArtWall
        The wall.
    practice : Practice
        `art.fitting_clear`, `art.edge_clear`, `art.gap_between`, and the gap over pieces.
    over : Seen, optional
        The piece they hang over; that is none to keep off.
    without : container of str
        Ids of works that are not in the way: those to hang.
    """
    clear = float(practice.length(FITTING))
    edge, between = float(practice.length(EDGE)) - clear, float(practice.length(BETWEEN)) - clear
    found = []
    for mark in wall.marks:
        if over is None or mark.path != over.path:
            gap = _gap_over(wall, mark, practice)
            found.append((mark.name, _grown(mark, edge, gap - clear)))
    for unit in wall.units:
        for work, rect in zip(unit.works, unit.rects, strict=True):
            if work.id not in without:
                found.append((work.name, rect.grown(max(between, 0.0) + 2 * WRITTEN)))
    return found


def _gap_over(wall: ArtWall, mark: Mark, practice: Practice) -> float:
    """Return how far over a piece a frame hangs at the least [m]; over one that works do not hang over, the least there is."""
    for seen in pieces_below(wall.face):
        if seen.path == mark.path:
            return float(practice.length(gap_keys(kind_below(seen))[0]))
    return float(practice.length(gap_keys("console")[0]))


def _grown(mark: Mark, edge: float, gap: float) -> Rect:
    more = WRITTEN
    if mark.kind == "opening":
        return mark.rect.grown(max(edge, 0.0) + more)
    if mark.kind == "piece":
        return Rect(mark.rect.x0, mark.rect.y0, mark.rect.x1, mark.rect.y1 + max(gap, 0.0) + more)
    return mark.rect.grown(more)


def height_at(height: float, over: Seen | None, practice: Practice, seated: bool) -> HangHeight:
    """Return how high a work or group of this height [m] hangs, by the method that fits the place."""
    if is_tall(height, practice):
        return hang_tall(height, practice, base=over.top if over else 0.0, seated=seated)
    if over is None:
        return hang_at_eye(height, practice, seated=seated)
    return hang_above(height, over.top, practice, below=kind_below(over), seated=seated)


def clear_move(
    wall: ArtWall,
    rects: Sequence[Rect],
    practice: Practice,
    over: Seen | None = None,
    without: Container[str] = (),
) -> tuple[float, float] | None:
    """Return the shortest move (dx, dy) [m] that brings frames clear of all on the wall; None where there is none."""
    edge = float(practice.length(EDGE)) + WRITTEN
    free = Rect(wall.free.x0 + edge, wall.free.y0, wall.free.x1 - edge, wall.free.y1 - edge)
    blocks = [rect for _, rect in keep_off(wall, practice, over, without)]
    return shortest_move(rects, free, blocks, float(practice.length(FITTING)))


def middled(rects: Sequence[Rect], x: float, y: float) -> tuple[Rect, ...]:
    """Return frames moved as one so that their middle is at a point [m]."""
    at = Rect.round_all(rects).center
    return tuple(r.moved(x - at[0], y - at[1]) for r in rects)


def spots(
    walls: Iterable[ArtWall],
    rects: Sequence[Rect],
    practice: Practice,
    *,
    seated: bool = False,
    without: Container[str] = (),
) -> Iterator[Spot]:
    """Yield where frames would hang rightly as they are to each other: over each piece free of works, on each bare stretch.

    Parameters
    ----------
    walls : iterable of ArtWall
        In the order they are tried.
    rects : sequence of Rect
        The frames, where they hang now or anywhere.
    practice : Practice
        Heights, gaps, width shares, clearances.
    seated : bool
        Whether people mostly sit in the room.
    without : container of str
        Ids of works that leave their place.

    Source: our choice. Checked by: tests/art/test_places.py.
    """
    box = Rect.round_all(rects)
    least, most = practice.number("art.over_width_low"), practice.number("art.over_width_high")
    for wall in walls:
        taken = {u.below.path for u in wall.units if u.below and not all(w.id in without for w in u.works)}
        for seen in pieces_below(wall.face):
            wide = seen.right - seen.left
            if (
                seen.path not in taken
                and least * wide <= box.width <= most * wide
                and kind_below(seen) != "cot"
            ):
                yield from _settled(
                    wall, seen, rects, (seen.left + seen.right) / 2, practice, seated, without
                )
        height = height_at(box.height, None, practice, seated)
        for low, high in wall.bare(height.bottom, height.top):
            if high - low >= box.width and not _shared(wall, low, high, without):
                yield from _settled(wall, None, rects, (low + high) / 2, practice, seated, without)


def _shared(wall: ArtWall, low: float, high: float, without: Container[str]) -> bool:
    """Return whether another work hangs in a stretch already."""
    return any(
        low < unit.box.center[0] < high
        for unit in wall.units
        if not all(work.id in without for work in unit.works)
    )


def _settled(
    wall: ArtWall,
    over: Seen | None,
    rects: Sequence[Rect],
    x: float,
    practice: Practice,
    seated: bool,
    without: Container[str],
) -> Iterator[Spot]:
    height = height_at(Rect.round_all(rects).height, over, practice, seated)
    there = middled(rects, x, height.center)
    if clear_move(wall, there, practice, over, without) == (0.0, 0.0):
        yield Spot(wall, over, there)
