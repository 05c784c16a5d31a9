"""Rooms over HTTP: the drawing with its findings, a change tried, schemes of steps, sheets and lists."""

from __future__ import annotations

import math
import time
from typing import Any

import pytest

from halfdrop.job.patch import apply
from halfdrop.services.jobs import open_job
from halfdrop.services.workbench_edits import scheme_patch
from halfdrop.services.workbench_jobs import demo_text

SOFA = "rooms/living/pieces/sofa"
ALONG = f"/{SOFA}/at/along"


def test_a_view_is_the_drawing_its_frame_and_what_the_library_found(page, tmp_path) -> None:
    """The findings are those of the library's own audit; the frame puts each thing where the drawing has it."""
    view = page.get("/rooms/living/view")
    file = tmp_path / "quince.yaml"
    file.write_text(demo_text())
    found = open_job(file).found
    assert [f["id"] for f in view["findings"]] == [f.id for f in found.findings("living")]
    assert [f["number"] for f in view["findings"]] == list(range(1, len(view["findings"]) + 1))
    for thing in view["things"]:
        assert f'data-path="{thing["path"]}"' in view["svg"]
    sofa = next(t for t in view["things"] if t["path"] == SOFA)
    frame = view["frame"]
    x = frame["left"] + sofa["center"][0] * frame["mm_per_m"]
    y = frame["top"] - sofa["center"][1] * frame["mm_per_m"]
    assert 0 < x < view["paper"]["width"]
    assert 0 < y < view["paper"]["height"]
    assert "<style" not in view["svg"]
    assert "style=" not in view["svg"]


def test_views_of_each_kind(page) -> None:
    """Survey, dark and phone sheets are drawn; before and after asks for a scheme."""
    assert page.get("/rooms/living/view", params={"view": "survey"})["svg"]
    assert page.get("/rooms/living/view", params={"paper": "phone", "dark": "1", "notes": "0"})["svg"]
    answer = page.client.get(f"/api/jobs/{page.job}/rooms/living/view", params={"view": "before-after"})
    assert answer.status_code == 422
    page.patch([{"op": "replace", "path": ALONG, "value": "60 in"}], 1, scheme="first")
    view = page.get("/rooms/living/view", params={"view": "before-after", "scheme": "first"})
    assert len(view["frames"]) == 2


def tried(page: Any, **body: Any) -> Any:
    answer = page.post("/rooms/living/try", body)
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_a_move_tried_keeps_nothing_and_gives_the_patch_that_would(page) -> None:
    """What a hand's move gives is what the patch in the answer gives when it is sent; until then nothing changed."""
    moved = tried(page, move={"path": SOFA, "dx": 0.0, "dy": -0.3}, live=True)
    assert page.get("")["revision"] == 1
    assert moved["svg"] is None
    (op,) = moved["patch"]
    assert op["path"] == f"/{SOFA}/at/off"
    assert page.patch(moved["patch"], 1).status_code == 200
    view = page.get("/rooms/living/view")
    assert view["findings"] == moved["findings"]
    assert view["things"] == moved["things"]


def test_a_move_through_its_own_wall_stops_at_the_wall(page) -> None:
    """Pushed a metre into the wall behind it the sofa stays on the wall."""
    moved = tried(page, move={"path": SOFA, "dx": 0.0, "dy": 1.0}, live=True)
    off = [op["value"] for op in moved["patch"] if op["path"].endswith("/off")]
    assert off in ([], ['0"'])


@pytest.mark.parametrize("quarters", [1, 2, 3])
def test_a_quarter_turn_stays_at_the_wall(page, quarters: int) -> None:
    """Turned by 90 or 180 degrees the sofa stays at its wall, as far off it, about where it was; back again it is where it was."""
    before = {t["path"]: t for t in page.get("/rooms/living/view")["things"]}[SOFA]
    turned = tried(page, move={"path": SOFA, "turn": quarters * math.pi / 2}, live=True)
    assert {op["path"].rsplit("/", 1)[-1] for op in turned["patch"]} <= {"along", "turn"}
    assert page.patch(turned["patch"], 1).status_code == 200
    after = {t["path"]: t for t in page.get("/rooms/living/view")["things"]}[SOFA]
    assert after["document"]["at"]["wall"] == before["document"]["at"]["wall"]
    assert after["document"]["at"]["off"] == before["document"]["at"]["off"]
    assert after["document"]["turn"] == f"{quarters * 90}°"
    assert after["center"][0] == pytest.approx(before["center"][0], abs=0.01)
    back = tried(page, move={"path": SOFA, "turn": -quarters * math.pi / 2}, live=True)
    again = {t["path"]: t for t in back["things"]}[SOFA]
    assert again["center"] == pytest.approx(before["center"], abs=0.01)


def test_a_quarter_turn_in_the_corner_stays_in_the_room(page) -> None:
    """A bookcase in the corner, turned, does not reach through the wall beside it; a turn by 15 degrees stands it free."""
    path = "rooms/living/pieces/bookcase"
    page.patch([{"op": "replace", "path": f"/{path}/at/along", "value": "0"}], 1)
    page.patch([{"op": "replace", "path": f"/{path}/depth", "value": "60 in"}], 2)
    turned = tried(page, move={"path": path, "turn": math.pi / 2}, live=True)
    bookcase = {t["path"]: t for t in turned["things"]}[path]
    assert bookcase["document"]["at"]["wall"]
    assert bookcase["document"]["at"]["along"] in ("0", '0"')
    free = tried(page, move={"path": path, "turn": math.pi / 12}, live=True)
    assert "wall" not in {t["path"]: t for t in free["things"]}[path]["document"]["at"]


def test_a_move_tells_clearances_in_the_units_of_the_job(page) -> None:
    """A moved sofa has its gaps named: to the coffee table in front and the walls beside."""
    moved = tried(page, move={"path": SOFA, "dx": 0.1, "dy": -0.2}, live=True)
    to = {c["side"]: c for c in moved["clearances"]}
    assert to["front"]["to"] == "rooms/living/pieces/coffee-table"
    assert to["right"]["to"] == "rooms/living/survey/walls/DA"
    assert all("″" in c["text"] or "′" in c["text"] or "in" in c["text"] for c in to.values())


def test_a_snap_taken_does_what_it_says(page) -> None:
    """The patch of a suggestion, tried in its turn, leaves no such suggestion."""
    first = tried(page, move={"path": SOFA, "dx": 0.0, "dy": -0.10}, live=True)
    snap = next(s for s in first["snaps"] if s["kind"] == "set off")
    assert snap["practice"] == "seating.wall_pull_off"
    together = [*first["patch"], *snap["patch"]]
    again = tried(page, patch=together, live=True)
    assert not [s for s in again["snaps"] if s["kind"] == "set off" and s["to"] == snap["to"]]


def test_a_try_draws_what_it_proposes(page) -> None:
    """Without `live` the answer has the drawing, the change in slate over its ghost."""
    drawn = tried(page, patch=[{"op": "replace", "path": ALONG, "value": "60 in"}])
    assert "s-slate" in drawn["svg"]
    assert "d-ghost" in drawn["svg"]


def test_a_bad_try_is_refused(page) -> None:
    """What a patch would spoil is said; so is a move of nothing."""
    for body in (
        {"patch": [{"op": "replace", "path": f"/{SOFA}/width", "value": "wide"}]},
        {"patch": [{"op": "remove", "path": "/rooms/living/pieces/none"}]},
        {"move": {"path": "rooms/living/pieces/none", "dx": 1}},
        {"move": {"path": SOFA, "dx": 1e9}},
        {"scheme": "none"},
    ):
        answer = page.post("/rooms/living/try", body)
        assert answer.status_code == 422, body
        assert answer.json()["error"]["message"]


def test_a_change_under_a_scheme_is_a_step_and_the_room_as_found_stays(page) -> None:
    """Two moves of one thing are one step, another thing's move the next; the room as found is untouched."""
    as_found = page.get("")["document"]["rooms"]
    move = lambda base, value, path=ALONG: page.patch(  # noqa: E731
        [{"op": "replace", "path": path, "value": value}], base, scheme="first", scheme_name="Quiet corner"
    )
    assert move(1, "60 in").status_code == 200
    assert move(2, "50 in").status_code == 200
    assert move(3, "40 in", "/rooms/living/pieces/floor-lamp/at/along").status_code == 200
    document = page.get("")["document"]
    assert document["rooms"] == as_found
    scheme = document["schemes"]["first"]
    assert scheme["name"] == "Quiet corner"
    assert [s["title"] for s in scheme["steps"]] == ["sofa moved", "floor lamp moved"]
    assert scheme["steps"][0]["patch"][0]["value"] == "50 in"
    under = page.get("/rooms/living/view", params={"scheme": "first"})
    assert next(t for t in under["things"] if t["path"] == SOFA)["document"]["at"]["along"] == "50 in"


def test_undo_under_a_scheme_takes_its_steps_back(page) -> None:
    """Everything done under a scheme is undone to the job as it was begun."""
    before = page.get("")["document"]
    for base, value in ((1, "60 in"), (2, "50 in")):
        page.patch([{"op": "replace", "path": ALONG, "value": value}], base, scheme="first")
    for _ in range(2):
        assert page.post("/undo", {"author": "ines"}).status_code == 200
    assert page.get("")["document"] == before


def test_remedies_are_sought_apart_and_taken_as_a_step(page) -> None:
    """A remedy the task gives, sent as a patch of kind remedy, clears its finding under the scheme."""
    finding = next(f for f in page.get("/rooms/living/view")["findings"] if f["rule"].startswith("rugs."))
    started = page.post("/rooms/living/remedies", {"finding": finding["id"]})
    assert started.status_code == 202
    task = done(page, started.json()["task"])
    (judged,) = task["result"]["findings"]
    assert judged["remedies"], "the demo's rug has a remedy"
    remedy = judged["remedies"][0]
    answer = page.patch(remedy["patch"], 1, scheme="first", kind="remedy", finding=finding["id"])
    assert answer.status_code == 200, answer.text
    under = page.get("/rooms/living/view", params={"scheme": "first"})
    assert finding["id"] not in {f["id"] for f in under["findings"]}
    assert page.get("/revisions")["revisions"][0]["kind"] == "remedy"


def done(page: Any, task: str, within: float = 60) -> Any:
    """Wait for a task."""
    end = time.monotonic() + within
    while time.monotonic() < end:
        read = page.client.get(f"/api/tasks/{task}").json()
        if read["state"] not in ("waiting", "running"):
            assert read["state"] == "done", read
            return read
        time.sleep(0.05)
    raise AssertionError("the task did not end")


def test_sheets_come_as_files_of_each_format(page) -> None:
    """SVG, PDF, PNG and DXF begin as such files do; an SVG carries its own policy, that runs nothing."""
    starts = {"svg": b"<svg", "pdf": b"%PDF", "png": b"\x89PNG", "dxf": b"  0"}
    for format, start in starts.items():
        answer = page.client.get(f"/api/jobs/{page.job}/sheet", params={"room": "hall", "format": format})
        assert answer.status_code == 200
        assert answer.content.startswith(start)
        if format == "svg":
            assert "default-src 'none'" in answer.headers["content-security-policy"]
            assert "sandbox" in answer.headers["content-security-policy"]


def test_schemes_stand_side_by_side_with_what_they_cost(page) -> None:
    """Compare has the job as found and each scheme; shopping lists a rug that a scheme brings in."""
    rug = {"width": "9'", "length": "12'", "at": {"x": "108 in", "y": "88 in"}, "price": "$500"}
    page.patch([{"op": "add", "path": "/rooms/living/rugs/new", "value": rug}], 1, scheme="first")
    rows = page.get("/compare")["schemes"]
    assert [r["scheme"] for r in rows] == ["as found", "first"]
    listed = page.get("/shopping", params={"scheme": "first"})
    assert [line["total"] for line in listed["bought"] if line["kind"] == "rug"]


def test_measures_are_read_in_any_notation(client) -> None:
    """The same length three ways; what cannot be read says how to write it."""
    for text in ("12' 6 1/2\"", "12ft 6.5in", "3.8227 m"):
        read = client.get("/api/parse", params={"kind": "length", "text": text}).json()
        assert abs(read["value"] - 3.8227) < 1e-9
        assert read["text"] == text
        assert read["typographic"] == "12′ 6½″"
    wrong = client.get("/api/parse", params={"kind": "length", "text": "12"})
    assert wrong.status_code == 422
    assert wrong.json()["error"]["hint"]


def test_every_type_can_be_put_in_as_it_is_offered(page) -> None:
    """Each piece, rug, opening and fitting type, put into a room with a place, is a valid job."""
    for units in ("imperial", "metric"):
        types = page.client.get("/api/types", params={"units": units}).json()
        at = {"x": "60 in", "y": "60 in"}
        ops = [
            {"op": "add", "path": f"/rooms/living/pieces/p{i}", "value": {**t["document"], "at": at}}
            for i, t in enumerate(types["pieces"])
        ]
        ops += [
            {"op": "add", "path": f"/rooms/living/rugs/r{i}", "value": {**t["document"], "at": at}}
            for i, t in enumerate(types["rugs"])
        ]
        ops += [
            {"op": "add", "path": f"/rooms/living/fittings/f{i}", "value": {**t["document"], "at": at}}
            for i, t in enumerate(types["fittings"])
        ]
        for i, t in enumerate(types["openings"]):
            hinge = {"hinge": "A"} if t["kind"] == "door" else {}
            value = {**t["document"], "wall": "AB", "along": "10 in", **hinge}
            ops.append({"op": "add", "path": f"/rooms/living/openings/o{i}", "value": value})
        answer = page.post("/rooms/living/try", {"patch": ops, "live": True})
        assert answer.status_code == 200, answer.text


def test_rules_and_practice_are_told_with_their_sources(client) -> None:
    """Every rule has its story, every value its source and how sure it is."""
    assert all(r["story"]["Why"] for r in client.get("/api/rules").json()["rules"])
    assert all(v["source"] and v["sure"] for v in client.get("/api/practice").json()["values"])


def test_a_step_keeps_its_whole_title() -> None:
    """A remedy's title, however long a person writes it up to the document's bound, is not cut in the scheme."""
    document = {"halfdrop": 1, "job": {"name": "Case"}, "rooms": {}, "schemes": {}}
    title = "Lay the long and carefully described rug of the client's grandmother over a plain base. " * 3
    patch = [{"op": "add", "path": "/job/client", "value": "A. Client"}]
    made = apply(document, scheme_patch(document, "first", patch, title=title.strip()))
    assert made["schemes"]["first"]["steps"][0]["title"] == title.strip()
