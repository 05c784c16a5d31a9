"""The take-off: what the job takes, its sheets drawn; a wall papered, a room painted, a window's two sheets printed."""

from __future__ import annotations

import json
import urllib.request
from typing import Any

import pypdfium2
import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import PHONE, TABLET, Workbench, new_page, until


def _open(page: Page, bench: Workbench, job: str, scheme: str = "") -> None:
    page.goto(f"{bench.url}/#/{job}/takeoff{f'?scheme={scheme}' if scheme else ''}")
    page.wait_for_selector(".trade-sheet", timeout=60_000)


@pytest.fixture
def takeoff(page: Page, bench: Workbench) -> tuple[Page, str]:
    """The take-off of a demo job of its own."""
    job = bench.demo()
    _open(page, bench, job)
    return page, job


def _pdf(page: Page, bench: Workbench, name: str) -> list[str]:
    """Return the text of each page of what a way to a PDF leads to."""
    link = page.get_by_role("link", name=name)
    expect(link).to_be_visible(timeout=60_000)
    with urllib.request.urlopen(bench.url + str(link.get_attribute("href")), timeout=30) as answer:
        return [p.get_textpage().get_text_range() for p in pypdfium2.PdfDocument(answer.read())]


def _counted(page: Page) -> Any:
    """Wait until the take-off is that of the job as it stands."""
    expect(page.get_by_text("Counting again…")).to_have_count(0, timeout=60_000)
    return page.locator(".takeoff-sheet table").first


def test_a_bolt_is_looked_at_cut_by_cut(takeoff: tuple[Page, str]) -> None:
    """The cutting sheet of a cloth shows its bolt to scale, each cut by the thing it is for, and the list beneath."""
    page, _ = takeoff
    page.get_by_role("button", name="Quince branch print: cutting").click()
    sheet = page.locator(".trade-sheet")
    expect(sheet.get_by_role("heading", level=2)).to_have_text("Quince branch print: cutting")
    cuts = sheet.locator('svg g[data-layer="I-CLTH-CUTS"]')
    listed = sheet.locator("tbody tr")
    assert cuts.count() == listed.count() > 4
    assert {str(g.get_attribute("data-path")).split("/")[1] for g in cuts.all()} == {
        "living",
        "dining",
        "study",
    }
    ink = sheet.locator("svg").first.bounding_box()
    assert ink is not None
    assert ink["width"] > 300


def test_paper_one_wall(takeoff: tuple[Page, str], bench: Workbench) -> None:
    """A paper that is new to the job goes on one wall of the hall: one revision; its strips are drawn, its rolls counted and bought."""
    page, job = takeoff
    page.get_by_role("button", name="Paper a wall").click()
    form = page.get_by_role("form", name="Paper a wall")
    form.get_by_label("room").select_option("hall")
    form.get_by_label("BC", exact=True).check()
    form.get_by_label("name of the paper").fill("Willow trellis")
    form.get_by_label("roll", exact=True).select_option("US 27 in")
    form.get_by_label("match").select_option("half-drop")
    form.get_by_label("repeat").fill("24 in")
    form.get_by_label("price of a roll").fill("$95")
    form.get_by_role("button", name="Paper it").click()
    until(lambda: "willow-trellis" in bench.document(job)["papers"])
    document = bench.document(job)
    assert bench.revision(job) == 2
    assert list(document["rooms"]["hall"]["finishes"].values()) == [
        {"on": "walls", "paper": "willow-trellis", "walls": ["BC"]}
    ]
    row = page.locator(".takeoff-sheet tr", has_text="Willow trellis").first
    expect(row).to_contain_text("rolls", timeout=60_000)
    page.get_by_role("button", name="Willow trellis, Hall").click()
    sheet = page.locator(".trade-sheet")
    expect(sheet).to_contain_text("half-drop match, repeat 24 in")
    expect(sheet).to_contain_text("Plumb line")
    assert sheet.locator("svg").count() == 1
    page.get_by_role("button", name="leave out: Willow trellis, wall BC, hall").click()
    until(lambda: not bench.document(job)["rooms"]["hall"]["finishes"])
    expect(page.locator(".takeoff-sheet tr", has_text="Willow trellis")).to_have_count(0, timeout=60_000)
    for _ in range(2):
        page.get_by_role("button", name="Undo").click()
        expect(page.locator(".cell.said .line")).to_contain_text("Undone")
    until(lambda: "willow-trellis" not in bench.document(job)["papers"])
    expect(page.locator(".takeoff-sheet tr", has_text="Willow trellis")).to_have_count(0, timeout=60_000)


def test_paint_a_room(takeoff: tuple[Page, str], bench: Workbench) -> None:
    """Walls and ceiling of the hall in a paint of the job: counted with the study's, and the painter's sheet printed."""
    page, job = takeoff
    page.get_by_role("button", name="Paint a room").click()
    form = page.get_by_role("form", name="Paint a room")
    form.get_by_label("ceiling").check()
    form.get_by_label("room").select_option("hall")
    form.get_by_label("paint", exact=True).select_option("chalk")
    form.get_by_label("how far the color changes").select_option("strong")
    form.get_by_role("button", name="Paint it").click()
    until(lambda: len(bench.document(job)["rooms"]["hall"].get("finishes", {})) == 2)
    page.get_by_role("button", name="Hall", exact=False).filter(has_text="P").last.click(timeout=60_000)
    sheet = page.locator(".trade-sheet")
    expect(sheet).to_contain_text("Ceiling and walls in Chalk.")
    expect(sheet).to_contain_text("Walls, openings taken off as taped")
    page.get_by_role("button", name="Print this sheet: Hall, painter").click()
    pages = _pdf(page, bench, "Open Hall, painter")
    assert "Hall" in pages[0]
    assert "Old paint" in " ".join(pages)


def test_the_two_sheets_of_a_window_are_printed(takeoff: tuple[Page, str], bench: Workbench) -> None:
    """One way prints the installer's and the workroom's sheet of the dining window, and nothing else."""
    page, _ = takeoff
    page.get_by_role("region", name="Installer").get_by_role("button", name="Dining pair").click()
    page.get_by_role("button", name="Print its sheets for every trade: Dining pair").click()
    pages = _pdf(page, bench, "Open Dining pair, every trade")
    whole = " ".join(pages)
    assert "Floor to top" in whole
    assert "Cuts" in whole
    assert "Bay curtains" not in whole


def test_a_scheme_is_counted_as_it_would_be(page: Page, bench: Workbench) -> None:
    """Under a scheme the quantities are the scheme's; a room painted there is a step of it, and the rooms as found stay."""
    job = bench.demo()
    step = {"title": "No paper", "patch": [{"op": "remove", "path": "/rooms/bedroom/finishes/head-wall"}]}
    patch = [{"op": "add", "path": "/schemes/plain", "value": {"name": "Plain", "steps": [step]}}]
    headers = {"Content-Type": "application/json-patch+json", "If-Match": '"1"'}
    request = urllib.request.Request(
        f"{bench.url}/api/jobs/{job}", json.dumps(patch).encode(), headers, method="PATCH"
    )
    urllib.request.urlopen(request, timeout=30).read()
    _open(page, bench, job)
    expect(_counted(page)).to_contain_text("Small leaf paper")
    expect(page.get_by_role("button", name="Paper a wall")).to_be_visible()
    _open(page, bench, job, "plain")
    expect(page.get_by_role("heading", level=1)).to_have_text("Take-off, Plain")
    expect(page.locator(".takeoff-sheet tr", has_text="Small leaf paper")).to_have_count(0, timeout=60_000)
    page.get_by_role("button", name="Paint a room").click()
    form = page.get_by_role("form", name="Paint a room")
    form.get_by_label("room").select_option("hall")
    form.get_by_label("name of the paint").fill("Winter wheat")
    form.get_by_role("button", name="Paint it").click()
    until(lambda: len(bench.document(job)["schemes"]["plain"]["steps"]) == 2)
    document = bench.document(job)
    assert "finishes" not in document["rooms"]["hall"]
    assert "winter-wheat" not in document["paints"]
    expect(page.locator(".takeoff-sheet table").first).to_contain_text("Winter wheat", timeout=60_000)
    page.get_by_role("button", name="Paper a wall").click()
    paper = page.get_by_role("form", name="Paper a wall")
    paper.get_by_label("room").select_option("study")
    paper.get_by_label("AB", exact=True).check()
    paper.get_by_label("paper", exact=True).select_option(index=1)
    paper.get_by_role("button", name="Paper it").click()
    until(lambda: len(bench.document(job)["schemes"]["plain"]["steps"]) == 3)
    page.get_by_role("button", name="leave out: Winter wheat, all walls, hall").click()
    expect(_counted(page)).not_to_contain_text("Winter wheat", timeout=60_000)
    _open(page, bench, job)
    expect(_counted(page)).not_to_contain_text("Winter wheat")


@pytest.mark.parametrize("viewport", [TABLET, PHONE])
def test_it_is_read_at_every_width(
    browser: Browser, bench: Workbench, faults: list[str], viewport: Any
) -> None:
    """On a tablet and a phone nothing runs past the edge of the page; a wide table scrolls in its own place."""
    page = new_page(browser, faults, viewport=viewport)
    _open(page, bench, bench.demo())
    page.get_by_role("button", name="Quince branch print: cutting").click()
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    wide = page.locator(".takeoff-sheet .wide").first.bounding_box()
    assert wide is not None
    assert wide["x"] + wide["width"] <= viewport["width"] + 1
    page.context.close()


def test_the_schedule_and_the_book_lead_to_it(page: Page, bench: Workbench) -> None:
    """Quantities stand in the schedule beside the shopping list; the painter's sheets are printed from the book's page."""
    job = bench.demo()
    page.goto(f"{bench.url}/#/{job}/schedule")
    row = page.locator(".schedule-sheet tr", has_text="Small leaf paper")
    expect(row).to_contain_text("rolls", timeout=60_000)
    page.get_by_role("link", name="How each came about").click()
    page.wait_for_selector(".trade-sheet")
    page.goto(f"{bench.url}/#/{job}/book")
    page.get_by_role("button", name="Print: the painter's sheets").click()
    assert "Painter" in _pdf(page, bench, "Open the painter's sheets")[0]
