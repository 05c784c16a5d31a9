"""How the rooms of a job hang together by their doors, and which doors lead out.

An opening's `to` says where it leads; one side of a door is enough. Rooms that no `to` joins to the outside
have no known way out, and then every door of theirs may be it.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from halfdrop.job.model import Job, Opening

OUTSIDE = "outside"


@dataclass(frozen=True)
class Door:
    """A way between two rooms, or a room and the outside.

    Attributes
    ----------
    a, b : str
        The rooms it joins (`outside` is one).
    sides : tuple of (str, str, Opening)
        Room, id and opening as they stand in the document: one, or the two sides of one door.
    """

    a: str
    b: str
    sides: tuple[tuple[str, str, Opening], ...]

    @property
    def width(self) -> float:
        """Clear width [m], by the tighter side."""
        return min(float(o.clear or o.width) for _, _, o in self.sides)

    @property
    def height(self) -> float:
        """Clear height [m], by the tighter side."""
        return min(float(o.height) for _, _, o in self.sides)


def doors_of(job: Job) -> tuple[Door, ...]:
    """Return every door between rooms once: the two sides of a door, widest with widest, are one."""
    by_pair: dict[tuple[str, str], dict[str, list[tuple[str, str, Opening]]]] = {}
    for room_id, room in job.rooms.items():
        for key, opening in room.openings.items():
            if opening.kind != "window" and opening.to is not None:
                pair = (min(room_id, opening.to), max(room_id, opening.to))
                by_pair.setdefault(pair, {}).setdefault(room_id, []).append((room_id, key, opening))
    found = []
    for (a, b), sides in sorted(by_pair.items()):
        lists = [sorted(s, key=lambda t: (-float(t[2].clear or t[2].width), t[1])) for s in sides.values()]
        count = max(map(len, lists))
        found += [Door(a, b, tuple(s[i] for s in lists if i < len(s))) for i in range(count)]
    return tuple(found)


def steps_out(job: Job) -> dict[str, int]:
    """Return how many doors part each room from the outside, 1 for a room with an outside door; others are
    left out.
    """
    near: dict[str, set[str]] = {}
    for door in doors_of(job):
        near.setdefault(door.a, set()).add(door.b)
        near.setdefault(door.b, set()).add(door.a)
    steps, queue = {OUTSIDE: 0}, deque([OUTSIDE])
    while queue:
        here = queue.popleft()
        for there in sorted(near.get(here, ())):
            if there not in steps:
                steps[there] = steps[here] + 1
                queue.append(there)
    del steps[OUTSIDE]
    return steps


def exits(job: Job, room: str) -> tuple[str, ...]:
    """Return the ids of a room's openings that lead toward the outside; where that is not known, all its
    ways.
    """
    ways = {i: o for i, o in job.rooms[room].openings.items() if o.kind != "window"}
    steps = {**steps_out(job), OUTSIDE: 0}
    here = steps.get(room)
    out = [
        i for i, o in ways.items() if here is not None and o.to is not None and steps.get(o.to, here) < here
    ]
    if out:
        return tuple(out)
    unknown = [i for i, o in ways.items() if o.to is None]
    return tuple(unknown or ways)


def inward(job: Job, room: str) -> tuple[str, ...]:
    """Return the ids of a room's openings through which rooms farther from the outside are left."""
    steps = {**steps_out(job), OUTSIDE: 0}
    here = steps.get(room)
    if here is None:
        return ()
    ways = job.rooms[room].openings.items()
    return tuple(i for i, o in ways if o.kind != "window" and o.to is not None and steps.get(o.to, 0) > here)
