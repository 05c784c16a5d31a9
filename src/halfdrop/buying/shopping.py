"""The shopping list of a scheme: the job as found against the job as proposed, and what that comes to.

Nothing is guessed: a thing without a price is counted and said, and a price is added only where the job or
its stock list gives it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from halfdrop.base.formats import format_money
from halfdrop.base.tolerance import at_most
from halfdrop.base.units import Money, sum_money
from halfdrop.base.working import Working
from halfdrop.buying.compare import Comparison, Places
from halfdrop.buying.lines import Bought, Leaves, RoomTotal, ShoppingList
from halfdrop.buying.words import base_name
from halfdrop.job.model import Job, SchemeStep
from halfdrop.practice import Practice


def shopping_list(
    found: Job,
    proposed: Job,
    practice: Practice,
    steps: Iterable[SchemeStep] = (),
    *,
    found_rooms: Places | None = None,
    proposed_rooms: Places | None = None,
    only: str | None = None,
) -> ShoppingList:
    """Return what has to be bought, moved and let go to come from the job as found to the job as proposed.

    Parameters
    ----------
    found, proposed : Job
        The job as found, and behind its scheme.
    practice : Practice
        For the pad's inset and the made sizes.
    steps : iterable of SchemeStep
        The scheme's steps, which say why.
    found_rooms, proposed_rooms : mapping of ResolvedRoom, optional
        The same rooms resolved, for how far a thing is moved.
    only : str, optional
        Id of the one room to list.
    """
    work = Comparison(found, proposed, practice, tuple(steps), found_rooms or {}, proposed_rooms or {}, only)
    work.run()
    currency = proposed.job.currency
    bought, coming = together(work.bought), together(work.coming)
    every = bought + coming
    rooms, total, sums = _sums(proposed, every, only)
    return ShoppingList(
        currency=currency,
        bought=bought,
        coming=coming,
        moved=tuple(work.moved),
        leaves=tuple(work.leaves),
        stays=tuple(work.stays),
        works=tuple(work.works),
        rooms=rooms,
        total=total,
        unpriced=sum(line.price is None for line in every),
        foreign=sum(line.price is not None and line.price.currency != currency for line in every),
        budget=proposed.job.budget,
        cautions=(
            *_cautions(every, work.leaves, _untaped(proposed, practice, every)),
            *_elsewhere(proposed, only),
        ),
        workings=(*work.workings, *([sums] if sums.steps else [])),
    )


def _sums(
    proposed: Job, every: Sequence[Bought], only: str | None
) -> tuple[tuple[RoomTotal, ...], Money, Working]:
    """Return the total of each room and of all, and how they came about, with what is left of the budget."""
    currency = proposed.job.currency
    sums = Working("What the list comes to")
    rooms = []
    for i, room in proposed.rooms.items():
        if only not in (None, i):
            continue
        lines = [line for line in every if line.room == i]
        prices = [t for line in lines if (t := line.total) is not None and t.currency == currency]
        total = sum_money(prices, currency)
        rooms.append(RoomTotal(i, room.name, total, len(lines), sum(line.price is None for line in lines)))
        if prices:
            sums.step(
                room.name,
                "sum of its priced lines",
                " + ".join(map(format_money, prices)),
                format_money(total),
            )
    total = sum_money((r.total for r in rooms), currency)
    spent = [r.total for r in rooms if r.total.amount]
    if len(spent) > 1:
        sums.step("in all", "sum of the rooms", " + ".join(map(format_money, spent)), format_money(total))
    budget = proposed.job.budget
    if budget is not None and budget.currency == currency and spent:
        values = f"{format_money(budget)} − {format_money(total)}"
        sums.step("left of the budget", "budget less the sum", values, format_money(budget - total))
    return tuple(rooms), total, sums


def _untaped(job: Job, practice: Practice, every: Sequence[Bought]) -> list[str]:
    """Return the pieces too large to be carried in by hand, where the way in was not taped."""
    if job.delivery:
        return []
    names = []
    for line in every:
        if line.kind == "piece":
            _, room, _, key = line.paths[0].split("/")
            piece = job.rooms[room].pieces[key]
            box = piece.packed or piece
            if not at_most(
                sorted((box.width, box.depth, box.height))[1], practice.length("delivery.hand_carry")
            ):
                names.append(f"the {line.name}")
    return names


def _elsewhere(job: Job, only: str | None) -> tuple[str, ...]:
    """Return what is bought for these rooms and stands on no line here."""
    if any(room.finishes for i, room in job.rooms.items() if only in (None, i)):
        return ("Paper and paint are not on this list, nor in its sum: the take-off counts and prices them.",)
    return ()


def _cautions(every: Sequence[Bought], leaves: Sequence[Leaves], untaped: Sequence[str]) -> tuple[str, ...]:
    kept = [
        f"The client keeps the {line.name}, and it leaves in this scheme: ask first."
        for line in leaves
        if line.keep
    ]
    said = [
        line.caution
        for line in every
        if line.kind in ("rug", "anchor", "rod", "fixing", "glazing") and line.caution
    ]
    if untaped:
        what = untaped[0] if len(untaped) == 1 else f"{', '.join(untaped[:-1])} and {untaped[-1]}"
        said.append(
            f"The way in has not been taped. Tape the doors, turns, stairs and lift from the street and write them under "
            f"`delivery` before {what} {'is' if len(untaped) == 1 else 'are'} ordered."
        )
    elif any(line.kind == "piece" for line in every):
        said.append("Check each piece against the way in, in the size it is packed in, before it is ordered.")
    if every:
        said.append("Prices are as entered in the job; delivery, tax and fitting are not in them.")
    return tuple(dict.fromkeys((*kept, *said)))


def together(lines: Sequence[Bought]) -> tuple[Bought, ...]:
    """Return the lines with pieces alike made one: six chairs are one line of six.

    Pieces are alike when room, size, price and name agree, a number or letter at the name's end aside.
    """
    out: dict[tuple[object, ...], Bought] = {}
    for line in lines:
        single = line.kind == "piece" and line.unit == "piece"
        name = base_name(line.name) if single else line.name
        key = (
            (line.room, name, line.size, line.price, line.price_from) if single else (line.kind, *line.paths)
        )
        first = out.get(key)
        if first is None:
            out[key] = line
            continue
        reasons = [w for w in dict.fromkeys((*first.why.split("; "), *line.why.split("; "))) if w]
        out[key] = replace(
            first,
            paths=first.paths + line.paths,
            name=name,
            quantity=first.quantity + line.quantity,
            why="; ".join(reasons),
            findings=tuple(dict.fromkeys(first.findings + line.findings)),
        )
    return tuple(out.values())
