"""The book of a job: judged, remedied, drawn, counted, and bound into one PDF."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.finding import Finding
from halfdrop.audit.prove import Budget
from halfdrop.audit.rule import all_rules
from halfdrop.audit.rules.delivery import stations
from halfdrop.base.formats import Units
from halfdrop.book.bind import make_book
from halfdrop.book.content import (
    Book,
    BookCaution,
    BookRoom,
    BookScheme,
    BookSheet,
    BookValue,
    BookWorking,
)
from halfdrop.buying.lines import ShoppingList
from halfdrop.drawing.changes import changes
from halfdrop.job.cautions import cautions_for
from halfdrop.job.model import SchemeStep
from halfdrop.services.auditing import Progress, judged
from halfdrop.services.book_facts import date_text, job_facts, room_facts, sentence, wishes
from halfdrop.services.book_findings import book_finding, sourced
from halfdrop.services.book_sheets import RoomSheets
from halfdrop.services.book_shopping import book_shopping, book_working
from halfdrop.services.book_trades import BookTrades, book_trades
from halfdrop.services.jobs import OpenJob
from halfdrop.services.sheets import default_paper
from halfdrop.services.shopping import shopping
from halfdrop.services.surveying import report

#: What a client's copy may do without.
Left = Literal["workings", "values", "trades"]
LEFT: tuple[Left, ...] = ("workings", "values", "trades")

#: What every book says, whatever is in it.
GENERAL = (
    BookCaution(
        "First",
        "This book is a decorator's advice. Where it touches structure, wiring, gas, water, escape in a fire "
        "or anything fixed to a wall or ceiling, local codes and the work of licensed people go before it.",
    ),
    BookCaution(
        "Dimensions",
        "They are adjusted from a tape survey. What is made to measure is measured again, in place, by "
        "whoever makes it.",
    ),
)


def make_job_book(
    job: OpenJob,
    *,
    scheme: str | None = None,
    room: str | None = None,
    paper: str | None = None,
    budget: Budget | None = None,
    progress: Progress | None = None,
    found: Sequence[Finding] | None = None,
    without: Collection[Left] = (),
) -> bytes:
    """Return the book of a job as a PDF.

    Parameters
    ----------
    job : OpenJob
        From `open_job`.
    scheme : str, optional
        The scheme proposed; without one the book holds the job as found, with its remedies.
    room : str, optional
        Only this room.
    paper : str, optional
        Of the sheets; by the job's units where not given. Text pages are letter or A4.
    budget : Budget, optional
        How much work the search for remedies may do.
    progress : callable, optional
        Called with how much is done, of how much, and what is at hand.
    found : sequence of Finding, optional
        Every finding of the job as found with its remedies, where they were sought before.
    without : collection of {"workings", "values", "trades"}, optional
        Parts to leave out: a client's copy needs neither the sums, nor the values of practice, nor the trades' sheets.

    Raises
    ------
    InputError
        Where the scheme, the room or the paper is not known, or a room does not fit its paper.
    """
    book = job_book(job, scheme=scheme, room=room, paper=paper, budget=budget, progress=progress, found=found)
    left: dict[str, Any] = dict.fromkeys(without, ())
    if "trades" in without:
        left["trades_left"] = ()
    return make_book(replace(book, **left))


def job_book(
    job: OpenJob,
    *,
    scheme: str | None = None,
    room: str | None = None,
    paper: str | None = None,
    budget: Budget | None = None,
    progress: Progress | None = None,
    found: Sequence[Finding] | None = None,
) -> Book:
    """Return the content of the book of a job; parameters as for `make_job_book`."""
    rooms = job.room_ids(room)
    after = job.under(scheme)
    known = judged(job.found, room, budget or Budget(), progress) if found is None else tuple(found)
    open_after = after.findings(room) if scheme is not None else ()
    work = _Composition(job, after, scheme, paper or default_paper(job), known, open_after)
    info = job.found.job.job
    listed = work.shopping(room) if scheme is not None else None
    trades = book_trades(job, room, after)
    return Book(
        job=info.name,
        client=info.client or "",
        address=info.address or "",
        decorator=info.decorator or "",
        revision=info.revision or "",
        date=info.date or "",
        date_text=date_text(info.date, info.units),
        paper="letter" if info.units == "imperial" else "a4",
        brief=info.brief or "",
        facts=job_facts(job),
        scheme=work.scheme_page(),
        rooms=tuple(work.room(i, n) for n, i in enumerate(rooms, 1)),
        shopping=book_shopping(listed, {i: r.name for i, r in after.job.rooms.items()}, work.units)
        if listed is not None
        else None,
        cautions=work.cautions(listed),
        trades=trades.sheets,
        trades_left=trades.left,
        workings=work.workings(rooms, listed, trades),
        values=work.values(),
    )


@dataclass
class _Composition:
    """What the parts of one book share."""

    job: OpenJob
    after: Auditor
    scheme: str | None
    paper: str
    found: tuple[Finding, ...]
    open_after: tuple[Finding, ...]

    def __post_init__(self) -> None:
        order = list(self.job.found.cases)
        ranked = sorted(self.found, key=lambda f: order.index(f.room))
        new = [f for f in self.open_after if f.id not in {g.id for g in self.found}]
        ranked += sorted(new, key=lambda f: order.index(f.room))
        #: Numbers run through the job, room by room, gravest first; findings a scheme brings come last.
        self.numbers = {f.id: n for n, f in enumerate(ranked, 1)}

    @property
    def units(self) -> Units:
        return self.job.found.job.job.units

    @property
    def steps(self) -> Sequence[SchemeStep]:
        return self.job.found.job.schemes[self.scheme].steps if self.scheme is not None else ()

    def scheme_page(self) -> BookScheme | None:
        if self.scheme is None:
            return None
        model = self.job.found.job.schemes[self.scheme]
        return BookScheme(model.name, model.note or "", tuple(step.title for step in model.steps))

    def room(self, room_id: str, number: int) -> BookRoom:
        case = self.job.found.case(room_id)
        mine = [f for f in self.found if f.room == room_id]
        left = [f for f in self.open_after if f.room == room_id]
        after = {f.id: f for f in left} if self.scheme is not None else None
        sheets = RoomSheets(self.job, self.after, self.numbers, self.paper, room_id, number)
        steps = tuple(
            step.title
            for step in self.steps
            if any(op.path.startswith(f"/rooms/{room_id}/") for op in step.patch)
        )
        survey = report(self.job, room_id)[0]
        found = (
            sheets.sheet("survey", ()),
            sheets.sheet("plan", mine),
            *sheets.elevations(mine),
            *sheets.colors(mine),
        )
        changed = changes(case.room, self.after.case(room_id).room)
        proposed: tuple[BookSheet, ...] = ()
        if self.scheme is not None and (steps or changed.moved or changed.new or changed.gone):
            proposed = (
                sheets.sheet("before-after", mine),
                sheets.sheet("plan", left, proposed=True),
                *sheets.elevations(left, proposed=True),
                *sheets.colors(left, proposed=True),
            )
        practice = self.job.found.practice
        return BookRoom(
            name=case.room.model.name,
            outline=tuple((round(float(x), 4), round(float(y), 4)) for x, y in case.room.survey.xy),
            facts=room_facts(case.room.model, case.room.area, self.units),
            wishes=wishes(case.room.model),
            survey=" ".join(sentence(t) for t in (survey.misclosure, *survey.advice) if t),
            found=found,
            findings=tuple(
                book_finding(f, self.numbers, practice, self.units, after=after, steps=self.steps)
                for f in mine
            ),
            proposed=proposed,
            steps=steps,
            remaining=tuple(
                book_finding(f, self.numbers, practice, self.units, sought=False)
                for f in left
                if f.id not in {g.id for g in mine}
            ),
        )

    def shopping(self, only: str | None) -> ShoppingList:
        return shopping(self.job, self.scheme, room=only, after=self.after)

    def cautions(self, listed: ShoppingList | None) -> tuple[BookCaution, ...]:
        general = [
            BookCaution(c.title, c.text, f"{sourced(c.source, c.sure)}.")
            for c in cautions_for(self.after.job, self.after.practice)
        ]
        rooms = self.job.found.cases
        by_room: dict[tuple[str, str], None] = {
            (f.caution, rooms[f.room].room.model.name): None
            for f in (*self.found, *self.open_after)
            if f.caution
        }
        noted: dict[str, list[str]] = {}
        for text, name in by_room:
            noted.setdefault(text, []).append(name)
        bought = listed.cautions if listed is not None else ()
        return (
            *GENERAL,
            *(BookCaution(", ".join(names), text) for text, names in noted.items()),
            *(BookCaution("Buying" if i == 0 else "", text) for i, text in enumerate(bought)),
            *general,
        )

    def workings(
        self, rooms: Sequence[str], listed: ShoppingList | None, trades: BookTrades
    ) -> tuple[BookWorking, ...]:
        surveys = []
        for i in rooms:
            room = self.job.found.case(i).room
            surveys.append(book_working(room.survey.working, room.model.name))
        arriving = [book_working(w) for i in rooms for w in stations.workings(self.after.case(i))]
        sized = [
            book_working(w, f"{self.job.found.case(f.room).room.model.name}, finding {self.numbers[f.id]}")
            for f in self.found
            if f.room in rooms
            for w in f.working
        ]
        return (
            *surveys,
            *sized,
            *arriving,
            *(book_working(w) for w in (listed.workings if listed is not None else ())),
            *trades.workings,
        )

    def values(self) -> tuple[BookValue, ...]:
        practice = self.job.found.practice
        keys = dict.fromkeys(key for rule in all_rules() for key in rule.practice)
        keys |= dict.fromkeys(f.practice for f in (*self.found, *self.open_after) if f.practice)
        out = []
        for key in sorted(keys):
            value = practice[key]
            named = sorted({self.numbers[f.id] for f in (*self.found, *self.open_after) if f.practice == key})
            source = f"{sourced(value.source, value.sure)}."
            if value.origin not in ("us", "metric"):
                source += f" Set by: {value.origin}."
            out.append(BookValue(key, value.what, value.text, source, ", ".join(map(str, named))))
        return tuple(out)
