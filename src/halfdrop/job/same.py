"""When two JSON values are the same, and how to copy one."""

from __future__ import annotations

from halfdrop.job.scalars import Json


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


def aligned(old: list[Json], new: list[Json]) -> tuple[int, int]:
    """Return how many items two lists share at their beginning, and then at their end."""
    most = min(len(old), len(new))
    head = 0
    while head < most and same(old[head], new[head]):
        head += 1
    tail = 0
    while tail < most - head and same(old[-1 - tail], new[-1 - tail]):
        tail += 1
    return head, tail
