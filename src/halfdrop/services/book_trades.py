"""The install sheets in a book, with the workings their numbers rest on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from halfdrop.audit.auditor import Auditor
from halfdrop.base.errors import HalfdropError
from halfdrop.base.working import Working
from halfdrop.book.content import BookWorking
from halfdrop.book.trades import TRADES, TradeSheet
from halfdrop.job.naming import thing_name
from halfdrop.services.book_shopping import book_working
from halfdrop.services.jobs import OpenJob
from halfdrop.services.trade_counts import Counts
from halfdrop.services.trade_hanger import answer_of
from halfdrop.services.trade_sheets import counts_of, trade_sheets
from halfdrop.services.trade_words import capital


@dataclass(frozen=True)
class BookTrades:
    """The sheets of a book, what could not be made and why, and the workings."""

    sheets: tuple[TradeSheet, ...]
    left: tuple[str, ...]
    workings: tuple[BookWorking, ...]


def book_trades(job: OpenJob, room: str | None, after: Auditor) -> BookTrades:
    """Return the install sheets of a job for its book; a trade whose work cannot be counted is named, with the reason."""
    counts = counts_of(job, room=room, after=after)
    sheets: list[TradeSheet] = []
    left: list[str] = []
    for trade, (_, name) in TRADES.items():
        try:
            sheets += trade_sheets(counts, trade)
        except HalfdropError as error:
            left.append(f"{name}: {error.message}." + (f" {capital(error.hint)}." if error.hint else ""))
    workings = [
        book_working(w, title) for trade in TRADES for title, w in _workings(counts, trade, bool(left))
    ]
    return BookTrades(tuple(sheets), tuple(left), tuple(workings))


def _workings(counts: Counts, trade: str, careful: bool) -> Iterator[tuple[str, Working]]:
    """Give the workings of a trade; where something could not be counted, those that could."""
    try:
        if trade == "installer":
            for room, key, treatment in counts.treatments():
                if counts.made(treatment) and treatment.kind == "panels":
                    hung = counts.hung(room, key)
                    name = capital(thing_name(counts.job, hung.path))
                    for part in (hung.place.rod, hung.place.span, hung.weight, hung.brackets):
                        if part.working.steps:
                            yield name, part.working
        elif trade == "workroom":
            for counted in counts.takeoff.values():
                for line in counted.lines:
                    name = capital(thing_name(counts.job, line.path))
                    yield (
                        counts.job.rooms[line.path.split("/")[1]].name,
                        Working(f"Cloth for {name}", line.working.steps),
                    )
                yield "", counted.working
        elif trade == "hanger":
            for key, finishes in counts.finishes[0].items():
                for finish in finishes:
                    name = counts.rooms[finish.path.split("/")[1]].model.name
                    yield from ((name, working) for working in finish.workings)
                yield counts.job.papers[key].name, answer_of(counts, key).working
        else:
            told: set[str] = set()
            for paints in counts.finishes[1].values():
                for paint in paints:
                    if paint.path not in told:
                        told.add(paint.path)
                        name = counts.rooms[paint.path.split("/")[1]].model.name
                        yield from ((name, working) for working in paint.workings)
    except HalfdropError:
        if not careful:
            raise
