"""A lower bound for a bolt plan that holds for every plan there is."""

from __future__ import annotations

from halfdrop.drapery.bolts.task import Task


def bound(task: Task, fewest: int = 1) -> int:
    """Return what no plan of `fewest` bolts or more can buy less than [steps].

    Two sums hold for every plan. The cuts themselves take their lengths. And each cut with a pattern takes the cloth to the
    next place where any other may begin; only the last on each bolt takes no more than its own length. Each bolt
    begins with what is kept to find the motif and, where every cut has a pattern, with the wait for the first. More bolts
    save at most one wait each, so every number of bolts is tried from the least that holds the cloth.

    Source: our own; the argument is above. Checked by: tests/drapery/test_bolts.py, against every order of small tasks.
    """
    total = sum(kind.count for kind in task.kinds)
    if not total:
        return 0
    lengths = sum(kind.count * kind.length for kind in task.kinds)
    steps = sum(kind.count * task.least_step(kind) for kind in task.kinds if kind.phase is not None)
    waits = sorted(
        (task.least_step(kind) - kind.length for kind in task.kinds for _ in kind.cuts), reverse=True
    )
    rooms = _rooms(task, total)
    anywhere = any(kind.phase is None for kind in task.kinds)
    first = 0 if anywhere else min(task.first_wait(phase) for phase in task.phases)
    best: int | None = None
    saved = held = 0
    for bolts in range(1, total + 1):
        saved += waits[bolts - 1]
        held += rooms[bolts - 1] if bolts <= len(rooms) else 0
        cloth = max(lengths, steps - saved) + bolts * first
        if bolts > len(rooms) and best is None:
            break
        if held < cloth or bolts < fewest:
            continue
        bought = _bought(task, cloth, bolts)
        best = bought if best is None else min(best, bought)
        if waits[bolts - 1] <= task.place + first or steps - saved <= lengths:
            break
    return best if best is not None else _bought(task, max(lengths, steps - sum(waits)), 1)


def _rooms(task: Task, total: int) -> list[int]:
    """Return what the bolts hold after their beginnings, the roomiest first, at most `total` of them."""
    rooms: list[int] = []
    for bolt in task.bolts:
        rooms += [task.room_of(bolt)] * (total if bolt.count is None else min(bolt.count, total))
    return sorted(rooms, reverse=True)[:total]


def _bought(task: Task, cloth: int, bolts: int) -> int:
    """Return what is bought at least where that many bolts hold that much cloth."""
    if task.rules.whole_bolts:
        held = sorted(task.room_of(b) + task.place for b in task.bolts)
        least = held[0]
        alike = least == held[-1]
        cloth += bolts * task.place
        return max(bolts * least, -(-cloth // least) * least if alike else cloth)
    bought = cloth + bolts * task.place
    wholes = {task.room_of(b) + task.place for b in task.bolts}
    if len(wholes) == 1:  # a bolt bought to its end may end within a step of sale
        whole = wholes.pop()
        ways = range(min(bolts, -(-bought // whole)) + 1)
        return min(n * whole + -(-max(bought - n * whole, 0) // task.sale) * task.sale for n in ways)
    if any(whole % task.sale for whole in wholes):
        return bought
    return -(-bought // task.sale) * task.sale
