"""The door: who may ask, from which page, how much; and the headers that every answer carries.

The workbench listens on loopback, but every page in the same browser can reach loopback too. So a request has to name
this server as its host (a name rebound to 127.0.0.1 does not), a browser has to say that it comes from this very page,
and with a host other than loopback it has to bring the cookie that a one-time address gave it.

Source: Fetch standard (Origin, Sec-Fetch-Site), CSP level 3, RFC 9110 section 7.2 (Host).
Checked by: tests/web/test_guard.py.
"""

from __future__ import annotations

import hashlib
import ipaddress
import secrets
from base64 import b64encode
from collections.abc import Callable, Iterable
from http.cookies import CookieError, SimpleCookie
from threading import Lock
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import JSONResponse, RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from halfdrop.web.errors import Refused, bug_body, shape

SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
COOKIE = "halfdrop"
LOOPBACK = frozenset({"localhost", "127.0.0.1", "::1"})

#: Most bytes of a body, by the last part of the address; anything else may have `BODY`.
BODY = 2 * 1024 * 1024
BODIES = {
    "files": 32 * 1024 * 1024,
    "palette": 32 * 1024 * 1024,
    "libraries": 32 * 1024 * 1024,
    "jobs": 20 * 1024 * 1024,
}

HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=()",
}


def policy(scripts: Iterable[str] = ()) -> str:
    """Return the content security policy; `scripts` are texts of import maps allowed by their hash."""
    hashes = "".join(
        f" 'sha256-{b64encode(hashlib.sha256(text.encode()).digest()).decode()}'" for text in scripts
    )
    return (
        f"default-src 'self'; script-src 'self'{hashes}; style-src 'self'; img-src 'self' data: blob:; "
        "object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    )


class Keys:
    """One-time tokens in, session cookies out; each token opens the door once."""

    def __init__(self, spent: Callable[[str], None] | None = None) -> None:
        self._tokens: list[str] = []
        self._sessions: set[str] = set()
        self._lock = Lock()
        self._spent = spent or (lambda token: None)

    def issue(self) -> str:
        """Return a new one-time token."""
        token = secrets.token_urlsafe(32)
        with self._lock:
            self._tokens.append(token)
        return token

    def redeem(self, token: str) -> str | None:
        """Return a session for a token, which is spent by it; None where it is not one."""
        with self._lock:
            known = [t for t in self._tokens if secrets.compare_digest(t.encode(), token.encode())]
            if not known:
                return None
            self._tokens.remove(known[0])
            session = secrets.token_urlsafe(32)
            self._sessions.add(session)
        self._spent(self.issue())
        return session

    def open(self, session: str) -> bool:
        """Return whether a session is one of ours."""
        with self._lock:
            return any(secrets.compare_digest(s.encode(), session.encode()) for s in self._sessions)


class Guard:
    """An ASGI application round another.

    Parameters
    ----------
    app : ASGIApp
    hosts : iterable of str
        Names by which this server may be called, besides loopback's.
    keys : Keys, optional
        Where given, nothing is answered without a session.
    scripts : iterable of str
        Import maps of the pages.
    """

    def __init__(
        self,
        app: ASGIApp,
        *,
        hosts: Iterable[str] = (),
        keys: Keys | None = None,
        scripts: Iterable[str] = (),
    ) -> None:
        self.app = app
        self.hosts = LOOPBACK | {h.lower() for h in hosts}
        self.keys = keys
        self.policy = policy(scripts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        started = False

        async def headed(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                self._dress(scope, MutableHeaders(raw=message["headers"]), message)
            await send(message)

        try:
            headers = Headers(scope=scope)
            self._check(scope, headers)
            if self.keys is not None and scope["path"] == "/enter":
                await self._enter(scope, receive, headed)
                return
            self._check_key(headers)
            limit = BODIES.get(scope["path"].rstrip("/").rsplit("/", 1)[-1], BODY)
            await self.app(scope, _bounded(headers, receive, limit), headed)
        except Refused as refusal:
            if not started:
                kind = "too-large" if refusal.status_code == 413 else "forbidden"
                body = shape(str(refusal.detail), kind, refusal.hint)  # type: ignore[arg-type]
                close = {"connection": "close"} if refusal.status_code == 413 else None
                await JSONResponse(body, refusal.status_code, headers=close)(scope, receive, headed)
        except Exception as error:
            if started:
                raise
            await JSONResponse(bug_body(error), 500)(scope, receive, headed)

    def _check(self, scope: Scope, headers: Headers) -> None:
        host = headers.get("host", "")
        if not self._known(host):
            raise Refused(
                403, f"this server is not called `{host[:80]}`", "open the address that halfdrop printed"
            )
        site = headers.get("sec-fetch-site")
        landing = headers.get("sec-fetch-mode") == "navigate" and scope["method"] in SAFE
        api = scope["path"].startswith("/api/")
        if site not in (None, "same-origin", "none") and (api or not landing):
            raise Refused(403, "the request comes from another site", "use halfdrop's own page")
        if scope["method"] in SAFE:
            return
        origin = headers.get("origin")
        if origin is not None and origin.lower() not in (f"http://{host}".lower(), f"https://{host}".lower()):
            raise Refused(403, f"the request comes from `{origin[:80]}`", "use halfdrop's own page")

    def _known(self, host: str) -> bool:
        name = _hostname(host)
        if name in self.hosts:
            return True
        if self.keys is None:
            return False
        try:  # with a key, the machine may be called by any of its addresses: a rebound name is none
            ipaddress.ip_address(name)
        except ValueError:
            return False
        return True

    def _check_key(self, headers: Headers) -> None:
        if self.keys is None:
            return
        try:
            jar = SimpleCookie(headers.get("cookie", ""))
        except CookieError:
            jar = SimpleCookie()
        morsel = jar.get(COOKIE)
        if morsel is None or not self.keys.open(morsel.value):
            raise Refused(403, "this browser has no key", "open the one-time address that halfdrop printed")

    async def _enter(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["method"] != "GET":
            raise Refused(405, "this address does not take that method")
        assert self.keys is not None
        token = parse_qs(scope["query_string"].decode("latin-1")).get("token", [""])[0]
        session = self.keys.redeem(token)
        if session is None:
            raise Refused(
                403, "this address was used already", "halfdrop prints a new one each time; open that"
            )
        answer = RedirectResponse("/", 303)
        answer.set_cookie(COOKIE, session, httponly=True, samesite="lax", path="/", max_age=30 * 24 * 3600)
        await answer(scope, receive, send)

    def _dress(self, scope: Scope, headers: MutableHeaders, message: Message) -> None:
        for name, value in HEADERS.items():
            headers.setdefault(name, value)
        headers.setdefault("content-security-policy", self.policy)
        headers.setdefault("cache-control", "no-store" if scope["path"].startswith("/api") else "no-cache")
        message["headers"] = headers.raw


def _hostname(host: str) -> str:
    host = host.strip().lower()
    if host.startswith("["):
        return host[1:].partition("]")[0]
    return host.partition(":")[0]


def _bounded(headers: Headers, receive: Receive, limit: int) -> Receive:
    """Return a `receive` that refuses a body over the limit, whether or not its length was told."""
    refusal = Refused(413, f"the request is larger than {limit / 2**20:.0f} MiB, the most that is taken here")
    told = headers.get("content-length", "")
    if told and (not told.isdigit() or int(told) > limit):
        raise refusal
    seen = 0

    async def bounded() -> Message:
        nonlocal seen
        message = await receive()
        if message["type"] == "http.request":
            seen += len(message.get("body", b""))
            if seen > limit:
                raise refusal
        return message

    return bounded
