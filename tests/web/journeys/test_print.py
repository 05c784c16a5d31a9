"""The browser's own print: the drawing with its whole margin, every leader, on the job's paper; the screen as it was after."""

from __future__ import annotations

import pypdfium2
from playwright.sync_api import Page, expect

from tests.web.journeys.conftest import Workbench, open_plan, until


def test_a_plan_is_printed_with_its_whole_margin(page: Page, bench: Workbench) -> None:
    """Every note is on paper: beside the drawing with a leader, or on the next page; the page is the job's paper, landscape."""
    open_plan(page, bench, bench.demo())
    notes = page.locator("li.note .says").all_inner_texts()
    pdf = pypdfium2.PdfDocument(page.pdf(prefer_css_page_size=True))
    assert [round(side) for side in pdf[0].get_size()] == [792, 612]
    words = ["".join(p.get_textpage().get_text_range().split()) for p in pdf]
    for note in notes:
        start = "".join(note.split())[:22]
        assert sum(start in text for text in words) == 1, start
    assert "QuinceCourt,flat3" in words[0]
    assert "Putsomethingin" not in "".join(words)


def test_the_sheet_is_set_to_paper_before_print_and_back_after(page: Page, bench: Workbench) -> None:
    """Before print each note that stands beside the drawing has its leader, even under the loupe; after it all is as it was."""
    open_plan(page, bench, bench.demo())
    page.keyboard.press("+")
    page.keyboard.press("+")
    until(lambda: page.locator(".drawing.near").count() == 1)
    before = page.locator("#plan-drawing svg").get_attribute("viewBox")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    until(lambda: page.locator("li.note.next").count() > 0)
    beside = page.locator("li.note:not(.next)").count()
    assert beside >= 8
    assert page.locator("#plan-over .leader").count() == beside
    expect(page.locator(".drawing.near")).to_have_count(0)
    assert page.locator("#plan-over .mark").count() == page.locator("li.note").count()
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    until(lambda: page.locator("li.note.next").count() == 0)
    assert page.locator("#plan-drawing svg").get_attribute("viewBox") == before
    assert page.evaluate("document.adoptedStyleSheets.length") == 0


def test_an_elevation_is_one_page(page: Page, bench: Workbench) -> None:
    """A wall with one note is printed on one page, and in the light inks though the screen is dark."""
    job = bench.demo()
    page.emulate_media(color_scheme="dark")
    page.goto(f"{bench.url}/#/{job}/elevation/living")
    page.wait_for_selector("#plan-drawing svg")
    page.wait_for_timeout(500)
    assert len(pypdfium2.PdfDocument(page.pdf(prefer_css_page_size=True))) == 1
