"""Pictures that come in: what they are is read off their bytes, and only their pixels are kept.

A photograph of a client's wall carries where and when it was taken, and by which camera. None of that is kept: the
picture is written anew from its pixels, upright, in sRGB, and no larger than a wall needs.
"""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from threading import Lock

from PIL import Image, UnidentifiedImageError

from halfdrop.base.errors import InputError
from halfdrop.color.picture import in_srgb, upright_of
from halfdrop.store import TooLarge
from halfdrop.store.files import FILE_BYTES

#: Most pixels of a picture: more than any camera makes, too few to fill a machine when it is opened.
PIXELS = 120_000_000
#: Longest side kept [pixels].
SIDE = 5000
#: Formats taken, by the name Pillow gives them, and the type each is kept and served as.
FORMATS = {"JPEG": "image/jpeg", "MPO": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}
#: Quality of what is written anew: no difference a person sees.
_QUALITY = 92

#: Pictures are unpacked one after the other, so that ten of them at once do not fill the machine.
_TURN = Lock()


@dataclass(frozen=True)
class CleanPicture:
    """A picture as it is kept: its pixels, and nothing else that its sender put in."""

    data: bytes
    media_type: str


def clean_picture(data: bytes) -> CleanPicture:
    """Return a picture written anew: upright, in sRGB, without place, time, camera or anything behind its end.

    The same bytes give the same picture, so that one sent twice is kept once.

    Raises
    ------
    TooLarge
        Where it has more bytes or pixels than are taken.
    InputError
        Where it is no picture of a kind that is taken, or is torn.

    Source: orientation by EXIF 2.32; embedded profile (ICC.1) to sRGB.

    Checked by: tests/web/test_uploads.py.
    """
    if len(data) > FILE_BYTES:
        raise TooLarge(
            f"the picture has {len(data) / 2**20:.1f} MiB; at most {FILE_BYTES // 2**20} MiB are kept"
        )
    try:
        with warnings.catch_warnings(), _TURN:
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            # an odd tag of the camera is no reason to refuse: tags are dropped anyway
            warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\..*")
            with Image.open(io.BytesIO(data), formats=[name for name in FORMATS if name != "MPO"]) as picture:
                width, height = picture.size
                if width * height > PIXELS:
                    raise TooLarge(
                        f"the picture has {width} × {height} pixels; at most {PIXELS // 10**6} million are taken"
                    )
                return _anew(picture)
    except TooLarge:
        raise
    except (
        UnidentifiedImageError,
        Image.DecompressionBombError,
        OSError,
        SyntaxError,
        ValueError,
        EOFError,
        MemoryError,
    ) as error:
        bomb = isinstance(error, Image.DecompressionBombError)
        raise InputError(
            "the picture has more pixels than are taken" if bomb else "this is no picture that can be read",
            hint="send a JPEG, PNG or WebP picture",
        ) from None


def _anew(picture: Image.Image) -> CleanPicture:
    kind = "JPEG" if picture.format == "MPO" else str(picture.format)
    icc = picture.info.get("icc_profile")
    if kind == "JPEG":
        picture.draft(None, (SIDE, SIDE))  # a larger one is unpacked at a half or a quarter already
    picture.load()
    upright, alpha = upright_of(picture)
    largest = max(upright.size)
    if largest > SIDE:
        size = (max(1, upright.width * SIDE // largest), max(1, upright.height * SIDE // largest))
        upright = upright.resize(size, Image.Resampling.LANCZOS)
        alpha = alpha.resize(size, Image.Resampling.LANCZOS) if alpha is not None else None
    pixels, _ = in_srgb(upright, icc)
    if alpha is not None and kind != "JPEG":
        pixels.putalpha(alpha)
    pixels.info.clear()
    out = io.BytesIO()
    if kind == "PNG":
        pixels.save(out, "PNG")
    else:
        pixels.save(out, kind, quality=_QUALITY)
    return CleanPicture(out.getvalue(), FORMATS[kind])
