"""The color page's interface: palettes without a trace, libraries kept and searched."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from tests.web.conftest import Page

LIBRARY = "name,code,srgb,price\nFern,F1,#738c64,$48.00\nDeep fern,F2,#4b5f41,$52.00\nBone,B1,#e8dcc4,$44.00\nBrick,R1,#b5533c,$61.00\n"


def picture(*colors: tuple[int, int, int], size: int = 40, exif: bool = False, tint: float = 1.0) -> bytes:
    """Return a PNG of vertical bands."""
    bands = [np.full((size, size, 3), np.array(c) * [1.0, 1.0, tint]) for c in colors]
    image = Image.fromarray(np.concatenate(bands, axis=1).astype(np.uint8))
    out = io.BytesIO()
    tags = Image.Exif()
    tags[0x0112] = 6  # turned
    image.save(out, "PNG", **({"exif": tags} if exif else {}))
    return out.getvalue()


def lift(page: Page, data: bytes, **asked: Any) -> Any:
    """Ask for a palette."""
    return page.client.post("/api/palette", content=data, headers={"content-type": "image/png"}, params=asked)


def test_a_palette_is_lifted_and_the_picture_is_not_kept(page: Page) -> None:
    """Two bands give two colors, a third and two thirds; the job has no new file."""
    answer = lift(page, picture((180, 60, 50), (180, 60, 50), (40, 60, 120)), recorded=1)
    assert answer.status_code == 200, answer.text
    told = answer.json()
    assert [c["share"] for c in told["colors"]] == pytest.approx([2 / 3, 1 / 3], abs=0.01)
    assert told["white"]["how"] == "as recorded"
    assert (told["width"], told["height"]) == (120, 40)
    assert page.get("/files")["files"] == []


def test_a_white_that_is_pointed_out_takes_the_cast_away(page: Page) -> None:
    """Under a yellowish light a grey card reads yellow; pointed out, it is grey, and the rest follows."""
    data = picture((200, 200, 200), (60, 90, 160), tint=0.7)
    cast = lift(page, data, recorded=1).json()["colors"]
    given = lift(page, data, white="4,4,30,30").json()
    assert given["white"]["how"] == "given"
    grey = min(given["colors"], key=lambda c: abs(c["lab"][1]) + abs(c["lab"][2]))
    assert np.hypot(*grey["lab"][1:]) < 1
    assert min(np.hypot(*c["lab"][1:]) for c in cast) > 5


def test_a_picture_held_upright_is_measured_upright(page: Page) -> None:
    """Its size is that of the turned picture, as the browser shows it."""
    told = lift(page, picture((9, 99, 9), (99, 9, 9), exif=True), recorded=1).json()
    assert (told["width"], told["height"]) == (40, 80)


def test_what_is_no_picture_is_refused(page: Page) -> None:
    """Text, another type of body, a white outside the picture: each is told in words."""
    assert lift(page, b"hello").status_code == 422
    wrong = page.client.post("/api/palette", content=b"x", headers={"content-type": "text/plain"})
    assert wrong.status_code == 415
    outside = lift(page, picture((9, 9, 9)), white="90,0,10,10")
    assert outside.status_code == 422
    assert "outside the picture" in outside.json()["error"]["message"]


def bring(page: Page, text: str = LIBRARY, name: str = "paints.csv") -> Any:
    """Bring a library in."""
    headers = {"content-type": "text/csv", "halfdrop-name": name}
    return page.client.post(f"/api/jobs/{page.job}/libraries", content=text.encode(), headers=headers)


def test_a_library_is_kept_and_searched(page: Page) -> None:
    """Brought in once, it is listed, and gives the nearest first, or by words."""
    answer = bring(page)
    assert answer.status_code == 201, answer.text
    listed = page.get("/libraries")["libraries"]
    assert listed == [{"sha256": answer.json()["sha256"], "name": "paints.csv", "swatches": 4}]
    sha = listed[0]["sha256"]
    near = page.get(f"/libraries/{sha}/swatches", params={"near": "#7a8b6f", "count": 2})
    assert [one["code"] for one in near["found"]] == ["F1", "F2"]
    assert near["found"][0]["off"] < near["found"][1]["off"]
    named = page.get(f"/libraries/{sha}/swatches", params={"words": "deep"})["found"]
    assert [one["name"] for one in named] == ["Deep fern"]


def test_a_library_with_faults_is_not_kept(page: Page) -> None:
    """Each fault is told by row and column; an unknown library is missing."""
    answer = bring(page, LIBRARY.replace("#e8dcc4", "#e8dc").replace("$61.00", "61"))
    assert answer.status_code == 422
    places = [e["at"] for e in answer.json()["error"]["errors"]]
    assert [(at["line"], at["path"]) for at in places] == [(4, "column srgb"), (5, "column price")]
    assert page.get("/libraries")["libraries"] == []
    assert page.client.get(f"/api/jobs/{page.job}/libraries/{'0' * 64}/swatches").status_code == 404
    assert bring(page, "name,srgb\n").status_code == 422


def colored(page: Page) -> int:
    """Give the demo a few swatches, a floor, walls and a painting; return the revision."""
    document = page.get("")["document"]
    swatches = {
        k: {"name": k.capitalize(), "color": c}
        for k, c in (("fern", "#738c64"), ("bone", "#e8dcc4"), ("oak", "#a07850"))
    }
    patch: list[dict[str, Any]] = [
        {"op": "add", "path": f"/swatches/test-{key}", "value": value} for key, value in swatches.items()
    ]
    if "swatches" not in document:
        patch.insert(0, {"op": "add", "path": "/swatches", "value": {}})
    room = document["rooms"]["living"]
    if "surfaces" not in room:
        patch.append({"op": "add", "path": "/rooms/living/surfaces", "value": {}})
    patch.append({"op": "add", "path": "/rooms/living/surfaces/floor", "value": "test-oak"})
    patch.append({"op": "add", "path": "/rooms/living/surfaces/walls", "value": "test-bone"})
    if "art" not in room:
        patch.append({"op": "add", "path": "/rooms/living/art", "value": {}})
    work = {
        "name": "Hillside",
        "width": "30 in",
        "height": "24 in",
        "colors": {"test-fern": 0.7, "test-bone": 0.3},
    }
    patch.append({"op": "add", "path": "/rooms/living/art/test-hillside", "value": work})
    answer = page.patch(patch, page.get("")["revision"])
    assert answer.status_code == 200, answer.text
    return int(answer.json()["revision"])


def test_a_rooms_colors_are_told_by_day_and_evening(page: Page) -> None:
    """Shares of the board add to 1, every thing says what it wears, every swatch what it is under both lights."""
    colored(page)
    told = page.get("/rooms/living/colors")
    assert sum(one["share"] for one in told["board"]) == pytest.approx(1)
    assert [one["share"] for one in told["board"]] == sorted(
        (o["share"] for o in told["board"]), reverse=True
    )
    walls = next(t for t in told["things"] if t["path"] == "rooms/living/surfaces/walls")
    assert walls["colors"][0]["swatch"] == "test-bone"
    bone = next(s for s in told["library"] if s["id"] == "test-bone")
    assert bone["day"] != bone["evening"]
    assert told["tints"]["floor"] == [{"hex": "#a07850", "share": 1.0}]
    assert [told["tints"][f"wall {wall}"] for wall in told["walls"]] == [
        [{"hex": "#e8dcc4", "share": 1.0}] for _ in told["walls"]
    ]
    assert {m["name"] for m in told["measures"]} >= {"proportions", "values", "temperature"}


def test_a_thing_is_given_a_color_as_found_and_under_a_scheme(page: Page) -> None:
    """As found it is written down; under a scheme the walls are painted, a step of it. Nothing is kept before it is sent."""
    revision = colored(page)
    walls = {"path": "rooms/living/surfaces/walls", "swatch": "test-fern"}
    found = page.post("/rooms/living/colors/give", walls).json()
    assert page.get("")["revision"] == revision
    assert page.patch(found["patch"], revision).status_code == 200
    document = page.get("")["document"]
    assert document["rooms"]["living"]["surfaces"]["walls"] == "test-fern"
    begun = [{"op": "add", "path": "/schemes/test", "value": {"name": "Test", "steps": []}}]
    assert page.patch(begun, revision + 1).status_code == 200
    step = page.post("/rooms/living/colors/give", {**walls, "swatch": "test-bone", "scheme": "test"}).json()
    assert step["title"] == "Paint the walls Bone"
    assert page.patch(step["patch"], revision + 2, scheme="test").status_code == 200
    under = page.get("/rooms/living/colors", params={"scheme": "test"})
    painted = [t for t in under["things"] if t["role"] == "walls"]
    assert painted[0]["colors"][0]["swatch"] == "test-bone"
    assert page.get("/rooms/living/colors")["things"][0]["colors"][0]["swatch"] == "test-fern"
    for wrong in ({**walls, "swatch": "nope"}, {**walls, "path": "rooms/living/pieces/nope"}):
        assert page.post("/rooms/living/colors/give", wrong).status_code == 422


def test_three_schemes_start_from_art_or_a_palette(page: Page) -> None:
    """Each comes with what it wears, its marks and its steps; a step is a patch that applies; one source is asked for."""
    revision = colored(page)
    sha = bring(
        page, "name,srgb\n" + "\n".join(f"T{n},#{(n * 7919) % 0xFFFFFF:06x}" for n in range(900))
    ).json()["sha256"]
    asked = {"art": "test-hillside", "library": sha}
    told = page.post("/rooms/living/color-schemes", asked).json()["schemes"]
    assert [one["style"] for one in told] == ["quiet", "balanced", "bold"]
    assert told == page.post("/rooms/living/color-schemes", asked).json()["schemes"]
    for one in told:
        assert sum(b["share"] for b in one["board"]) == pytest.approx(1)
        assert one["from"] == "Hillside"
        assert {f["grade"] for f in one["findings"]} <= {"taste"}
    kept = [
        {"op": "add", "path": "/schemes/quiet", "value": {"name": told[0]["name"], "steps": told[0]["steps"]}}
    ]
    assert page.patch(kept, revision).status_code == 200
    assert page.get("/rooms/living/view", params={"scheme": "quiet"})["things"]
    palette = [{"lab": [55, -12, 14], "share": 0.6}, {"lab": [88, 1, 12], "share": 0.4}]
    from_it = page.post("/rooms/living/color-schemes", {"palette": palette, "name": "hill"}).json()
    assert from_it["schemes"][0]["from"] == "hill"
    assert page.post("/rooms/living/color-schemes", {}).status_code == 422
    assert page.post("/rooms/living/color-schemes", {"art": "nope"}).status_code == 422


def test_a_remedy_is_seen_in_color_before_it_is_taken(page: Page) -> None:
    """Under a patch that paints the sofa another swatch its tint is that swatch's and the board has it; the job stays."""
    revision = colored(page)
    before = page.get("/rooms/living/colors")
    sofa = "rooms/living/pieces/sofa"
    other = next(
        s for s in before["library"] if s["hex"] not in {c["hex"] for c in before["tints"].get(sofa, [])}
    )
    patch = [{"op": "add", "path": f"/{sofa}/colors", "value": other["id"]}]
    seen = page.post("/rooms/living/colors/try", {"patch": patch})
    assert seen.status_code == 200, seen.text
    assert seen.json()["colors"][sofa] == [{"hex": other["hex"], "share": 1.0}]
    assert other["id"] in {b["id"] for b in seen.json()["board"]}
    patch[0]["value"] = {"test-bone": 0.3, "test-fern": 0.6}
    print_of_two = page.post("/rooms/living/colors/try", {"patch": patch}).json()["colors"][sofa]
    assert print_of_two == [{"hex": "#738c64", "share": 0.6}, {"hex": "#e8dcc4", "share": 0.3}]
    assert page.get("")["revision"] == revision
    assert page.get("/rooms/living/colors")["tints"] == before["tints"]
    refused = page.post("/rooms/living/colors/try", {"patch": [{"op": "remove", "path": "/rooms/none"}]})
    assert refused.status_code == 422
