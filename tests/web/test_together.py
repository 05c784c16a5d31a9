"""Two people in one job: what is different merges, what is the same is shown to the second."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

SOFA = "/rooms/living/pieces/sofa/at/along"
LAMP = "/rooms/living/pieces/floor-lamp/at/along"


def put(path: str, value: str) -> list[dict[str, str]]:
    return [{"op": "replace", "path": path, "value": value}]


def test_different_things_merge(page) -> None:
    """Made on the same revision, two changes of different things are both kept; the second says it was merged."""
    assert page.patch(put(SOFA, "60 in"), 1, author="ines").json()["merged"] is False
    second = page.patch(put(LAMP, "8 in"), 1, author="bram").json()
    assert (second["revision"], second["merged"]) == (3, True)
    pieces = page.get("")["document"]["rooms"]["living"]["pieces"]
    assert pieces["sofa"]["at"]["along"] == "60 in"
    assert pieces["floor-lamp"]["at"]["along"] == "8 in"


def test_the_same_thing_is_shown_the_others_change(page) -> None:
    """Made on the same revision, a second change of the same thing is refused with the first, and where they meet."""
    page.patch(put(SOFA, "60 in"), 1, author="ines")
    answer = page.patch(put(SOFA, "50 in"), 1, author="bram")
    assert answer.status_code == 409
    body = answer.json()
    assert body["error"]["kind"] == "conflict"
    assert [(r["author"], r["revision"]) for r in body["revisions"]] == [("ines", 2)]
    assert body["meets"] == [SOFA]
    assert page.get("")["document"]["rooms"]["living"]["pieces"]["sofa"]["at"]["along"] == "60 in"


def test_steps_of_one_scheme_merge_where_they_change_different_things(page) -> None:
    """Two steps put at the end of the same scheme are no conflict by that; two moves of the same thing are."""
    assert page.patch(put(SOFA, "60 in"), 1, scheme="first").status_code == 200
    assert page.patch(put(LAMP, "8 in"), 2, scheme="first", author="ines").status_code == 200
    rug = put("/rooms/living/rugs/heirloom/at/x", "100 in")
    assert page.patch(rug, 2, scheme="first", author="bram").status_code == 200
    steps = page.get("")["document"]["schemes"]["first"]["steps"]
    assert [s["patch"][0]["path"] for s in steps] == [SOFA, LAMP, rug[0]["path"]]
    assert page.patch(put(LAMP, "9 in"), 2, scheme="first", author="bram").status_code == 409


def test_the_first_steps_of_one_scheme_merge(page) -> None:
    """An empty scheme, open on two desks: the first step of each is kept, and each can be taken back by itself."""
    begun = [{"op": "add", "path": "/schemes", "value": {"first": {"name": "First", "steps": []}}}]
    assert page.patch(begun, 1).status_code == 200
    for author, patch in (("ines", put(SOFA, "60 in")), ("bram", put(LAMP, "8 in"))):
        answer = page.patch(patch, 2, scheme="first", author=author)
        assert answer.status_code == 200, answer.text
    assert page.post("/undo", {"author": "ines"}).status_code == 200
    (left,) = page.get("")["document"]["schemes"]["first"]["steps"]
    assert left["patch"] == put(LAMP, "8 in")


def test_two_that_together_give_no_valid_job_are_not_both_kept(page) -> None:
    """One removes a rug, the other lays another over it: each is valid alone; the second is refused."""
    rug = {"width": "4'", "length": "6'", "at": {"x": "108 in", "y": "88 in"}, "over": "heirloom"}
    assert page.patch([{"op": "remove", "path": "/rooms/living/rugs/heirloom"}], 1).status_code == 200
    answer = page.patch([{"op": "add", "path": "/rooms/living/rugs/small", "value": rug}], 1, author="bram")
    assert answer.status_code == 409


def test_an_undo_that_meets_a_later_change_names_it(page) -> None:
    """Undoing what another has built on is refused with the other's revision."""
    page.patch(put(SOFA, "60 in"), 1, author="ines")
    page.patch(put(SOFA, "50 in"), 2, author="bram")
    answer = page.post("/undo", {"author": "ines"})
    assert answer.status_code == 409
    assert answer.json()["revisions"][0]["author"] == "bram"


def test_many_at_once_lose_nothing(live) -> None:
    """Eight hands, each with a thing of its own, twenty changes each on the first revision they saw: all are kept."""
    from tests.web.conftest import begun

    page = begun(live)
    things = [f"/rooms/dining/pieces/chair-{n}/note" for n in range(1, 7)] + [
        "/rooms/living/note",
        "/rooms/hall/note",
    ]

    def work(path: str) -> list[int]:
        base, kept = 1, []
        for k in range(20):
            answer = page.patch([{"op": "add", "path": path, "value": f"{k}"}], base, author=path[-12:])
            assert answer.status_code == 200, answer.text
            base = answer.json()["revision"]
            kept.append(base)
        return kept

    with ThreadPoolExecutor(8) as pool:
        kept = [n for numbers in pool.map(work, things) for n in numbers]
    assert sorted(kept) == list(range(2, 162))
    document = page.get("")["document"]["rooms"]
    assert {c["note"] for i, c in document["dining"]["pieces"].items() if i.startswith("chair")} == {"19"}
    assert document["living"]["note"] == document["hall"]["note"] == "19"
