"""Pictures that come in: what they are is read off their bytes, never taken from what a sender says."""

from __future__ import annotations

import io
import warnings

from PIL import Image, UnidentifiedImageError

from halfdrop.base.errors import InputError
from halfdrop.store import TooLarge
from halfdrop.store.files import FILE_BYTES

#: Most pixels of a picture: more than any camera makes, too few to fill a machine when it is opened.
PIXELS = 120_000_000
#: Formats taken, by the name Pillow gives them, and the type each is served as.
FORMATS = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}


def picture_type(data: bytes) -> str:
    """Return the media type of a picture by its bytes.

    The bytes are kept as they came, with all that the camera wrote into them.

    Raises
    ------
    TooLarge
        Where it has more bytes or pixels than are taken.
    InputError
        Where it is no picture of a kind that is taken, or is torn.
    """
    if len(data) > FILE_BYTES:
        raise TooLarge(
            f"the picture has {len(data) / 2**20:.1f} MiB; at most {FILE_BYTES // 2**20} MiB are kept"
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data), formats=list(FORMATS)) as picture:
                kind, (width, height) = picture.format, picture.size
                if width * height > PIXELS:
                    raise TooLarge(
                        f"the picture has {width} × {height} pixels; at most {PIXELS // 10**6} million are taken"
                    )
                picture.verify()
    except TooLarge:
        raise
    except (
        UnidentifiedImageError,
        Image.DecompressionBombError,
        OSError,
        SyntaxError,
        ValueError,
        EOFError,
    ) as error:
        bomb = isinstance(error, Image.DecompressionBombError)
        raise InputError(
            "the picture has more pixels than are taken" if bomb else "this is no picture that can be read",
            hint="send a JPEG, PNG or WebP picture",
        ) from None
    return FORMATS[str(kind)]
