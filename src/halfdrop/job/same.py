"""When two JSON values are the same, and how to copy one."""

from __future__ import annotations

import difflib
import json

from halfdrop.job.scalars import Json

#: Lists with more pairs of items than this are compared place by place.
_MOST_COMPARED = 250_000


def same(a: Json, b: Json) -> bool:
    """Return whether two values are written alike but for key order: `1`, `1.0` and `true` all differ."""
    if type(a) is not type(b):
        return False
    if isinstance(a, dict):
        return a.keys() == b.keys() and all(same(value, b[key]) for key, value in a.items())
    if isinstance(a, list):
        return len(a) == len(b) and all(map(same, a, b))
    return bool(a == b)


def copied(value: Json) -> Json:
    """Return a value that shares no map and no list with `value`."""
    if isinstance(value, dict):
        return {key: copied(item) for key, item in value.items()}
    if isinstance(value, list):
        return [copied(item) for item in value]
    return value


def paired(old: list[Json], new: list[Json]) -> list[tuple[int | None, int | None]]:
    """Return which item of one list became which of another, in order.

    Returns
    ------
    list of (int or None, int or None)
        Places in `old` and `new` of the same or a changed item; (place, None) is an item gone,
        (None, place) a new one.
    """
    most = min(len(old), len(new))
    head = 0
    while head < most and same(old[head], new[head]):
        head += 1
    tail = 0
    while tail < most - head and same(old[-1 - tail], new[-1 - tail]):
        tail += 1
    pairs: list[tuple[int | None, int | None]] = [(i, i) for i in range(head)]
    for a, b, c, d in _stretches(old[head : len(old) - tail], new[head : len(new) - tail]):
        both = min(b - a, d - c)
        pairs += [(head + a + k, head + c + k) for k in range(both)]
        pairs += [(head + k, None) for k in range(a + both, b)]
        pairs += [(None, head + k) for k in range(c + both, d)]
    return pairs + [(len(old) - k, len(new) - k) for k in range(tail, 0, -1)]


def _stretches(old: list[Json], new: list[Json]) -> list[tuple[int, int, int, int]]:
    if len(old) * len(new) > _MOST_COMPARED:
        return [(0, len(old), 0, len(new))]
    a, b = ([json.dumps(item, sort_keys=True) for item in items] for items in (old, new))
    return [code[1:] for code in difflib.SequenceMatcher(None, a, b, autojunk=False).get_opcodes()]
