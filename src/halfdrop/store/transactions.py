"""One transaction a call: what every part of the store builds on."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Engine

from halfdrop.store import documents, engine


class Transactions:
    """The database, the clock, and the latest documents."""

    def __init__(self, database: Engine, now: Callable[[], datetime]) -> None:
        self._engine = database
        self._now = now
        self._latest = documents.Latest()
        turn: Any = threading.Lock() if database.dialect.name == "sqlite" else nullcontext()
        self._turn = turn

    def close(self) -> None:
        """Let go of all connections."""
        self._engine.dispose()

    @property
    def name(self) -> str:
        """The store's file, or its URL without the password."""
        return engine.name_of(self._engine.url)

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        with engine.speaking(self._engine), engine.reading(self._engine).connect() as connection:
            yield connection

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        with (
            self._turn,
            engine.speaking(self._engine),
            engine.writing(self._engine).begin() as connection,
        ):
            yield connection
