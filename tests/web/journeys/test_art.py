"""Art on a wall: five works hung round a thermostat, each way drawn before it is taken; one dragged, its hooks' numbers following."""

from __future__ import annotations

import re
from itertools import combinations
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import DESKTOP, PHONE, Workbench, new_page, until
from tests.web.journeys.test_elevation import AXE, _axe, open_wall

WORKS = (
    ("April", "16 in", "20 in"),
    ("May", "12 in", "16 in"),
    ("June", "20 in", "16 in"),
    ("July", "10 in", "12 in"),
    ("August", "14 in", "18 in"),
)


def _room(bench: Workbench, job: str, room: str = "study") -> dict[str, Any]:
    return dict(bench.document(job)["rooms"][room])


def _hang_dialog(page: Page) -> None:
    page.get_by_role("button", name="Hang art").click()
    page.wait_for_selector("#art[open]")


def _pick(page: Page, path: str) -> None:
    """Press on a frame beside the numbers that stand on it."""
    box = page.locator(f'g.thing[data-path="{path}"]').first.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] * 0.15, box["y"] + box["height"] * 0.85)
    page.wait_for_selector(".slip .hooks")


def test_a_group_of_five_is_hung_round_a_thermostat(page: Page, bench: Workbench) -> None:
    """A thermostat is put in, five works are written down, three clusters are drawn, the second is taken; all frames keep clear of it."""
    job = bench.demo()
    open_wall(page, bench, job, "AB", "bedroom")
    page.get_by_role("button", name="Hang or put something in").click()
    page.wait_for_selector("#hang[open]")
    page.fill("#hang-along", "8 ft")
    page.locator("#hang .types button", has_text="thermostat").click()
    until(lambda: "thermostat" in _room(bench, job, "bedroom")["fittings"])
    _hang_dialog(page)
    for box in page.locator("#art .work input:checked").all():
        box.uncheck()
    for name, width, height in WORKS:
        page.locator('#art [name="name"]').fill(name)
        page.locator('#art [name="width"]').fill(width)
        page.locator('#art [name="height"]').fill(height)
        page.locator('#art [name="drop"]').fill("2 in")
        page.get_by_role("button", name="Write it down").click()
        expect(page.locator("#art .work", has_text=name)).to_have_count(1)
    assert page.locator("#art .work input:checked").count() == 5
    page.get_by_label("form").select_option("cluster")
    page.get_by_role("button", name="Find places").click()
    page.wait_for_selector(".art-ways .remedy.shown")
    assert page.locator(".art-ways .remedy").count() == 3
    assert page.locator('#plan-drawing g[data-layer="I-ELEV-ARTW-N"]').count() == 5, "five frames in slate"
    assert page.locator(".art-ways .hooks div").count() == 5, "the two numbers of each hook"
    assert "at" not in _room(bench, job, "bedroom")["art"]["april"], "nothing is kept before it is taken"
    page.get_by_role("button", name=re.compile("^Draw it: Way 2 of 3")).click()
    expect(page.locator(".art-ways .remedy").nth(1)).to_have_class(re.compile("shown"))
    page.get_by_role("button", name="Hang them so").click()
    until(lambda: "at" in _room(bench, job, "bedroom")["art"]["august"])
    art = _room(bench, job, "bedroom")["art"]
    assert len({art[name.lower()]["group"] for name, _, _ in WORKS}) == 1
    expect(page.locator(".art-ways")).to_have_count(0)
    until(lambda: page.locator('#plan-drawing g.thing[data-path*="/art/"]').count() == 5)
    assert page.locator("li.note", has_text="thermostat").count() == 0, "no frame is near the thermostat"
    page.keyboard.press("Control+z")
    until(lambda: "at" not in _room(bench, job, "bedroom")["art"]["august"])


def test_the_hooks_follow_a_work_that_is_moved(page: Page, bench: Workbench) -> None:
    """Nudged to the right and up, the carnival's two hooks are as much farther from the corner and the floor; its drop is typed."""
    job = bench.demo()
    open_wall(page, bench, job, "DA")
    _pick(page, "rooms/living/art/carnival")
    facts = page.locator(".slip .hooks dd")
    before = facts.nth(0).inner_text()
    assert re.search(r"from corner .+ above the floor", before)
    assert page.locator("#plan-over .hook").count() == 2, "a cross for each of its two hooks"
    assert (
        page.locator("#plan-over .hook-numbers text").first.text_content() == before.split(" from corner")[0]
    )
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    until(
        lambda: (
            _room(bench, job, "living")["art"]["carnival"]["at"]
            != {"wall": "DA", "along": "60 in", "bottom": "60 in"}
        )
    )
    until(lambda: facts.nth(0).inner_text() != before)
    why = page.get_by_label("why they look at it")
    why.fill("Juno painted it.")
    why.press("Enter")
    until(lambda: _room(bench, job, "living")["art"]["carnival"].get("reason") == "Juno painted it.")
    page.get_by_label("glazing").select_option("acrylic")
    until(lambda: _room(bench, job, "living")["art"]["carnival"].get("glazing") == "acrylic")
    blank = page.get_by_label("drop of the wire")
    blank.fill("4 1/2 in")
    blank.press("Enter")
    until(lambda: _room(bench, job, "living")["art"]["carnival"]["hangs"]["drop"] == "4 1/2 in")
    page.get_by_role("button", name="Take it down").click()
    until(lambda: "at" not in _room(bench, job, "living")["art"]["carnival"])


def test_no_number_of_a_hook_lies_on_a_gap(page: Page, bench: Workbench) -> None:
    """While a work is dragged its gaps and its hooks' numbers stand apart, all in feet and inches."""
    job = bench.demo()
    open_wall(page, bench, job, "DA")
    _pick(page, "rooms/living/art/carnival")
    box = page.locator('g.thing[data-path="rooms/living/art/carnival"]').first.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] * 0.15, box["y"] + box["height"] * 0.85
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 12, y + 4, steps=4)
    until(lambda: page.locator("#plan-over .caption.gap").count() >= 7)
    captions = page.locator("#plan-over .caption.gap")
    said = captions.all_text_contents()
    assert not [text for text in said if " in" in text]
    boxes = captions.evaluate_all(
        "all => all.map((c) => c.getBoundingClientRect()).map((b) => [b.left, b.top, b.right, b.bottom])"
    )
    page.mouse.up()
    for (k, a), (n, b) in combinations(enumerate(boxes), 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 3 or b[3] <= a[1] + 3
        assert apart, (said[k], said[n])


def test_works_that_wait_are_hung_over_a_piece(page: Page, bench: Workbench) -> None:
    """What waits is chosen already; over the hearth of another wall the page turns to that wall."""
    job = bench.demo()
    open_wall(page, bench, job, "CD")
    _hang_dialog(page)
    assert page.locator("#art .work input:checked").count() == 3
    page.get_by_label("where").select_option("over/sofa")
    page.get_by_label("gap between frames").fill("three fingers")
    page.get_by_label("gap between frames").blur()
    page.get_by_role("button", name="Find places").click()
    expect(page.locator("#art .put-fault")).to_contain_text("gap")
    page.get_by_label("gap between frames").fill("2 in")
    page.get_by_label("gap between frames").blur()
    page.get_by_role("button", name="Find places").click()
    page.wait_for_selector(".art-ways .remedy.shown")
    page.get_by_role("button", name="Hang none of them").click()
    expect(page.locator(".art-ways")).to_have_count(0)
    assert "at" not in _room(bench, job, "living")["art"]["gull"]


def test_art_is_hung_on_a_phone(browser: Browser, bench: Workbench, faults: list[str]) -> None:
    """On a phone the dialog and the ways are as wide as the page and nothing is cut off."""
    job = bench.demo()
    page = new_page(browser, faults, viewport=PHONE)
    open_wall(page, bench, job, "DA")
    _hang_dialog(page)
    page.get_by_role("button", name="Find places").click()
    page.wait_for_selector(".art-ways .remedy.shown")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth + 1")
    page.get_by_role("button", name="Hang them so").click()
    until(lambda: "at" in _room(bench, job, "living")["art"]["gull"])
    page.context.close()
    assert not faults, faults


@pytest.mark.parametrize(
    ("size", "ground"),
    [(DESKTOP, "light"), (DESKTOP, "dark"), (PHONE, "light")],
    ids=["light", "dark", "phone"],
)
def test_axe_finds_nothing_where_art_is_hung(
    browser: Browser, bench: Workbench, size: dict[str, int], ground: str, faults: list[str]
) -> None:
    """A work's slip, the dialog and the ways pass, in light and dark, at a desk and on a phone."""
    page = new_page(browser, faults, viewport=size, color_scheme=ground)
    job = bench.demo()
    open_wall(page, bench, job, "DA")
    page.evaluate(AXE.read_text(encoding="utf-8"))
    _pick(page, "rooms/living/art/carnival")
    assert _axe(page) == []
    page.get_by_role("button", name="Hang art").click()
    page.wait_for_selector("#art[open]")
    assert _axe(page) == []
    page.get_by_role("button", name="Find places").click()
    page.wait_for_selector(".art-ways .remedy.shown")
    assert _axe(page) == []
    page.context.close()
    assert not faults, faults


def test_a_group_is_laid_anew(page: Page, bench: Workbench) -> None:
    """The set over the hall table hangs at odds; one of it takes all along, and from it the group is hung anew as a row: its note goes."""
    job = bench.demo()
    open_wall(page, bench, job, "BC", "hall")
    assert page.locator("li.note", has_text="at odds").count() == 1
    _pick(page, "rooms/hall/art/june")
    before = {k: w["at"]["along"] for k, w in _room(bench, job, "hall")["art"].items()}
    page.keyboard.press("Shift+ArrowRight")
    until(lambda: all(w["at"]["along"] != before[k] for k, w in _room(bench, job, "hall")["art"].items()))
    page.keyboard.press("Control+z")
    until(lambda: {k: w["at"]["along"] for k, w in _room(bench, job, "hall")["art"].items()} == before)
    page.get_by_label("It takes the whole group with it").uncheck()
    page.get_by_role("button", name="Hang the group anew").click()
    page.wait_for_selector("#art[open]")
    assert page.locator("#art .work input:checked").count() == 3
    page.get_by_label("where").select_option("over/console")
    page.get_by_role("button", name="Find places").click()
    page.get_by_role("button", name="Hang them so").click()
    until(lambda: page.locator("li.note", has_text="at odds").count() == 0)
    assert {w["group"] for w in _room(bench, job, "hall")["art"].values()} == {"months"}


def test_in_a_bay_each_wall_is_a_place(page: Page, bench: Workbench) -> None:
    """Of a bay's elevation the dialog names each wall; a small work goes beside a window or is refused with a reason."""
    job = bench.demo()
    page.goto(f"{bench.url}/#/{job}/elevation/study")
    page.wait_for_selector("#plan-drawing svg")
    bay = page.locator(".wall input").evaluate_all(
        "all => all.map((one) => one.value).find((name) => name.length > 2)"
    )
    page.locator(f'.wall input[value="{bay}"]').check(force=True)
    expect(page.locator("h1.unseen")).to_contain_text(f"elevation {bay}")
    _hang_dialog(page)
    names = page.get_by_label("where").locator("option").all_inner_texts()
    assert len([name for name in names if name.startswith("on wall")]) == len(bay) - 1
    page.locator("#art .work input").first.check()
    page.get_by_role("button", name="Find places").click()
    page.wait_for_selector("#art .put-fault, .art-ways .remedy.shown")
