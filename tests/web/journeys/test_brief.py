"""The brief: the job's data, who lives there, what rooms are for, the way in, stock and house values, edited as patches."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.web.journeys.conftest import Workbench, until


@pytest.fixture
def brief(page: Page, bench: Workbench) -> tuple[Page, str]:
    """The brief of a demo job of its own."""
    job = bench.demo()
    page.goto(f"{bench.url}/#/{job}/brief")
    page.wait_for_selector(".brief-sheet section")
    return page, job


def _fill(page: Page, label: str, text: str) -> None:
    page.get_by_label(label, exact=True).fill(text)
    page.keyboard.press("Tab")


def test_the_jobs_data_are_typed_and_undone(brief: tuple[Page, str], bench: Workbench) -> None:
    """Budget, address and the brief in words are kept as typed, each a revision that undo takes back."""
    page, job = brief
    first = bench.document(job)
    _fill(page, "budget", "$12,000")
    _fill(page, "address", "3 Quince Court")
    _fill(page, "the brief in words", "The rug stays.")
    until(lambda: bench.revision(job) == 4)
    info = bench.document(job)["job"]
    assert (info["budget"], info["address"], info["brief"]) == ("$12,000", "3 Quince Court", "The rug stays.")
    expect(page.locator(".cell.back .label")).to_have_text("Revision 4")
    for n in (5, 6, 7):
        page.get_by_role("button", name="Undo").click()
        expect(page.locator(".cell.back .label")).to_have_text(f"Revision {n}")
    assert bench.document(job) == first
    expect(page.get_by_label("budget", exact=True)).to_have_value("$9,500")


def test_what_cannot_be_read_is_said_at_its_blank(brief: tuple[Page, str], bench: Workbench) -> None:
    """A budget that is no sum stays in its blank to be mended, with why beside it; the job is as it was."""
    page, job = brief
    _fill(page, "budget", "plenty")
    fault = page.locator(".blank-fault")
    expect(fault).to_contain_text("plenty")
    expect(page.get_by_label("budget", exact=True)).to_have_value("plenty")
    expect(page.locator(".refusal")).to_have_count(0)
    assert bench.revision(job) == 1
    _fill(page, "budget", "$11,000")
    until(lambda: bench.document(job)["job"]["budget"] == "$11,000")
    expect(fault).to_have_count(0)


def test_people_and_wishes(brief: tuple[Page, str], bench: Workbench) -> None:
    """One more person, elderly; the hall gets a use and a number; what a room looks at is chosen from what is in it."""
    page, job = brief
    page.get_by_label("name of one more").fill("Mathilde")
    page.get_by_label("age of one more").select_option("elder")
    page.get_by_role("region", name="Who lives here").get_by_role("button", name="Add").click()
    until(lambda: bench.document(job)["people"].get("mathilde") == {"name": "Mathilde", "age": "elder"})
    _fill(page, "people in Hall", "3")
    page.get_by_role("group", name="What Hall is for").get_by_label("dress").check()
    until(lambda: bench.document(job)["rooms"]["hall"].get("wishes", {}).get("uses") == {"dress": True})
    assert bench.document(job)["rooms"]["hall"]["wishes"]["people"] == 3
    page.get_by_role("group", name="What Hall is for").get_by_label("dress").uncheck()
    until(lambda: bench.document(job)["rooms"]["hall"]["wishes"]["uses"] == {})
    page.get_by_label("Living room looks at").select_option("openings/window-west")
    until(lambda: bench.document(job)["rooms"]["living"]["wishes"]["focal"] == "openings/window-west")


def test_the_way_in(brief: tuple[Page, str], bench: Workbench) -> None:
    """A lift is added at the end with what a lift needs, comes earlier, and is left out."""
    page, job = brief
    way = page.get_by_role("region", name="The way in")
    names = lambda: [one["name"] for one in bench.document(job)["delivery"]]  # noqa: E731
    before = names()
    way.get_by_label("what comes next on the way").select_option("lift")
    way.get_by_label("its name").fill("goods lift")
    way.get_by_label("its width").fill("40 in")
    way.get_by_label("its height").fill("7'")
    way.get_by_role("button", name="Add").click()
    until(lambda: names() == [*before, "goods lift"])
    assert bench.document(job)["delivery"][-1]["car_depth"] == "40 in"
    way.get_by_role("button", name="earlier: goods lift").click()
    until(lambda: names() == [*before[:-1], "goods lift", before[-1]])
    expect(way.get_by_label("goods lift: car width")).to_be_visible()
    way.get_by_role("button", name="leave out: goods lift").click()
    until(lambda: names() == before)


def test_stock_and_house_values(brief: tuple[Page, str], bench: Workbench) -> None:
    """A piece to buy gets its price; a value of practice becomes the house's own, and an unknown one is refused with a near match."""
    page, job = brief
    stock = page.get_by_role("region", name="What could be bought")
    stock.get_by_label("what could be bought").select_option("rod")
    stock.get_by_label("what it is called").fill("Steel rod")
    stock.get_by_role("button", name="Add", exact=True).click()
    until(lambda: "steel-rod" in bench.document(job)["stock"])
    _fill(page, "Steel rod: at the longest", "96 in")
    until(lambda: bench.document(job)["stock"]["steel-rod"].get("length") == "96 in")
    practice = page.get_by_role("region", name="Practice")
    known: list[Any] = bench.ask("GET", "/api/practice?set=us")["values"]
    key = next(v["key"] for v in known if v["key"].startswith("rugs.") and v["kind"] == "length")
    practice.get_by_label("this house's value").fill("7 in")
    practice.get_by_label("which value").fill(key)
    practice.get_by_role("button", name="Set it").click()
    until(lambda: bench.document(job)["practice"].get("values") == {key: "7 in"})
    practice.get_by_label("this house's value").fill("7 in")
    practice.get_by_label("which value").fill(key + "x")
    practice.get_by_role("button", name="Set it").click()
    expect(practice.locator(".blank-fault")).to_contain_text(key)
    practice.get_by_role("button", name=f"leave out: {key}").click()
    until(lambda: bench.document(job)["practice"]["values"] == {})


def test_another_room_is_begun_and_left_out_again(brief: tuple[Page, str], bench: Workbench) -> None:
    """A second bedroom goes straight to its survey; left out, undo would bring it back."""
    page, job = brief
    page.get_by_label("what the room is").select_option("bedroom")
    page.get_by_label("name of the new room").fill("Juno's room")
    page.get_by_role("button", name="Begin it, and survey it").click()
    page.wait_for_selector("#in-walls-AB")
    expect(page.get_by_role("heading", name="Juno's room, survey")).to_be_visible()
    assert bench.document(job)["rooms"]["juno-s-room"]["use"] == {"bedroom": True}
    page.get_by_role("link", name="Brief").click()
    page.get_by_role("button", name="Leave it out: Juno's room").click()
    page.get_by_role("button", name="Leave it out", exact=True).click()
    until(lambda: "juno-s-room" not in bench.document(job)["rooms"])
