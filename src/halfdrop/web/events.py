"""Server-sent events: what happens is told to every open page that listens.

Source: HTML standard, section 9.2 (server-sent events).
"""

from __future__ import annotations

import asyncio
import json
from collections import defaultdict
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator
from contextlib import contextmanager
from threading import Lock
from typing import Any

from fastapi.responses import StreamingResponse

#: A listener that does not read is told no more than this at once; the oldest news is dropped.
WAITING = 100
#: A line is sent at least this often, so that a lost connection is noticed [s].
BEAT = 15.0

Event = tuple[str, dict[str, Any]]


class Listener:
    """One open stream: a queue of its own event loop, filled from any thread."""

    def __init__(self) -> None:
        self._loop = asyncio.get_running_loop()
        self._queue: asyncio.Queue[Event | None] = asyncio.Queue(WAITING)

    def tell(self, event: Event | None) -> None:
        """Put an event in, from any thread; None ends the stream."""
        try:
            self._loop.call_soon_threadsafe(self._put, event)
        except RuntimeError:  # its loop is closed, nobody listens any more
            return

    def _put(self, event: Event | None) -> None:
        if self._queue.full():
            self._queue.get_nowait()
        self._queue.put_nowait(event)

    async def next(self, within: float) -> Event | None:
        """Return the next event; raises TimeoutError where none comes in time."""
        return await asyncio.wait_for(self._queue.get(), within)


class Hub:
    """Listeners by topic."""

    def __init__(self) -> None:
        self._topics: defaultdict[str, set[Listener]] = defaultdict(set)
        self._lock = Lock()
        self._closed = False

    def tell(self, topic: str, name: str, data: dict[str, Any]) -> None:
        """Tell everybody who listens to a topic, from any thread."""
        with self._lock:
            listeners = tuple(self._topics.get(topic, ()))
        for listener in listeners:
            listener.tell((name, data))

    @contextmanager
    def listening(self, topic: str) -> Iterator[Listener]:
        """Listen to a topic for as long as the block runs."""
        listener = Listener()
        with self._lock:
            self._topics[topic].add(listener)
            if self._closed:
                listener.tell(None)
        try:
            yield listener
        finally:
            with self._lock:
                self._topics[topic].discard(listener)
                if not self._topics[topic]:
                    del self._topics[topic]

    def close(self) -> None:
        """End every stream."""
        with self._lock:
            self._closed = True
            listeners = [one for topic in self._topics.values() for one in topic]
        for listener in listeners:
            listener.tell(None)


def line(name: str, data: dict[str, Any], number: int | None = None) -> str:
    """Return an event as it is sent."""
    head = f"id: {number}\n" if number is not None else ""
    return f"{head}event: {name}\ndata: {json.dumps(data, ensure_ascii=False, separators=(',', ':'))}\n\n"


def stream(
    hub: Hub,
    topic: str,
    first: Callable[[], Awaitable[list[Event]]],
    *,
    last: frozenset[str] = frozenset(),
    beat: float = BEAT,
    missed: Callable[[], Awaitable[list[Event]]] | None = None,
) -> StreamingResponse:
    """Return an answer that goes on telling.

    Parameters
    ----------
    first : callable
        Gives what is told at once; asked for after listening began, so that nothing falls between.
    last : set of str
        Events after which the stream ends.
    missed : callable, optional
        Asked at every beat for what another process did.
    """

    async def lines() -> AsyncIterator[str]:
        with hub.listening(topic) as listener:
            for name, data in await first():
                yield line(name, data, data.get("revision"))
                if name in last:
                    return
            while True:
                try:
                    event = await listener.next(beat)
                except TimeoutError:
                    news = await missed() if missed is not None else []
                    yield "".join(line(n, d, d.get("revision")) for n, d in news) or ": still here\n\n"
                    continue
                if event is None:
                    return
                yield line(event[0], event[1], event[1].get("revision"))
                if event[0] in last:
                    return

    return StreamingResponse(
        lines(),
        media_type="text/event-stream",
        headers={"cache-control": "no-store", "x-accel-buffering": "no"},
    )
