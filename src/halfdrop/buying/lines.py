"""The shopping list as data: what is bought, moved, let go and kept, with prices and what is not priced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from halfdrop.base.formats import format_money
from halfdrop.base.units import Money
from halfdrop.base.working import Working

Kind = Literal["piece", "rug", "pad", "anchor", "cloth", "rod", "shade", "work", "fixing", "glazing"]
_NO_PLURAL = ("sq ft", "sq in", "sq yd", "m²", "cm²")


@dataclass(frozen=True)
class Bought:
    """One line of what is bought.

    Attributes
    ----------
    room : str
        Id of the room it is for.
    paths : tuple of str
        The things in the document it stands for; more than one where several alike are bought.
    kind, name, size : str
        What it is, what it is called, and its size as the trade writes it, in the job's units.
    quantity, unit : int, str
        How many of what: 6 pieces, 1 set, 38 sq ft; the unit in the singular.
    price, total : Money or None
        Of one, and of all of them; None where it is not known.
    price_from : str
        Where the price was read: "job", "stock list"; or why there is none.
    why : str
        The step of the scheme it comes from.
    findings : tuple of str
        Ids of the findings it clears.
    caution : str
        What to check before it is ordered; empty where nothing.
    """

    room: str
    paths: tuple[str, ...]
    kind: Kind
    name: str
    size: str
    quantity: int
    unit: str
    price: Money | None
    price_from: str
    why: str = ""
    findings: tuple[str, ...] = ()
    caution: str = ""

    @property
    def total(self) -> Money | None:
        """Price of all of them."""
        return self.price * self.quantity if self.price is not None else None

    @property
    def amount(self) -> str:
        """How many of what, as a person says it: `6 pieces`, `1 set`, `38 sq ft`, `2 cuts of 4 m²`."""
        one, of, area = self.unit.partition(" of ")
        plural = "" if self.quantity == 1 or one in _NO_PLURAL else "s"
        return f"{self.quantity} {one}{plural}{of}{area}"

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "room": self.room,
            "paths": list(self.paths),
            "kind": self.kind,
            "name": self.name,
            "size": self.size,
            "quantity": self.quantity,
            "unit": self.unit,
            "price": _money(self.price),
            "total": _money(self.total),
            "price_from": self.price_from,
            "why": self.why,
            "findings": list(self.findings),
            "caution": self.caution,
        }


@dataclass(frozen=True)
class Moved:
    """One thing that changes its place.

    Attributes
    ----------
    before, after : str
        Its place as a person sets it out, in the job's units.
    distance : float or None
        How far its center goes [m]; None where it goes to another room or the plan was not resolved.
    to_room : str or None
        The other room, where it goes to one.
    """

    room: str
    path: str
    name: str
    before: str
    after: str
    distance: float | None = None
    to_room: str | None = None
    why: str = ""

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object, the distance in metres."""
        return {
            "room": self.room,
            "path": self.path,
            "name": self.name,
            "from": self.before,
            "to": self.after,
            "distance": None if self.distance is None else round(self.distance, 4),
            "to_room": self.to_room,
            "why": self.why,
        }


@dataclass(frozen=True)
class Leaves:
    """One thing that leaves the room; `replaced` says what comes instead, `keep` that the client keeps it."""

    room: str
    path: str
    name: str
    size: str
    replaced: str = ""
    keep: bool = False
    why: str = ""

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return dict(vars(self))


@dataclass(frozen=True)
class Stays:
    """One thing that stays where it is."""

    room: str
    path: str
    name: str
    size: str
    keep: bool = False

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return dict(vars(self))


@dataclass(frozen=True)
class Work:
    """One thing to be done that is neither bought whole nor moved: a pad cut down, a door rehung."""

    room: str
    path: str
    what: str
    why: str = ""

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return dict(vars(self))


@dataclass(frozen=True)
class RoomTotal:
    """What one room costs: the sum of what is priced, and how many lines are not."""

    room: str
    name: str
    total: Money
    lines: int
    unpriced: int

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "room": self.room,
            "name": self.name,
            "total": _money(self.total),
            "lines": self.lines,
            "unpriced": self.unpriced,
        }


@dataclass(frozen=True)
class ShoppingList:
    """What a scheme asks for.

    Attributes
    ----------
    bought, moved, leaves, stays, works : tuple
        In the order of the rooms.
    coming : tuple of Bought
        What the room as found already marks as arriving; counted against the budget too.
    rooms : tuple of RoomTotal
        Every room of the job.
    total : Money
        Of all priced lines, bought and coming, in the job's currency.
    unpriced, foreign : int
        Lines without a price; lines whose price is in another currency. Neither is in `total`.
    budget : Money or None
        As the job says.
    cautions : tuple of str
        What to check before ordering.
    workings : tuple of Working
        How quantities and sums came about.
    """

    currency: str
    bought: tuple[Bought, ...]
    coming: tuple[Bought, ...]
    moved: tuple[Moved, ...]
    leaves: tuple[Leaves, ...]
    stays: tuple[Stays, ...]
    works: tuple[Work, ...]
    rooms: tuple[RoomTotal, ...]
    total: Money
    unpriced: int
    foreign: int
    budget: Money | None
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]

    @property
    def left(self) -> Money | None:
        """Budget less total, negative where it is over; None without a budget in the job's currency."""
        if self.budget is None or self.budget.currency != self.total.currency:
            return None
        return self.budget - self.total

    @property
    def verdict(self) -> str:
        """The total against the budget, in words; lines not in the sum are said, and make it a least."""
        lines = len(self.bought) + len(self.coming)
        said = []
        for count, one, more in (
            (self.unpriced, "has no price yet", "have no price yet"),
            (self.foreign, "is priced in another currency", "are priced in another currency"),
        ):
            if count:
                what, end = (one, "is") if count == 1 else (more, "are")
                said.append(f"{count} of {lines} lines {what} and {end} not in the sum.")
        return " ".join((self._sum(lines), *said))

    def _sum(self, lines: int) -> str:
        """Return the sentence on the sum and the budget."""
        if not lines:
            return "Nothing is bought."
        missing = self.unpriced + self.foreign
        if missing == lines:
            kept = f"; the budget is {format_money(self.budget)}" if self.budget is not None else ""
            return f"Nothing on the list is priced in {self.currency} yet{kept}."
        text = f"The list comes to {'at least ' if missing else ''}{format_money(self.total)}"
        if self.budget is None:
            return f"{text}."
        budget = format_money(self.budget)
        if self.left is None:
            return f"{text}; the budget of {budget} is in another currency and is not compared."
        if self.left.amount < 0:
            least = "at least " if missing else ""
            return f"{text}, {least}{format_money(-self.left)} over the budget of {budget}."
        most = "at most " if missing else ""
        if self.left.amount == 0:
            return f"{text}, which is the whole budget."
        return f"{text}, which leaves {most}{format_money(self.left)} of the budget of {budget}."

    def to_json(self) -> dict[str, Any]:
        """Return the list as a JSON-compatible object."""
        parts = ("bought", "coming", "moved", "leaves", "stays", "works", "rooms")
        return {
            **{name: [line.to_json() for line in getattr(self, name)] for name in parts},
            "currency": self.currency,
            "total": _money(self.total),
            "unpriced": self.unpriced,
            "foreign": self.foreign,
            "budget": _money(self.budget),
            "left": _money(self.left),
            "verdict": self.verdict,
            "cautions": list(self.cautions),
            "workings": [working.to_json() for working in self.workings],
        }


def _money(money: Money | None) -> dict[str, str] | None:
    return None if money is None else {"amount": f"{money.amount:f}", "currency": money.currency}
