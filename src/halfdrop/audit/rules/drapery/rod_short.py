"""The rod runs past the window on both sides.

Why: a rod no wider than the opening leaves a slit of light at each side and panels that stand in front of the glass; past it,
    the same glass looks wider.
Source: practice value drapery.extension_least: common practice, from memory.
Fails: the rod, without its finials, passes the opening by less than the value on a side, or by less than the wall leaves there.
Passes exactly: at the value, and where the wall ends sooner, at the wall.
Silent: for shades, for sheers behind, for what is mounted inside, and for a side that is not given. Whether open panels clear
    the glass is judged by drapery.stack-covers.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.drapery.hangs import begins, panels_in, short_sides
from halfdrop.audit.rules.drapery.rehang import altered, anew_working, of_finding, put_right
from halfdrop.base.working import Working
from halfdrop.practice.words import Words

GRADE = Grade.FAULT
_LEAST = "drapery.extension_least"
PRACTICE = (_LEAST,)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Propose a longer rod, one with more cloth on it, to put the whole window right, to make it anew."""
    hung = of_finding(case, finding)
    yield from altered(case, hung, "longer rod", ends=True, fit=False)
    yield from altered(case, hung, "longer rod and more cloth", ends=True, widths=True, fit=False)
    yield from put_right(case, hung)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Give how far past the opening the rod goes on each side that is short."""
    say = Words(case.practice)
    working = Working("Rod past the opening")
    for side, (have, want) in short_sides(case, of_finding(case, finding)).items():
        working.step(
            side, "rod's end past the opening", f"at least {say(want)}", say(have), source=say.cited(_LEAST)
        )
    yield working
    yield from anew_working(case, of_finding(case, finding))


def check(case: RoomCase) -> Iterator[Finding]:
    """Find rods that stop short to either side."""
    for hung in panels_in(case):
        sides = short_sides(case, hung)
        if not sides:
            continue
        past, wanted = min(sides.values(), key=lambda pair: (round(pair[0] - pair[1], 6), pair))
        both = len(sides) == 2 and abs(sides["left"][0] - sides["right"][0]) < 1e-3
        said = [f"{_stops(case, have)} at the {side}" for side, (have, _) in sorted(sides.items())]
        stops = said[0].replace(" at the left", " on each side") if both else " and ".join(said)
        ends = [(hung.at(-have), hung.at(0.0)) if side == "left" else (hung.at(hung.run.width), hung.at(hung.run.width + have))
                for side, (have, _) in sides.items()]  # fmt: skip
        yield case.finding(
            rule_id(__name__), GRADE, [hung],
            f"{begins(hung)}: the rod stops {stops}; it runs at least {case.say(wanted, 'up')} past it, so that no light comes in "
            "beside the cloth and the window looks as wide as it is.",
            measured=past, wanted=wanted, practice=_LEAST, marks=ends, anchor=hung.at(hung.left),
        )  # fmt: skip


def _stops(case: RoomCase, past: float) -> str:
    if past > 0.5e-3:
        return f"{case.say(past)} past the opening"
    return "at the opening's edge" if past > -0.5e-3 else f"{case.say(-past)} short of the opening's edge"
