"""On a wall: a low, short, floating pair put right by hand and by a remedy; things moved, hung, undone; by touch and by keys."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import DESKTOP, PHONE, TABLET, Workbench, new_page, pick_note, until

AXE = Path(__file__).parents[2] / "vendor" / "axe-core" / "axe.min.js"
PAIR = "rooms/living/treatments/west-pair"


def open_wall(page: Page, bench: Workbench, job: str, wall: str = "CD", room: str = "living") -> None:
    """Open a room's elevation at a wall, and wait for its ink."""
    page.goto(f"{bench.url}/#/{job}/elevation/{room}")
    page.wait_for_selector("#plan-drawing svg")
    page.locator(f'.wall input[value="{wall}"]').check(force=True)
    expect(page.locator("h1.unseen")).to_contain_text(f"elevation {wall}")
    page.wait_for_selector("#plan-drawing svg")


def _pick_pair(page: Page) -> None:
    """Press on the pair's rod, beside the numbers that stand on it."""
    box = page.locator(f'g.thing[data-path="{PAIR}"]').first.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] * 0.3, box["y"] + 4)
    page.wait_for_selector("#plan-over .grip")


def _pair(bench: Workbench, job: str) -> dict[str, Any]:
    return dict(bench.document(job)["rooms"]["living"]["treatments"]["west-pair"])


def _notes(page: Page, words: str) -> int:
    return page.locator("li.note", has_text=words).count()


def test_a_low_short_floating_pair_is_put_right(page: Page, bench: Workbench) -> None:
    """The rod is dragged up, lengthened by keys, a remedy lets the cloth reach the floor; every note on the pair is gone; all undone."""
    job = bench.demo()
    found = _pair(bench, job)
    open_wall(page, bench, job)
    for words in ("above the top of the frame", "past the opening on each side", "short of the floor"):
        assert _notes(page, words) == 1, words
    _pick_pair(page)
    a, b = (page.locator("#plan-over .grip").nth(k).bounding_box() for k in (0, 1))
    assert a is not None
    assert b is not None
    x, y = (a["x"] + b["x"]) / 2 + 40, a["y"] + a["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 30, steps=6)
    page.wait_for_selector("#plan-over .caption.gap")
    page.mouse.up()
    until(lambda: _pair(bench, job)["hardware"]["height"] != found["hardware"]["height"])
    until(lambda: _notes(page, "above the top of the frame") == 0)
    until(lambda: page.locator("#plan-drawing svg").count() == 1)
    _pick_pair(page)
    for _ in range(2):
        page.keyboard.press("Shift+ArrowRight")
    until(lambda: _pair(bench, job)["hardware"]["left"] != found["hardware"]["left"])
    hardware = _pair(bench, job)["hardware"]
    assert hardware["left"] == hardware["right"], "keys lengthen a rod at both its ends"
    until(lambda: _notes(page, "past the opening on each side") == 0)
    expect(page.locator(".cell.back .label")).to_have_text(f"Revision {bench.revision(job)}")
    note = pick_note(page, "short of the floor")
    note.locator(".remedy").first.wait_for(timeout=180_000)
    note.locator(".remedy").first.get_by_role("button", name="Draw it").click()
    page.wait_for_selector(".remedy.shown")
    assert page.locator('#plan-drawing g[data-layer="I-ELEV-CLTH-M"]').count() >= 1, "the ghost of what hung"
    page.get_by_role("button", name="Take it", exact=True).click()
    page.fill("#scheme-name", "West window")
    page.get_by_role("button", name="Begin it").click()
    page.wait_for_url(re.compile("scheme=west-window"))
    until(lambda: _notes(page, "short of the floor") == 0)
    for _ in range(bench.revision(job) - 1):
        before = bench.revision(job)
        page.keyboard.press("Control+z")
        until(lambda before=before: bench.revision(job) > before)
    assert _pair(bench, job) == found


def test_an_end_of_the_rod_is_dragged_alone(page: Page, bench: Workbench) -> None:
    """The right end follows the hand; the left one stays where it was."""
    job = bench.demo()
    open_wall(page, bench, job)
    _pick_pair(page)
    box = page.locator("#plan-over .grip").nth(1).bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 40, y + 3, steps=6)
    page.mouse.up()
    until(lambda: _pair(bench, job)["hardware"]["right"] != "2 in")
    assert _pair(bench, job)["hardware"]["left"] == "2 in"
    assert _pair(bench, job)["hardware"]["height"] == "86 1/2 in"


def test_a_height_is_typed_in_any_notation(page: Page, bench: Workbench) -> None:
    """What is typed stands in the job as typed; what is no length is refused beside its blank."""
    job = bench.demo()
    open_wall(page, bench, job)
    _pick_pair(page)
    blank = page.get_by_label("rod's top above the floor")
    blank.fill("high up")
    blank.press("Enter")
    expect(page.locator(".blank-fault")).to_be_visible()
    blank = page.get_by_label("rod's top above the floor")
    blank.fill("2.32 m")
    blank.press("Enter")
    until(lambda: _pair(bench, job)["hardware"]["height"] == "2.32 m")


def test_a_treatment_is_hung_from_the_list(page: Page, bench: Workbench) -> None:
    """Hung at the bedroom's window by its type and a cloth, it shows what it comes to; practice gave rod and length."""
    job = bench.demo()
    open_wall(page, bench, job, "EF", "bedroom")
    before = set(bench.document(job)["rooms"]["bedroom"].get("treatments") or {})
    page.get_by_role("button", name="Hang or put something in").click()
    page.locator("#hang-cloth").select_option(index=1)
    page.get_by_role("button", name="pair of curtains, pencil pleats").click()
    until(lambda: set(bench.document(job)["rooms"]["bedroom"].get("treatments") or {}) > before)
    expect(page.locator(".slip .facts")).to_contain_text("to buy")
    made = bench.document(job)["rooms"]["bedroom"]["treatments"]
    new = made[(set(made) - before).pop()]
    assert "height" not in new["hardware"]
    assert new["heading"] == "pencil"


def test_a_switch_is_moved_up_and_along_by_keys(page: Page, bench: Workbench) -> None:
    """Arrow keys move what is picked along the wall and up."""
    job = bench.demo()
    open_wall(page, bench, job, "DA")
    page.locator('g.thing[data-path="rooms/living/fittings/switch-1"]').click()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowRight")
    until(lambda: bench.document(job)["rooms"]["living"]["fittings"]["switch-1"]["bottom"] != "42 in")
    moved = bench.document(job)["rooms"]["living"]["fittings"]["switch-1"]
    assert moved["bottom"] == "3' 6 1/2\""
    assert moved["along"] == "4' 1 1/2\"", "to the right on the wall is towards D, from which it is measured"


def test_the_curtains_are_drawn_shut_and_back(page: Page, bench: Workbench) -> None:
    """One word draws them shut on the sheet and back again; nothing of it is kept in the job."""
    job = bench.demo()
    open_wall(page, bench, job)
    drawn = page.locator(f'g.thing[data-path="{PAIR}"]').first
    back = drawn.inner_html()
    page.get_by_role("button", name="Draw the curtains shut").click()
    expect(page.get_by_role("button", name="Draw the curtains back")).to_be_visible()
    until(lambda: page.locator(f'g.thing[data-path="{PAIR}"]').first.inner_html() != back)
    page.get_by_role("button", name="Draw the curtains back").click()
    until(lambda: page.locator(f'g.thing[data-path="{PAIR}"]').first.inner_html() == back)
    assert bench.revision(job) == 1


def test_walls_are_turned_to_by_arrow_keys(page: Page, bench: Workbench) -> None:
    """The walls are one stop of the keyboard; the right arrow turns to the next."""
    job = bench.demo()
    open_wall(page, bench, job, "AB")
    page.locator('.wall input[value="AB"]').focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("h1.unseen")).to_contain_text("elevation BC")
    expect(page.locator('.wall input[value="BC"]')).to_be_checked()


@pytest.mark.parametrize("size", [DESKTOP, TABLET, PHONE], ids=["desktop", "tablet", "phone"])
@pytest.mark.parametrize("ground", ["light", "dark"])
def test_axe_finds_nothing_on_a_wall(
    browser: Browser, bench: Workbench, faults: list[str], size: dict[str, int], ground: str
) -> None:
    """With a treatment's slip open, and with the list of what can be hung: names, contrast, order and roles hold."""
    page = new_page(browser, faults, viewport=size, color_scheme=ground)
    open_wall(page, bench, bench.demo())
    _pick_pair(page)
    page.evaluate(AXE.read_text(encoding="utf-8"))
    assert _axe(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.get_by_role("button", name="Hang or put something in").click()
    page.wait_for_selector("#hang[open]")
    assert _axe(page) == []
    page.context.close()
    assert not faults, faults


def _axe(page: Page) -> list[Any]:
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [
        (v["id"], [(n["target"], n["failureSummary"]) for n in v["nodes"]][:4]) for v in found["violations"]
    ]


def test_a_rod_is_raised_by_touch_on_a_phone(browser: Browser, bench: Workbench, faults: list[str]) -> None:
    """On a phone the plan's own hand works on the wall: two taps pick, a finger raises."""
    page = new_page(browser, faults, viewport=PHONE, has_touch=True, is_mobile=True)
    job = bench.demo()
    open_wall(page, bench, job)
    box = page.locator(f'g.thing[data-path="{PAIR}"]').first.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] - 4, box["y"] + box["height"] / 2
    page.touchscreen.tap(x, y)
    expect(page.locator(".slip h2")).to_contain_text("West pair")
    client = page.context.new_cdp_session(page)
    client.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for k in range(1, 7):
        client.send(
            "Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x, "y": y - 2 * k}]}
        )
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    until(lambda: _pair(bench, job)["hardware"]["height"] != "86 1/2 in")
    page.context.close()
    assert not faults, faults


def test_which_way_a_window_looks_is_said_in_its_slip(page: Page, bench: Workbench) -> None:
    """Chosen in the sentence of the window, it stands in the job."""
    job = bench.demo()
    windows = {
        k: o for k, o in bench.document(job)["rooms"]["living"]["openings"].items() if o["kind"] == "window"
    }
    key, window = next((k, o) for k, o in windows.items() if o["wall"] == "CD")
    open_wall(page, bench, job)
    box = page.locator(f'g.thing[data-path="rooms/living/openings/{key}"]').first.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] * 0.52, box["y"] + box["height"] * 0.4)
    way = "south" if window.get("faces") != "south" else "west"
    page.get_by_label("which way it looks").select_option(way)
    until(lambda: bench.document(job)["rooms"]["living"]["openings"][key].get("faces") == way)
