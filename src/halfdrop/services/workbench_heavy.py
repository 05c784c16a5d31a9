"""The heavy use-cases as plans: remedies of a room's findings, and the book."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding
from halfdrop.audit.prove import Budget, remedies_for
from halfdrop.audit.rule import find_rule
from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.services.book import Left, make_job_book
from halfdrop.services.workbench import Workbench
from halfdrop.services.workbench_room import opened
from halfdrop.services.workbench_tasks import Piece, Plan
from halfdrop.services.workbench_view import finding_json

#: How much work is done for the remedies of one finding.
DEFAULT = Budget()


@lru_cache(maxsize=4)
def auditor_of(text: str) -> Auditor:
    """Return a job sent as text, resolved; the last few are kept."""
    return Auditor.of(json.loads(text))


def ready() -> None:
    """Do nothing: to be able to, a worker has loaded all that the first note's remedies need."""


def remedied(text: str, finding: Finding, known: tuple[Finding, ...], budget: Budget) -> Finding:
    """Return one finding with its working and proven remedies; run in a worker, which keeps the last few jobs resolved.

    Parameters
    ----------
    text : str
        The document as JSON.
    finding : Finding
        Which.
    known : tuple of Finding
        Every finding of its room.
    """
    auditor = auditor_of(text)
    working = tuple(find_rule(finding.rule).workings(auditor.case(finding.room), finding))
    return finding.with_remedies(remedies_for(auditor, finding, known, budget), working)


def bound(
    text: str,
    scheme: str | None,
    paper: str | None,
    found: tuple[Finding, ...],
    without: tuple[Left, ...] = (),
) -> bytes:
    """Bind a book whose findings have their remedies already; run in a worker."""
    return make_job_book(opened(auditor_of(text)), scheme=scheme, paper=paper, found=found, without=without)


def packed(document: dict[str, Any]) -> str:
    """Return a document as the text that is sent to a worker."""
    return json.dumps(document, ensure_ascii=False, separators=(",", ":"))


def remedies_plan(
    bench: Workbench,
    job: str,
    room: str,
    *,
    scheme: str | None = None,
    finding: str | None = None,
    budget: Budget = DEFAULT,
) -> Plan:
    """Return the plan that seeks the remedies of one finding of a room, or of all.

    Raises
    ------
    InputError
        Where there is no such room, scheme or finding.
    """
    revision, state = bench.state(job, scheme)
    case, known = state.case(room), state.findings(room)
    wanted = [f for f in known if finding in (None, f.id)]
    if finding is not None and not wanted:
        raise InputError(
            f"there is no finding `{finding[:200]}` in this room as it stands",
            hint=did_you_mean(finding, [f.id for f in known]) if known else "the room is clean",
        )
    for error in state.refused.values():
        raise error
    numbers = {f.id: n for n, f in enumerate(known, 1)}
    text = packed(state.document)

    def plan() -> Plan:
        pieces = [Piece(remedied, (text, f, known, budget), f.id) for f in wanted]
        done = yield pieces
        return {
            "revision": revision,
            "room": room,
            "scheme": scheme,
            "findings": [finding_json(f, numbers[f.id], case) for f in done],
        }

    return plan()


def book_plan(
    bench: Workbench,
    job: str,
    *,
    scheme: str | None = None,
    paper: str | None = None,
    without: tuple[Left, ...] = (),
    budget: Budget = DEFAULT,
) -> Plan:
    """Return the plan that judges a job, seeks every remedy, and binds the book.

    Raises
    ------
    InputError
        Where there is no such scheme, or a room's survey is not whole.
    """
    _, state = bench.state(job)
    if scheme is not None:
        bench.state(job, scheme)
    for error in state.refused.values():
        raise error
    found = state.auditor.findings()
    text = packed(state.document)
    rooms = {i: tuple(f for f in found if f.room == i) for i in state.auditor.cases}

    def plan() -> Plan:
        done = yield [Piece(remedied, (text, f, rooms[f.room], budget), f.id) for f in found]
        (book,) = yield [Piece(bound, (text, scheme, paper, tuple(done), without), "binding")]
        return book

    return plan()
