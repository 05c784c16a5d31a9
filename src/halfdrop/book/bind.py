"""Binding: a book's content, set by typst with our fonts into one PDF; same content, same bytes."""

from __future__ import annotations

import datetime
import json
import re
import tempfile
from dataclasses import asdict
from importlib.resources import files
from pathlib import Path
from typing import Any

import typst

from halfdrop.book.content import Book, BookSheet
from halfdrop.book.text import cleaned, paragraphs
from halfdrop.book.trades import TRADES
from halfdrop.drawing.metrics import text_width
from halfdrop.drawing.notes import RING, SECOND
from halfdrop.drawing.tokens import Font, fonts_folder, tokens

TEMPLATES = (
    "main.typ", "install.typ", "look.typ", "page.typ", "front.typ", "rooms.typ", "shopping.typ", "trades.typ", "back.typ",
)  # fmt: skip

#: Room for the job's name in the running head [mm].
HEAD = 112.0
_WIDTHS = {"Semi Condensed": 87.5, "Condensed": 75.0}


def make_book(book: Book) -> bytes:
    """Return the book as a PDF.

    The texts of `book` reach the templates as data, never as markup. Sheets are set full bleed at their
    size in millimetres. The bytes depend on `book` alone.
    """
    return _bound(book, "main.typ")


def make_install_sheets(book: Book) -> bytes:
    """Return the install sheets of a book by themselves as a PDF: no cover, no rooms, no list; one sheet at least."""
    return _bound(book, "install.typ")


def _bound(book: Book, main: str) -> bytes:
    templates = files("halfdrop.book") / "templates"
    sources = {name: (templates / name).read_bytes() for name in TEMPLATES}
    sources |= sheet_files(book)
    sources["book.json"] = json.dumps(payload(book), ensure_ascii=False).encode("utf-8")
    with tempfile.TemporaryDirectory(prefix="halfdrop-") as name:
        folder = Path(name)
        for file, data in sources.items():
            (folder / file).write_bytes(data)
        return _compiled(folder, main)


def _compiled(folder: Path, main: str) -> bytes:
    made = typst.compile(
        folder / main,
        root=folder,
        format="pdf",
        font_paths=[fonts_folder()],
        ignore_system_fonts=True,
        timestamp=0,
    )
    return bytes(made)


def payload(book: Book) -> dict[str, Any]:
    """Return what the templates read: the book's texts, cleaned, and the look."""
    data = asdict(book)
    data["brief"] = paragraphs(book.brief)
    data["date"] = calendar_day(book.date)
    data["head"] = fitted(" ".join(book.job.split()), HEAD)
    number = 0
    for room, plain in zip(book.rooms, data["rooms"], strict=True):
        for part in ("found", "proposed"):
            for sheet in plain[part]:
                del sheet["svg"]
                sheet["file"] = _sheet_file(number)
                number += 1
        plain["wishes"] = paragraphs(room.wishes)
    number = 0
    for trade in data["trades"]:
        trade["trade"] = TRADES[trade["trade"]][1]
        for part in trade["parts"]:
            if part["kind"] == "figure":
                del part["svg"]
                part["file"] = _figure_file(number)
                number += 1
    if book.scheme is not None:
        data["scheme"]["note"] = paragraphs(book.scheme.note)
    result: dict[str, Any] = cleaned(data)
    result["look"] = look()
    return result


def fitted(text: str, width: float) -> str:
    """Return a line of small lettering, cut with an ellipsis where it is wider than `width` [mm]."""
    size = tokens().sizes["small"]
    if text_width(text, size) <= width:
        return text
    while text and text_width(f"{text}…", size) > width:
        text = text[:-1]
    return f"{text.rstrip()}…"


def calendar_day(date: str) -> str:
    """Return `YYYY-MM-DD` where it is a day of the calendar, else an empty text."""
    try:
        return datetime.date.fromisoformat(date).isoformat()
    except ValueError:
        return ""


def sheet_files(book: Book) -> dict[str, bytes]:
    """Return every sheet and figure of the book by its file name, in the book's order."""
    sheets: list[BookSheet] = [sheet for room in book.rooms for sheet in (*room.found, *room.proposed)]
    drawn = {_sheet_file(i): sheet.svg.encode("utf-8") for i, sheet in enumerate(sheets)}
    figures = [figure for trade in book.trades for figure in trade.figures]
    return drawn | {_figure_file(i): figure.svg.encode("utf-8") for i, figure in enumerate(figures)}


def _sheet_file(number: int) -> str:
    return f"sheet-{number:03d}.svg"


def _figure_file(number: int) -> str:
    return f"figure-{number:03d}.svg"


def look() -> dict[str, Any]:
    """Return the tokens as the templates read them."""
    t = tokens()
    return {
        "inks": dict(t.inks["light"]),
        "pens": dict(t.pens),
        "sizes": dict(t.sizes),
        "fonts": {role: _face(role) for role in t.fonts},
        "line": t.line,
        "measure": t.measure,
        "ring": RING,
        "second": SECOND,
    }


def _face(role: Font | str) -> dict[str, Any]:
    """Return a face as typst names it: the width of a family is not part of its name there."""
    face = tokens().fonts[role]
    family, stretch = face.family, 100.0
    for words, width in _WIDTHS.items():
        if re.search(rf" {words}$", family):
            family, stretch = family.removesuffix(f" {words}"), width
            break
    return {"family": family, "stretch": stretch, "weight": face.weight, "style": face.style}
