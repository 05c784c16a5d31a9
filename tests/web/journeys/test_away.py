"""The page without its server: it opens, shows what it had, takes what is typed, and sends it when the server is back."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import PHONE, Workbench, new_page, until


def _settled(page: Page) -> None:
    """Wait until the page is kept on the device."""
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.wait_for_function("navigator.serviceWorker.controller !== null")


def _begin(page: Page, bench: Workbench) -> str:
    page.goto(bench.url)
    page.get_by_role("button", name="A new job").click()
    page.get_by_label("The job is called").fill("Larch house")
    page.get_by_role("button", name="Begin, and survey the first room").click()
    page.wait_for_selector("#in-walls-AB")
    return page.url.split("#/")[1].split("/")[0]


def _type(page: Page, **measures: str) -> None:
    for key, text in measures.items():
        page.fill(f"#in-{key.replace('_', '-')}", text)
        page.keyboard.press("Enter")


def test_the_page_opens_while_the_server_is_away(browser: Browser, tmp_path: Path) -> None:
    """Two walls are sent; the server dies; the page is loaded anew, shows both, takes two more, and is loaded anew again;
    the server is started: all four are there, in order."""
    bench, faults = Workbench(tmp_path), list[str]()
    page = new_page(browser, faults, viewport=PHONE)
    try:
        job = _begin(page, bench)
        _settled(page)
        _type(page, walls_AB="18'", walls_BC="14'")
        until(lambda: len(bench.document(job)["rooms"]["living"]["survey"]["walls"]) == 2)
        expect(page.locator(".strip .line")).to_contain_text("kept as revision")
        bench.kill()
        page.reload()
        expect(page.locator("#in-walls-AB")).to_have_value("18'")
        expect(page.locator("#in-walls-BC")).to_have_value("14'")
        expect(page.locator(".strip .line")).to_contain_text("No connection")
        _type(page, walls_CD="18'", walls_DA="14'")
        expect(page.locator(".strip .line")).to_contain_text("2 entries are kept on this device")
        page.reload()
        expect(page.locator("#in-walls-DA")).to_have_value("14'")
        expect(page.locator("#in-walls-DA-says")).to_contain_text("not sent yet")
        bench.start()
        until(lambda: len(bench.document(job)["rooms"]["living"]["survey"]["walls"]) == 4, 30)
        expect(page.locator(".strip .line")).not_to_contain_text("No connection")
        said = [r["message"] for r in bench.ask("GET", f"/api/jobs/{job}/revisions?since=2")["revisions"]]
        assert [m.split(":")[0] for m in said] == ["A to B", "B to C", "C to D", "D to A"]
        page.context.close()
    finally:
        bench.kill()
    assert not faults


def test_the_job_list_opens_too_and_finds_the_server_again(browser: Browser, tmp_path: Path) -> None:
    """Without its server the list shows what it had; when the server is back the line is whole by itself."""
    bench, faults = Workbench(tmp_path), list[str]()
    page = new_page(browser, faults)
    try:
        bench.demo()
        page.goto(bench.url)
        page.wait_for_selector("li.job")
        _settled(page)
        page.reload()
        page.wait_for_selector("li.job")
        bench.kill()
        page.reload()
        page.wait_for_selector("li.job")
        expect(page.locator(".strip .line")).to_contain_text("No connection")
        bench.start()
        expect(page.locator(".strip .line")).not_to_contain_text("No connection", timeout=15_000)
        page.context.close()
    finally:
        bench.kill()
    assert not faults


def test_what_the_server_answers_always_counts(page: Page, bench: Workbench) -> None:
    """While the server answers, what is kept is not shown: a change by another is there at the next load."""
    job = _begin(page, bench)
    _settled(page)
    page.reload()
    page.wait_for_selector("#in-walls-AB")
    other = page.context.new_page()
    other.goto(f"{bench.url}/#/{job}/survey/living")
    other.wait_for_selector("#in-walls-AB")
    _type(other, walls_AB="5 m")
    until(lambda: "AB" in bench.document(job)["rooms"]["living"]["survey"]["walls"])
    page.reload()
    expect(page.locator("#in-walls-AB")).to_have_value("5 m")
    page.request.delete(f"{bench.url}/api/jobs/{job}", headers={"Origin": bench.url})
    page.goto(f"{bench.url}/#/")
    expect(page.locator(f"a[href^='#/{job}/']")).to_have_count(0)
