"""Every way to cut one roll, for the rooms whose plan is not yet proven the least."""

from __future__ import annotations

from collections.abc import Sequence

from halfdrop.walls.one_roll import Kind, Roll

#: Give up beyond so many ways: the plan at hand stands, with its gap.
MOST = 12_000

Counts = tuple[int, ...]


def every_way(roll: Roll, kinds: Sequence[Kind], wanted: Sequence[int]) -> list[tuple[Kind, ...]] | None:
    """Return every way to cut a roll that takes no further length, each in an order that fits.

    Parameters
    ----------
    roll : Roll
    kinds : sequence of Kind
    wanted : sequence of int
        How many of each are wanted in all; no way holds more.

    Returns
    -------
    list or None
        None where there are more than `MOST` ways.

    Two orders of the same lengths from the same first phase differ only in where they end; the earlier end is kept,
    since it can wait.
    """
    none: Counts = (0,) * len(kinds)
    level: dict[Counts, dict[int, tuple[int, tuple[Kind, ...]]]] = {none: {}}
    full: list[tuple[Kind, ...]] = []
    seen = 0
    while level:
        after: dict[Counts, dict[int, tuple[int, tuple[Kind, ...]]]] = {}
        for counts, orders in level.items():
            grown = False
            for i, kind in enumerate(kinds):
                if counts[i] >= wanted[i]:
                    continue
                more = (*counts[:i], counts[i] + 1, *counts[i + 1 :])
                start = roll.phase if roll.phase is not None else kind.phase
                for phase, (at, way) in orders.items() if orders else [(start, (0, ()))]:
                    end = at + roll.wait(kind, at, phase) + kind.length
                    if end > roll.length:
                        continue
                    grown = True
                    known = after.setdefault(more, {})
                    if phase not in known or end < known[phase][0]:
                        known[phase] = (end, (*way, kind))
            if not grown and orders:
                full.append(next(way for _, way in orders.values()))
        seen += len(after)
        if seen > MOST:
            return None
        level = after
    return full
