"""A photograph, opened safely: upright, in sRGB, small enough to work on, and only its pixels kept.

Nothing but pixels leaves this file: place, time and camera that a picture carries are dropped with it.
"""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

from halfdrop.base.errors import At, InputError
from halfdrop.color.arrays import Floats

#: Most pixels and bytes of a picture: more than any camera makes, too few to fill a machine.
PIXELS = 120_000_000
BYTES = 200 << 20
FORMATS = ("JPEG", "PNG", "WEBP", "TIFF")
#: Long side that a picture is brought to before it is looked at [pixels].
WORKING = 400
_HINT = "give a JPEG, PNG, WebP or TIFF picture"
_WIDE = ("I", "I;16", "I;16B", "I;16L")


@dataclass(frozen=True, eq=False)
class Picture:
    """The pixels of a picture.

    Attributes
    ----------
    width, height : int
        Upright, as it was [pixels].
    srgb : array, shape (rows, columns, 3)
        Upright, in sRGB [0, 1], at most `WORKING` pixels a side.
    solid : array of bool, shape (rows, columns)
        Where it is not see-through.
    profile : str
        "sRGB assumed", "embedded profile", or "embedded profile unreadable, sRGB assumed".
    """

    width: int
    height: int
    srgb: Floats
    solid: np.ndarray
    profile: str


def open_picture(path: Path, working: int = WORKING) -> Picture:
    """Return a picture file's pixels.

    Raises
    ------
    InputError
        Where it cannot be read, is no picture of a kind that is taken, is torn, or has more bytes or pixels than are taken.

    Source: orientation by EXIF 2.32; embedded profile (ICC.1) to sRGB, relative colorimetric with black point compensation.

    Checked by: tests/color/test_picture.py.
    """
    try:
        size = path.stat().st_size
        if size > BYTES:
            raise InputError(
                f"picture {path.name} has {size >> 20} MiB; at most {BYTES >> 20} are read", at=At(str(path))
            )
        data = path.read_bytes()
    except OSError as error:
        why = (error.strerror or "unreadable").lower()
        raise InputError(f"picture {path.name} cannot be read: {why}", at=At(str(path))) from None
    return picture_of_bytes(data, path.name, working)


def picture_of_bytes(data: bytes, name: str = "picture", working: int = WORKING) -> Picture:
    """Return a picture's pixels; as `open_picture`, from bytes."""
    at = At(name)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            # a torn or odd tag of the camera is no reason to refuse: tags are dropped anyway
            warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\..*")
            with Image.open(io.BytesIO(data), formats=FORMATS) as image:
                width, height = image.size
                if width * height > PIXELS:
                    raise InputError(
                        f"picture {name} has {width} × {height} pixels; at most {PIXELS // 10**6} million are taken",
                        at=at,
                        hint="save it smaller: 4000 pixels a side are plenty",
                    )
                return _read(image, working)
    except InputError:
        raise
    except Image.DecompressionBombError:
        raise InputError(
            f"picture {name} has more pixels than are taken", at=at, hint="save it smaller"
        ) from None
    except UnidentifiedImageError:
        raise InputError(f"{name} is no picture that can be read", at=at, hint=_HINT) from None
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError) as error:
        raise InputError(f"picture {name} is torn: {str(error)[:80]}", at=at, hint=_HINT) from None


def _read(image: Image.Image, working: int) -> Picture:
    icc = image.info.get("icc_profile")
    image.load()
    upright, alpha = upright_of(image)
    width, height = upright.size
    scale = min(1.0, working / max(width, height))
    size = (max(1, round(width * scale)), max(1, round(height * scale)))
    small = upright.resize(size, Image.Resampling.BOX)
    converted, profile = in_srgb(small, icc)
    solid = np.ones((size[1], size[0]), dtype=bool)
    if alpha is not None:
        solid = np.asarray(alpha.resize(size, Image.Resampling.BOX)) >= 255
    return Picture(width, height, np.asarray(converted, dtype=np.float64) / 255.0, solid, profile)


def upright_of(image: Image.Image) -> tuple[Image.Image, Image.Image | None]:
    """Return a loaded picture as the camera held it, in RGB, L, CMYK or LAB of 8 bits, and where it is see-through."""
    upright = ImageOps.exif_transpose(image)
    if upright.mode in _WIDE:
        upright = _narrowed(upright)
    if upright.has_transparency_data:
        upright = upright.convert("RGBA")
        return upright.convert("RGB"), upright.getchannel("A")
    if upright.mode not in ("RGB", "L", "CMYK", "LAB"):
        upright = upright.convert("L" if upright.mode == "1" else "RGB")
    return upright, None


def _narrowed(image: Image.Image) -> Image.Image:
    """Return a picture of 16 bits a pixel as one of 8."""
    values = np.asarray(image, dtype=np.float64) / 257.0
    return Image.fromarray(np.clip(np.rint(values), 0, 255).astype(np.uint8))


def in_srgb(image: Image.Image, icc: bytes | None) -> tuple[Image.Image, str]:
    """Return a picture's pixels by its embedded profile in sRGB, and what became of the profile.

    Source: ICC.1:2010, relative colorimetric intent, with black point compensation.
    """
    if not icc:
        return image.convert("RGB"), "sRGB assumed"
    try:
        converted = ImageCms.profileToProfile(
            image,
            ImageCms.ImageCmsProfile(io.BytesIO(icc)),
            ImageCms.createProfile("sRGB"),
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
            outputMode="RGB",
            flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
        )
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return image.convert("RGB"), "embedded profile unreadable, sRGB assumed"
    return converted or image.convert("RGB"), "embedded profile"
