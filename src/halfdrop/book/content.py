"""What a book says, as plain values: every text printed already, every sheet drawn already.

The book judges nothing and computes nothing; `services` composes its content. Texts may come from
anyone: they are set as they stand and never read as markup.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.book.trades import Fact as Fact
from halfdrop.book.trades import TradeSheet

Grade = Literal["hazard", "fault", "taste"]


@dataclass(frozen=True)
class BookSheet:
    """A finished drawing, set full bleed at its true size.

    Attributes
    ----------
    svg : str
        The drawing, its units millimetres on paper.
    width, height : float
        Of the paper [mm].
    number, view, scale, paper : str
        As its title strip has them.
    """

    svg: str
    width: float
    height: float
    number: str
    view: str
    scale: str
    paper: str


@dataclass(frozen=True)
class BookRemedy:
    """A proven remedy: its letter, what to do, what it costs, what its proof showed, whether it is taken."""

    letter: str
    title: str
    cost: str
    proof: str
    taken: bool = False


@dataclass(frozen=True)
class BookFinding:
    """A numbered finding.

    Attributes
    ----------
    number : int
        As on the plan.
    grade : {"hazard", "fault", "taste"}
        Shown by its mark and its word.
    within_tape : bool
        The tape's error alone could explain it: its mark is dashed.
    message : str
        Measured first, then wanted, then why.
    facts : tuple of (label, value)
        Measured, wanted, certainty and the like.
    why, source : str
        The rule's reason; where the wanted value comes from and how sure it is.
    remedies : tuple of BookRemedy
        Proven ones; `no_remedy` says why there are none.
    caution : str
        What could hurt someone; empty where nothing could.
    outcome : str
        What the scheme does about it; empty without a scheme.
    """

    number: int
    grade: Grade
    message: str
    within_tape: bool = False
    facts: tuple[Fact, ...] = ()
    why: str = ""
    source: str = ""
    remedies: tuple[BookRemedy, ...] = ()
    no_remedy: str = ""
    caution: str = ""
    outcome: str = ""


@dataclass(frozen=True)
class BookRoom:
    """A room: facts, sheets before and after, findings, what the scheme leaves open, and its outline [m]."""

    name: str
    facts: tuple[Fact, ...] = ()
    wishes: str = ""
    survey: str = ""
    found: tuple[BookSheet, ...] = ()
    findings: tuple[BookFinding, ...] = ()
    proposed: tuple[BookSheet, ...] = ()
    steps: tuple[str, ...] = ()
    remaining: tuple[BookFinding, ...] = ()
    outline: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True)
class BookLine:
    """A line of the shopping list: what, its size, how many, price of one and of all, why, and a caution."""

    name: str
    size: str
    quantity: str
    price: str
    total: str
    why: str = ""
    note: str = ""


@dataclass(frozen=True)
class BookLines:
    """The lines of one room and their sum."""

    room: str
    lines: tuple[BookLine, ...]
    total: str


@dataclass(frozen=True)
class BookRow:
    """A thing that moves, leaves, stays or is worked on: its room, its name, and up to three texts."""

    room: str
    name: str
    first: str = ""
    second: str = ""
    third: str = ""


@dataclass(frozen=True)
class BookShopping:
    """The shopping list: verdict against the budget, lines by room, and what moves, leaves and stays."""

    verdict: str
    total: str
    budget: tuple[Fact, ...] = ()
    rooms: tuple[BookLines, ...] = ()
    coming: tuple[BookLines, ...] = ()
    moves: tuple[BookRow, ...] = ()
    leaves: tuple[BookRow, ...] = ()
    stays: tuple[BookRow, ...] = ()
    works: tuple[BookRow, ...] = ()


@dataclass(frozen=True)
class BookStep:
    """A step of a working."""

    what: str
    formula: str
    values: str
    result: str
    rounding: str = ""
    source: str = ""


@dataclass(frozen=True)
class BookWorking:
    """A calculation that a person can check by hand."""

    title: str
    steps: tuple[BookStep, ...]


@dataclass(frozen=True)
class BookValue:
    """A value of practice: key, what it limits, text, source and sureness, and the findings that name it."""

    key: str
    what: str
    value: str
    source: str
    findings: str = ""


@dataclass(frozen=True)
class BookCaution:
    """A caution: what it is about (empty where it stands for itself), what it says, where it comes from."""

    title: str
    text: str
    source: str = ""


@dataclass(frozen=True)
class BookScheme:
    """The scheme the book proposes: its name, its note, and its steps."""

    name: str
    note: str
    steps: tuple[str, ...]


@dataclass(frozen=True)
class Book:
    """A whole book.

    Attributes
    ----------
    job, client, address, decorator, revision : str
        As the job has them; empty where it does not.
    date : str
        `YYYY-MM-DD`, or empty; it is also the date written into the file.
    date_text : str
        The date as it is printed.
    paper : {"letter", "a4"}
        Of the text pages; sheets keep their own.
    brief : str
        The client's brief, in paragraphs.
    facts : tuple of (label, value)
        Budget, people, units and the like.
    trades : tuple of TradeSheet
        Install sheets, trade by trade; `trades_left` says which could not be made, and why.
    """

    job: str
    client: str = ""
    address: str = ""
    decorator: str = ""
    revision: str = ""
    date: str = ""
    date_text: str = ""
    paper: Literal["letter", "a4"] = "letter"
    brief: str = ""
    facts: tuple[Fact, ...] = ()
    scheme: BookScheme | None = None
    rooms: tuple[BookRoom, ...] = ()
    shopping: BookShopping | None = None
    cautions: tuple[BookCaution, ...] = ()
    trades: tuple[TradeSheet, ...] = ()
    trades_left: tuple[str, ...] = ()
    workings: tuple[BookWorking, ...] = ()
    values: tuple[BookValue, ...] = ()
