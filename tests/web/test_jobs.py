"""Jobs over HTTP: begun, listed, changed, undone, read out again."""

from __future__ import annotations

import pytest

from halfdrop.services.workbench_jobs import demo_text
from tests.web.conftest import PATCH, Page

SOFA = "/rooms/living/pieces/sofa"


def test_a_new_store_has_no_job_and_the_demo_begins_one(client) -> None:
    """The first run: an empty list, then the demo with its rooms and what it waits for."""
    assert client.get("/api/jobs").json() == {"jobs": []}
    begun = client.post("/api/jobs", json={"start": "demo"})
    assert begun.status_code == 201
    (line,) = client.get("/api/jobs").json()["jobs"]
    assert line["id"] == begun.json()["id"]
    assert line["revision"] == begun.json()["revision"] == 1
    assert "Living room" in line["rooms"]
    assert line["waits"] == "tie AD of the bedroom to be taped again"


def test_a_new_job_has_the_rooms_asked_for(client) -> None:
    """`new` begins a job with a room of each use, in the units asked for."""
    body = {
        "start": "new",
        "name": "Lark House",
        "client": "A. Client",
        "units": "metric",
        "rooms": ["living", "bedroom"],
    }
    job = client.post("/api/jobs", json=body).json()["id"]
    read = client.get(f"/api/jobs/{job}").json()
    assert [r["id"] for r in read["rooms"]] == ["living", "bedroom"]
    assert read["document"]["job"]["client"] == "A. Client"
    assert read["document"]["job"]["units"] == "metric"


def test_a_job_file_comes_out_as_it_went_in(client) -> None:
    """A file taken in and given out again is the same text, comments too; a change alters its own line only."""
    text = demo_text()
    job = client.post("/api/jobs", json={"start": "file", "name": "quince.yaml", "text": text}).json()["id"]
    assert client.get(f"/api/jobs/{job}/file").text == text
    page = Page(client, job)
    assert (
        page.patch([{"op": "replace", "path": "/job/name", "value": "Quince Court 4"}], 1).status_code == 200
    )
    changed = client.get(f"/api/jobs/{job}/file").text
    assert changed == text.replace("name: Quince Court, flat 3", "name: Quince Court 4", 1)


def test_a_hostile_job_file_is_refused_with_its_lines(client) -> None:
    """A file that swells, or is no job, is refused with where and why; nothing is kept."""
    bomb = "halfdrop: 1\na: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [{','.join(['*' + chr(97 + i)] * 9)}]\n" for i in range(9)
    )
    for text in (
        bomb,
        "[1, 2",
        "halfdrop: 1\nrooms: 3\n",
        "{" * 5000,
        "halfdrop: 1\njob: {name: !!python/object:os.system x}",
    ):
        answer = client.post("/api/jobs", json={"start": "file", "name": "x.yaml", "text": text})
        assert answer.status_code in (413, 422), (text[:40], answer.text)
        assert answer.json()["error"]["kind"] in ("input", "too-large")
    assert client.get("/api/jobs").json() == {"jobs": []}


def test_a_job_that_names_a_house_file_opens_no_path(client, tmp_path) -> None:
    """A path written in a job that came in from outside is never opened."""
    house = tmp_path / "house.toml"
    house.write_text("[seating]\n")
    text = demo_text().replace("practice:\n  set: us", f"practice:\n  set: us\n  file: {house}", 1)
    answer = client.post("/api/jobs", json={"start": "file", "name": "x.yaml", "text": text})
    assert answer.status_code == 422
    assert "house practice file" in answer.json()["error"]["message"]


def test_a_change_says_the_revision_it_was_made_on(page) -> None:
    """Without If-Match 428, with another body type 415, with no JSON 400, on no revision 422."""
    url = f"/api/jobs/{page.job}"
    patch = '[{"op":"replace","path":"/job/name","value":"x"}]'
    send = page.client.request
    assert send("PATCH", url, content=patch, headers={"content-type": PATCH}).status_code == 428
    tag = {"if-match": '"1"'}
    assert send("PATCH", url, content=patch, headers={"content-type": "text/plain", **tag}).status_code == 415
    assert send("PATCH", url, content="[", headers={"content-type": PATCH, **tag}).status_code == 400
    assert send("PATCH", url, content="[" * 100000, headers={"content-type": PATCH, **tag}).status_code == 400
    assert (
        send(
            "PATCH",
            url,
            content='[{"op":"test","path":"/a","value":NaN}]',
            headers={"content-type": PATCH, **tag},
        ).status_code
        == 400
    )
    assert (
        send("PATCH", url, content=patch, headers={"content-type": PATCH, "if-match": "latest"}).status_code
        == 400
    )
    assert page.patch([{"op": "replace", "path": "/job/name", "value": "x"}], 9).status_code == 422
    assert page.get("")["revision"] == 1


def test_a_change_is_kept_and_taken_back_and_brought_again(page) -> None:
    """Edit, undo, redo: each a revision that says what it did; the document goes with it."""
    before = page.get("")["document"]
    done = page.patch([{"op": "replace", "path": f"{SOFA}/at/along", "value": "60 in"}], 1).json()
    assert (done["revision"], done["merged"], done["message"]) == (2, False, "sofa moved")
    after = page.get("")["document"]
    undone = page.post("/undo", {}, headers={"halfdrop-author": "ines"}).json()
    assert (undone["revision"], undone["undid"]) == (3, "sofa moved")
    assert page.get("")["document"] == before
    assert page.post("/redo", headers={"halfdrop-author": "ines"}).json()["redid"] == "sofa moved"
    assert page.get("")["document"] == after
    kinds = [r["kind"] for r in page.get("/revisions")["revisions"]]
    assert kinds == ["redo", "undo", "edit", "begun"]
    assert [r["revision"] for r in page.get("/revisions", params={"since": 2})["revisions"]] == [3, 4]


def test_nothing_to_undo_is_said(page) -> None:
    """An undo with nothing to take back is no bug."""
    answer = page.post("/undo", {"author": "ines"})
    assert answer.status_code == 422
    assert "nothing" in answer.json()["error"]["message"]


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (f"{SOFA}/width", "wide"),
        (f"{SOFA}/color", "red"),
        ("/rooms/living/openings/door/along", "40 ft"),
        ("/halfdrop", 2),
    ],
)
def test_a_change_to_no_valid_job_is_refused_whole(page, path: str, value: object) -> None:
    """A patch whose second operation spoils the job keeps neither of its operations."""
    patch = [
        {"op": "replace", "path": "/job/name", "value": "x"},
        {"op": "add", "path": path, "value": value},
    ]
    answer = page.patch(patch, 1)
    assert answer.status_code == 422, answer.text
    error = answer.json()["error"]
    assert error["message"]
    assert error["kind"] == "input"
    assert page.get("")["revision"] == 1
    assert page.get("")["document"]["job"]["name"] == "Quince Court, flat 3"


def test_a_survey_is_kept_as_taped_even_where_it_does_not_close(page) -> None:
    """A wall typed ten times too long is kept, said, and does not hide the other rooms."""
    answer = page.patch([{"op": "replace", "path": "/rooms/dining/survey/walls/AB", "value": "120'"}], 1)
    assert answer.status_code == 200
    report = page.get("/survey/dining")
    assert not report["whole"] or report["verdict"] != "closed"
    assert report["advice"]
    assert page.get("/rooms/living/view")["findings"]
    (line,) = page.client.get("/api/jobs").json()["jobs"]
    assert line["waits"] == "wall AB of the dining room to be taped again"


def test_a_half_typed_survey_waits_for_its_walls(page) -> None:
    """A room with one wall taped is kept; its view says what is missing, its report is no error."""
    patch = [
        {
            "op": "replace",
            "path": "/rooms/dining/survey",
            "value": {"corners": "A B C D", "walls": {"AB": "12'"}},
        }
    ]
    assert page.patch(patch, 1).status_code == 200
    assert page.get("/survey/dining")["whole"] is False
    view = page.client.get(f"/api/jobs/{page.job}/rooms/dining/view")
    assert view.status_code == 422
    rooms = {r["id"]: r for r in page.get("")["rooms"]}
    assert rooms["dining"]["whole"] is False
    assert rooms["living"]["whole"] is True


def test_the_same_change_sent_twice_is_kept_once(page) -> None:
    """A change with the sender's mark, sent again after a lost answer, gives the first answer again; a step too."""
    for base, query in ((1, {}), (2, {"scheme": "first"})):
        headers = {"If-Match": f'"{base}"', "Content-Type": PATCH, "Halfdrop-Change": f"mark-{base}"}
        patch = [{"op": "replace", "path": f"{SOFA}/at/along", "value": f"{60 + base} in"}]
        sent = {"json": patch, "headers": headers, "params": query}
        first, again = (page.client.request("PATCH", f"/api/jobs/{page.job}", **sent) for _ in range(2))
        assert first.status_code == again.status_code == 200
        assert first.json()["revision"] == again.json()["revision"] == base + 1
    assert page.get("")["revision"] == 3


def test_a_removed_job_is_gone(page) -> None:
    """DELETE removes; afterwards 404 in the one error shape."""
    assert page.client.delete(f"/api/jobs/{page.job}").status_code == 204
    answer = page.client.get(f"/api/jobs/{page.job}")
    assert answer.status_code == 404
    assert answer.json()["error"]["kind"] == "missing"


def test_a_file_that_comes_back_is_told_and_then_taken(page) -> None:
    """Told it changes nothing; taken it is one revision; a broken one is refused with its line, a torn body in our shape."""
    text = page.client.get(f"/api/jobs/{page.job}/file").text
    edited = text.replace("name: Quince Court, flat 3", "name: Quince Court", 1)
    assert edited != text
    told = page.post("/file", {"name": "quince.yaml", "text": edited}).json()
    assert [(c["was"], c["now"]) for c in told["changes"]] == [("Quince Court, flat 3", "Quince Court")]
    assert (told["base"], told["revision"]) == (1, None)
    assert page.get("")["revision"] == 1
    done = page.post("/file", {"name": "quince.yaml", "text": edited, "base": 1, "take": True}).json()
    assert done["revision"] == page.get("")["revision"] == 2
    assert page.post("/undo", {}).status_code == 200
    assert page.get("")["document"]["job"]["name"] == "Quince Court, flat 3"
    answer = page.post("/file", {"name": "quince.yaml", "text": "rooms: [", "take": True})
    assert (answer.status_code, answer.json()["error"]["kind"]) == (422, "input")
    assert answer.json()["error"]["at"]["line"]
    assert page.post("/file", {"name": "q.yaml", "text": text, "base": 99}).status_code == 404
    assert page.post("/file", {"text": 3}).status_code == 422
    assert page.get("")["revision"] == 3


def test_an_undo_sent_twice_takes_back_once(page) -> None:
    """Its answer lost, an undo is sent again under its mark: the same answer, and no second change is taken back."""
    for n, name in enumerate(("one", "two"), 1):
        assert page.patch([{"op": "replace", "path": "/job/name", "value": name}], n).status_code == 200
    mark = {"Halfdrop-Change": "a" * 32, "Halfdrop-Author": "ines"}
    first, again = (page.post("/undo", {}, headers=mark).json() for _ in range(2))
    assert first == again
    assert page.get("")["document"]["job"]["name"] == "one"
    assert page.get("")["revision"] == 4
    mark["Halfdrop-Change"] = "b" * 32
    first, again = (page.post("/redo", {}, headers=mark).json() for _ in range(2))
    assert first == again
    assert page.get("")["document"]["job"]["name"] == "two"
