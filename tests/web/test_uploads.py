"""Pictures: what they are is read off their bytes; what is none, or swells, is refused."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms

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
def test_a_picture_is_served_as_what_it_is(page, kind: str, media: str) -> None:
    """The same picture comes out, typed by its content and not by the sender, never sniffed, in no page's rights."""
    data = picture(kind)
    headers = {"halfdrop-name": "..%2F..%2Fetc%2Fwall%20A.jpg", "halfdrop-attached": "%2Frooms%2Fliving"}
    kept = send(page, data, "image/anything", **headers)
    assert kept.status_code == 201, kept.text
    assert (kept.json()["media_type"], kept.json()["name"]) == (media, "wall A.jpg")
    answer = page.client.get(kept.json()["url"])
    shown = Image.open(io.BytesIO(answer.content))
    assert (shown.size, Image.MIME[str(shown.format)]) == ((40, 30), media)
    assert (
        max(abs(a - b) for a, b in zip(shown.convert("RGB").getpixel((9, 9)), (210, 180, 140), strict=True))
        <= 2
    )
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
    """A picture with a page after its end is served as a picture, and the page is not in it any more."""
    data = picture() + b"<html><script>alert(1)</script></html>"
    url = send(page, data, "text/html").status_code, send(page, data).json()["url"]
    assert url[0] == 415
    answer = page.client.get(url[1])
    assert answer.headers["content-type"] == "image/jpeg"
    assert b"script" not in answer.content


def test_a_picture_over_the_limit_is_refused(page) -> None:
    """More bytes than a picture may have: 413, by the door or by the store."""
    assert send(page, b"\xff\xd8" + b"\0" * (33 * 1024 * 1024)).status_code == 413


def test_what_is_read_off_the_bytes_knows_three_kinds(tmp_path: Path) -> None:
    """The kinds taken are those every browser shows."""
    assert set(workbench_pictures.FORMATS.values()) == {"image/jpeg", "image/png", "image/webp"}


def stored(page: Page, data: bytes) -> bytes:
    """Send a picture and return its bytes as they are kept."""
    answer = send(page, data)
    assert answer.status_code == 201, answer.text
    return bytes(page.client.get(answer.json()["url"]).content)


def taken(kind: str, image: Image.Image, **more: object) -> bytes:
    """A photograph with a place, a time and a maker in it."""
    exif = Image.Exif()
    exif[0x010F], exif[0x0132] = "Invented Maker", "2031:05:06 07:08:09"
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 28.0, 38.0), 3: "W", 4: (0.0, 0.0, 5.0)})
    for tag, value in dict(more.pop("tags", {})).items():  # type: ignore[call-overload]
        exif[tag] = value
    out = io.BytesIO()
    image.save(out, kind, exif=exif, **more)
    return out.getvalue()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_where_a_picture_was_taken_is_not_kept(page, kind: str) -> None:
    """Place, time and maker were in it; in what is kept there is no tag, no profile and no text."""
    data = taken(kind, Image.new("RGB", (60, 40), "tan"))
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)
    kept = stored(page, data)
    found = Image.open(io.BytesIO(kept))
    found.load()
    assert not found.getexif()
    assert not {"exif", "icc_profile", "xmp", "comment", "Software"} & set(found.info)
    assert b"Invented" not in kept
    assert b"2031" not in kept


def test_a_picture_is_kept_upright(page) -> None:
    """Stored on its side with a tag that says so, it is kept as the camera was held."""
    upright = Image.new("RGB", (60, 40), "white")
    upright.paste((200, 30, 20), (0, 0, 30, 40))
    on_its_side = upright.transpose(Image.Transpose.ROTATE_90)
    found = Image.open(io.BytesIO(stored(page, taken("PNG", on_its_side, tags={0x0112: 6}))))
    assert found.size == (60, 40)
    assert found.convert("RGB").tobytes() == upright.tobytes()


def test_a_profile_is_carried_over_into_the_colors(page) -> None:
    """A picture whose profile has red and green exchanged is kept with the colors that were meant, without a profile."""
    swapped = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    at = {tag: swapped.index(tag) for tag in (b"rXYZ", b"gXYZ")}
    table = bytearray(swapped)
    red, green = (table[at[t] + 4 : at[t] + 12] for t in (b"rXYZ", b"gXYZ"))
    table[at[b"rXYZ"] + 4 : at[b"rXYZ"] + 12], table[at[b"gXYZ"] + 4 : at[b"gXYZ"] + 12] = green, red
    data = taken("PNG", Image.new("RGB", (20, 20), (200, 40, 30)), icc_profile=bytes(table))
    found = Image.open(io.BytesIO(stored(page, data)))
    pixel = found.convert("RGB").getpixel((5, 5))
    assert max(abs(a - b) for a, b in zip(pixel, (40, 200, 30), strict=True)) <= 2
    assert "icc_profile" not in found.info


def test_a_picture_sent_twice_is_kept_once(page) -> None:
    """Written anew it has the same bytes each time."""
    data = taken("JPEG", Image.effect_noise((300, 200), 40).convert("RGB"))
    assert stored(page, data) == stored(page, data)
    assert len(page.get("/files")["files"]) == 1


def test_a_larger_picture_is_brought_down(page, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a picture longer than a wall needs, the longest side is kept at the limit and its shape holds."""
    monkeypatch.setattr(workbench_pictures, "SIDE", 100)
    found = Image.open(io.BytesIO(stored(page, picture("PNG", (400, 300)))))
    assert found.size == (100, 75)
    found = Image.open(io.BytesIO(stored(page, picture("JPEG", (400, 300)))))
    assert found.size == (100, 75)


def test_what_is_seen_through_stays_so(page) -> None:
    """A cut-out picture keeps where it is clear."""
    image = Image.new("RGBA", (20, 20), (10, 120, 60, 0))
    image.paste((10, 120, 60, 255), (0, 0, 10, 20))
    out = io.BytesIO()
    image.save(out, "PNG")
    found = Image.open(io.BytesIO(stored(page, out.getvalue())))
    assert (found.getpixel((2, 2))[3], found.getpixel((15, 2))[3]) == (255, 0)
