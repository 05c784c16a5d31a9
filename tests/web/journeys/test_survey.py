"""At the site: a room walked and its blunder found, a cut line, pictures of walls."""

from __future__ import annotations

import io

from PIL import Image
from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import PHONE, Workbench, new_page, until


def _begin(page: Page, bench: Workbench, name: str = "Larch house") -> str:
    page.goto(bench.url)
    page.get_by_role("button", name="A new job").click()
    page.get_by_label("The job is called").fill(name)
    page.get_by_role("button", name="Begin, and survey the first room").click()
    page.wait_for_selector("#in-walls-AB")
    return page.url.split("#/")[1].split("/")[0]


def _type(page: Page, **measures: str) -> None:
    for key, text in measures.items():
        page.fill(f"#in-{key.replace('_', '-')}", text)
        page.keyboard.press("Enter")


def test_a_room_is_walked_and_its_blunder_found(page: Page, bench: Workbench) -> None:
    """Four walls and two ties, one a foot too long: said at once, with what settles it; then the measure is named, and put right."""
    job = _begin(page, bench)
    verdict = page.locator(".verdict")
    _type(page, walls_AB="18'", walls_BC="14'")
    expect(page.locator("svg[aria-label*='The walk so far: A, B, C']")).to_be_visible()
    _type(page, walls_CD="18'", walls_DA="14'")
    expect(verdict).to_contain_text("floats")
    _type(page, ties_AC="22' 9 5/8\"", ties_BD="23' 9 5/8\"")
    expect(verdict).to_contain_text("cannot say which")
    for corner in "ABC":
        page.locator(".tick", has_text=corner).locator("input").check()
        page.wait_for_timeout(150)
    expect(page.locator("li.doubted label").first).to_have_text("B to D")
    expect(verdict).to_contain_text("tie BD")
    _type(page, ties_BD="22' 9 5/8\"")
    until(lambda: bench.document(job)["rooms"]["living"]["survey"]["ties"]["BD"] == "22' 9 5/8\"")
    expect(verdict).not_to_contain_text("Set aside")
    expect(verdict).to_contain_text("agree")


def test_two_ties_typed_in_one_breath_are_both_kept(page: Page, bench: Workbench) -> None:
    """The second stands on the first though neither is on the device yet, and does not begin the ties anew."""
    job = _begin(page, bench)
    page.evaluate("""() => {
        for (const [pair, text] of [['AC', "22'"], ['BD', "23'"]]) {
            const blank = document.getElementById(`in-ties-${pair}`);
            blank.value = text;
            blank.dispatchEvent(new Event('change', {bubbles: true}));
        }
    }""")
    until(lambda: bench.document(job)["rooms"]["living"]["survey"].get("ties") == {"AC": "22'", "BD": "23'"})


def test_enter_goes_on_to_the_next_blank(page: Page, bench: Workbench) -> None:
    """Typing and Enter walk the room; no mouse is needed."""
    job = _begin(page, bench)
    page.locator("#in-walls-AB").focus()
    for text in ("18'", "14'", "18'", "14'"):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    until(lambda: len(bench.document(job)["rooms"]["living"]["survey"]["walls"]) == 4)


def test_a_wrong_notation_is_said_and_stays_to_be_mended(page: Page, bench: Workbench) -> None:
    """What cannot be read stays in its blank, with how to write it beside it."""
    _begin(page, bench)
    _type(page, walls_AB="about twelve")
    expect(page.locator("#in-walls-AB-says .wrong")).to_be_visible()
    expect(page.locator("#in-walls-AB")).to_have_value("about twelve")


def test_corners_are_added_as_they_are_met(page: Page, bench: Workbench) -> None:
    """The fourth wall led to a corner E: the length typed is that wall's, and one more closes the room."""
    job = _begin(page, bench)
    _type(page, walls_AB="4 m", walls_BC="3 m", walls_CD="2 m", walls_DA="1 m")
    until(lambda: "DA" in bench.document(job)["rooms"]["living"]["survey"]["walls"])
    page.get_by_role("button", name="There is another corner after D").click()
    expect(page.locator("#in-walls-DE")).to_have_value("1 m")
    expect(page.locator("#in-walls-EA")).to_have_value("")


def test_a_cut_line_loses_nothing(page: Page, bench: Workbench) -> None:
    """Offline, six measures are typed; a quiet line says they are kept; back on line they are sent in order."""
    job = _begin(page, bench)
    page.context.set_offline(True)
    _type(
        page,
        walls_AB="18'",
        walls_BC="14'",
        walls_CD="18'",
        walls_DA="14'",
        ties_AC="22' 9 5/8\"",
        ties_BD="22' 9 5/8\"",
    )
    line = page.locator(".strip .line")
    expect(line).to_contain_text("6 entries are kept on this device")
    expect(page.locator("#in-walls-AB")).to_have_value("18'")
    expect(page.locator("#in-walls-AB-says")).to_contain_text("not sent yet")
    assert bench.document(job)["rooms"]["living"]["survey"]["walls"] == {}
    page.context.set_offline(False)
    until(lambda: len(bench.document(job)["rooms"]["living"]["survey"].get("ties", {})) == 2)
    expect(page.locator(".verdict")).to_contain_text("agree")
    said = [r["message"] for r in bench.ask("GET", f"/api/jobs/{job}/revisions?since=2")["revisions"]]
    assert [m.split(":")[0] for m in said] == ["A to B", "B to C", "C to D", "D to A", "A to C", "B to D"]


def test_what_is_queued_outlives_the_page(page: Page, bench: Workbench) -> None:
    """The tab is closed while the line is cut; opened again, it sends what was typed."""
    job = _begin(page, bench)
    page.context.set_offline(True)
    _type(page, walls_AB="18'", walls_BC="14'")
    expect(page.locator(".strip .line")).to_contain_text("2 entries")
    context = page.context
    page.close()
    context.set_offline(False)
    again = context.new_page()
    again.goto(f"{bench.url}/#/{job}/survey/living")
    until(lambda: set(bench.document(job)["rooms"]["living"]["survey"]["walls"]) == {"AB", "BC"})


def test_a_picture_is_attached_to_a_wall(browser: Browser, bench: Workbench) -> None:
    """On a phone: a picture taken of wall AB stands beside its length; looked at, it can be taken down."""
    faults: list[str] = []
    page = new_page(browser, faults, viewport=PHONE, has_touch=True, is_mobile=True)
    job = _begin(page, bench)
    data = io.BytesIO()
    Image.new("RGB", (60, 40), (180, 170, 150)).save(data, "JPEG")
    page.locator("input[aria-label='Add a picture of wall AB']").set_input_files(
        {"name": "wall-ab.jpg", "mimeType": "image/jpeg", "buffer": data.getvalue()}
    )
    expect(page.locator("img[alt='wall-ab.jpg, wall AB']")).to_be_visible()
    files = bench.ask("GET", f"/api/jobs/{job}/files")["files"]
    assert files[0]["attached"] == "/rooms/living/survey/walls/AB"
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "nothing runs off the phone"
    page.get_by_role("button", name="wall-ab.jpg, wall AB").tap()
    expect(page.get_by_role("dialog")).to_contain_text("Where and when it was taken is not kept")
    page.get_by_role("button", name="Take it down").tap()
    page.get_by_role("button", name="Take it down for good").tap()
    expect(page.locator("img[alt='wall-ab.jpg, wall AB']")).to_have_count(0)
    assert bench.ask("GET", f"/api/jobs/{job}/files")["files"] == []
    page.context.close()
    assert not faults
