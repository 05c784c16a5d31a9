"""The book of a job, the whole way from its file: what the audit finds is in it, drawn and counted."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfdrop.audit.prove import Budget
from halfdrop.base.errors import InputError
from halfdrop.book.content import Book
from halfdrop.services.book import job_book, make_job_book
from halfdrop.services.book_facts import date_text
from halfdrop.services.jobs import OpenJob, open_job
from tests.book.samples import Pages

JOB = """\
halfdrop: 1
job:
  name: Two rooms
  client: A. and B. Example
  decorator: Example Interiors
  date: 2025-03-04
  units: UNITS
  currency: USD
  budget: $3,000
  brief: We sit with our backs to the window.
people:
  ann: {name: Ann}
  ben: {name: Ben, age: child}
stock:
  straps: {kind: anchor, name: Two straps, price: $18}
rooms:
  living:
    name: Living room
    use: {living: true}
    survey:
      corners: A B C D
      walls: {AB: 16', BC: 13', CD: 16', DA: 13'}
      ties: {AC: 20' 7 3/8", BD: 20' 7 1/2"}
      heights: {center: 8' 6"}
    openings:
      door: {kind: door, wall: DA, along: 8 in, width: 32 in, height: 80 in, hinge: D, opens: out}
    fittings:
      heater:
        {kind: heater, name: heater, wall: BC, along: 60 in, width: 30 in, depth: 4 in, height: 14 in}
    pieces:
      chair:
        {type: armchair, width: 32 in, depth: 32 in, height: 32 in, at: {wall: BC, along: 40 in, off: 6 in}}
      bookcase:
        {type: bookcase, width: 36 in, depth: 12 in, height: 80 in, at: {wall: CD, along: 60 in, off: 0}}
    wishes: {people: 2, uses: {talk: true}, note: The heater stays.}
  study:
    name: Study
    use: {study: true}
    survey:
      corners: A B C D
      walls: {AB: 10', BC: 10', CD: 10', DA: 10'}
      ties: {AC: 14' 1 11/16", BD: 14' 1 11/16"}
schemes:
  first:
    name: First scheme
    steps:
      - title: Anchor the bookcase.
        finding: living/hazards.anchor/bookcase
        patch: [{op: add, path: /rooms/living/pieces/bookcase/anchored, value: true}]
      - title: Move the chair 30 in along the wall.
        patch: [{op: replace, path: /rooms/living/pieces/chair/at/along, value: 110 in}]
"""
SMALL = Budget(trials=6)


def opened(folder: Path, units: str = "imperial") -> OpenJob:
    path = folder / "job.yaml"
    path.write_text(JOB.replace("UNITS", units), encoding="utf-8")
    return open_job(path)


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> OpenJob:
    return opened(tmp_path_factory.mktemp("book"))


@pytest.fixture(scope="module")
def content(job: OpenJob) -> Book:
    return job_book(job, scheme="first", budget=SMALL)


def test_every_finding_is_told_and_drawn(job: OpenJob, content: Book) -> None:
    """Each finding as found is in its room with its message, and its number is on the plan as found."""
    found = job.found.findings()
    told = {f.message: f for room in content.rooms for f in room.findings}
    assert {f.message for f in found} == told.keys()
    assert len(found) >= 2
    for room in content.rooms:
        for f in room.findings:
            assert f">{f.number}</text>" in room.found[1].svg


def test_numbers_run_through_the_job(content: Book) -> None:
    """Numbers run from 1 without a gap, and those a scheme brings come after those as found."""
    found = [f.number for room in content.rooms for f in room.findings]
    new = [f.number for room in content.rooms for f in room.remaining]
    assert found == list(range(1, len(found) + 1))
    assert all(n > len(found) for n in new)


def test_outcome_is_what_the_audit_says(job: OpenJob, content: Book) -> None:
    """A finding is told as cleared exactly where the audit under the scheme no longer has it."""
    left = {f.message for f in job.under("first").findings()}
    by_id = {f.message: f for f in job.found.findings()}
    ids_left = {f.id for f in job.under("first").findings()}
    for room in content.rooms:
        for f in room.findings:
            assert f.outcome.startswith("Cleared") == (by_id[f.message].id not in ids_left)
    anchored = next(f for f in content.rooms[0].findings if "bookcase" in f.message and f.grade == "hazard")
    assert anchored.outcome == "Cleared in the scheme, step 1."
    assert anchored.message not in left


def test_sheets(content: Book) -> None:
    """A room the scheme changes has four sheets, one it leaves alone has two; numbers say room and sheet."""
    living, study = content.rooms
    assert [s.number for s in (*living.found, *living.proposed)] == ["1.1", "1.2", "1.3", "1.4"]
    assert [s.view for s in living.proposed] == ["Before and after", "Plan as proposed"]
    assert [s.number for s in (*study.found, *study.proposed)] == ["2.1", "2.2"]


def test_shopping(content: Book) -> None:
    """What the scheme anchors is bought, what it moves is told, the sum stands against the budget."""
    shopping = content.shopping
    assert shopping is not None
    assert [line.total for room in shopping.rooms for line in room.lines] == ["$18"]
    assert shopping.verdict == "The list comes to $18, which leaves $2,982 of the budget of $3,000."
    assert [(m.name, m.third) for m in shopping.moves] == [("chair", "5′ 10″")]


def test_a_clients_copy_leaves_parts_out(job: OpenJob) -> None:
    """Without workings, values and install sheets the book still holds rooms and findings, and is shorter by their pages."""
    whole = Pages(make_job_book(job, scheme="first", budget=SMALL))
    short = Pages(make_job_book(job, scheme="first", budget=SMALL, without=("workings", "values", "trades")))
    assert len(short.texts) < len(whole.texts)
    for chapter in ("Workings", "Values of practice"):
        assert whole.with_text(chapter)
        assert not short.with_text(chapter)
    assert short.with_text("bookcase")


def test_values_and_cautions(content: Book) -> None:
    """Values of practice name the notes that rest on them; cautions defer to local codes."""
    heater = next(v for v in content.values if v.key == "hazards.heater_clear")
    note = next(f for f in content.rooms[0].findings if "heater" in f.message and f.grade == "hazard")
    assert str(note.number) in heater.findings.split(", ")
    assert "local codes" in content.cautions[0].text
    assert ("Living room", note.caution) in {(c.title, c.text) for c in content.cautions}
    assert all(c.source for c in content.cautions if c.title == "Carrying")


def test_without_a_scheme(job: OpenJob) -> None:
    """Without a scheme there is no list and no proposed sheet, and no outcome is claimed."""
    made = job_book(job, budget=SMALL)
    assert made.shopping is None
    assert made.scheme is None
    assert all(not room.proposed and not f.outcome for room in made.rooms for f in room.findings)


def test_one_room(job: OpenJob) -> None:
    """A book of one room holds that room alone; an unknown one is an error."""
    assert [r.name for r in job_book(job, room="study", budget=SMALL).rooms] == ["Study"]
    with pytest.raises(InputError, match="no room `attic`"):
        job_book(job, room="attic")


def test_bound(job: OpenJob, content: Book) -> None:
    """The PDF is the same bytes twice; its pages hold brief, every message, and the sheets on tabloid."""
    pdf = make_job_book(job, scheme="first", budget=SMALL)
    assert pdf == make_job_book(job, scheme="first", budget=SMALL)
    pages = Pages(pdf)
    whole = " ".join(pages.texts)
    for text in (
        "We sit with our backs",
        "Ann, Ben (child)",
        "First scheme",
        "Talk for 2 people.",
        "March 4, 2025",
    ):
        assert text in whole
    for room in content.rooms:
        for f in room.findings:
            assert f.message.replace(" ", "") in whole.replace(" ", "")
    assert sum(round(w, 1) == 431.8 for w, _ in pages.sizes) == 6


def test_metric(tmp_path: Path) -> None:
    """A metric job is bound on A4 with A3 sheets and printed in millimeters."""
    made = job_book(opened(tmp_path, "metric"), scheme="first", budget=SMALL)
    assert made.paper == "a4"
    assert {s.paper for r in made.rooms for s in r.found} == {"A3"}
    assert made.date_text == "4 March 2025"
    assert ("Ceiling", "2591 mm") in made.rooms[0].facts


@pytest.mark.parametrize(
    ("date", "units", "text"),
    [
        ("2026-11-20", "imperial", "November 20, 2026"),
        ("2026-11-20", "metric", "20 November 2026"),
        ("2025-02-31", "metric", "2025-02-31"),
        (None, "imperial", ""),
    ],
)
def test_date_text(date: str | None, units: str, text: str) -> None:
    """Dates are printed as the job's units have it; what is no date is printed as typed."""
    assert date_text(date, units) == text  # type: ignore[arg-type]
