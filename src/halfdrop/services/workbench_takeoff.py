"""The take-off and the install sheets as the page has them: counted in a worker, drawn, printed."""

from __future__ import annotations

import json
import re
from dataclasses import asdict
from functools import lru_cache
from typing import Any

from halfdrop.base.errors import UsageError
from halfdrop.book.trades import TRADES, TradeSheet
from halfdrop.services.takeoff import takeoff
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_sheets import bind_sheets, chosen_sheets, counts_of, no_sheets, trade_sheets
from halfdrop.services.workbench import Workbench
from halfdrop.services.workbench_heavy import packed
from halfdrop.services.workbench_room import opened
from halfdrop.services.workbench_state import resolve
from halfdrop.services.workbench_tasks import Piece, Plan

_STYLE = re.compile(r"<style>.*?</style>\n?", re.DOTALL)


@lru_cache(maxsize=4)
def _counts(text: str, scheme: str | None) -> Counts:
    state = resolve(json.loads(text))
    return counts_of(opened(state.auditor, state.refused), scheme)


@lru_cache(maxsize=4)
def _sheets(text: str, scheme: str | None) -> tuple[TradeSheet, ...]:
    counts = _counts(text, scheme)
    return tuple(sheet for trade in TRADES for sheet in trade_sheets(counts, trade))


def counted(text: str, scheme: str | None) -> dict[str, Any]:
    """Return every quantity of a job and its install sheets as JSON; run in a worker, which keeps the last few.

    Drawings have no style of their own: the page has the same classes.
    """
    counts = _counts(text, scheme)
    sheets = [asdict(sheet) for sheet in _sheets(text, scheme)]
    for sheet in sheets:
        for part in sheet["parts"]:
            if part["kind"] == "figure":
                part["svg"] = _STYLE.sub("", part["svg"], count=1)
    lines = takeoff(counts.opened, scheme, cloth=counts.takeoff)
    return {"takeoff": lines.to_json(), "sheets": sheets}


def printed(text: str, scheme: str | None, trade: str | None, thing: str | None) -> bytes:
    """Bind install sheets; run in a worker."""
    counts = _counts(text, scheme)
    sheets = chosen_sheets(_sheets(text, scheme), trade, thing)
    if not sheets:
        raise UsageError(no_sheets(trade))
    return bind_sheets(counts.opened, sheets)


def _text(bench: Workbench, job: str, scheme: str | None) -> tuple[int, str]:
    revision, state = bench.state(job)
    if scheme is not None:
        bench.state(job, scheme)
    if not state.auditor.cases:
        for error in state.refused.values():
            raise error
    return revision, packed(state.document)


def takeoff_plan(bench: Workbench, job: str, *, scheme: str | None = None) -> Plan:
    """Return the plan that counts a job and draws its install sheets.

    Raises
    ------
    InputError
        Where there is no such scheme, or no room's survey is whole; one that is not is left out.
    """
    revision, text = _text(bench, job, scheme)

    def plan() -> Plan:
        (found,) = yield [Piece(counted, (text, scheme), "counting")]
        return {"revision": revision, "scheme": scheme, **found}

    return plan()


def install_plan(
    bench: Workbench,
    job: str,
    *,
    scheme: str | None = None,
    trade: str | None = None,
    thing: str | None = None,
) -> Plan:
    """Return the plan that prints install sheets as a PDF: all, a trade's, or those of one thing by its path.

    Raises
    ------
    InputError
        Where there is no such scheme, or no room's survey is whole; one that is not is left out.
    """
    _, text = _text(bench, job, scheme)

    def plan() -> Plan:
        (pdf,) = yield [Piece(printed, (text, scheme, trade, thing), "printing")]
        return pdf

    return plan()
