"""The store on both databases: each contract test runs once on SQLite and once on PostgreSQL."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from halfdrop.store import Store
from tests.store.server import Server, programs

#: Returns the place of a new, empty store.
Place = Callable[[], str]


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    """A PostgreSQL server, started for the tests; without one its tests are skipped, under `CI=true` they fail."""
    bin = programs()
    if bin is None:
        reason = (
            "PostgreSQL is not installed: the store is NOT tested on it; run tools/setup_tests.sh as root"
        )
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    started = Server(bin)
    started.start()
    yield started
    started.remove()


@pytest.fixture
def postgres(server: Server) -> Iterator[Server]:
    """The PostgreSQL server, whose databases are a test's own until it ends."""
    yield server
    server.take_back()


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    """Places of new stores in each of the two databases."""
    if request.param == "postgresql":
        postgres: Server = request.getfixturevalue("postgres")
        return postgres.new
    numbers = iter(range(1000))
    return lambda: str(tmp_path / f"store{next(numbers)}.db")


class Clock:
    """A clock that moves on by a second at each look."""

    def __init__(self) -> None:
        self.time = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        """Return the next second."""
        self.time += timedelta(seconds=1)
        return self.time


@pytest.fixture
def store(place: Place) -> Iterator[Store]:
    """A new, empty store."""
    opened = Store.open(place(), now=Clock())
    yield opened
    opened.close()
