"""`halfdrop open`, as it is run: it prints its address, stops on Ctrl-C, and loses nothing to a kill."""

from __future__ import annotations

import json
import os
import random
import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx2 as httpx
import pytest

from halfdrop.services.workbench_jobs import demo_text
from halfdrop.store import Store
from tests.web.conftest import PATCH

#: Bounded, so that the suite stays quick.
KILLS = 3


class Running:
    """A workbench in a process of its own."""

    def __init__(self, store: Path, *arguments: str) -> None:
        environment = {k: v for k, v in os.environ.items() if k != "HALFDROP_STORE"}
        command = [
            sys.executable,
            "-m",
            "halfdrop",
            "open",
            "--store",
            str(store),
            "--no-browser",
            "--port",
            "0",
        ]
        self.process = subprocess.Popen(
            [*command, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
            env={**environment, "PYTHONUNBUFFERED": "1"},
        )  # fmt: skip
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        match = re.fullmatch(r"workbench: (http://\S+)\n", line)
        if match is None:
            self.kill()
            raise AssertionError(f"it did not start: {line!r}")
        self.address = match[1]
        self.url = self.address.split("/#")[0].split("/enter")[0].rstrip("/")

    def kill(self) -> None:
        """End it hard, as a power cut would; the second time is nothing."""
        self.process.kill()
        self.process.communicate(timeout=30)

    def end(self, how: int) -> tuple[int, str, str]:
        self.process.send_signal(how)
        out, err = self.process.communicate(timeout=30)
        return self.process.returncode, out, err


@pytest.fixture
def run() -> Iterator[Callable[..., Running]]:
    """Starts workbenches; none outlives its test."""
    started: list[Running] = []

    def start(store: Path, *arguments: str) -> Running:
        started.append(Running(store, *arguments))
        return started[-1]

    yield start
    for one in started:
        one.kill()


def test_it_opens_a_file_once_and_stops_cleanly(run, tmp_path: Path) -> None:
    """The file is taken in and its job opened; a second time it is the same job; a changed file is said to differ."""
    file, store = tmp_path / "quince.yaml", tmp_path / "jobs.db"
    file.write_text(demo_text())
    said = []
    for text in (demo_text(), demo_text(), demo_text().replace("flat 3", "flat 4")):
        file.write_text(text)
        running = run(store, str(file))
        with httpx.Client(base_url=running.url, trust_env=False) as client:
            jobs = client.get("/api/jobs").json()["jobs"]
            assert len(jobs) == 1
            assert running.address.endswith(f"/#/{jobs[0]['id']}")
        code, _, err = running.end(signal.SIGINT)
        assert code == 0, err
        assert "Traceback" not in err
        assert "everything is kept" in err
        said.append(err)
    assert "taken into the store" in said[0]
    assert "in the store already" in said[1]
    assert "differ" in said[2]
    assert file.read_text() == demo_text().replace("flat 3", "flat 4")


def test_it_stops_with_pages_open(run, tmp_path: Path) -> None:
    """Ctrl-C while a page listens to events stops at once."""
    running = run(tmp_path / "jobs.db")
    with httpx.Client(base_url=running.url, trust_env=False, timeout=20) as client:
        job = client.post("/api/jobs", json={"start": "demo"}).json()["id"]
        with client.stream("GET", f"/api/jobs/{job}/events") as stream:
            lines = stream.iter_lines()
            next(lines)
            code, _, err = running.end(signal.SIGINT)
            assert code == 0, err
            assert "Traceback" not in err


def test_beyond_loopback_it_prints_a_one_time_address(run, tmp_path: Path) -> None:
    """With --host 0.0.0.0 nothing is answered without the printed key; used, the next is printed."""
    running = run(tmp_path / "jobs.db", "--host", "0.0.0.0")
    port = httpx.URL(running.url).port
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", trust_env=False) as client:
        assert client.get("/api/jobs").status_code == 403
        entered = client.get(running.address.replace(running.url, ""), follow_redirects=False)
        assert entered.status_code == 303
        assert client.get("/api/jobs").status_code == 200
    code, out, err = running.end(signal.SIGINT)
    assert code == 0
    assert re.search(r"next: http://\S+/enter\?token=", out)
    assert "not encrypted" in err


@pytest.mark.parametrize(
    "arguments",
    [["--port", "99999"], ["missing.yaml"], ["--store", "mysql://x/y"], ["--host", "203.0.113.7"]],
)
def test_what_cannot_be_opened_is_said(arguments: list[str], tmp_path: Path) -> None:
    """A port, file, store or host that will not do: exit 2 or 3, an error in words, no trace."""
    command = [sys.executable, "-m", "halfdrop", "open", "--no-browser"]
    environment = {**os.environ, "HALFDROP_STORE": str(tmp_path / "jobs.db")}
    done = subprocess.run([*command, *arguments], capture_output=True, text=True, env=environment, timeout=60)
    assert done.returncode in (2, 3), done.stderr
    assert done.stderr.startswith("error: ")
    assert "Traceback" not in done.stderr


def test_killed_in_the_middle_of_edits_it_has_lost_nothing_it_acknowledged(run, tmp_path: Path) -> None:
    """Kill -9 at a random moment in the midst of three pages' edits: whatever was acknowledged is in the history when it runs again."""
    moment = random.Random(4)
    acknowledged: dict[str, int] = {}
    job = ""
    for _ in range(KILLS):
        running = run(tmp_path / "jobs.db")
        with httpx.Client(base_url=running.url, trust_env=False, timeout=20) as client:
            job = job or client.post("/api/jobs", json={"start": "demo"}).json()["id"]
            revision = client.get(f"/api/jobs/{job}").json()["revision"]
        threads = [
            threading.Thread(target=_edit, args=(running.url, job, revision, room, acknowledged))
            for room in ("living", "dining", "hall")
        ]
        wanted = len(acknowledged) + 4
        for thread in threads:
            thread.start()
        end = time.monotonic() + 30
        while len(acknowledged) < wanted and time.monotonic() < end:
            time.sleep(0.01)
        killer = threading.Timer(moment.uniform(0.0, 0.4), running.process.kill)
        killer.start()
        for thread in threads:
            thread.join(60)
        killer.join()
        running.kill()
    assert len(acknowledged) > 10
    store = Store.open(tmp_path / "jobs.db")
    kept = {r.message: r.number for r in store.revisions(job)}
    store.close()
    assert {m: n for m, n in acknowledged.items() if kept.get(m) != n} == {}


def _edit(url: str, job: str, base: int, room: str, acknowledged: dict[str, int]) -> None:
    with httpx.Client(base_url=url, trust_env=False, timeout=20) as client:
        for k in range(1000):
            message = f"{room} {base} {k}"
            headers = {"if-match": f'"{base}"', "content-type": PATCH, "halfdrop-message": message}
            patch = json.dumps([{"op": "add", "path": f"/rooms/{room}/note", "value": message}])
            try:
                answer = client.request("PATCH", f"/api/jobs/{job}", content=patch, headers=headers)
            except httpx.HTTPError:
                return
            assert answer.status_code == 200, answer.text
            acknowledged[message] = base = answer.json()["revision"]
