"""Server-sent events: what one page does the other is told, what a task does its page is told."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from halfdrop.store import Store
from tests.web.conftest import begun

NAME = [{"op": "replace", "path": "/job/name", "value": "Lark House"}]


def told(lines: Iterator[str]) -> Iterator[tuple[str, Any]]:
    """Yield the events of a stream, as a browser reads them."""
    name, data = "message", ""
    for line in lines:
        if line.startswith("event: "):
            name = line[7:]
        elif line.startswith("data: "):
            data += line[6:]
        elif not line and data:
            yield name, json.loads(data)
            name, data = "message", ""


def test_a_change_of_one_page_is_told_to_the_other(live) -> None:
    """`here` at first, then each revision with who and what."""
    page = begun(live)
    with live.stream("GET", f"/api/jobs/{page.job}/events") as stream:
        assert stream.headers["content-type"].startswith("text/event-stream")
        events = told(stream.iter_lines())
        assert next(events) == ("here", {"revision": 1})
        assert page.patch(NAME, 1).status_code == 200
        name, data = next(events)
        assert name == "revision"
        assert (data["revision"], data["author"], data["kind"]) == (2, "ines", "edit")
        page.post("/undo", {"author": "ines"})
        assert next(events)[1]["kind"] == "undo"
        live.delete(f"/api/jobs/{page.job}")
        assert next(events)[0] == "removed"
        assert list(events) == []


def test_what_another_process_kept_is_told_too(live, store, monkeypatch) -> None:
    """A change kept past this server, in the same store, comes within a look or two."""
    monkeypatch.setattr("halfdrop.web.routes.jobs.LOOK", 0.1)
    page = begun(live)
    with live.stream("GET", f"/api/jobs/{page.job}/events") as stream:
        events = told(stream.iter_lines())
        next(events)
        other = Store.open(store.name)
        other.append(page.job, NAME, base=1, author="bram", message="renamed")
        other.close()
        assert next(events) == (
            "revision", {"revision": 2, "author": "bram", "message": "renamed", "kind": "edit"}
        )  # fmt: skip


def test_a_page_that_comes_back_is_told_what_it_missed(live) -> None:
    """With the last event it saw, a reconnecting page gets what came after, before it is told where the job is."""
    page = begun(live)
    page.patch(NAME, 1)
    page.post("/undo", {"author": "ines"})
    with live.stream("GET", f"/api/jobs/{page.job}/events", headers={"last-event-id": "1"}) as stream:
        events = told(stream.iter_lines())
        assert [next(events)[1]["revision"] for _ in range(3)] == [2, 3, 3]


def test_a_task_tells_its_progress_and_its_end(live) -> None:
    """Progress only goes up, the last event is the end, and a stream opened afterwards tells the end at once."""
    page = begun(live)
    task = page.post("/rooms/dining/remedies").json()["task"]
    with live.stream("GET", f"/api/tasks/{task}/events") as stream:
        events = list(told(stream.iter_lines()))
    assert events[-1][0] == "done"
    assert events[-1][1]["result"]["findings"]
    steps = [data["done"] for name, data in events if name == "progress"]
    assert steps == sorted(steps)
    with live.stream("GET", f"/api/tasks/{task}/events") as stream:
        assert [name for name, _ in told(stream.iter_lines())] == ["done"]


def test_the_book_comes_as_a_task(live) -> None:
    """The book is bound piece by piece, and its result is a PDF."""
    page = begun(live)
    task = page.post("/book", {"paper": None}).json()["task"]
    early = live.get(f"/api/tasks/{task}/result")
    assert early.status_code in (200, 409)
    with live.stream("GET", f"/api/tasks/{task}/events") as stream:
        assert list(told(stream.iter_lines()))[-1][0] == "done"
    pdf = live.get(f"/api/tasks/{task}/result")
    assert pdf.headers["content-type"] == "application/pdf"
    assert pdf.content.startswith(b"%PDF")


def test_a_cancelled_task_says_so(live) -> None:
    """A task stopped by its page ends as cancelled; its result is not there."""
    page = begun(live)
    task = page.post("/book").json()["task"]
    assert live.delete(f"/api/tasks/{task}").json()["state"] == "cancelled"
    with live.stream("GET", f"/api/tasks/{task}/events") as stream:
        assert [name for name, _ in told(stream.iter_lines())] == ["cancelled"]
    assert live.get(f"/api/tasks/{task}/result").status_code == 409
    assert live.get("/api/tasks/none").status_code == 404


def test_many_open_streams_do_not_stop_a_change(live) -> None:
    """Forty pages that listen leave the server free to answer."""
    page = begun(live)

    def listen(k: int) -> int:
        with live.stream("GET", f"/api/jobs/{page.job}/events") as stream:
            for name, data in told(stream.iter_lines()):
                if name == "revision":
                    return int(data["revision"])
        return 0

    with ThreadPoolExecutor(40) as pool:
        listening = [pool.submit(listen, k) for k in range(40)]
        time.sleep(0.5)
        start = time.monotonic()
        assert page.patch(NAME, 1).status_code == 200
        assert time.monotonic() - start < 5
        assert [f.result(20) for f in listening] == [2] * 40
