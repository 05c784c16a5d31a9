"""A workbench over a new store: asked directly, or listening on a port of this machine."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx2 as httpx
import pytest
import uvicorn
from starlette.testclient import TestClient

from halfdrop.store import Store
from halfdrop.web.app import Site, make_site
from halfdrop.web.serve import bind

PATCH = "application/json-patch+json"


@dataclass
class Page:
    """What an open page does: asks, with a job of its own."""

    client: Any
    job: str

    def get(self, path: str, **more: Any) -> Any:
        """Return the JSON of a successful answer."""
        answer = self.client.get(f"/api/jobs/{self.job}{path}", **more)
        assert answer.status_code == 200, answer.text
        return answer.json()

    def patch(self, patch: Any, base: int, *, author: str = "ines", **query: Any) -> Any:
        """Send a change, and return the answer."""
        headers = {"If-Match": f'"{base}"', "Halfdrop-Author": author, "Content-Type": PATCH}
        return self.client.request(
            "PATCH", f"/api/jobs/{self.job}", json=patch, headers=headers, params=query
        )

    def post(self, path: str, body: Any = None, **more: Any) -> Any:
        """Send a body, and return the answer."""
        return self.client.post(f"/api/jobs/{self.job}{path}", json=body, **more)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A new store in a file."""
    opened = Store.open(tmp_path / "jobs.db")
    yield opened
    opened.close()


@pytest.fixture
def site(store: Store) -> Iterator[Site]:
    """A workbench whose heavy work runs on threads."""
    made = make_site(store, executor=lambda: ThreadPoolExecutor(2))
    yield made
    made.desk.tasks.close()


@pytest.fixture
def client(site: Site) -> Iterator[TestClient]:
    """A client that asks the workbench as its own page does."""
    with TestClient(site.asgi, base_url="http://localhost", raise_server_exceptions=False) as opened:
        yield opened


def begun(client: Any) -> Page:
    """Begin the demo and return a page on it."""
    answer = client.post("/api/jobs", json={"start": "demo"})
    assert answer.status_code == 201, answer.text
    return Page(client, answer.json()["id"])


@pytest.fixture
def page(client: TestClient) -> Page:
    """A page on the demo job."""
    return begun(client)


@pytest.fixture
def live(site: Site) -> Iterator[httpx.Client]:
    """The workbench listening on a port, and a client of it."""
    sock = bind("127.0.0.1", 0)
    config = uvicorn.Config(site.asgi, log_level="warning", timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [sock]})
    thread.start()
    while not server.started:
        time.sleep(0.01)
    port = sock.getsockname()[1]
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=30, trust_env=False) as opened:
        yield opened
    site.desk.hub.close()
    server.should_exit = True
    thread.join(10)
    sock.close()
    assert not thread.is_alive()
