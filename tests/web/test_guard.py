"""The door: what another site, a rebound name, a stranger or a flood is answered."""

from __future__ import annotations

import contextlib
import io
import re
import select
import socket
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from halfdrop.store import Store
from halfdrop.web.app import make_site
from halfdrop.web.guard import BODY, Keys
from halfdrop.web.pages import STATIC

DEMO = {"start": "demo"}


def refused(answer) -> None:
    assert answer.status_code == 403, answer.text
    assert answer.json()["error"]["kind"] == "forbidden"


@pytest.mark.parametrize(
    "host", ["evil.example", "localhost.evil.example", "127.0.0.1.evil.example", "", "192.168.1.5", "[::2]"]
)
def test_a_request_for_another_host_is_refused(client, host: str) -> None:
    """A name that was rebound to this machine is not the server's name: DNS rebinding gets nothing, not even the page."""
    for path in ("/api/jobs", "/", "/tokens.css"):
        refused(client.get(path, headers={"host": host}))


@pytest.mark.parametrize("host", ["localhost", "localhost:4273", "127.0.0.1:80", "[::1]:4273", "LOCALHOST"])
def test_loopback_has_three_names(client, host: str) -> None:
    """Each name of loopback, with any port, is this server's."""
    assert client.get("/api/jobs", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "https://evil.example"},
        {"origin": "null"},
        {"origin": "http://localhost:9999"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"origin": "http://localhost", "sec-fetch-site": "cross-site"},
    ],
)
def test_a_change_from_another_site_is_refused(client, headers: dict[str, str]) -> None:
    """A page of another site, or of another port, changes nothing: nothing was begun."""
    refused(client.post("/api/jobs", json=DEMO, headers=headers))
    refused(client.request("DELETE", "/api/jobs/x", headers=headers))
    assert client.get("/api/jobs").json() == {"jobs": []}


def test_another_site_reads_nothing(client) -> None:
    """Nor may another site embed or probe what is read; a link to the page is followed."""
    refused(client.get("/api/jobs", headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}))
    refused(client.get("/api/jobs", headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}))
    refused(client.get("/app.js", headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}))
    followed = client.get(
        "/tokens.css", headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}
    )
    assert followed.status_code == 200


def test_the_own_page_may_change(client) -> None:
    """What a browser sends from the page itself passes."""
    headers = {"origin": "http://localhost", "sec-fetch-site": "same-origin"}
    assert client.post("/api/jobs", json=DEMO, headers=headers).status_code == 201


def test_a_form_of_another_page_cannot_speak_json(client) -> None:
    """The types a plain form can send are not taken, with or without an origin."""
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"):
        answer = client.post("/api/jobs", content=b'{"start":"demo"}', headers={"content-type": kind})
        assert answer.status_code == 415, kind


def test_every_answer_carries_the_policy(client, page) -> None:
    """Pages, data, styles and errors alike: no script but our own files, no sniffing, no framing, no other origin."""
    for path in (
        "/",
        "/tokens.css",
        "/api/jobs",
        f"/api/jobs/{page.job}",
        "/api/none",
        "/none",
        "/api/openapi.json",
    ):
        headers = client.get(path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'self'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe" not in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert not [h for h in headers if h.startswith("access-control")]
    refusal = client.get("/", headers={"host": "evil.example"}).headers
    assert "default-src 'self'" in refusal["content-security-policy"]


def test_the_pages_have_no_inline_script_or_style() -> None:
    """What the policy forbids is not in the pages: only an import map, which the policy names by its hash."""
    pages = sorted(STATIC.glob("**/*.html"))
    assert pages
    for page in pages:
        text = page.read_text("utf-8")
        assert not re.findall(r"<script(?![^>]*\b(?:src=|type=\"importmap\"))[^>]*>", text), page
        assert not re.findall(r"<style|\sstyle=|\son[a-z]+=|javascript:", text), page


def test_a_preflight_grants_nothing(client) -> None:
    """Another origin that asks beforehand is not let in."""
    answer = client.request(
        "OPTIONS",
        "/api/jobs",
        headers={"origin": "https://evil.example", "access-control-request-method": "POST"},
    )
    assert answer.status_code in (403, 405)
    assert not [h for h in answer.headers if h.startswith("access-control")]


def test_a_body_over_the_limit_is_refused_with_its_length_told_or_not(page) -> None:
    """A patch of more than the limit gets 413 at once by its length, and as soon as it passes the limit without one."""
    url, kind = f"/api/jobs/{page.job}", {"content-type": "application/json-patch+json", "if-match": '"1"'}
    told = page.client.request("PATCH", url, content=b" " * (BODY + 1), headers=kind)
    assert told.status_code == 413
    assert told.json()["error"]["kind"] == "too-large"
    sent = 0

    def endless() -> Iterator[bytes]:
        nonlocal sent
        while sent < 20 * BODY:
            sent += 65536
            yield b" " * 65536

    untold = page.client.request("PATCH", url, content=endless(), headers=kind)
    assert untold.status_code == 413
    lied = page.client.request("PATCH", url, content=b"[]", headers={**kind, "content-length": "-5"})
    assert lied.status_code == 413


def test_an_endless_body_over_a_socket_is_refused(live) -> None:
    """Over a real connection too: chunks without end are answered with 413 long before they end."""
    address = (live.base_url.host, live.base_url.port)
    chunk = b"10000\r\n" + b" " * 65536 + b"\r\n"
    sent = 0
    with socket.create_connection(address, timeout=20) as line:
        line.sendall(
            b"PATCH /api/jobs/x HTTP/1.1\r\nHost: localhost\r\nIf-Match: 1\r\nTransfer-Encoding: chunked\r\n"
            b"Content-Type: application/json-patch+json\r\n\r\n"
        )
        with contextlib.suppress(ConnectionError):  # the server may hang up on the rest
            while sent < 50 * BODY and not select.select([line], [], [], 0)[0]:
                line.sendall(chunk)
                sent += 65536
        assert line.recv(64).startswith(b"HTTP/1.1 413")
    assert sent < 50 * BODY
    assert live.get("/api/jobs").status_code == 200


@pytest.mark.parametrize(
    "path",
    ["/../app.py", "/%2e%2e/app.py", "/..%2fapp.py", "/views/../../app.py", "/%2e%2e%2f%2e%2e%2fpyproject.toml",
     "//etc/passwd", "/fonts/../tokens.toml", "/fonts/%2e%2e/tokens.toml", "/fonts/..%5ctokens.toml", "/%00",
     "/vendor/%2e%2e/%2e%2e/guard.py"],
)  # fmt: skip
def test_no_path_leads_out_of_the_pages(live, path: str) -> None:
    """Dots, doubled slashes, encoded or not: nothing outside the page's own folder is served."""
    answer = live.get(path)
    assert answer.status_code in (400, 404), answer.text[:200]
    assert "halfdrop" not in answer.text.lower() or answer.headers["content-type"].startswith(
        "application/json"
    )


def keyed(store: Store) -> tuple[TestClient, Keys, list[str]]:
    spent: list[str] = []
    keys = Keys(spent.append)
    site = make_site(store, executor=lambda: pytest.fail("no work is due"), hosts={"studio.local"}, keys=keys)
    return TestClient(site.asgi, base_url="http://studio.local:4273"), keys, spent


def test_beyond_loopback_a_browser_needs_a_key(store) -> None:
    """Without a key nothing is answered, not even the page; a one-time address gives one, once, and the next is made."""
    client, keys, spent = keyed(store)
    for path in ("/", "/api/jobs", "/tokens.css", "/enter", "/enter?token=guess"):
        refused(client.get(path))
    token = keys.issue()
    entered = client.get(f"/enter?token={token}", follow_redirects=False)
    assert entered.status_code == 303
    cookie = entered.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "samesite=lax" in cookie.lower()
    assert client.get("/api/jobs").status_code == 200
    client.cookies.clear()
    refused(client.get("/api/jobs"))
    refused(client.get(f"/enter?token={token}"))
    assert len(spent) == 1
    assert client.get(f"/enter?token={spent[0]}", follow_redirects=False).status_code == 303


def test_a_forged_cookie_opens_nothing(store) -> None:
    """A cookie that is not one of ours, however written, is no key."""
    client, _, _ = keyed(store)
    for cookie in (
        "halfdrop=guess",
        "halfdrop=",
        'halfdrop="\\"',
        "halfdrop=ä".encode().decode("latin-1"),
        "=;=;halfdrop",
    ):
        refused(client.get("/api/jobs", headers={"cookie": cookie.encode("latin-1")}))


def test_with_a_key_an_address_is_a_name_but_a_foreign_name_is_not(store) -> None:
    """A tablet may use the machine's address; a name rebound to it is still refused."""
    client, keys, _ = keyed(store)
    client.get(f"/enter?token={keys.issue()}", follow_redirects=False)
    jar = {"cookie": f"halfdrop={client.cookies['halfdrop']}"}
    assert client.get("/api/jobs", headers={"host": "192.168.1.5:4273", **jar}).status_code == 200
    refused(client.get("/api/jobs", headers={"host": "evil.example", **jar}))


def test_a_bug_is_told_as_one_and_its_trace_stays_here(site, client, monkeypatch) -> None:
    """Our own fault: 500, kind bug, no trace to the page; the trace on stderr."""

    def broken() -> None:
        raise RuntimeError("secret detail")

    monkeypatch.setattr(site.desk.jobs, "all", broken)
    log = io.StringIO()
    with contextlib.redirect_stderr(log):
        answer = client.get("/api/jobs")
    assert answer.status_code == 500
    error = answer.json()["error"]
    assert error["kind"] == "bug"
    assert "secret" not in answer.text
    assert "secret detail" in log.getvalue()
    assert "default-src 'self'" in answer.headers["content-security-policy"]


def test_every_error_has_the_one_shape(client, page) -> None:
    """Unknown address, wrong method, wrong type, unreadable, invalid: message, at, hint, kind, errors."""
    job = f"/api/jobs/{page.job}"
    answers = {
        404: client.get("/api/none"),
        405: client.request("PUT", "/api/jobs"),
        415: client.post("/api/jobs", content=b"x", headers={"content-type": "text/plain"}),
        400: client.post("/api/jobs", content=b"{", headers={"content-type": "application/json"}),
        422: client.get(f"{job}/rooms/living/view", params={"view": "sideways"}),
        428: client.request("PATCH", job, json=[], headers={"content-type": "application/json-patch+json"}),
    }
    for status, answer in answers.items():
        assert answer.status_code == status
        error = answer.json()["error"]
        assert set(error) == {"message", "at", "hint", "kind", "errors"}
        assert error["message"]
    assert client.get("/none.html").json()["error"]["kind"] == "missing"
    assert client.get(f"{job}/rooms/livin/view").json()["error"]["hint"] == "did you mean `living`?"
