"""The roll plan against the strip formula over generated rooms: rolls saved or added, gap to the bound, time.

Reference: the trade's strip formula for the same walls, in the same run; it deducts no openings. The plan
is laid twice: for rolls that may begin anywhere in their pattern, and for rolls that all
begin at the mark, which is what the formula takes for granted.
"""

from __future__ import annotations

import random
import time
from typing import Literal

from halfdrop.practice import load_practice
from halfdrop.walls import Cut, Face, Hole, chains_of, cuts_of, plan_rolls, set_out, strip_method

METRIC = load_practice("metric")
ROLL = (0.53, 10.05)
TRIM = 0.05

Match = Literal["straight", "half-drop"]
MATCHES: tuple[Match, ...] = ("straight", "half-drop")


def room(seed: random.Random) -> tuple[Face, ...]:
    """Return four walls with a door and two windows."""
    high = seed.choice([2.4, 2.5, 2.6, 2.75])
    lengths = [seed.uniform(2.5, 6.0), seed.uniform(2.5, 5.0)] * 2
    holes: list[tuple[Hole, ...]] = [
        (Hole("r/door", "door", 0.3, 1.15, 0.0, 2.03),),
        (),
        *((Hole(f"r/w{n}", "window", 0.4, 0.4 + seed.uniform(0.9, 1.9), 0.85, 2.1),) for n in range(2)),
    ]
    return tuple(
        Face(name, length, high, high, cut)
        for name, length, cut in zip(("AB", "BC", "CD", "DA"), lengths, holes, strict=True)
    )


def wanted(faces: tuple[Face, ...], match: Match, repeat: float, name: str) -> list[Cut]:
    """Return every length that a room wants."""
    (chain,) = chains_of(faces, faces, 0.012)
    found = cuts_of(set_out(chain, ROLL[0], METRIC), match=match, repeat=repeat, trim=TRIM)
    return [Cut(**{**vars(cut), "id": f"{name}/{cut.id}"}) for cut in found]


def compare(count: int, *, aligned: bool) -> tuple[int, int, int, int, float]:
    """Return rolls by formula and by plan, plans not proven the least, plans over the formula, and the time [s]."""
    seed = random.Random(4)
    formula = plan = open_ = over = 0
    taken = 0.0
    for n in range(count):
        faces, match, repeat = (
            room(seed),
            seed.choice(MATCHES),
            seed.choice([0.32, 0.53, 0.64]),
        )
        run, high = sum(face.length for face in faces), faces[0].highest
        rough = strip_method(run, high, ROLL, METRIC, match=match, repeat=repeat).rolls
        cuts = wanted(faces, match, repeat, str(n))
        start = time.perf_counter()
        laid = plan_rolls(cuts, ROLL[1], repeat=repeat, aligned=aligned)
        taken += time.perf_counter() - start
        formula, plan = formula + rough, plan + laid.count
        open_, over = open_ + (laid.gap > 0), over + (laid.count > rough)
    return formula, plan, open_, over, taken


def main() -> None:
    """Print the comparison, and how the plan grows with the rooms in one paper."""
    count = 200
    for aligned, words in ((False, "rolls that begin anywhere"), (True, "rolls that begin at the mark")):
        formula, plan, open_, over, taken = compare(count, aligned=aligned)
        print(
            f"roll plan, {count} rooms, {words}: {plan} rolls, formula {formula} ({(plan - formula) / formula:+.1%}); "
            f"{over} rooms where the formula is short; {open_} plans not proven the least; {taken / count * 1000:.0f} ms a room"
        )
    for rooms in (1, 10, 40):
        seed = random.Random(5)
        cuts = [cut for n in range(rooms) for cut in wanted(room(seed), "half-drop", 0.64, str(n))]
        start = time.perf_counter()
        laid = plan_rolls(cuts, ROLL[1], repeat=0.64)
        taken = time.perf_counter() - start
        print(f"roll plan, {rooms} rooms in one paper: {laid.count} rolls, bound {laid.bound}, {taken:.2f} s")


if __name__ == "__main__":
    main()
