"""Small books, and a reader for what came out."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2

from halfdrop.book.content import (
    Book,
    BookCaution,
    BookFinding,
    BookLine,
    BookLines,
    BookRemedy,
    BookRoom,
    BookRow,
    BookScheme,
    BookSheet,
    BookShopping,
    BookStep,
    BookValue,
    BookWorking,
)

MM = 25.4 / 72


def sheet(
    view: str, number: str = "1.1", width: float = 431.8, height: float = 279.4, line: float = 100.0
) -> BookSheet:
    """Return a sheet with one horizontal line from (50, 60), `line` mm long."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">'
        f'<path d="M50 60H{50 + line}" stroke="#000000" stroke-width="0.5" fill="none"/></svg>'
    )
    return BookSheet(svg, width, height, number, view, "1:50", "Tabloid")


def finding(number: int, grade: str = "fault", **more: object) -> BookFinding:
    """Return a finding with one remedy."""
    made = BookFinding(
        number=number,
        grade=grade,  # type: ignore[arg-type]
        message=f"Message of note {number}.",
        facts=(("Measured", "7 in"), ("Wanted", "at least 8 in"), ("Certainty", "beyond tape error")),
        why="So that it is so.",
        source="rugs.example 8 in (us); common practice, no source; sureness: memory",
        remedies=(
            BookRemedy("a", f"Remedy of note {number}.", "nothing to buy", "Proven: clears it.", True),
        ),
        caution="Ask a licensed person." if grade == "hazard" else "",
        outcome="Cleared in the scheme, step 1.",
    )
    return replace(made, **more)  # type: ignore[arg-type]


def book() -> Book:
    """Return a book with every part in it."""
    room = BookRoom(
        name="Living room",
        facts=(("Use", "living"), ("Floor", "212 sq ft, hard floor")),
        wishes="Talk, for 4 people.",
        survey="The measures agree.",
        found=(sheet("Survey", "1.1"), sheet("Plan as found", "1.2")),
        findings=(finding(1, "hazard"), finding(2), finding(3, "taste", within_tape=True)),
        proposed=(sheet("Before and after", "1.3"), sheet("Plan as proposed", "1.4")),
        steps=("Move the rug.",),
        remaining=(finding(4, "taste", outcome=""),),
        outline=((0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (0.0, 4.0)),
    )
    line = BookLine(
        "rug", "9 × 12 ft", "1", "$1,200", "$1,200", "Take the next size.", "Order by actual size."
    )
    shopping = BookShopping(
        verdict="The list comes to $1,200, which leaves $1,800 of the budget of $3,000.",
        total="$1,200",
        budget=(("Budget", "$3,000"),),
        rooms=(BookLines("Living room", (line,), "$1,200"),),
        moves=(BookRow("Living room", "sofa", "wall AB: 4′ from A", "wall AB: 5′ from A", "1′"),),
        leaves=(BookRow("Living room", "rug", "8 × 10 ft", "rug, 9 × 12 ft", "Take the next size."),),
        stays=(BookRow("Living room", "bookcase", "36 × 12 × 80 in", ""),),
        works=(BookRow("", "Living room", "The door is rehung.", "It strikes the rug."),),
    )
    return Book(
        job="Two rooms",
        client="A. and B. Example",
        decorator="Example Interiors",
        date="2025-03-04",
        date_text="March 4, 2025",
        revision="B",
        brief="We sit with our backs to the window.",
        facts=(("Budget", "$3,000"),),
        scheme=BookScheme("First scheme", "As little as can be.", ("Move the rug.",)),
        rooms=(room,),
        shopping=shopping,
        cautions=(BookCaution("First", "Local codes go first.", "common practice, no source"),),
        workings=(
            BookWorking(
                "Pad", (BookStep("pad wanted", "rug less inset", "9 ft less 2 in", "8′ 10″", "up", "s"),)
            ),
        ),
        values=(BookValue("rugs.example", "rug past the table", "8 in", "common practice, no source", "2"),),
    )


class Pages:
    """The pages of a PDF: their text and size [mm]."""

    def __init__(self, pdf: bytes) -> None:
        self.document = pypdfium2.PdfDocument(pdf)
        self.texts = []
        self.sizes = []
        for page in self.document:
            text = page.get_textpage().get_text_range()
            self.texts.append(" ".join(text.replace("\u200b", "").replace("\ufffe", "").split()))
            self.sizes.append(tuple(side * MM for side in page.get_size()))

    def with_text(self, text: str) -> list[int]:
        """Return the numbers of the pages that hold a text, from 1."""
        return [n for n, page in enumerate(self.texts, 1) if text in page]

    def strokes(self, number: int) -> list[tuple[float, float, float, float]]:
        """Return the bounds (left, bottom, right, top) of a page's stroked or filled paths [mm]."""
        import pypdfium2.raw as raw

        page = self.document[number - 1]
        found = page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=8)
        return [tuple(v * MM for v in item.get_bounds()) for item in found]  # type: ignore[misc]
