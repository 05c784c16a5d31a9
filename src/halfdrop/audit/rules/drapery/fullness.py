"""Panels have cloth enough for their width.

Why: pleats and folds are made of cloth past the width they cover; with too little of it panels hang flat as bed sheets, and no
    rod or length puts that right.
Source: practice values drapery.fullness_* by heading, drapery.fullness_sheer for a sheer, and drapery.fullness_share_least:
    common practice; the share is ours.
Fails: flat width over finished width, as given or as the widths of the treatment's cloth come to, is less than that share of
    what the heading wants.
Passes exactly: at the share.
Silent: for shades, and where neither fullness nor widths of a named cloth are given: what is made gets what its heading wants.
"""

from __future__ import annotations

from collections.abc import Iterator

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding, Grade, Proposal
from halfdrop.audit.rule import rule_id
from halfdrop.audit.rules.drapery.hangs import begins, hung_in, too_flat, verb
from halfdrop.audit.rules.drapery.rehang import altered, anew_working, of_finding, put_right
from halfdrop.base.tolerance import at_least
from halfdrop.base.working import Working
from halfdrop.practice.words import Words

GRADE = Grade.FAULT
_SHARE = "drapery.fullness_share_least"
PRACTICE = (
    _SHARE, "drapery.fullness_pencil", "drapery.fullness_single_pinch", "drapery.fullness_double_pinch",
    "drapery.fullness_triple_pinch", "drapery.fullness_goblet", "drapery.fullness_cartridge", "drapery.fullness_box",
    "drapery.fullness_eyelet", "drapery.fullness_tab", "drapery.fullness_rod_pocket", "drapery.fullness_wave",
    "drapery.fullness_flat", "drapery.fullness_sheer",
)  # fmt: skip


def remedies(case: RoomCase, finding: Finding) -> Iterator[Proposal]:
    """Propose to add widths, to put the whole window right, to make it anew."""
    hung = of_finding(case, finding)
    yield from altered(case, hung, "add widths", widths=True, fit=False)
    yield from put_right(case, hung)


def workings(case: RoomCase, finding: Finding) -> Iterator[Working]:
    """Give how full it hangs, and the least."""
    hung, say, key = of_finding(case, finding), Words(case.practice), finding.practice or PRACTICE[0]
    aim, share, full = case.practice.number(key), case.practice.number(_SHARE), finding.measured or 1.0
    flat = sum(panel.flat or 0.0 for panel in hung.panels)
    working = Working("Fullness")
    working.step("as it hangs", "flat width ÷ finished width, returns and overlap in it", f"{say(flat)} ÷ {say(flat / full)}",
                 f"{full:.2f}")  # fmt: skip
    working.step(
        "the least",
        "share × the heading's",
        f"{share:g} × {aim:g}",
        f"{share * aim:.2f}",
        source=say.cited(key, _SHARE),
    )
    yield working
    yield from anew_working(case, hung)


def check(case: RoomCase) -> Iterator[Finding]:
    """Find panels with too little cloth."""
    for hung in hung_in(case).values():
        limits, heading = too_flat(case, hung), hung.treatment.heading
        if limits is None or heading is None or hung.fullness is None:
            continue
        least, key, aim = limits
        if at_least(hung.fullness, least):
            continue
        what = (
            "a sheer"
            if key.endswith("sheer")
            else f"{'an' if heading[0] in 'aeiou' else 'a'} {heading} heading"
        )
        yield case.finding(
            rule_id(__name__), GRADE, [hung],
            f"{begins(hung)} {verb(hung, 'has', 'have')} {hung.fullness:.3g} times {verb(hung, 'its', 'their')} width in cloth; "
            f"{what} wants {aim:g}, and under {least:.3g} panels hang flat as sheets.",
            measured=hung.fullness, wanted=least, quantity="ratio", practice=key,
        )  # fmt: skip
