"""What hangs over a piece hangs near enough to belong to it, and clear of it.

Why: Piece and picture are read together; a gap as wide as a hand and a half holds them so. A wider one parts them, and a
    narrower one looks as if it had slipped, and heads and lamps knock against it.
Source: practice values art.gap_sofa_low and _high (sofa, headboard), art.gap_console_low and _high (console, chest,
    sideboard), art.gap_mantel_low and _high, art.gap_most.
Fails: the gap from the top of the piece to the bottom of the work, or of a group taken as one, is less than the least or more
    than the most; the most opens to art.gap_most where the middle would hang lower than art.center_low otherwise. Of what is
    taller than art.tall_from the gap lies between art.tall_bottom_low and art.tall_bottom_high.
Passes exactly: at either value.
Silent: where it hangs over nothing; beside the piece, where less than half the narrower of the two is shared; over a crib,
    where nothing hangs at all (art.over-bed).
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.art.above_piece import MOST, gap_keys
from halfdrop.art.eye_height import eye_span
from halfdrop.art.places import WRITTEN
from halfdrop.art.tall_work import is_tall
from halfdrop.art.wall_face import Unit, sits
from halfdrop.audit.art_case import units_hung
from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rehang import moved_to, other_places, right_height, unit_of
from halfdrop.audit.rule import rule_id
from halfdrop.base.tolerance import at_least, at_most

GRADE = Grade.FAULT
PRACTICE = (
    "art.gap_sofa_low", "art.gap_sofa_high", "art.gap_console_low", "art.gap_console_high", "art.gap_mantel_low",
    "art.gap_mantel_high", "art.gap_most", "art.center_low", "art.tall_from", "art.tall_bottom_low", "art.tall_bottom_high",
)  # fmt: skip


def check(case: RoomCase) -> Iterator[Finding]:
    """Yield a finding for each work or group too near to what it hangs over, or too far from it."""
    for _, unit in units_hung(case):
        if unit.below is None or unit.below_kind == "cot":
            continue
        gap = unit.box.y0 - unit.below.top
        low, most, keys = _wanted(case, unit)
        if at_least(gap, low, WRITTEN) and at_most(gap, most, WRITTEN):
            continue
        far = gap > most
        piece = unit.below.thing
        if gap < 0:
            where = f"reaches {case.say(-gap)} below the top of the {piece.name}"
        elif gap < WRITTEN:
            where = f"stands on the top of the {piece.name}"
        else:
            where = f"hangs {case.say(gap)} over the {piece.name}"
        why = "farther up it parts from what it hangs over" if far else "nearer it looks as if it had slipped"
        yield case.finding(
            rule_id(__name__),
            GRADE,
            (*unit.works, piece),
            f"The {unit.name} {where}; {case.say(low)} to {case.say(most)} is wanted: {why}.",
            measured=gap,
            wanted=most if far else low,
            sense="at most" if far else "at least",
            practice=keys[far],
        )


def _wanted(case: RoomCase, unit: Unit) -> tuple[float, float, tuple[str, str]]:
    """Return the least and the most gap [m], and the practice values they are."""
    below = unit.below
    assert below is not None
    if is_tall(unit.box.height, case.practice):
        keys = ("art.tall_bottom_low", "art.tall_bottom_high")
        return case.length(keys[0]), case.length(keys[1]), keys
    low_key, _, high_key = gap_keys(str(unit.below_kind))
    low, most = case.length(low_key), case.length(high_key)
    to_eye = eye_span(case.practice, sits(case.room))[0] - unit.box.height / 2 - below.top
    if to_eye > most:
        return low, min(to_eye, max(case.length(MOST), most)), (low_key, MOST)
    return low, most, (low_key, high_key)


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Re-hang it straight up or down, else elsewhere."""
    wall, unit = unit_of(case, finding)
    assert unit.below is not None
    x, y = unit.box.center
    to = right_height(case, wall, unit)
    patch = moved_to(case, wall, unit, x, to)
    if patch:
        gap = to - unit.box.height / 2 - unit.below.top
        way = "lower" if to < y else "higher"
        title = f"Hang the {unit.name} {case.say(abs(to - y))} {way}, {case.say(gap)} over the {unit.below.thing.name}."
        yield Proposal("move", title, patch)
    yield from other_places(case, unit)
