"""A free cluster: frames of several sizes packed for even gaps about one middle, clear of what is on the wall."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from halfdrop.art.cluster_search import Array, Task, layouts
from halfdrop.art.group import GAP, Group, Hung, checked
from halfdrop.art.place_clear import EDGE, FITTING, shortest_move
from halfdrop.art.rect import Point, Rect
from halfdrop.art.work import Work
from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

ASPECT = "art.group_aspect"

#: What counts in a whole cluster; our choice.
_LOOSE, _UNEVEN, _LOPSIDED, _OFF, _SHAPE = 1.0, 1.5, 2.0, 2.0, 0.5

#: Two candidates differ where works lie on average this share of the group's diagonal elsewhere.
_DIFFERS = 0.08


@dataclass(frozen=True)
class Candidate:
    """One cluster and what it is worth.

    Attributes
    ----------
    group : Group
        The works in their places.
    score : float
        Sum of what speaks against it; 0 is perfect. The parts are in its working.
    uneven : float
        How much wider than the gap the gaps between facing frames are on average ÷ the gap; those across a fitting left out.
    off : float
        How far its middle is from where it was wanted [m].
    """

    group: Group
    score: float
    uneven: float
    off: float


def cluster(
    works: Sequence[Work],
    center: Point,
    practice: Practice,
    *,
    wall: Rect,
    obstacles: Sequence[tuple[str, Rect]] = (),
    gap: float | None = None,
    width: float | None = None,
    candidates: int = 3,
    seed: int = 0,
) -> tuple[Candidate, ...]:
    """Return several clusters, the best first.

    In every one each frame is exactly one gap from at least one other, none is nearer to any, all are within the wall and
    clear of the obstacles. The same input and seed give the same clusters; a wall mirrored about the wanted middle gives
    them mirrored, but where the wall is its own mirror image.

    Parameters
    ----------
    works : sequence of Work
        1 to 24, frames of any sizes.
    center : (x, y)
        Where the middle of the whole group is wanted [m].
    practice : Practice
        `art.gap_between`, `art.fitting_clear`, `art.edge_clear`, `art.group_aspect`.
    wall : Rect
        The free wall, corner to corner, floor (or top of the piece below, and its gap) to ceiling [m].
    obstacles : sequence of (str, Rect)
        Switches, thermostats, sconces, each with its name.
    gap : float, optional
        Between frames [m]; of practice without it.
    width : float, optional
        Width wanted of the whole group [m].
    candidates : int
        How many at most, 1 to 12.
    seed : int
        Another seed tries the works in other orders.

    Raises
    ------
    InputError
        As `group.checked`; where nothing was found that is clear of all.

    Source: our choice. Checked by: tests/art/test_cluster.py.
    """
    if not 1 <= candidates <= 12:
        raise InputError(f"{candidates} candidates were asked for; allowed are 1 to 12")
    between = checked(works, gap, practice)
    clear, edge = float(practice.length(FITTING)), float(practice.length(EDGE))
    free = Rect(wall.x0 + edge, wall.y0, wall.x1 - edge, wall.y1 - edge).moved(-center[0], -center[1])
    fittings = [r.moved(-center[0], -center[1]) for _, r in obstacles]
    flipped = _key([free, *fittings], mirrored=True) < _key([free, *fittings], mirrored=False)
    if flipped:
        free, fittings = free.mirrored(), [r.mirrored() for r in fittings]
    task = Task(
        works, between, np.array(_row(free)), np.array([_row(r.grown(clear)) for r in fittings]).reshape(-1, 4),
        practice.number(ASPECT), width,
    )  # fmt: skip
    found = [_judged(task, places, free, fittings, clear, practice) for places in layouts(task, seed)]
    best = _diverse([f for f in found if f is not None], candidates)
    if not best:
        say = Words(practice)
        names = ", ".join(n for n, _ in obstacles)
        raise InputError(
            f"no cluster of {len(works)} works was found on {say.pair(wall.width, wall.height)} of wall"
            + (f" clear of {names}" if names else ""),
            hint="hang fewer works, closer, or try another seed",
        )
    turned = [Candidate(c.group.mirrored(), c.score, c.uneven, c.off) if flipped else c for c in best]
    return tuple(Candidate(c.group.moved(*center), c.score, c.uneven, c.off) for c in turned)


def _row(r: Rect) -> tuple[float, float, float, float]:
    return r.x0, r.y0, r.x1, r.y1


def _key(rects: Sequence[Rect], *, mirrored: bool) -> tuple[tuple[float, ...], ...]:
    """Return a sortable key of what is on a wall, or of its mirror image; the wall itself stays first."""
    seen = [tuple(round(v, 6) + 0.0 for v in _row(r.mirrored() if mirrored else r)) for r in rects]
    return seen[0], *sorted(seen[1:])


def _judged(
    task: Task, places: Array, free: Rect, fittings: Sequence[Rect], clear: float, practice: Practice
) -> Candidate | None:
    """Return a layout brought as near the middle as it can be, with what speaks against it; None where it has no place."""
    rects = [Rect(*(float(v) for v in p)) for p in places]
    x, y = Rect.round_all(rects).center
    middle = [r.moved(-x, -y) for r in rects]
    move = shortest_move(middle, free, fittings, clear)
    if move is None:
        return None
    hung = tuple(Hung(w, r.moved(*move)) for w, r in zip(task.works, middle, strict=True))
    working = Working("Cluster")
    group = Group("cluster", hung, task.gap, (), working)
    box = group.box
    off = math.hypot(*box.center)
    uneven = _uneven(group, fittings)
    loose = 1 - sum(w.width * w.height for w in task.works) / (box.width * box.height)
    wanted = task.width / box.width if task.width else task.aspect * box.height / box.width
    shape = abs(math.log(wanted))
    span = math.hypot(box.width, box.height)
    parts = (_LOOSE * loose, _UNEVEN * uneven, _LOPSIDED * group.imbalance, _OFF * off / span, _SHAPE * shape)
    _write(working, parts, group, off, loose, uneven, practice)
    return Candidate(group, sum(parts), uneven, off)


def _uneven(group: Group, fittings: Sequence[Rect]) -> float:
    """Return how much wider than the gap the gaps are on average ÷ the gap; none counts for more than 4 gaps."""
    unit = max(group.gap, 0.01)
    gaps = [
        g for g in group.gaps if not fittings or g <= group.gap + SAME or not _astride(g, group, fittings)
    ]
    return sum(min((g - group.gap) / unit, 4.0) for g in gaps) / len(gaps) if gaps else 0.0


def _astride(gap: float, group: Group, fittings: Sequence[Rect]) -> bool:
    """Return whether a fitting in the group is what keeps a gap that wide."""
    inside = [f for f in fittings if max(f.apart(group.box)) < 0]
    return any(min(f.width, f.height) <= gap + SAME for f in inside)


def _write(
    working: Working,
    parts: Sequence[float],
    group: Group,
    off: float,
    loose: float,
    uneven: float,
    practice: Practice,
) -> None:
    say, box = Words(practice), group.box
    working.step("size", "round all frames", "", say.pair(box.width, box.height))
    working.step("gap", "between neighbors", "", say(group.gap), source=say.cited(GAP))
    working.step("wall left bare inside", "1 − frames ÷ size", "", f"{loose:.2f}, counts {parts[0]:.2f}")
    working.step("uneven gaps", "mean of (gap ÷ wanted − 1) over frames that face each other", f"{len(group.gaps)} gaps",
                 f"{uneven:.2f}, counts {parts[1]:.2f}")  # fmt: skip
    working.step("balance", "middle of visual weight to the middle ÷ half the diagonal; weight is area × tone", "",
                 f"{group.imbalance:.2f}, counts {parts[2]:.2f}", source="our choice, no source")  # fmt: skip
    working.step("off the middle wanted", "middle to middle", "", f"{say(off)}, counts {parts[3]:.2f}",
                 source=say.cited(FITTING, EDGE))  # fmt: skip
    working.step(
        "shape", "against the width or shape wanted", "", f"counts {parts[4]:.2f}", source=say.cited(ASPECT)
    )
    working.step("score", "sum; 0 is perfect", "", f"{sum(parts):.3f}", rounding="to three digits")


def _diverse(found: Sequence[Candidate], count: int) -> list[Candidate]:
    """Return the best that differ from each other, an image turned left to right or upside down counting as the same."""
    ranked = sorted(found, key=lambda c: (round(c.score, 9), [_row(r) for r in c.group.rects]))
    kept: list[Candidate] = []
    for one in ranked:
        if all(_differs(image, k.group) for k in kept for image in _images(one.group)):
            kept.append(one)
        if len(kept) == count:
            break
    return kept


def _images(group: Group) -> tuple[Group, ...]:
    """Return a group, its mirror image, and both upside down."""
    down = replace(group, hung=tuple(Hung(h.work, h.rect.upside_down()) for h in group.hung))
    return group, group.mirrored(), down, down.mirrored()


def _differs(a: Group, b: Group) -> bool:
    """Return whether the works of two groups lie elsewhere, each about its own middle."""
    (ax, ay), (bx, by) = a.box.center, b.box.center
    span = math.hypot(a.box.width, a.box.height)
    shifts = [
        math.hypot(
            p.rect.center[0] - ax - q.rect.center[0] + bx, p.rect.center[1] - ay - q.rect.center[1] + by
        )
        for p, q in zip(a.hung, b.hung, strict=True)
    ]
    return sum(shifts) / len(shifts) > _DIFFERS * span
