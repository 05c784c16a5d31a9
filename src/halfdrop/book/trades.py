"""What an install sheet says, as plain values: one page or a few for one tradesperson, every text printed already."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

#: A label and its value.
Fact: TypeAlias = tuple[str, str]
Trade = Literal["installer", "workroom", "hanger", "painter", "art"]
#: Trades in the order of the sheets, each with how its sheets are numbered and what they are called.
TRADES: dict[Trade, tuple[str, str]] = {
    "installer": ("I", "Installer"),
    "workroom": ("W", "Workroom"),
    "hanger": ("H", "Paper hanger"),
    "painter": ("P", "Painter"),
    "art": ("A", "Hanging"),
}


@dataclass(frozen=True)
class TradeFigure:
    """A drawing among the text: its SVG at true size [mm], and what stands under it."""

    name: str
    svg: str
    width: float
    height: float
    caption: str = ""
    kind: str = field(default="figure", init=False)


@dataclass(frozen=True)
class TradeFacts:
    """Labels and values under a heading."""

    title: str
    facts: tuple[Fact, ...]
    kind: str = field(default="facts", init=False)


@dataclass(frozen=True)
class TradeTable:
    """A table: `columns` are shares of the width, 0 for as wide as wanted; `right` the columns set to the right."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    columns: tuple[float, ...]
    right: tuple[int, ...] = ()
    note: str = ""
    kind: str = field(default="table", init=False)


@dataclass(frozen=True)
class TradeList:
    """Lines under a heading, numbered where their order matters."""

    title: str
    items: tuple[str, ...]
    numbered: bool = False
    kind: str = field(default="list", init=False)


@dataclass(frozen=True)
class TradeCautions:
    """What could hurt someone: what each is about, what it says."""

    cautions: tuple[Fact, ...]
    kind: str = field(default="cautions", init=False)


TradePart: TypeAlias = TradeFigure | TradeFacts | TradeTable | TradeList | TradeCautions


@dataclass(frozen=True)
class TradeSheet:
    """One install sheet.

    Attributes
    ----------
    trade : {"installer", "workroom", "hanger", "painter", "art"}
        Whose it is.
    number : str
        `I1`, `W1` …
    name, room : str
        Of what is installed; of its room, or rooms.
    path : str
        In the document.
    lead : str
        What it comes to, in a sentence or two.
    parts : tuple
        Figures, facts, tables, lists and cautions, in order.
    """

    trade: Trade
    number: str
    name: str
    room: str
    path: str
    lead: str
    parts: tuple[TradePart, ...]

    @property
    def figures(self) -> tuple[TradeFigure, ...]:
        """Its drawings, in order."""
        return tuple(part for part in self.parts if isinstance(part, TradeFigure))
