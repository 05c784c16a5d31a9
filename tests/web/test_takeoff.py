"""The take-off and the install sheets over HTTP: tasks whose results are JSON and PDF."""

from __future__ import annotations

import time
from typing import Any

from tests.web.conftest import Page


def _done(page: Page, answer: Any) -> Any:
    assert answer.status_code == 202, answer.text
    task = answer.json()["task"]
    for _ in range(600):
        one = page.client.get(f"/api/tasks/{task}").json()
        if one["state"] in ("done", "failed"):
            return one
        time.sleep(0.05)
    raise AssertionError("the task did not end")


def test_a_count_gives_quantities_and_drawn_sheets(page: Page) -> None:
    """One task: every line with its working, every sheet with its drawings, which carry no style of their own."""
    result = _done(page, page.post("/takeoff", {}))["result"]
    assert result["revision"] == 1
    assert {"paper", "paint", "cloth"} <= {line["trade"] for line in result["takeoff"]["lines"]}
    trades = {sheet["trade"] for sheet in result["sheets"]}
    assert {"installer", "workroom", "hanger", "painter"} <= trades
    figures = [p for sheet in result["sheets"] for p in sheet["parts"] if p["kind"] == "figure"]
    assert figures
    assert all("<style" not in figure["svg"] and figure["svg"].startswith("<svg") for figure in figures)


def test_sheets_are_printed_by_trade_or_thing(page: Page) -> None:
    """A PDF of one trade, of one thing by its path; what has no sheet fails in the one shape of errors."""
    done = _done(page, page.post("/install", {"trade": "hanger"}))
    pdf = page.client.get(done["result"])
    assert pdf.headers["content-type"] == "application/pdf"
    assert pdf.content.startswith(b"%PDF")
    of = _done(page, page.post("/install", {"of": "rooms/dining/treatments/print-pair"}))
    assert of["state"] == "done"
    wrong = _done(page, page.post("/install", {"of": "nothing"}))
    assert wrong["state"] == "failed"
    assert "nothing called `nothing`" in wrong["error"]["message"]


def test_what_is_asked_wrongly_is_refused(page: Page) -> None:
    """A trade there is none of, a scheme there is none of."""
    assert page.post("/install", {"trade": "plumber"}).status_code == 422
    assert page.post("/takeoff", {"scheme": "nowhere"}).status_code in (404, 422)
