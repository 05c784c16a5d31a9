"""The audit after one move, against one vectorised all-pairs distance pass over the same shapes; and how it grows.

Reference: `shapely.distance` over all pairs of the room's footprints, in one call, in the same run.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
import shapely

from bench.rooms import job
from halfdrop.audit.auditor import Auditor


def best(work: Callable[[], object], times: int = 7) -> float:
    """Return the least time of several runs [s]: the one least disturbed by the machine."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


def after_one_move(pieces: int) -> tuple[float, float, int]:
    """Return time of an audit after one move, time of the all-pairs pass [s], and how many findings there are."""
    state = Auditor.of(job(1, pieces))
    state.findings()
    xs = [f"{1500 + 7 * i} mm" for i in range(100)]
    turn = iter(xs)

    def move_and_judge() -> object:
        patch = [{"op": "replace", "path": "/rooms/r0/pieces/p0/at/x", "value": next(turn)}]
        return state.after(patch).findings("r0")

    shapes = np.array([p.footprint for p in state.case("r0").room.pieces.values()])
    pairs = best(lambda: shapely.distance(shapes[:, None], shapes[None, :]))
    return best(move_and_judge), pairs, len(state.findings())


def whole_job(rooms: int) -> float:
    """Return the time of auditing every room of a job of 10-piece rooms [s], its surveys already adjusted."""
    state = Auditor.of(job(rooms, 10))
    document, parsed = state.document, state.job

    def judge() -> object:
        fresh = Auditor(
            document,
            parsed,
            state.practice,
            {k: type(c)(c.job, c.room, c.practice) for k, c in state.cases.items()},
        )
        return fresh.findings()

    return best(judge, 3)


def main() -> None:
    """Print the ratios."""
    print("audit after one move, against one all-pairs distance pass over the same shapes")
    print(f"{'pieces':>7} {'audit':>10} {'all pairs':>10} {'ratio':>8} {'findings':>9}")
    for pieces in (10, 25, 50, 100, 200):
        audit, pairs, findings = after_one_move(pieces)
        print(f"{pieces:>7} {audit * 1e3:>8.2f}ms {pairs * 1e3:>8.3f}ms {audit / pairs:>8.1f} {findings:>9}")
    print("\naudit of a whole job of 10-piece rooms, against the same job with one room")
    one = whole_job(1)
    print(f"{'rooms':>7} {'audit':>10} {'per room, against one':>22}")
    for rooms in (1, 10, 50, 200):
        taken = whole_job(rooms)
        print(f"{rooms:>7} {taken * 1e3:>8.1f}ms {taken / rooms / one:>22.2f}")
