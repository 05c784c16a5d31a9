"""The shopping list as a book prints it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from halfdrop.base.formats import Units, format_length, format_money
from halfdrop.base.units import sum_money
from halfdrop.base.working import Working
from halfdrop.book.content import (
    BookLine,
    BookLines,
    BookRow,
    BookShopping,
    BookStep,
    BookWorking,
    Fact,
)
from halfdrop.buying.lines import Bought, ShoppingList, Stays
from halfdrop.buying.words import counted

#: More reasons than these are counted, not named.
REASONS = 3


def book_shopping(listed: ShoppingList, names: Mapping[str, str], units: Units) -> BookShopping:
    """Return a shopping list as texts.

    Parameters
    ----------
    names : mapping
        Rooms' names by id.
    """
    moves = tuple(
        BookRow(
            names[m.room],
            m.name,
            m.before,
            m.after,
            format_length(m.distance, units) if m.distance and m.distance > 5e-4 else "–",
        )
        for m in listed.moved
    )
    leaves = tuple(
        BookRow(names[x.room], x.name, x.size, x.replaced or "–", reasons(x.why)) for x in listed.leaves
    )
    works = tuple(BookRow("", names[w.room], w.what, reasons(w.why)) for w in listed.works)
    return BookShopping(
        verdict=listed.verdict,
        total=format_money(listed.total),
        budget=_budget(listed),
        rooms=_rooms(listed.bought, listed, names),
        coming=_rooms(listed.coming, listed, names),
        moves=moves,
        leaves=leaves,
        stays=_stays(listed.stays, names),
        works=works,
    )


def _stays(stays: Sequence[Stays], names: Mapping[str, str]) -> tuple[BookRow, ...]:
    """Return what stays, things alike in one row: six chairs are one row."""
    alike: dict[tuple[str, str, bool], list[str]] = {}
    for x in stays:
        alike.setdefault((x.room, x.size, x.keep), []).append(x.name)
    return tuple(
        BookRow(names[room], name, size, "kept by the client" if keep else "")
        for (room, size, keep), members in alike.items()
        for name in counted(members)
    )


def _budget(listed: ShoppingList) -> tuple[Fact, ...]:
    out: list[Fact] = []
    if listed.budget is not None:
        out.append(("Budget", format_money(listed.budget)))
    out.append(("Priced so far", format_money(listed.total)))
    if listed.left is not None:
        over = listed.left.amount < 0
        out.append(("Over" if over else "Left", format_money(-listed.left if over else listed.left)))
    open_lines = listed.unpriced + listed.foreign
    if open_lines:
        out.append(("Not in the sum", f"{open_lines} line{'s' if open_lines > 1 else ''}"))
    return tuple(out)


def _rooms(lines: Sequence[Bought], listed: ShoppingList, names: Mapping[str, str]) -> tuple[BookLines, ...]:
    out = []
    for room in listed.rooms:
        mine = [line for line in lines if line.room == room.room]
        if mine:
            priced = [line.total for line in mine if line.total is not None]
            total = sum_money((t for t in priced if t.currency == listed.currency), listed.currency)
            out.append(BookLines(names[room.room], tuple(map(book_line, mine)), format_money(total)))
    return tuple(out)


def book_line(line: Bought) -> BookLine:
    """Return one line as texts."""
    note = line.caution if line.kind == "pad" else ""
    if line.price is None:
        note = " ".join(filter(None, (f"No price: {line.price_from}.", note)))
    quantity = f"{line.quantity}" if line.unit == "piece" else line.amount
    each = format_money(line.price) if line.price is not None else "no price"
    total = format_money(line.total) if line.total is not None else "–"
    return BookLine(line.name, line.size, quantity, each, total, reasons(line.why), note)


def reasons(why: str) -> str:
    """Return up to `REASONS` reasons, and how many more there are."""
    parts = [part for part in why.split("; ") if part]
    if len(parts) <= REASONS:
        return " ".join(parts)
    return f"{' '.join(parts[:REASONS])} And {len(parts) - REASONS} more."


def book_working(working: Working, prefix: str = "") -> BookWorking:
    """Return a working as texts."""
    steps = tuple(BookStep(**vars(step)) for step in working.steps)
    title = working.title if not prefix else f"{prefix}: {working.title[:1].lower()}{working.title[1:]}"
    return BookWorking(title, steps)
