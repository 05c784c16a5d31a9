"""The page under a hand: from a drag's question to findings on the page, and the first load.

Reference: the library's own audit after the same move, in the same run. Needs Chromium and Playwright; says so without.
"""

from __future__ import annotations

import itertools
import json
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from typing import Any

from bench.audit import best
from bench.rooms import job
from halfdrop.audit.auditor import Auditor
from halfdrop.job.write import dump_job
from halfdrop.services.workbench import Workbench
from halfdrop.services.workbench_jobs import begin_demo
from halfdrop.store import Store

ARGUMENTS = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
             "--disable-component-update", "--disable-sync"]  # fmt: skip
PIECES = 25
MOVES = 60
PAIR = "rooms/living/treatments/west-pair"

#: Wraps `fetch`: notes when a question to `try` is asked, and when two frames have been painted after its answer.
WATCH = """
(() => {
  const plain = window.fetch;
  window.__asked = [];
  window.fetch = async (...args) => {
    const url = String(args[0]?.url || args[0]);
    if (!url.includes("/try")) return plain(...args);
    const start = performance.now();
    const answer = await plain(...args);
    requestAnimationFrame(() => requestAnimationFrame(() => window.__asked.push(performance.now() - start)));
    return answer;
  };
})();
"""


def _ask(url: str, body: Any) -> Any:
    request = urllib.request.Request(url, json.dumps(body).encode(), {"Content-Type": "application/json"})
    with urllib.request.urlopen(request, timeout=30) as answer:
        return json.loads(answer.read())


def _audit() -> float:
    state = Auditor.of(job(1, PIECES))
    state.findings()
    places = iter(range(10_000))

    def move() -> object:
        x = f"{1500 + 7 * next(places)} mm"
        patch = [{"op": "replace", "path": "/rooms/r0/pieces/p0/at/x", "value": x}]
        return state.after(patch).findings("r0")

    return best(move, 15)


def _wall() -> None:
    """Print how long a rod raised on a wall's elevation takes to be judged, against the audit of the same patch."""
    with tempfile.TemporaryDirectory() as name:
        desk, rises = Workbench(Store.open(f"{name}/jobs.db")), itertools.count(1)
        made = begin_demo(desk, author="bench")

        def rod() -> dict[str, Any]:
            rise = 0.001 * next(rises)
            return {"path": PAIR, "dx": 0.0, "dy": rise, "turn": 0.0, "exact": True, "handle": None}

        ours = best(lambda: desk.tried(made.id, "living", move=rod(), live=True, wall="CD"), 15)
        drawn = best(lambda: desk.tried(made.id, "living", move=rod(), wall="CD"), 5)
        state = Auditor.of(made.document)
        state.findings()
        high = itertools.count(2300)

        def audit() -> object:
            path = f"/{PAIR}/hardware/height"
            return state.after([{"op": "replace", "path": path, "value": f"{next(high)} mm"}]).findings(
                "living"
            )

        own = best(audit, 15)
    print("\na rod raised on the demo's window wall")
    print(f"  judged: {ours * 1e3:.0f} ms; drawn anew too: {drawn * 1e3:.0f} ms")
    print(f"  the library's own audit of the same move: {own * 1e3:.0f} ms; ratio {ours / own:.1f}")


def main() -> None:
    """Print the times and the ratio."""
    _wall()
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        print("\nthe page: not measured, playwright is not installed")
        return
    chromium = shutil.which("chromium")
    if chromium is None:
        print("\nthe page: not measured, there is no chromium (tools/setup_tests.sh installs it)")
        return
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        store, said = Path(name) / "jobs.db", Path(name) / "said.txt"
        with said.open("w") as log:
            server = subprocess.Popen(
                [
                    sys.executable,
                    "-m",
                    "halfdrop",
                    "open",
                    "--port",
                    "0",
                    "--store",
                    str(store),
                    "--no-browser",
                ],
                stdout=log,
                stderr=log,
            )
        try:
            while "workbench: " not in said.read_text():
                time.sleep(0.05)
            url = said.read_text().split("workbench: ")[1].split()[0].rstrip("/#")
            text = dump_job(job(1, PIECES), "json")
            made = _ask(f"{url}/api/jobs", {"start": "file", "name": "measured.json", "text": text})
            browser = playwright.chromium.launch(executable_path=chromium, args=ARGUMENTS)
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            page.add_init_script(WATCH)
            sizes: list[int] = []
            page.on("response", lambda r: sizes.append(int(r.headers.get("content-length", 0))))
            start = time.perf_counter()
            page.goto(f"{url}/#/{made['id']}/plan/r0")
            page.wait_for_selector("#plan-drawing svg [data-path]")
            page.wait_for_selector("li.note")
            loaded = time.perf_counter() - start
            box = page.locator('#plan-drawing svg [data-path="rooms/r0/pieces/p0"]').first.bounding_box()
            assert box is not None
            x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
            page.mouse.move(x, y)
            page.mouse.down()
            for i in range(MOVES):
                page.mouse.move(x + 5 + i, y)
                page.wait_for_timeout(25)
            page.keyboard.press("Escape")
            page.wait_for_timeout(300)
            drags = page.evaluate("window.__asked")
            browser.close()
        finally:
            server.terminate()
            server.wait()
    own = _audit()
    middle = statistics.median(drags) / 1e3
    print(f"\nthe page, a room of {PIECES} pieces")
    print(
        f"  first load: {sum(sizes) / 1024:.0f} KiB in {len(sizes)} answers, {loaded:.2f} s to drawing and notes"
    )
    print(
        f"  from a drag's question to findings painted: median {middle * 1e3:.0f} ms of {len(drags)}, worst {max(drags):.0f} ms"
    )
    print(f"  the library's own audit of the same move: {own * 1e3:.0f} ms; ratio {middle / own:.1f}")
