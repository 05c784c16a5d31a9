"""Elevations over HTTP: a wall drawn and judged, moved on by hand, its numbers the library's own."""

from __future__ import annotations

from typing import Any

import pytest

from halfdrop.audit.hung import cloths_of
from halfdrop.drapery import hang
from halfdrop.job.patch import apply
from halfdrop.services.jobs import open_job
from halfdrop.services.workbench_jobs import demo_text

PAIR = "rooms/living/treatments/west-pair"


def face(page: Any, wall: str | None = "CD", room: str = "living", **more: str) -> Any:
    asked = {"view": "elevation", **({"wall": wall} if wall else {}), **more}
    return page.get(f"/rooms/{room}/view", params=asked)


def tried(page: Any, wall: str, **move: Any) -> Any:
    answer = page.post("/rooms/living/try", {"wall": wall, "live": True, "move": move})
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_a_wall_is_its_drawing_its_frame_and_its_own_findings(page: Any, tmp_path: Any) -> None:
    """Numbers are those of the room; everything a note is about is on the wall; each thing stands where the drawing has it."""
    view = face(page)
    file = tmp_path / "quince.yaml"
    file.write_text(demo_text())
    numbers = {f.id: n for n, f in enumerate(open_job(file).found.findings("living"), 1)}
    here = {t["path"] for t in view["things"]}
    assert view["findings"]
    for finding in view["findings"]:
        assert finding["number"] == numbers[finding["id"]]
        assert set(finding["subjects"]) <= here
    frame = view["frame"]
    for thing in view["things"]:
        assert f'data-path="{thing["path"]}"' in view["svg"]
        assert 0 < frame["left"] + thing["center"][0] * frame["mm_per_m"] < view["paper"]["width"]
        assert 0 < frame["top"] - thing["center"][1] * frame["mm_per_m"] < view["paper"]["height"]
    assert "style=" not in view["svg"]


def test_without_a_name_the_first_wall_is_one_at_which_something_hangs(page: Any) -> None:
    """The living room's walls are four; the page opens at one with a picture or a curtain on it."""
    view = face(page, None)
    assert view["elevations"] == ["AB", "BC", "CD", "DA"]
    assert any(t["kind"] in ("treatment", "art") for t in view["things"])


def test_a_bay_is_one_elevation(page: Any) -> None:
    """The study's three bay walls are drawn unfolded, under the name of their corners."""
    view = face(page, None, "study")
    assert "DEFG" in view["elevations"]
    assert face(page, "DEFG", "study")["wall"] == "DEFG"


def test_a_name_that_is_no_wall_is_refused_with_those_there_are(page: Any) -> None:
    """422, and the hint names the walls."""
    answer = page.client.get(
        f"/api/jobs/{page.job}/rooms/living/view", params={"view": "elevation", "wall": "AC"}
    )
    assert answer.status_code == 422
    assert "AB" in answer.json()["error"]["message"]


def test_a_rod_raised_by_hand_is_the_patch_that_would_raise_it(page: Any) -> None:
    """10 cm up is 4 in on the tape; nothing is kept; the finding on the rod goes when it clears the frame."""
    moved = tried(page, "CD", path=PAIR, dx=0.3, dy=0.1)
    assert [op["path"] for op in moved["patch"]] == [f"/{PAIR}/hardware/height"]
    assert moved["patch"][0]["value"] == "7' 6 1/2\""
    assert page.get("")["revision"] == 1
    before = {f["rule"] for f in face(page)["findings"]}
    after = {f["rule"] for f in moved["findings"]}
    assert "drapery.rod-low" in before - after
    document = apply(page.get("")["document"], moved["patch"])
    assert document["rooms"]["living"]["treatments"]["west-pair"]["hardware"]["height"] == "7' 6 1/2\""


@pytest.mark.parametrize(
    ("handle", "keys"), [("left", ["left"]), ("right", ["right"]), ("both", ["left", "right"])]
)
def test_an_end_of_a_rod_that_is_held_is_lengthened(page: Any, handle: str, keys: list[str]) -> None:
    """To the left lengthens the left end, to the right the right one; `both` lengthens each as far."""
    dx = -0.1016 if handle == "left" else 0.1016
    patch = tried(page, "CD", path=PAIR, dx=dx, dy=0.0, handle=handle)["patch"]
    assert [(op["path"].rsplit("/", 1)[-1], op["value"]) for op in patch] == [(key, '6"') for key in keys]


def test_gaps_of_a_rod_are_to_floor_ceiling_and_sides(page: Any) -> None:
    """They add up: floor to rod and rod to ceiling make the wall's height there."""
    moved = tried(page, "CD", path=PAIR, dx=0.0, dy=0.0)
    gaps = {c["side"]: c["length"] for c in moved["clearances"]}
    assert {"up", "left", "right", "down", "floor to rod"} <= set(gaps)
    assert gaps["floor to rod"] + gaps["up"] == pytest.approx(2.588, abs=0.01)


def test_a_snap_gives_the_patch_that_takes_it(page: Any) -> None:
    """Near where practice puts the rod, the offer's patch puts it there: the next move has no such offer any more."""
    moved = tried(page, "CD", path=PAIR, dx=0.0, dy=0.15)
    snap = next(s for s in moved["snaps"] if s["kind"] == "practice")
    page.patch(snap["patch"], 1)
    again = tried(page, "CD", path=PAIR, dx=0.0, dy=0.0)
    assert all(abs(s["by"][1]) > 1e-4 for s in again["snaps"])


def test_a_switch_moves_along_and_up_from_its_own_corner(page: Any) -> None:
    """Taped from D, which is at the right: to the left on the wall is farther from D."""
    patch = tried(page, "DA", path="rooms/living/fittings/switch-1", dx=-0.1016, dy=0.0508)["patch"]
    assert {op["path"].rsplit("/", 1)[-1]: op["value"] for op in patch} == {
        "along": "4' 6\"",
        "bottom": "3' 8\"",
    }


def test_a_hearth_stays_on_the_floor(page: Any) -> None:
    """What stands on the floor is not lifted."""
    patch = tried(page, "AB", path="rooms/living/fittings/hearth", dx=0.0, dy=0.3)["patch"]
    assert patch == []


def test_a_work_is_moved_along_and_up(page: Any) -> None:
    """A picture's place and bottom are written as they are taped."""
    work = next(t for t in face(page, "DA")["things"] if t["kind"] == "art")
    patch = tried(page, "DA", path=work["path"], dx=0.0254, dy=-0.0254)["patch"]
    assert {op["path"].rsplit("/", 2)[-2] for op in patch} == {"at"}
    assert {op["path"].rsplit("/", 1)[-1] for op in patch} == {"along", "bottom"}


def test_what_is_hung_comes_to_what_the_library_counts(page: Any, tmp_path: Any) -> None:
    """A pair hung in the print: widths, cut and price on its slip are those of `hang`."""
    value = {"openings": ["window-west"], "heading": "pencil", "fabric": "quince", "arrives": True}
    patch = [{"op": "replace", "path": f"/{PAIR}", "value": value}]
    page.patch(patch, 1)
    thing = next(t for t in face(page)["things"] if t["path"] == PAIR)
    file = tmp_path / "quince.yaml"
    file.write_text(demo_text())
    case = open_job(file).found.after(patch).case("living")
    made = hang(case.room, "west-pair", cloths_of(case), case.practice)
    facts = dict(thing["facts"])
    assert facts["cloth"].startswith(f"{made.widths.widths:g} widths, {made.widths.cuts} cuts of ")
    assert facts["finished length"] == case.say(made.lengths.longest)
    assert "$" in facts["to buy"]


def test_what_is_left_out_is_told_as_practice_works_it_out(page: Any) -> None:
    """Every number of the bay's curtains is practice's; of the west pair, where all is taped, none is."""
    bay = next(t for t in face(page, "DEFG", "study")["things"] if t["kind"] == "treatment")
    assert {"hardware/height", "hardware/left", "hardware/right", "drop", "fullness"} == set(bay["designed"])
    pair = next(t for t in face(page)["things"] if t["path"] == PAIR)
    assert pair["designed"] == {}


def test_treatments_are_offered_with_what_practice_leaves_open(page: Any) -> None:
    """Each type on the list makes a valid treatment at the study's window, with no number of ours in it."""
    types = page.client.get("/api/types").json()["treatments"]
    assert len(types) > 8
    for type_ in types:
        value = {**type_["document"], "openings": ["window-west"]}
        patch = [{"op": "replace", "path": f"/{PAIR}", "value": value}]
        answer = page.post("/rooms/living/try", {"wall": "CD", "live": True, "patch": patch})
        assert answer.status_code == 200, (type_["type"], answer.text)
        assert set(value.get("hardware", {})) <= {"kind"}


def test_an_elevation_is_had_as_a_file(page: Any) -> None:
    """As DXF, PDF and SVG; without its wall it is refused."""
    for format_, start in (("dxf", b"  0"), ("pdf", b"%PDF"), ("svg", b"<svg")):
        answer = page.client.get(
            f"/api/jobs/{page.job}/sheet",
            params={"room": "living", "view": "elevation", "wall": "CD", "format": format_},
        )
        assert answer.status_code == 200
        assert answer.content.startswith(start)
    bare = page.client.get(f"/api/jobs/{page.job}/sheet", params={"room": "living", "view": "elevation"})
    assert bare.status_code == 422 or bare.status_code == 400


def test_curtains_are_drawn_shut_where_that_is_asked(page: Any) -> None:
    """Shut, the two panels meet in the middle of the rod; back, they stand at its ends."""

    def panels(**more: str) -> list[Any]:
        thing = next(t for t in face(page, **more)["things"] if t["path"] == PAIR)
        return [[ring[0][0], ring[1][0]] for ring in thing["parts"][:2]]

    back, shut = panels(), panels(shut="1")
    assert back[0][1] < back[1][0] - 0.3
    assert shut[0][1] == pytest.approx(shut[1][0], abs=1e-4)


def test_the_file_is_drawn_as_the_page_shows_it(page: Any) -> None:
    """Asked with curtains shut, the file has them shut: its cloth is the page's, stroke for stroke."""

    def cloth(shut: str) -> tuple[list[str], list[str]]:
        asked = {"room": "living", "view": "elevation", "wall": "CD", "format": "svg", "shut": shut}
        file = page.client.get(f"/api/jobs/{page.job}/sheet", params=asked).text
        found = []
        for ink in (file, page.get(f"/rooms/living/view?view=elevation&wall=CD&shut={shut}")["svg"]):
            group = next(g for g in ink.split("<g ") if f'data-path="{PAIR}"' in g and "CLTH" in g)
            found.append([part.split('"')[0] for part in group.split(' d="')[1:]])
        return found[0], found[1]

    shut, back = cloth("1"), cloth("0")
    assert shut[0] == shut[1] != []
    assert back[0] == back[1] != shut[0]
