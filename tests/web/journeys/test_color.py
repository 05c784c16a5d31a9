"""On the color page: a room made to belong to a picture; a bold sofa weighed; swatches given by keyboard and by hand."""

from __future__ import annotations

import json
import urllib.request
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.journeys.conftest import DESKTOP, PHONE, TABLET, Workbench, new_page, until
from tests.web.journeys.test_job import AXE, ONE_ROOM

SWATCHES = """
swatches:
  bone: {name: Bone, code: B1, color: "#e8dcc4"}
  oak: {name: Oak, color: "#a07850"}
  saffron: {name: Saffron, color: "#d9a03f"}
  stone: {name: Stone, code: S4, color: "#a8a297"}
  fern: {name: Fern, color: "#5f7d56"}
  coal: {name: Coal, color: "#3a3936"}
"""
LIVING = """
halfdrop: 1
job: {name: A room with a picture, units: imperial}
rooms:
  living:
    name: Living room
    use: {living: true}
    survey:
      corners: A B C D
      walls: {AB: 16', BC: 12', CD: 16', DA: 12'}
      ties: {AC: 20'}
      heights: {center: 8' 6"}
    openings:
      window: {kind: window, wall: CD, along: 6', width: 4', height: 4' 6", sill: 28 in}
    pieces:
      sofa:
        {type: sofa, name: sofa, width: 84 in, depth: 38 in, height: 32 in, at: {wall: AB, along: 54 in, off: 6 in},
         colors: saffron, price: "$2,800"}
      table: {type: coffee table, width: 42 in, depth: 24 in, height: 16 in, at: {x: 8', y: 74 in}}
      chair: {type: armchair, name: armchair, width: 30 in, depth: 32 in, height: 33 in, at: {x: 8', y: 118 in}, turn: 180°}
    rugs:
      rug: {name: plain rug, width: 8', length: 6', at: {x: 8', y: 70 in}, colors: bone, pad: {thickness: 1/4 in}}
    surfaces: {walls: bone, floor: oak}
    art:
      hillside: {name: Hillside, width: 30 in, height: 24 in, reason: the hill behind the house}
"""


def begun(bench: Workbench) -> str:
    """Begin a job of one colored room with a work whose colors are not recorded; return its id."""
    body = {"start": "file", "name": "picture.yaml", "text": LIVING + SWATCHES}
    return str(bench.ask("POST", "/api/jobs", body)["id"])


def painted(folder: Path) -> Path:
    """Write a picture of a green hill over a pale sky, a roof in brick, a grey card at its lower left."""
    import numpy as np
    from PIL import Image

    ink = np.full((300, 400, 3), (122, 139, 111), np.uint8)
    ink[:90] = (223, 228, 226)
    ink[150:210, 220:330] = (171, 86, 66)
    ink[250:, :80] = (128, 128, 128)
    path = folder / "hillside.png"
    Image.fromarray(ink).save(path)
    return path


def library(bench: Workbench, job: str) -> None:
    """Bring a library of two thousand invented paints in."""
    rows = [f"Paint {n},P{n},#{(n * 8191 + 977) % 0xFFFFFF:06x}" for n in range(2000)]
    data = ("name,code,srgb\n" + "\n".join(rows)).encode()
    request = urllib.request.Request(
        f"{bench.url}/api/jobs/{job}/libraries",
        data,
        {"Content-Type": "text/csv", "Halfdrop-Name": "paints.csv"},
    )
    with urllib.request.urlopen(request, timeout=30) as answer:
        assert json.loads(answer.read())["swatches"] == 2000


def open_color(page: Page, bench: Workbench, job: str, scheme: str = "") -> None:
    """Open the living room's color page, and wait for its board."""
    page.goto(f"{bench.url}/#/{job}/color/living" + (f"?scheme={scheme}" if scheme else ""))
    page.wait_for_selector(".board")
    page.wait_for_selector("#tinted-plan svg")


def worn(bench: Workbench, job: str, thing: str) -> Any:
    """Return what a piece wears by the document."""
    return bench.document(job)["rooms"]["living"]["pieces"][thing].get("colors")


def test_a_room_is_made_to_belong_to_a_picture(page: Page, bench: Workbench, tmp_path: Path) -> None:
    """A picture dropped in, its white pointed out, its palette given to the work, three schemes compared, one kept."""
    job = begun(bench)
    library(bench, job)
    open_color(page, bench, job)
    page.set_input_files(".drop-field input", painted(tmp_path))
    page.wait_for_selector(".lifted li")
    page.get_by_role("button", name="Point out its white").click()
    photo = page.locator(".photo img").bounding_box()
    assert photo is not None
    page.mouse.click(photo["x"] + photo["width"] * 0.1, photo["y"] + photo["height"] * 0.92)
    expect(page.locator(".pictured")).to_contain_text("White is what you pointed out")
    page.get_by_label("Give the palette to a work of art").select_option(label="Hillside")
    until(lambda: bench.document(job)["rooms"]["living"]["art"]["hillside"].get("colors"))
    document = bench.document(job)
    colors = document["rooms"]["living"]["art"]["hillside"]["colors"]
    assert sum(colors.values()) == pytest.approx(1, abs=0.01)
    assert set(colors) <= document["swatches"].keys()
    page.get_by_role("button", name="Three schemes from Hillside", exact=True).click()
    page.wait_for_selector(".color-column .tinted svg", timeout=90_000)
    assert page.locator(".color-column h2").all_inner_texts() == ["Quiet", "Balanced", "Bold"]
    page.get_by_role("button", name="Keep the balanced one").click()
    page.wait_for_url(lambda url: "scheme=balanced" in url)
    scheme = next(iter(bench.document(job)["schemes"].values()))
    assert scheme["name"] == "Balanced, from Hillside"
    assert any(step["title"].startswith("Paint the walls") for step in scheme["steps"])
    assert bench.document(job)["rooms"] == document["rooms"], "the room as found stays as it is"
    page.wait_for_selector("#tinted-plan svg")
    expect(page.locator(".key-list")).to_contain_text("Paint ")
    assert bench.ask("GET", f"/api/jobs/{job}/files")["files"][0]["media_type"] == "text/csv", (
        "no picture is kept"
    )


def test_a_bold_sofa_is_weighed(page: Page, bench: Workbench) -> None:
    """The note says what a change of mind may cost; weighed, it shows every assumption; its remedy quiets the sofa."""
    job = begun(bench)
    open_color(page, bench, job)
    note = page.locator(".color-notes li[data-note]", has_text="loud color")
    expect(note).to_contain_text("a change of mind may be expected to cost $")
    note.get_by_role("button", name="Weigh it").click()
    table = note.locator(".working")
    expect(table).to_contain_text("A change of mind about the sofa", timeout=60_000)
    for words in ("$2,800", "Chance of tiring", "Resale by year", "on cushions and a throw"):
        expect(table).to_contain_text(words)
    as_is = page.locator("#tinted-plan").inner_html()
    draw = note.get_by_role("button", name="Draw it").first
    draw.click()
    expect(page.get_by_text("Drawn with a remedy that is not taken yet.")).to_be_visible()
    assert page.locator("#tinted-plan").inner_html() != as_is, "the drawing wears the remedy's colors"
    draw.click()
    until(lambda: page.locator("#tinted-plan").inner_html() == as_is)
    note.get_by_role("button", name="Take it").first.click()
    page.fill("#color-scheme-name", "Quiet sofa")
    page.get_by_role("button", name="Begin it").click()
    page.wait_for_url(lambda url: "scheme=quiet-sofa" in url)
    until(lambda: page.locator(".color-notes li", has_text="loud color").count() == 0)
    assert worn(bench, job, "sofa") == "saffron", "as found the sofa stays as it is"
    page.keyboard.press("Control+z")
    page.wait_for_url(lambda url: "scheme=" not in url)
    expect(page.locator(".color-notes li", has_text="loud color")).to_be_visible()


def test_swatches_are_given_by_keyboard_by_list_and_by_hand(page: Page, bench: Workbench) -> None:
    """In hand by a key and given by a button; chosen in the list; dragged onto the sofa on the drawing; undone."""
    job = begun(bench)
    open_color(page, bench, job)
    page.locator("button.swatch", has_text="Fern").focus()
    page.keyboard.press("Enter")
    expect(page.locator("button.swatch", has_text="Fern")).to_have_attribute("aria-pressed", "true")
    page.get_by_role("button", name="Give it Fern: armchair").press("Enter")
    until(lambda: worn(bench, job, "chair") == "fern")
    page.keyboard.press("Escape")
    expect(page.locator("button.swatch.in-hand")).to_have_count(0)
    page.get_by_label("Color of table").select_option(label="Coal")
    until(lambda: worn(bench, job, "table") == "coal")
    drawn = page.locator('#tinted-plan g[data-path="rooms/living/pieces/table"] .f-paper').first
    expect(drawn).to_have_css("fill", "rgb(58, 57, 54)")  # the drawing that is dropped on is the new one
    page.evaluate("document.getElementById('sheet').scrollTo({top: 0})")
    source = page.locator("button.swatch", has_text="Stone").bounding_box()
    target = page.locator('#tinted-plan g[data-path="rooms/living/pieces/sofa"]').first.bounding_box()
    assert source is not None
    assert target is not None
    page.mouse.move(source["x"] + 20, source["y"] + 20)
    page.mouse.down()
    page.mouse.move(target["x"] + target["width"] * 0.4, target["y"] + target["height"] * 0.6, steps=8)
    page.wait_for_selector("#ghost")
    page.mouse.up()
    until(lambda: worn(bench, job, "sofa") == "stone")
    page.keyboard.press("Control+z")
    until(lambda: worn(bench, job, "sofa") == "saffron")


def test_a_library_is_searched_and_taken_from(page: Page, bench: Workbench) -> None:
    """Nearest to a typed color; a swatch taken is in hand at once; a file with faults says row and column."""
    job = begun(bench)
    library(bench, job)
    open_color(page, bench, job)
    page.get_by_label("Near this color").fill("#7a8b6f")
    page.get_by_label("Near this color").press("Enter")
    first = page.locator(".found li").first
    expect(first).to_contain_text("off")
    name = first.locator(".name").inner_text()
    first.get_by_role("button", name="Take").click()
    expect(page.locator("button.swatch.in-hand")).to_contain_text(name.split(" P")[0])
    bad = {"name": "bad.csv", "mimeType": "text/csv", "buffer": b"name,srgb\nA,#12\n"}
    page.get_by_label("Bring a swatch library in, a CSV file").set_input_files(bad)
    expect(page.locator("ul.faulty")).to_contain_text("row 2, column srgb")


@pytest.mark.parametrize("ground", ["light", "dark"])
@pytest.mark.parametrize("size", [DESKTOP, TABLET, PHONE], ids=["desktop", "tablet", "phone"])
def test_axe_finds_nothing_on_the_color_page(
    browser: Browser, bench: Workbench, size: dict[str, int], ground: Any, tmp_path: Path
) -> None:
    """At every size, by day and dark, with a picture, a library and notes open, nothing stands in the way of any reader."""
    job = begun(bench)
    library(bench, job)
    faults: list[str] = []
    page = new_page(browser, faults, viewport=size, color_scheme=ground)
    open_color(page, bench, job)
    page.set_input_files(".drop-field input", painted(tmp_path))
    page.wait_for_selector(".lifted li")
    page.get_by_label("Near this color").fill("#7a8b6f")
    page.get_by_label("Near this color").press("Enter")
    page.wait_for_selector(".found li")
    page.locator("button.swatch").first.press("Enter")
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    said = [f"{v['id']}: {v['nodes'][0]['html'][:160]}" for v in found["violations"]]
    assert said == []
    wide = page.evaluate(
        "document.getElementById('sheet').scrollWidth <= document.getElementById('sheet').clientWidth + 1"
    )
    assert wide, "nothing runs off to the side"
    page.context.close()
    assert faults == []


def test_a_room_without_colors_says_how_to_begin(page: Page, bench: Workbench) -> None:
    """No swatches, no colors: the page says what to do first, and every thing still stands in its list."""
    job = bench.ask("POST", "/api/jobs", {"start": "file", "name": "one.yaml", "text": ONE_ROOM})["id"]
    room = next(iter(bench.document(job)["rooms"]))
    page.goto(f"{bench.url}/#/{job}/color/{room}")
    expect(page.locator(".color-field")).to_contain_text("No colors are recorded in this room yet")
    assert page.locator(".wears").count() > 3
