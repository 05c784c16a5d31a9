"""A job file is taken out, edited, and comes back on the page as one revision; a meeting is shown."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.web.journeys.conftest import Workbench, until

SOFA = "/rooms/living/pieces/sofa/width"


def _taken_out(page: Page, bench: Workbench, job: str) -> str:
    answer = page.request.get(f"{bench.url}/api/jobs/{job}/file")
    assert answer.ok
    return answer.text()


def _bring(page: Page, bench: Workbench, job: str, text: str) -> None:
    page.goto(bench.url)
    line = page.locator("li.job").filter(has=page.locator(f"a[href^='#/{job}/']"))
    line.locator("input[type=file]").set_input_files(
        {"name": "edited.yaml", "mimeType": "application/yaml", "buffer": text.encode()}
    )


def _change(bench: Workbench, job: str, path: str, value: str) -> None:
    import json
    import urllib.request

    head = {"Content-Type": "application/json-patch+json", "If-Match": f'"{bench.revision(job)}"'}
    head["Halfdrop-Author"] = "Bram"
    data = json.dumps([{"op": "replace", "path": path, "value": value}]).encode()
    asked = urllib.request.Request(f"{bench.url}/api/jobs/{job}", data, head, method="PATCH")
    with urllib.request.urlopen(asked, timeout=30) as answer:
        assert answer.status == 200


def test_an_edited_file_is_taken_in_as_one_revision(page: Page, bench: Workbench) -> None:
    """What was edited is listed before it is taken; another's change meanwhile stays; comments come along."""
    job = bench.demo()
    text = _taken_out(page, bench, job)
    width = bench.document(job)["rooms"]["living"]["pieces"]["sofa"]["width"]
    _change(bench, job, "/rooms/living/pieces/coffee-table/height", "19 in")
    edited = text.replace(f"width: {width}", "width: 81 in", 1) + "# seen on Friday\n"
    assert edited != text
    _bring(page, bench, job, edited)
    back = page.locator("section.back")
    expect(back).to_contain_text("taken out at revision 1")
    expect(back).to_contain_text("81 in")
    assert bench.revision(job) == 2
    back.get_by_role("button", name="Take this file in as a revision").click()
    until(lambda: bench.revision(job) == 3)
    assert bench.document(job)["rooms"]["living"]["pieces"]["coffee-table"]["height"] == "19 in"
    out = _taken_out(page, bench, job)
    assert "81 in" in out
    assert out.endswith("# seen on Friday\n")
    expect(page.locator("section.back")).to_have_count(0)


def test_a_file_that_meets_anothers_change_is_shown_it(page: Page, bench: Workbench) -> None:
    """The same sofa was widened by another meanwhile: nothing is taken in, and the other's change is named;
    taken in all the same, the file's word counts for the sofa and nothing else."""
    job = bench.demo()
    width = bench.document(job)["rooms"]["living"]["pieces"]["sofa"]["width"]
    text = _taken_out(page, bench, job).replace(f"width: {width}", "width: 81 in", 1)
    _change(bench, job, SOFA, "79 in")
    _change(bench, job, "/rooms/living/pieces/coffee-table/height", "19 in")
    _bring(page, bench, job, text)
    back = page.locator("section.back")
    expect(back).to_contain_text("taken out at revision 1")
    back.get_by_role("button", name="Take this file in as a revision").click()
    expect(back).to_contain_text("Revision 2, Bram")
    assert bench.revision(job) == 3
    back.get_by_role("button", name="Take it in all the same").click()
    until(lambda: bench.revision(job) == 4)
    pieces = bench.document(job)["rooms"]["living"]["pieces"]
    assert (pieces["sofa"]["width"], pieces["coffee-table"]["height"]) == ("81 in", "19 in")
