"""A workbench of its own process, and Chromium on it. Without a browser the journeys are skipped; under CI they fail."""

from __future__ import annotations

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

try:
    from playwright.sync_api import Browser, ConsoleMessage, Page, expect, sync_playwright
except ImportError:  # pragma: no cover - said by the fixture
    sync_playwright = None  # type: ignore[assignment]

ARGUMENTS = [
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
DESKTOP = {"width": 1440, "height": 900}
TABLET = {"width": 820, "height": 1180}
PHONE = {"width": 390, "height": 844}


def _missing(reason: str) -> None:
    if os.environ.get("CI") == "true":
        pytest.fail(f"the journeys need a browser: {reason}")
    pytest.skip(f"JOURNEYS NOT RUN: {reason}; run tools/setup_tests.sh")


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """Chromium with a new profile; stopped with the package, for its event loop stands in other tests' way."""
    if sync_playwright is None:
        _missing("playwright is not installed (`pip install playwright`)")
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if path is None:
        _missing("there is no chromium")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield opened
        opened.close()


class Workbench:
    """`halfdrop open` as a process of its own, on a port and a store that outlive it."""

    def __init__(self, folder: Path) -> None:
        self.store = folder / "jobs.db"
        self.log = folder / "said.txt"
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = int(free.getsockname()[1])
        self.url = f"http://127.0.0.1:{self.port}"
        self.process: subprocess.Popen[bytes] | None = None
        self.start()

    def start(self) -> None:
        """Start it, and wait until it answers."""
        code = "from halfdrop.cli import main; main()"
        command = ["open", "--port", str(self.port), "--store", str(self.store), "--no-browser"]
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-c", code, *command], stdout=log, stderr=log, start_new_session=True
            )
        until(lambda: "workbench:" in self.log.read_text(), 30)

    def kill(self) -> None:
        """Kill it where it stands, without a word."""
        assert self.process is not None
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()

    def ask(self, method: str, path: str, body: Any = None) -> Any:
        """Ask it as a page would."""
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(
            self.url + path, data, {"Content-Type": "application/json"}, method=method
        )
        with urllib.request.urlopen(request, timeout=30) as answer:
            return json.loads(answer.read())

    def demo(self) -> str:
        """Begin the demo job and return its id."""
        return str(self.ask("POST", "/api/jobs", {"start": "demo"})["id"])

    def document(self, job: str) -> Any:
        """Return a job's document as the server has it."""
        return self.ask("GET", f"/api/jobs/{job}")["document"]

    def revision(self, job: str) -> int:
        """Return a job's latest revision."""
        return int(self.ask("GET", f"/api/jobs/{job}")["revision"])


@pytest.fixture(scope="package")
def bench(tmp_path_factory: pytest.TempPathFactory, browser: Browser) -> Iterator[Workbench]:
    """One workbench for all journeys; each has a job of its own."""
    made = Workbench(tmp_path_factory.mktemp("workbench"))
    yield made
    made.kill()


@pytest.fixture
def faults() -> list[str]:
    """What went wrong on the page; a journey ends with none."""
    return []


@pytest.fixture
def page(browser: Browser, faults: list[str]) -> Iterator[Page]:
    """A page at a desk."""
    opened = new_page(browser, faults)
    yield opened
    opened.context.close()
    assert not faults, faults


def new_page(browser: Browser, faults: list[str], *, asked: bool = True, **more: Any) -> Page:
    """Open a page in a profile of its own; `asked`: it has said already that its changes are not signed."""
    context = browser.new_context(viewport=more.pop("viewport", DESKTOP), reduced_motion="reduce", **more)
    if asked:
        context.add_init_script("localStorage['halfdrop-author'] ??= ''")
    page = context.new_page()
    page.set_default_timeout(20_000)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda said: _heard(said, faults))
    return page


def _heard(said: ConsoleMessage, faults: list[str]) -> None:
    """Keep an error the page itself made; one of the line or of the server's refusal is part of a journey."""
    if said.type == "error" and "Failed to load" not in said.text and "ERR_" not in said.text:
        faults.append(said.text)


def open_plan(page: Page, bench: Workbench, job: str, room: str = "living", scheme: str = "") -> None:
    """Open a room's plan, and wait for its ink."""
    asked = f"?scheme={scheme}" if scheme else ""
    page.goto(f"{bench.url}/#/{job}/plan/{room}{asked}")
    page.wait_for_selector("#plan-drawing svg")


def pick_note(page: Page, words: str) -> Any:
    """Pick a note in the margin by its words, and return it."""
    note = page.locator("li.note", has_text=words).first
    note.locator("button.head").click()
    return page.locator("li.note.open")


def take_first_remedy(page: Page, words: str, *, scheme: str | None = None) -> str:
    """Draw a note's first remedy, look at it, and take it; begin a scheme where one is named."""
    note = pick_note(page, words)
    title = note.locator(".remedy .what").first.inner_text()
    note.locator(".remedy").first.get_by_role("button", name="Draw it").click()
    page.wait_for_selector(".remedy.shown")
    page.get_by_role("button", name="Take it", exact=True).click()
    if scheme is not None:
        page.fill("#scheme-name", scheme)
        page.get_by_role("button", name="Begin it").click()
    expect(page.locator(".strip .line")).to_contain_text("kept as revision")
    return title


def until(condition: Any, within: float = 15.0) -> None:
    """Wait until something is so."""
    end = time.monotonic() + within
    while not condition():
        assert time.monotonic() < end, "it did not come about"
        time.sleep(0.05)
