"""The bolt plan against the hand formula, over generated jobs; and how it grows to 200 windows.

Reference: the hand rules of `halfdrop.drapery.repeats`, window by window, and the bound that no plan can go below.
"""

from __future__ import annotations

import random
import time
from collections.abc import Sequence
from dataclasses import dataclass

from halfdrop.drapery.bolts import BoltKind, BoltRules, Cut, plan_bolts
from halfdrop.drapery.repeats import hand_cuts
from halfdrop.practice import load_practice

IN, YARD = 0.0254, 0.9144
US = load_practice("us")
STEP = YARD / 4
JOBS = 60
#: A hem's line on every cut, and the work allowed on one plan.
HEM, EFFORT = 8 * IN, 1.0


@dataclass(frozen=True)
class Windows:
    """Generated windows: drop as cut [m] and how many widths each, and whose room."""

    drops: tuple[tuple[float, int, str], ...]

    def cuts(self, half: bool) -> list[Cut]:
        """Return every width, of half-drop cloth by turns."""
        return [
            Cut(f"w{n}/{i}", room, drop, HEM, half and i % 2 == 1)
            for n, (drop, widths, room) in enumerate(self.drops)
            for i in range(widths)
        ]

    def by_hand(self, repeat: float, match: str | None, method: str | None) -> float:
        """Return the hand formula's cloth [m]: window by window, one repeat to place the motif, to the step of sale."""
        total = repeat + sum(
            hand_cuts(drop, repeat, match, widths, US, method=method).total  # type: ignore[arg-type]
            for drop, widths, _ in self.drops
        )
        return -(-round(total * 1e6) // round(STEP * 1e6)) * STEP


def windows(count: int, seed: int) -> Windows:
    """Return generated windows: three to a room, heads and sills as houses have them, two to six widths."""
    rng = random.Random(seed)
    drops = []
    for n in range(count):
        floor = rng.random() < 0.7
        drop = (rng.choice((84, 90, 95.5, 102, 108)) if floor else rng.uniform(34, 62)) + 16
        drops.append((round(drop * 8) / 8 * IN, rng.choice((2, 3, 4, 5, 6)), f"room{n // 3}"))
    return Windows(tuple(drops))


def _mean(numbers: Sequence[float]) -> float:
    return sum(numbers) / len(numbers)


def against_hand(match: str | None, method: str | None, whole: bool) -> None:
    """Print one line: cloth saved, gap to the bound, time, and how often the hand formula's bolts would not have held the cuts."""
    saved, gaps, times, short = [], [], [], 0
    for seed in range(JOBS):
        rng = random.Random(seed + 1000)
        repeat = 0.0 if match is None else rng.choice((13.5, 18, 25.25, 27)) * IN
        house = windows(rng.randint(2, 12), seed)
        length = rng.choice((30, 40, 50, 60)) * YARD
        rules = BoltRules(repeat, repeat, STEP, whole)
        start = time.perf_counter()
        plan = plan_bolts(house.cuts(match == "half-drop"), [BoltKind("b", length)], rules, US, effort=EFFORT)
        times.append(time.perf_counter() - start)
        hand = house.by_hand(repeat, match, method)
        if whole:
            hand = -(-round(hand * 1e6) // round(length * 1e6)) * length
        short += plan.bound > hand + 1e-6
        saved.append(0.0 if abs(hand - plan.paid) < 1e-6 else (hand - plan.paid) / hand)
        gaps.append(plan.gap)
    name = f"{match or 'plain'}{', ' + method if method else ''}{', whole bolts' if whole else ''}"
    print(
        f"{name:<34} {100 * _mean(saved):>7.1f} % {100 * min(saved):>7.1f} % {100 * max(saved):>7.1f} % "
        f"{100 * _mean(gaps):>7.2f} % {100 * max(gaps):>7.2f} % {sum(g == 0 for g in gaps):>4}/{JOBS} "
        f"{short:>6} {1e3 * _mean(times):>8.0f} ms"
    )


def growth() -> None:
    """Print gap and time up to 200 windows, on bolts of 50 yd."""
    print(
        f"\n{'windows':>8} {'cuts':>6} {'bolts':>6} {'saved':>8} {'gap':>8} {'time':>9}   (half-drop, 27 in, against the panel rule)"
    )
    for count in (3, 10, 30, 60, 100, 200):
        house, repeat = windows(count, count), 27 * IN
        cuts = house.cuts(True)
        start = time.perf_counter()
        plan = plan_bolts(
            cuts, [BoltKind("b", 50 * YARD)], BoltRules(repeat, repeat, STEP), US, effort=EFFORT
        )
        taken = time.perf_counter() - start
        hand = house.by_hand(repeat, "half-drop", "per panel")
        print(
            f"{count:>8} {len(cuts):>6} {len(plan.bolts):>6} {100 * (hand - plan.paid) / hand:>6.1f} % "
            f"{100 * plan.gap:>6.2f} % {taken:>7.2f} s"
        )


def main() -> None:
    """Print the comparison and the growth."""
    print(f"the bolt plan against the hand formula, {JOBS} generated jobs of 2 to 12 windows each")
    heads = ("saved", "least", "most", "gap", "most", "proven", "short", "time")
    print(
        f"{'':<34} {heads[0]:>9} {heads[1]:>9} {heads[2]:>9} {heads[3]:>9} {heads[4]:>9} {heads[5]:>7} {heads[6]:>6} {heads[7]:>11}"
    )
    against_hand(None, None, False)
    against_hand("straight", None, False)
    for method in ("consecutive", "per panel", "per order"):
        against_hand("half-drop", method, False)
    against_hand("straight", None, True)
    against_hand("half-drop", "per panel", True)
    growth()


if __name__ == "__main__":
    main()
