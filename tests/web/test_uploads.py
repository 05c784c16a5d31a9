"""Pictures: what they are is read off their bytes; what is none, or swells, is refused."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image

from halfdrop.services import workbench_pictures
from tests.web.conftest import Page


def picture(kind: str = "JPEG", size: tuple[int, int] = (40, 30)) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, "tan").save(out, kind)
    return out.getvalue()


def send(page: Page, data: bytes, kind: str = "image/jpeg", **headers: str):
    return page.client.post(
        f"/api/jobs/{page.job}/files", content=data, headers={"content-type": kind, **headers}
    )


@pytest.mark.parametrize(
    ("kind", "media"), [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/webp")]
)
def test_a_picture_is_kept_as_it_came_and_served_as_what_it_is(page, kind: str, media: str) -> None:
    """The same bytes come out, typed by their content and not by the sender, never sniffed, in no page's rights."""
    data = picture(kind)
    headers = {"halfdrop-name": "..%2F..%2Fetc%2Fwall%20A.jpg", "halfdrop-attached": "%2Frooms%2Fliving"}
    kept = send(page, data, "image/anything", **headers)
    assert kept.status_code == 201, kept.text
    assert (kept.json()["media_type"], kept.json()["name"]) == (media, "wall A.jpg")
    answer = page.client.get(kept.json()["url"])
    assert answer.content == data
    assert answer.headers["content-type"] == media
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert "sandbox" in answer.headers["content-security-policy"]
    assert [f["attached"] for f in page.get("/files")["files"]] == ["/rooms/living"]


def test_a_picture_taken_away_is_gone(page) -> None:
    """Without a job that has it the bytes are gone too."""
    sha = send(page, picture()).json()["sha256"]
    assert page.client.delete(f"/api/jobs/{page.job}/files/{sha}").status_code == 204
    assert page.client.get(f"/api/files/{sha}").status_code == 404
    assert page.client.get("/api/files/../jobs").status_code in (200, 404)
    assert page.client.get("/api/files/not-a-hash").status_code == 422


def png(width: int, height: int) -> bytes:
    """Return a PNG that says it is large and is a few bytes."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 1000))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        b"<html><script>alert(1)</script>",
        b"GIF89a" + b"\0" * 60,
        b"%PDF-1.4",
        b"\xff\xd8\xff",
        picture("PNG")[:60],
        b"\x89PNG\r\n\x1a\n" + b"\0" * 40,
        picture("PNG").replace(b"IDAT", b"IDAX"),
    ],
)
def test_what_is_no_picture_is_refused(page, data: bytes) -> None:
    """Drawings with scripts, pages, other kinds and torn files: 422, and nothing is kept."""
    answer = send(page, data)
    assert answer.status_code == 422, answer.text
    assert answer.json()["error"]["kind"] == "input"
    assert page.get("/files") == {"files": []}


def test_a_picture_that_swells_is_refused_unopened(page) -> None:
    """A few bytes that say they are 100,000 × 100,000 pixels are refused by what they say."""
    answer = send(page, png(100_000, 100_000), "image/png")
    assert answer.status_code in (413, 422)
    assert "pixels" in answer.json()["error"]["message"]


def test_a_page_hidden_in_a_picture_stays_a_picture(page) -> None:
    """A picture with a page after its end is served as a picture, which no browser runs."""
    data = picture() + b"<html><script>alert(1)</script></html>"
    url = send(page, data, "text/html").status_code, send(page, data).json()["url"]
    assert url[0] == 415
    assert page.client.get(url[1]).headers["content-type"] == "image/jpeg"


def test_a_picture_over_the_limit_is_refused(page) -> None:
    """More bytes than a picture may have: 413, by the door or by the store."""
    assert send(page, b"\xff\xd8" + b"\0" * (33 * 1024 * 1024)).status_code == 413


def test_what_is_read_off_the_bytes_knows_three_kinds(tmp_path: Path) -> None:
    """The kinds taken are those every browser shows."""
    assert set(workbench_pictures.FORMATS.values()) == {"image/jpeg", "image/png", "image/webp"}
