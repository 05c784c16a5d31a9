"""From the plan to a wall face on, and what is kept or written down there."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.web.journeys.conftest import Workbench, open_plan, until


def test_a_note_of_the_plan_leads_to_its_wall(page: Page, bench: Workbench) -> None:
    """A note about what hangs at a window leads to its wall face on, where the same note is open; the sheet is kept as a PDF."""
    job = bench.demo()
    open_plan(page, bench, job)
    page.locator(".note .head", has_text="The west pair stops").click()
    page.get_by_role("link", name="See wall CD face on").click()
    page.wait_for_url(re.compile("/elevation/living"))
    expect(page.get_by_role("radio", name="CD")).to_be_checked()
    expect(page.locator(".note.open")).to_contain_text("The west pair stops")
    link = page.get_by_role("link", name="elevation CD as PDF")
    answer = page.request.get(bench.url + str(link.get_attribute("href")))
    assert answer.body().startswith(b"%PDF-")


def test_a_wall_of_a_bay_leads_to_the_bay(page: Page, bench: Workbench) -> None:
    """A wall named beside the plan is faced; one of a bay is faced with the whole bay."""
    job = bench.demo()
    page.goto(f"{bench.url}/#/{job}/plan/study")
    page.get_by_role("navigation", name="Walls face on").get_by_role(
        "link", name="Wall EF of the Study"
    ).click()
    expect(page.get_by_role("radio", name="DEFG")).to_be_checked()


def test_a_cloth_is_written_down_where_it_is_wanted(page: Page, bench: Workbench) -> None:
    """A cloth written down on a treatment's slip is kept with the job and counted for it; a bare price is in the job's money."""
    job = bench.demo()
    page.goto(f"{bench.url}/#/{job}/elevation/dining")
    page.locator(".wall", has_text="CD").click()
    page.locator("g.thing[data-path$='treatments/print-pair']").press("Tab")
    page.locator("g.thing[data-path$='treatments/print-pair']").focus()
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Tab")
    page.get_by_text("Write down a cloth").click()
    page.get_by_label("name of the cloth").fill("Slub linen")
    page.get_by_label("width of the cloth").fill("54 in")
    page.get_by_label("price", exact=True).fill("32")
    page.get_by_role("button", name="Make it in this").click()
    until(lambda: "slub-linen" in bench.document(job)["fabrics"])
    expect(page.locator(".slip .facts")).to_contain_text("of Slub linen, $")
    document = bench.document(job)
    assert document["rooms"]["dining"]["treatments"]["print-pair"]["fabric"] == "slub-linen"
