"""The bound book: its pages, its bytes, its scale, and text from strangers."""

from __future__ import annotations

import ast
from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

import halfdrop.book
from halfdrop.book.bind import TEMPLATES, make_book
from halfdrop.book.content import Book, BookCaution, BookLine, BookLines, BookRoom
from tests.book.samples import Pages, book, finding, sheet

HOSTILE = (
    "#panic()",
    "$x$ _a_ *b* `c`",
    "] } ) #[",
    '\\ \\u{41} "quoted" \' // /* */',
    "@ref <label> = heading\n== second",
    '#read("/etc/passwd")',
    '#import "main.typ": *',
    "W" * 120,
    "🛋️ 🙂",
    "שלום עולם",
    "\u202eevil\u202c and \u2066x\u2069",
    "nul\x00 bell\x07 del\x7f",
    "\ud800 lone",
    "{{ data }} %s {0}",
    "https://example.com/a/very/long/path/that/never/ends/really/it/does/not/end",
)


@pytest.fixture(scope="module")
def pages() -> Pages:
    return Pages(make_book(book()))


def test_parts_stand_in_order(pages: Pages) -> None:
    """Cover, brief, contents, room, sheets, findings, shopping list, cautions, workings, values, glossary."""
    texts = (
        "Two rooms",
        "We sit with our backs",
        "Drawings",
        "Talk, for 4 people.",
        "Message of note 1.",
        "Message of note 4.",
        "The list comes to",
        "Local codes go first.",
        "rug less inset",
        "rug past the table",
        "A dashed mark",
    )
    first = [pages.with_text(text)[0] for text in texts]
    assert first == sorted(first)
    assert first[:3] == [1, 2, 3]


def test_every_text_is_somewhere(pages: Pages) -> None:
    """What a finding and a line of the list say is in the book, word for word."""
    whole = " ".join(pages.texts)
    for text in (
        "Hazard. Message of note 1.",
        "7 in",
        "at least 8 in",
        "beyond tape error",
        "So that it is so.",
        "sureness: memory",
        "Remedy of note 2.",
        "nothing to buy",
        "Ask a licensed person.",
        "Cleared in the scheme, step 1.",
        "9 × 12 ft",
        "$1,200",
        "Order by actual size.",
        "wall AB: 5′ from A",
        "The door is rehung.",
        "1.4",
        "Revision B",
        "March 4, 2025",
    ):
        assert text in whole, text


def test_contents_name_the_right_pages(pages: Pages) -> None:
    """The list of drawings gives each sheet the page it stands on."""
    sheets = [n for n, size in enumerate(pages.sizes, 1) if size[0] > 400]
    assert len(sheets) == 4
    contents = pages.texts[pages.with_text("Drawings")[0] - 1]
    for view, page in zip(
        ("Survey", "Plan as found", "Before and after", "Plan as proposed"), sheets, strict=True
    ):
        assert f"{view} 1:50 Tabloid {page}" in contents


def test_running_heads(pages: Pages) -> None:
    """Text pages carry job and chapter at the head, their number of all at the foot; sheets carry neither."""
    number = pages.with_text("Message of note 2.")[0]
    text = pages.texts[number - 1]
    assert text.startswith("Two rooms Living room")
    assert f"{number} / {len(pages.texts)}" in text
    sheet_page = next(n for n, size in enumerate(pages.sizes) if size[0] > 400)
    assert f"/ {len(pages.texts)}" not in pages.texts[sheet_page]


def test_papers(pages: Pages) -> None:
    """Text pages are letter or A4; sheets keep their own paper."""
    assert {tuple(round(v, 1) for v in size) for size in pages.sizes} == {(215.9, 279.4), (431.8, 279.4)}
    metric = Pages(make_book(replace(book(), paper="a4", rooms=())))
    assert {tuple(round(v) for v in size) for size in metric.sizes} == {(210, 297)}


def test_sheets_measure_true(pages: Pages) -> None:
    """A line drawn 100 mm long on a sheet is 100 mm long on the page, and stands where it was drawn."""
    number = next(n for n, size in enumerate(pages.sizes, 1) if size[0] > 400)
    bounds = [b for b in pages.strokes(number) if b[3] - b[1] < 2 and b[2] - b[0] > 50]
    assert len(bounds) == 1
    left, bottom, right, top = bounds[0]
    pen = top - bottom
    assert right - left - pen == pytest.approx(100.0, abs=0.05)
    assert left + pen / 2 == pytest.approx(50.0, abs=0.05)
    assert 279.4 - (top + bottom) / 2 == pytest.approx(60.0, abs=0.05)


def test_same_bytes() -> None:
    """The same book is the same bytes; another date is another file, and is the date in it."""
    first = make_book(book())
    assert first == make_book(book())
    assert b"D:20250304" in first
    undated = make_book(replace(book(), date="", date_text=""))
    assert undated == make_book(replace(book(), date="", date_text=""))


def test_no_day_of_the_calendar() -> None:
    """A date that the calendar does not have is printed, and not written into the file."""
    made = make_book(replace(book(), date="2025-02-31", date_text="2025-02-31"))
    assert "2025-02-31" in " ".join(Pages(made).texts)


def test_only_our_fonts() -> None:
    """A book of Latin text is set in the shipped faces alone, whatever the machine has installed."""
    made = make_book(book())
    names = {part.split(b" ")[0].split(b"/")[0] for part in made.split(b"/FontName/")[1:]}
    names |= {part.split(b"\n")[0] for part in made.split(b"/FontName /")[1:]}
    families = {name.split(b"+")[-1].split(b"-")[0].strip() for name in names}
    assert families == {b"BarlowSemiCondensed", b"Literata"}


@pytest.mark.parametrize("text", HOSTILE)
def test_text_is_never_markup(text: str) -> None:
    """Whatever is typed into a name or note is set as text: it compiles, and its letters are on the page."""
    made = Pages(make_book(_all_texts(book(), text)))
    assert len(made.texts) > 8
    spelled = "".join(c for c in text if c.isascii() and c.isprintable() and c != " ")
    if spelled:
        squeezed = "".join(made.texts).replace(" ", "").replace("-", "")
        assert spelled.replace("-", "") in squeezed.replace("’", "'").replace("“", '"').replace("”", '"')


def _all_texts(made: Book, text: str) -> Book:
    room = made.rooms[0]
    hostile = replace(finding(1, "hazard"), message=text, why=text, source=text, caution=text, outcome=text)
    hostile = replace(
        hostile, facts=((text, text),), remedies=(replace(hostile.remedies[0], title=text, cost=text),)
    )
    line = BookLine(text, text, "1", "$1", "$1", text, text)
    assert made.shopping is not None
    assert made.scheme is not None
    return replace(
        made,
        job=text,
        client=text,
        address=text,
        decorator=text,
        revision=text,
        brief=text,
        facts=((text, text),),
        scheme=replace(made.scheme, name=text, note=text, steps=(text,)),
        rooms=(
            replace(room, name=text, facts=((text, text),), wishes=text, survey=text, findings=(hostile,)),
        ),
        shopping=replace(made.shopping, rooms=(BookLines(text, (line,), "$1"),)),
        cautions=(BookCaution(text, text, text),),
    )


def test_long_words_stay_on_the_page() -> None:
    """A name of 120 unbroken letters does not run off the paper."""
    made = make_book(_all_texts(book(), "W" * 120))
    for page in pypdfium2.PdfDocument(made):
        width, _ = page.get_size()
        text = page.get_textpage()
        for i in range(text.count_chars()):
            left, _, right, _ = text.get_charbox(i)
            assert left >= -0.5
            assert right <= width + 0.5


def test_many_of_everything() -> None:
    """Twelve rooms of twenty findings and a list of a hundred lines bind; every note is there once."""
    rooms = tuple(
        BookRoom(
            f"Room {r}",
            findings=tuple(finding(100 * r + i, "fault") for i in range(1, 21)),
            found=(sheet("Plan"),),
        )
        for r in range(1, 13)
    )
    base = book()
    assert base.shopping is not None
    lines = tuple(
        BookLine(f"thing {i}", "1 in", "1", "$1", "$1", "Because of this and that.") for i in range(100)
    )
    made = Pages(
        make_book(
            replace(
                base, rooms=rooms, shopping=replace(base.shopping, rooms=(BookLines("All", lines, "$100"),))
            )
        )
    )
    whole = " ".join(made.texts)
    for room in range(1, 13):
        for i in range(1, 21):
            assert whole.count(f"Message of note {100 * room + i}.") == 1
    # the table's head is said again on every page the table goes on to, and never stands alone
    for number in made.with_text("What Size Quantity Each Total"):
        assert "Because of this" in made.texts[number - 1]
    assert len(made.with_text("What Size Quantity Each Total")) == len(made.with_text("Because of this"))


def test_findings_stay_whole() -> None:
    """A finding that fits a page is not broken across two: message, source and remedy share a page."""
    base = book()
    room = replace(base.rooms[0], findings=tuple(finding(i) for i in range(1, 30)))
    made = Pages(make_book(replace(base, rooms=(room,))))
    for i in range(5, 30):
        message, remedy = made.with_text(f"Message of note {i}."), made.with_text(f"Remedy of note {i}.")
        assert message == remedy
        assert len(message) == 1


def test_empty_book() -> None:
    """A job with nothing in it still binds: cover, brief, contents, how to read the notes."""
    made = Pages(make_book(Book(job="Bare")))
    assert len(made.texts) == 4
    assert made.with_text("Bare")[0] == 1


def test_templates_never_evaluate() -> None:
    """No template turns text into code, and the binder builds no markup of its own."""
    folder = Path(halfdrop.book.__file__).parent
    assert sorted(p.name for p in (folder / "templates").iterdir()) == sorted(TEMPLATES)
    for name in TEMPLATES:
        text = (folder / "templates" / name).read_text(encoding="utf-8")
        assert "eval(" not in text
        assert "sys.inputs" not in text
    for path in folder.glob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                assert not node.value.lstrip().startswith(("#set", "#let", "#import", "#show"))
