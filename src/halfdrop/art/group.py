"""Works that hang together: where each hangs, how even the gaps are, how the group balances."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from halfdrop.art.rect import Point, Rect
from halfdrop.art.work import Work
from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.base.working import Working
from halfdrop.practice import Practice

GAP = "art.gap_between"

#: More works than this on one wall are a hanging of another kind; the search would take minutes.
MOST_WORKS = 24


@dataclass(frozen=True)
class Hung:
    """One work in its place on the wall."""

    work: Work
    rect: Rect


@dataclass(frozen=True)
class Group:
    """Works in their places.

    Attributes
    ----------
    layout : str
        The method by name: "row", "grid", "stack" or "cluster".
    hung : tuple of Hung
        In the order the works were given.
    gap : float
        Between neighbors [m].
    notes : tuple of str
        What could not be had.
    working : Working
        The steps.
    """

    layout: str
    hung: tuple[Hung, ...]
    gap: float
    notes: tuple[str, ...]
    working: Working

    @property
    def rects(self) -> tuple[Rect, ...]:
        """The frames."""
        return tuple(h.rect for h in self.hung)

    @property
    def box(self) -> Rect:
        """The least rectangle round the whole group."""
        return Rect.round_all(self.rects)

    @property
    def heavy(self) -> Point:
        """Where the group's visual weight is centered [m]."""
        return weight_center(self.hung)

    @property
    def imbalance(self) -> float:
        """How far that is from the middle ÷ half the group's diagonal: 0 in balance."""
        (x, y), (mx, my) = self.heavy, self.box.center
        return math.hypot(x - mx, y - my) / (math.hypot(self.box.width, self.box.height) / 2)

    @property
    def gaps(self) -> tuple[float, ...]:
        """Gaps between every two frames that face each other with none between [m]."""
        return facing_gaps(self.rects)

    def moved(self, dx: float, dy: float) -> Group:
        """Return the whole group moved to the right and up [m]."""
        return replace(self, hung=tuple(Hung(h.work, h.rect.moved(dx, dy)) for h in self.hung))

    def mirrored(self, axis: float = 0.0) -> Group:
        """Return the whole group mirrored about the upright line x = `axis`."""
        return replace(self, hung=tuple(Hung(h.work, h.rect.mirrored(axis)) for h in self.hung))


def weight_center(hung: Sequence[Hung]) -> Point:
    """Return the center of visual weight [m].

    Source: our choice: area times tone; nobody publishes one. Checked by: tests/art/test_groups.py.
    """
    total = sum(h.work.weight for h in hung)
    return (
        sum(h.work.weight * h.rect.center[0] for h in hung) / total,
        sum(h.work.weight * h.rect.center[1] for h in hung) / total,
    )


def facing_gaps(rects: Sequence[Rect]) -> tuple[float, ...]:
    """Return the gaps between every two frames that face each other and have no third between them [m].

    Two frames face each other where they share some height and stand side by side, or share some width and hang one over
    the other.

    Checked by: tests/art/test_groups.py.
    """
    found = []
    for i, a in enumerate(rects):
        for b in rects[i + 1 :]:
            dx, dy = a.apart(b)
            if (dx >= 0) == (dy >= 0) or min(dx, dy) > -SAME:
                continue
            lane = _lane(a, b, dx >= 0)
            others = (c for c in rects if c is not a and c is not b)
            if not any(max(c.apart(lane)) < -SAME for c in others):
                found.append(max(dx, dy))
    return tuple(found)


def _lane(a: Rect, b: Rect, across: bool) -> Rect:
    """Return what lies between two frames that face each other."""
    if across:
        return Rect(min(a.x1, b.x1), max(a.y0, b.y0), max(a.x0, b.x0), min(a.y1, b.y1))
    return Rect(max(a.x0, b.x0), min(a.y1, b.y1), min(a.x1, b.x1), max(a.y0, b.y0))


def checked(works: Sequence[Work], gap: float | None, practice: Practice) -> float:
    """Return the gap of a group, practice's where none is given.

    Raises
    ------
    InputError
        Without works, for too many, two of one name, or a gap below 0.
    """
    if not 1 <= len(works) <= MOST_WORKS:
        raise InputError(f"a group has {len(works)} works; allowed are 1 to {MOST_WORKS}")
    names = [w.name for w in works]
    twice = next((n for n in names if names.count(n) > 1), None)
    if twice is not None:
        raise InputError(f"two works are called `{twice}`", hint="give each a name of its own")
    taken = float(practice.length(GAP)) if gap is None else gap
    if taken < 0:
        raise InputError(f"the gap between frames is {taken:g} m; allowed is 0 or more")
    return taken
