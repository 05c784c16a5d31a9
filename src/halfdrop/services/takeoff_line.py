"""One line of a take-off."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from halfdrop.base.units import Money
from halfdrop.base.working import Working

Trade = Literal["paper", "paint", "cloth", "hardware", "rug", "pad"]


@dataclass(frozen=True)
class Line:
    """One thing to buy.

    Attributes
    ----------
    trade : {"paper", "paint", "cloth", "hardware", "rug", "pad"}
        Whose quantity it is.
    item : str
        Its path in the document.
    name : str
        What it is called.
    rooms : tuple of str
        Where it goes.
    quantity, unit : float, str
        How many of what.
    said : str
        The same as a person writes it in an order.
    total : Money or None
        What it costs; None where no price is known.
    notes : tuple of str
        What to know before it is ordered.
    detail : dict
        JSON-compatible: strips, rolls, setting-out; areas, coats, cans; cuts on bolts. Lengths in metres.
    workings : tuple of Working
        How it came about.
    """

    trade: Trade
    item: str
    name: str
    rooms: tuple[str, ...]
    quantity: float
    unit: str
    said: str
    total: Money | None
    notes: tuple[str, ...] = ()
    detail: dict[str, Any] = field(default_factory=dict)
    workings: tuple[Working, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """Return it as a JSON-compatible object."""
        return {
            "trade": self.trade,
            "item": self.item,
            "name": self.name,
            "rooms": list(self.rooms),
            "quantity": self.quantity,
            "unit": self.unit,
            "said": self.said,
            "total": None
            if self.total is None
            else {"amount": f"{self.total.amount:f}", "currency": self.total.currency},
            "notes": list(self.notes),
            "detail": self.detail,
            "workings": [working.to_json() for working in self.workings],
        }
