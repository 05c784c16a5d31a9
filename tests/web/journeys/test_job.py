"""A job as a whole: schemes compared, the book printed, two people at once, the server killed, every sheet readable by all."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import (
    DESKTOP,
    PHONE,
    TABLET,
    Workbench,
    new_page,
    open_plan,
    take_first_remedy,
    until,
)

AXE = Path(__file__).parents[2] / "vendor" / "axe-core" / "axe.min.js"
SHEETS = ["brief", "survey", "plan", "schemes", "schedule", "takeoff", "book"]


def test_two_schemes_are_compared(page: Page, bench: Workbench) -> None:
    """Two schemes stand beside the room as found: what each changes, leaves open and costs."""
    job = bench.demo()
    open_plan(page, bench, job)
    take_first_remedy(page, "front legs", scheme="Layered")
    page.wait_for_url(re.compile("scheme=layered"))
    open_plan(page, bench, job)
    take_first_remedy(page, "The coffee table stands", scheme="Plain")
    page.wait_for_url(re.compile("scheme=plain"))
    page.get_by_role("link", name="Schemes").click()
    columns = page.locator("li.column")
    expect(columns).to_have_count(3)
    expect(columns.nth(0).locator("h2")).to_have_text("As found")
    layered = columns.filter(has=page.get_by_role("heading", name="Layered"))
    expect(layered).to_contain_text("Clears")
    expect(layered.locator("dd").last).to_contain_text("$")
    for n in range(3):
        expect(columns.nth(n).locator(".small-plan svg")).to_be_visible()


def test_the_book_is_printed(page: Page, bench: Workbench) -> None:
    """The book is bound with its progress said, and opens as a PDF."""
    job = bench.ask("POST", "/api/jobs", {"start": "file", "name": "one.yaml", "text": ONE_ROOM})["id"]
    page.goto(f"{bench.url}/#/{job}/book")
    page.get_by_role("button", name="Bind the book").click()
    link = page.get_by_role("link", name="Open the book")
    link.wait_for(timeout=90_000)
    answer = page.request.get(bench.url + str(link.get_attribute("href")))
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF-")


def test_two_people_change_different_things_together(browser: Browser, bench: Workbench) -> None:
    """One widens the sofa, the other renames nothing but the lamp's height: both are kept, both pages show both."""
    job = bench.demo()
    faults: list[str] = []
    one, two = new_page(browser, faults), new_page(browser, faults)
    for page in (one, two):
        open_plan(page, bench, job)
    _pick(one, "rooms/living/pieces/sofa")
    _pick(two, "rooms/living/pieces/coffee-table")
    one.fill("#blank-width", "80 in")
    two.fill("#blank-height", "18 in")
    one.keyboard.press("Enter")
    two.keyboard.press("Enter")
    until(lambda: bench.revision(job) == 3)
    pieces = bench.document(job)["rooms"]["living"]["pieces"]
    assert (pieces["sofa"]["width"], pieces["coffee-table"]["height"]) == ("80 in", "18 in")
    for page in (one, two):
        expect(page.locator(".cell.back .label")).to_have_text("Revision 3")
        page.context.close()
    assert not faults


def test_two_people_change_the_same_thing(browser: Browser, bench: Workbench) -> None:
    """The second of two widths meets the first: it is shown, and kept only when its author says so."""
    job = bench.demo()
    faults: list[str] = []
    one, two = new_page(browser, faults), new_page(browser, faults)
    for page in (one, two):
        open_plan(page, bench, job)
        _pick(page, "rooms/living/pieces/sofa")
    changes = re.compile(f"/api/jobs/{job}[?]")
    two.route(changes, lambda route: route.abort())
    two.fill("#blank-width", "90 in")
    two.keyboard.press("Enter")
    expect(two.locator(".strip .line")).to_contain_text("kept on this device")
    one.fill("#blank-width", "80 in")
    one.keyboard.press("Enter")
    until(lambda: bench.revision(job) == 2)
    two.unroute(changes)
    expect(two.get_by_role("alert").first).to_contain_text("80 in", timeout=10_000)
    assert bench.document(job)["rooms"]["living"]["pieces"]["sofa"]["width"] == "80 in"
    two.get_by_role("button", name="Keep mine all the same").click()
    until(lambda: bench.document(job)["rooms"]["living"]["pieces"]["sofa"]["width"] == "90 in")
    for page in (one, two):
        page.context.close()
    assert not faults


def test_a_killed_server_loses_nothing_acknowledged(browser: Browser, tmp_path: Path) -> None:
    """Killed with edits under way: what was acknowledged is there, what was not is sent when it is back."""
    bench = Workbench(tmp_path)
    faults: list[str] = []
    page = new_page(browser, faults)
    try:
        job = bench.demo()
        open_plan(page, bench, job)
        _pick(page, "rooms/living/pieces/sofa")
        page.fill("#blank-width", "81 in")
        page.keyboard.press("Enter")
        expect(page.locator(".strip .line")).to_contain_text("kept as revision 2")
        page.goto(f"{bench.url}/#/{job}/survey/hall")
        page.wait_for_selector("#in-heights-center")
        page.fill("#in-heights-center", "8' 7\"")
        page.keyboard.press("Enter")
        expect(page.locator(".strip .line")).to_contain_text("kept as revision 3")
        bench.kill()
        page.fill("#in-heights-center", "8' 5\"")
        page.keyboard.press("Enter")
        expect(page.locator(".strip .line")).to_contain_text("1 entry is kept on this device")
        bench.start()
        rooms = bench.document(job)["rooms"]
        assert rooms["living"]["pieces"]["sofa"]["width"] == "81 in"
        until(lambda: bench.document(job)["rooms"]["hall"]["survey"]["heights"]["center"] == "8' 5\"")
        assert bench.revision(job) == 4
    finally:
        page.context.close()
        bench.kill()
    assert not faults


@pytest.mark.parametrize("size", [DESKTOP, TABLET, PHONE], ids=["desktop", "tablet", "phone"])
@pytest.mark.parametrize("ground", ["light", "dark"])
def test_axe_finds_nothing(browser: Browser, bench: Workbench, size: dict[str, int], ground: str) -> None:
    """On every sheet, at every width, light and dark: names, contrast, order and roles hold; nothing runs off the side."""
    job = bench.demo()
    faults: list[str] = []
    page = new_page(browser, faults, viewport=size, color_scheme=ground)
    script = AXE.read_text(encoding="utf-8")
    page.goto(bench.url)
    page.wait_for_selector("li.job")
    for sheet in ["jobs", *SHEETS]:
        if sheet != "jobs":
            page.goto(f"{bench.url}/#/{job}/{sheet}/living")
            page.wait_for_timeout(900)
        if sheet == "takeoff":
            page.wait_for_selector(".trade-sheet", timeout=60_000)
        if sheet == "plan":
            page.wait_for_selector("#plan-drawing svg")
            page.locator("li.note button.head").first.click()
            page.wait_for_selector(".remedy")
        page.evaluate(script)
        found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        said = [
            (v["id"], [(n["target"], n["failureSummary"]) for n in v["nodes"]][:4])
            for v in found["violations"]
        ]
        assert not said, (sheet, said)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), sheet
    page.context.close()
    assert not faults


def _pick(page: Page, path: str) -> None:
    box = page.locator(f'g.thing[data-path="{path}"]').bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] * 0.62, box["y"] + box["height"] * 0.7)
    page.wait_for_selector(".slip")


ONE_ROOM = """\
halfdrop: 1
job: {name: One room}
rooms:
  study:
    name: Study
    use: {study: true}
    survey:
      corners: A B C D
      walls: {AB: 12', BC: 10', CD: 12', DA: 10'}
      ties: {AC: 15' 7 7/16", BD: 15' 7 7/16"}
    openings:
      door: {kind: door, wall: AB, along: 10 in, width: 32 in, height: 80 in, leaf: hinged, hinge: A, opens: in}
"""
