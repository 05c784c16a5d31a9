"""Pictures made for the tests: blocks of known colors with a little noise."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
from PIL import Image

#: Wall, cabinet, sofa, plant: sRGB, and the share of the picture.
BLOCKS = (
    ((222, 220, 216), 0.5250),
    ((60, 90, 110), 0.21875),
    ((180, 90, 50), 0.15625),
    ((120, 140, 90), 0.1),
)


def blocks(width: int = 1600, height: int = 1200, noise: float = 4.0) -> Image.Image:
    """Return a picture of four blocks."""
    picture = np.empty((1200, 1600, 3))
    picture[:] = BLOCKS[0][0]
    picture[300:900, 100:800] = BLOCKS[1][0]
    picture[200:700, 900:1500] = BLOCKS[2][0]
    picture[900:1140, 700:1500] = BLOCKS[3][0]
    picture += np.random.default_rng(5).normal(0, noise, picture.shape)
    image = Image.fromarray(picture.clip(0, 255).astype(np.uint8))
    return image.resize((width, height), Image.Resampling.BICUBIC)


def encoded(image: Image.Image, kind: str = "PNG", **more: Any) -> bytes:
    """Return a picture's file."""
    out = io.BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()
