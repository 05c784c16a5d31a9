"""Opening pictures: upright, in sRGB, and nothing else taken."""

from __future__ import annotations

import io
import json
import struct
import zlib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from halfdrop.base.errors import InputError
from halfdrop.color.palette import palette
from halfdrop.color.picture import open_picture, picture_of_bytes
from tests.color.pictures import blocks, encoded


def _bomb(width: int, height: int) -> bytes:
    """Return a PNG that says it is huge and holds next to nothing."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 99))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(("width", "height"), [(12_001, 10_000), (200_000, 200_000), (2**31 - 1, 2**31 - 1)])
def test_a_bomb_is_refused_by_its_head(width: int, height: int) -> None:
    """A picture over 120 million pixels is not unpacked at all."""
    with pytest.raises(InputError, match="pixels"):
        picture_of_bytes(_bomb(width, height), "bomb.png")


def test_a_picture_is_turned_as_the_camera_held_it() -> None:
    """EXIF orientation 6: stored on its side, seen upright; width and height change places."""
    upright = blocks(400, 300, 0)
    exif = Image.Exif()
    exif[0x0112] = 6
    stored = upright.transpose(Image.Transpose.ROTATE_90)
    found = picture_of_bytes(encoded(stored, "PNG", exif=exif))
    assert (found.width, found.height) == (400, 300)
    assert found.srgb == pytest.approx(np.asarray(upright) / 255.0)


def test_where_it_was_taken_is_nowhere_in_what_comes_out() -> None:
    """A picture with a position and a maker's name in it: its palette holds neither."""
    exif = Image.Exif()
    exif[0x010F] = "Invented Maker"
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 28.0, 38.0), 3: "W", 4: (0.0, 0.0, 5.0)})
    data = encoded(blocks(400, 300), "JPEG", quality=92, exif=exif)
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)
    picture = picture_of_bytes(data)
    assert set(vars(picture)) == {"width", "height", "srgb", "solid", "profile"}
    text = json.dumps(palette(picture).to_json())
    assert "Maker" not in text
    assert set(json.loads(text)) == {"colors", "white", "profile"}


def test_an_embedded_profile_is_taken_to_srgb() -> None:
    """sRGB's own profile changes no channel by more than 1; a broken profile is said, and sRGB assumed."""
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    plain = blocks(200, 150, 0)
    found = picture_of_bytes(encoded(plain, "PNG", icc_profile=srgb))
    assert found.profile == "embedded profile"
    assert np.abs(found.srgb - picture_of_bytes(encoded(plain)).srgb).max() <= 1.01 / 255
    broken = picture_of_bytes(encoded(plain, "PNG", icc_profile=b"not a profile at all"))
    assert broken.profile == "embedded profile unreadable, sRGB assumed"
    assert picture_of_bytes(encoded(plain)).profile == "sRGB assumed"


def test_a_profile_with_other_primaries_moves_the_colors() -> None:
    """sRGB's profile with its red and green primaries exchanged shows (200, 60, 60) as a green."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    red, green = profile.index(b"rXYZ"), profile.index(b"gXYZ")
    profile[red : red + 4], profile[green : green + 4] = b"gXYZ", b"rXYZ"
    found = picture_of_bytes(
        encoded(Image.new("RGB", (20, 20), (200, 60, 60)), "PNG", icc_profile=bytes(profile))
    )
    assert found.profile == "embedded profile"
    assert found.srgb[5, 5, 1] > found.srgb[5, 5, 0] + 0.3


@pytest.mark.parametrize("mode", ["L", "1", "P", "LA", "RGBA", "CMYK", "I;16"])
def test_every_kind_of_pixel_is_read(mode: str) -> None:
    """A plain mid grey in each mode comes out as that grey."""
    if mode == "I;16":
        image = Image.fromarray(np.full((30, 40), 128 * 257, dtype=np.uint16))
    elif mode == "1":
        image = Image.new("1", (40, 30), 1)
    else:
        plain = Image.new("RGB", (40, 30), (128, 128, 128))
        image = plain.quantize(4) if mode == "P" else plain.convert(mode)
    found = picture_of_bytes(encoded(image, "TIFF" if mode == "CMYK" else "PNG"))
    assert found.srgb == pytest.approx(np.full((30, 40, 3), 1.0 if mode == "1" else 128 / 255), abs=1.5 / 255)
    assert found.solid.all()


def test_what_is_see_through_does_not_count() -> None:
    """Half of a cut-out is see-through: only the other half is in the palette."""
    image = Image.new("RGBA", (40, 40), (200, 40, 40, 255))
    image.paste((0, 0, 255, 0), (0, 0, 20, 40))
    found = picture_of_bytes(encoded(image))
    assert found.solid.sum() == 800
    assert [c.hex for c in palette(found, recorded=True).colors] == ["#c82828"]
    with pytest.raises(InputError, match="see-through all over"):
        palette(picture_of_bytes(encoded(Image.new("RGBA", (9, 9), (0, 0, 0, 0)))))


def test_what_is_no_picture_is_refused(tmp_path: Path) -> None:
    """Text, a torn file, a missing one."""
    with pytest.raises(InputError, match="no picture that can be read"):
        picture_of_bytes(b"name,srgb\n", "a.csv")
    with pytest.raises(InputError, match="is torn"):
        picture_of_bytes(encoded(blocks(400, 300))[:5000], "torn.png")
    with pytest.raises(InputError, match="cannot be read"):
        open_picture(tmp_path / "none.png")
    path = tmp_path / "a.png"
    blocks(400, 300).save(path)
    assert open_picture(path).width == 400
