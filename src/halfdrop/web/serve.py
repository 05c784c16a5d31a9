"""Running the workbench on this machine: a port, a server that stops cleanly, the address to open."""

from __future__ import annotations

import socket
from collections.abc import Callable
from contextlib import suppress
from ipaddress import ip_address

import uvicorn

from halfdrop.base.errors import UsageError
from halfdrop.store import Store
from halfdrop.web.app import make_site
from halfdrop.web.guard import Keys

#: The port asked for where none is named; the next free one is taken where it is in use.
PORT = 4273


def is_loopback(host: str) -> bool:
    """Return whether a host is this machine only."""
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


def bind(host: str, port: int | None) -> socket.socket:
    """Return a listening socket.

    Raises
    ------
    UsageError
        Where the host is not this machine's or the port is in use.
    """
    wanted = (PORT, 0) if port is None else (port,)
    for one in wanted:
        try:
            family, _, _, _, address = socket.getaddrinfo(host, one, type=socket.SOCK_STREAM)[0]
            sock = socket.socket(family, socket.SOCK_STREAM)
            try:
                sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
                sock.bind(address)
                sock.listen(128)
            except OSError:
                sock.close()
                raise
            return sock
        except OSError as error:
            if one == wanted[-1]:
                reason = (error.strerror or str(error)).lower()
                raise UsageError(
                    f"the workbench cannot listen on {host}:{one}: {reason}",
                    hint="choose another with `--port`",
                ) from None
    raise AssertionError


class _Server(uvicorn.Server):
    """A server that ends its open streams when it is told to stop, so that stopping does not wait for them."""

    def __init__(self, config: uvicorn.Config, stopping: Callable[[], None]) -> None:
        super().__init__(config)
        self._stopping = stopping

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        self._stopping()
        await super().shutdown(sockets)


def serve(
    store: Store,
    *,
    host: str = "127.0.0.1",
    port: int | None = None,
    ready: Callable[[str], None] = lambda url: None,
    again: Callable[[str], None] = lambda url: None,
    path: str = "",
) -> None:
    """Serve the workbench until the process is told to stop (Ctrl-C).

    Parameters
    ----------
    store : Store
    host, port : str, int
        Loopback and a port of ours by default. With any other host a key is asked of every browser.
    ready : callable
        Called with the address to open once the server listens.
    again : callable
        Called with the next one-time address after one was used.
    path : str
        Where in the page to begin, such as `#/flat-1`.

    Raises
    ------
    UsageError
        Where the port is in use.
    """
    sock = bind(host, port)
    number = sock.getsockname()[1]
    local = is_loopback(host)
    named = host if local else _reachable(host)
    shown = f"[{named}]" if ":" in named else named
    base = f"http://{shown}:{number}"
    keys = None if local else Keys(lambda token: again(f"{base}/enter?token={token}"))
    hosts = set() if local else {named, socket.gethostname(), f"{socket.gethostname()}.local"}
    site = make_site(store, hosts={host, *hosts}, keys=keys)
    config = uvicorn.Config(
        site.asgi, log_level="warning", access_log=False, timeout_graceful_shutdown=3, server_header=False,
        date_header=False, h11_max_incomplete_event_size=64 * 1024,
    )  # fmt: skip
    server = _Server(config, site.desk.hub.close)
    ready(f"{base}/{path}" if keys is None else f"{base}/enter?token={keys.issue()}")
    try:
        with suppress(KeyboardInterrupt):  # raised again once it has stopped cleanly
            server.run(sockets=[sock])
    finally:
        site.desk.hub.close()
        site.desk.tasks.close()
        sock.close()


def _reachable(host: str) -> str:
    """Return a name by which others may reach this machine when it listens on all its addresses."""
    return socket.gethostname() if host in ("0.0.0.0", "::") else host
