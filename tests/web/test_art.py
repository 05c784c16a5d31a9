"""Art over HTTP: what a room has, where it could hang, the numbers of a work that is moved."""

from __future__ import annotations

from typing import Any

import pytest


def test_a_room_s_works_and_what_they_may_hang_over(page: Any) -> None:
    """The living room has two that hang and three that wait; the sofa and the hearth are places."""
    found = page.get("/rooms/living/art")
    walls = {w["id"]: w["wall"] for w in found["works"]}
    assert walls == {"harbor": "AB", "carnival": "DA", "gull": None, "tern": None, "heron": None}
    assert {"sofa", "hearth"} <= {o["id"] for o in found["overs"]}


def test_ways_are_patches_and_nothing_is_kept(page: Any) -> None:
    """Three clusters of three, each applied by its patch; the job's revision stays."""
    before = page.get("")["revision"]
    answer = page.post(
        "/rooms/living/hang",
        {"art": ["gull", "tern", "heron"], "form": "cluster", "wall": "CD", "gap": "2 in"},
    )
    assert answer.status_code == 200, answer.text
    found = answer.json()
    assert (found["wall"], found["over"], len(found["ways"])) == ("CD", None, 3)
    for way in found["ways"]:
        tried = page.post("/rooms/living/try", {"patch": way["patch"], "wall": "CD", "live": True})
        assert tried.status_code == 200, tried.text
        assert {t["id"] for t in tried.json()["things"] if t["kind"] == "art"} == {"gull", "tern", "heron"}
        assert all(len(w["hooks"]) == 1 for w in way["works"])
    assert page.get("")["revision"] == before


@pytest.mark.parametrize(
    ("body", "says"),
    [
        ({"art": ["gull"], "wall": "CD", "gap": "three fingers"}, "gap"),
        ({"art": ["gull"], "wall": "AC"}, "no wall of this room"),
        ({"art": ["gul"], "wall": "CD"}, "there is no work `gul`"),
        ({"art": ["gull"]}, "where they are to hang is not said"),
        ({"art": [], "wall": "CD"}, "art"),
        ({"art": ["gull"], "over": "sfa"}, "nothing called `sfa`"),
    ],
)
def test_what_is_asked_wrongly_is_refused_in_words(page: Any, body: dict[str, Any], says: str) -> None:
    """Every refusal is 422 with a message."""
    answer = page.post("/rooms/living/hang", body)
    assert answer.status_code == 422
    assert says in answer.json()["error"]["message"]


def test_the_two_numbers_follow_a_hand(page: Any) -> None:
    """10 cm to the left is 10 cm nearer to the left corner, while nothing is kept."""
    move = {"path": "rooms/living/art/carnival", "dx": -0.1016, "dy": 0.0, "turn": 0.0, "exact": True}
    still = {**move, "dx": 0.0}
    facts = []
    for one in (still, move):
        tried = page.post("/rooms/living/try", {"move": one, "wall": "DA", "live": True}).json()
        work = next(t for t in tried["things"] if t["id"] == "carnival")
        facts.append(dict(work["facts"])["left hook"])
    assert facts[0] != facts[1]
    assert facts[0].startswith("7′ 7 3⁄16″ from corner A")
    assert facts[1].startswith("7′ 3 3⁄16″ from corner A")


def test_hooks_stand_where_their_two_numbers_say(page: Any) -> None:
    """Each hook is inside its frame; its dimensions run level from the corner and plumb from the floor, and say what the slip says."""
    view = page.get("/rooms/living/view?view=elevation&wall=DA")
    work = next(t for t in view["things"] if t["id"] == "carnival")
    xs, ys = zip(*work["footprint"], strict=True)
    said = [text for label, text in work["facts"] if "hook" in label]
    assert len(work["hooks"]) == len(said) >= 1
    for hook, text in zip(work["hooks"], said, strict=True):
        (x, y), (along, up) = hook["at"], hook["dims"]
        assert min(xs) < x < max(xs)
        assert min(ys) < y < max(ys)
        assert along["p"] == [0.0, y]
        assert up["p"] == pytest.approx([x, 0.0], abs=0.02)
        assert (
            text == f"{along['text']} from corner {text.split('corner ')[1][0]}, {up['text']} above the floor"
        )
