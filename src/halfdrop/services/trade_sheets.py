"""Install sheets: what each trade needs to carry a job out, a sheet for each thing, by themselves or in the book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any, get_args

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import UsageError, did_you_mean
from halfdrop.book.bind import make_install_sheets
from halfdrop.book.content import Book
from halfdrop.book.trades import TRADES, Trade, TradeSheet
from halfdrop.services.book_facts import date_text
from halfdrop.services.jobs import LeftOut, OpenJob
from halfdrop.services.trade_altered import altered_sheet
from halfdrop.services.trade_art import art_sheets
from halfdrop.services.trade_bolts import cutting_sheet
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_hanger import hanger_sheets
from halfdrop.services.trade_installer import installer_sheet, wanted
from halfdrop.services.trade_painter import painter_sheets
from halfdrop.services.trade_shades import roman_sheet
from halfdrop.services.trade_workroom import panels_sheet


def counts_of(
    job: OpenJob, scheme: str | None = None, *, room: str | None = None, after: Auditor | None = None
) -> Counts:
    """Return what the sheets of a job are made from, nothing counted yet.

    Raises
    ------
    InputError
        Where the scheme or the room is not known.
    """
    state = job.under(scheme) if after is None else after
    rooms = {i: state.case(i).room for i in job.room_ids(room) if i in state.cases}
    return Counts(job, state, rooms)


def install_sheets(
    job: OpenJob,
    scheme: str | None = None,
    *,
    room: str | None = None,
    trade: str | None = None,
    thing: str | None = None,
    after: Auditor | None = None,
) -> tuple[TradeSheet, ...]:
    """Return the install sheets of a job, trade by trade; none where no trade has work.

    Parameters
    ----------
    job : OpenJob
    scheme : str, optional
        The job under this scheme; as found without it.
    room : str, optional
        Only this room.
    trade : {"installer", "workroom", "hanger", "painter", "art"}, optional
        Only for this trade.
    thing : str, optional
        Only the sheets of this treatment, finish, cloth or room: its id.
    after : Auditor, optional
        The job under that scheme, where it is at hand.

    Raises
    ------
    UsageError
        Where there is no such trade, or nothing of that id has a sheet.
    InputError
        Where the scheme or room is not known, or something cannot be worked out.
    """
    if trade is not None and trade not in get_args(Trade):
        raise UsageError(f"there are no sheets for `{trade}`", hint=did_you_mean(trade, get_args(Trade)))
    counts = counts_of(job, scheme, room=room, after=after)
    found = tuple(s for name in TRADES if trade in (None, name) for s in trade_sheets(counts, name))
    return chosen_sheets(found, None, thing)


def chosen_sheets(
    sheets: tuple[TradeSheet, ...], trade: str | None, thing: str | None
) -> tuple[TradeSheet, ...]:
    """Return the sheets of one trade, or of one thing by its id or its whole path; all where neither is said.

    Raises
    ------
    UsageError
        Where nothing of that id has a sheet.
    """
    found = tuple(s for s in sheets if trade in (None, s.trade))
    if thing is None:
        return found
    named = tuple(s for s in found if thing in (s.path, s.path.rsplit("/", 1)[-1]))
    if not named:
        raise UsageError(
            f"nothing called `{thing}` has an install sheet",
            hint=did_you_mean(thing, sorted({s.path.rsplit("/", 1)[-1] for s in found})),
        )
    return named


def trade_sheets(counts: Counts, trade: Trade) -> Iterator[TradeSheet]:
    """Give the sheets of one trade.

    Raises
    ------
    InputError
        Where something cannot be worked out.
    """
    if trade == "installer":
        yield from _installer(counts)
    elif trade == "workroom":
        yield from _workroom(counts)
    elif trade == "hanger":
        yield from hanger_sheets(counts, TRADES[trade][0])
    elif trade == "painter":
        yield from painter_sheets(counts, TRADES[trade][0])
    else:
        yield from art_sheets(counts, TRADES[trade][0])


def _installer(counts: Counts) -> Iterator[TradeSheet]:
    n = 0
    for room, key, treatment in counts.treatments():
        if not wanted(counts, room, key, treatment):
            continue
        sheet = installer_sheet(counts, room, key, treatment, f"{TRADES['installer'][0]}{n + 1}")
        if sheet is not None:
            n += 1
            yield sheet


def _workroom(counts: Counts) -> Iterator[TradeSheet]:
    letter = TRADES["workroom"][0]
    n = 0
    for room, key, treatment in counts.treatments():
        sheet: TradeSheet | None = None
        if treatment.altered is not None:
            sheet = altered_sheet(counts, room, key, treatment, f"{letter}{n + 1}")
        elif counts.made(treatment):
            make = panels_sheet if treatment.kind == "panels" else roman_sheet
            sheet = make(counts, room, key, treatment, f"{letter}{n + 1}")
        if sheet is not None:
            n += 1
            yield sheet
    sewn = any(counts.made(t) or t.altered is not None for _, _, t in counts.treatments())
    if sewn or any(room.model.cushions for room in counts.rooms.values()):
        for counted in counts.takeoff.values():
            n += 1
            yield cutting_sheet(counts, counted, f"{letter}{n}")


def no_sheets(trade: str | None) -> str:
    """Say that a trade, or any, has no work in a job."""
    who = {
        None: "the trades",
        "installer": "the installer",
        "workroom": "the workroom",
        "hanger": "the paper hanger",
        "painter": "the painter",
        "art": "whoever hangs the art",
    }[trade]
    what = {
        None: "nothing is hung, made, papered or painted",
        "art": "no work hangs on a wall",
        "installer": "nothing new hangs at a window",
        "workroom": "nothing is made in a cloth of the job",
        "hanger": "no wall is papered",
        "painter": "nothing is painted",
    }[trade]
    return f"There is no sheet for {who}: {what} in this job."


def sheets_json(sheets: tuple[TradeSheet, ...], left_out: tuple[LeftOut, ...] = ()) -> dict[str, Any]:
    """Return sheets as a JSON-compatible object, drawings as SVG; and the rooms that have none, because they are left out."""
    return {
        "sheets": [asdict(sheet) for sheet in sheets],
        "left_out": [{**asdict(one), "said": one.said} for one in left_out],
    }


def bind_sheets(job: OpenJob, sheets: tuple[TradeSheet, ...]) -> bytes:
    """Return install sheets bound by themselves as a PDF; the same sheets give the same bytes.

    Raises
    ------
    UsageError
        Where there is none to bind.
    """
    if not sheets:
        raise UsageError(
            "there is no sheet to print", hint="run `halfdrop takeoff JOB` to see what is counted"
        )
    info = job.found.job.job
    return make_install_sheets(
        Book(
            job=info.name,
            client=info.client or "",
            address=" ".join((info.address or "").split()),
            decorator=info.decorator or "",
            revision=info.revision or "",
            date=info.date or "",
            date_text=date_text(info.date, info.units),
            paper="letter" if info.units == "imperial" else "a4",
            trades=sheets,
        )
    )
