"""Paint the two invented pictures of the demo: one whose colors the living room has, one whose colors it has not.

Run `python tools/paintings.py [FOLDER]`; the same bytes each time. They stand in `examples/`.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

Color = tuple[int, int, int]
FOLDER = Path(__file__).parents[1] / "examples"
#: Painted at twice the size, then brought down, so that edges are soft.
TWICE = 2


def _blobs(size: tuple[int, int], coarse: int, rng: np.random.Generator) -> np.ndarray:
    """Return slow noise from -1 to 1 over a canvas, as if brushed."""
    small = rng.normal(size=(size[1] // coarse + 2, size[0] // (3 * coarse) + 2))
    made = Image.fromarray(small.astype(np.float32), mode="F").resize(size, Image.Resampling.BICUBIC)
    return np.clip(np.asarray(made) / 2.2, -1.0, 1.0)


def _brushed(image: Image.Image, strength: float, seed: int) -> Image.Image:
    """Break flat color up as a brush does, in strokes that run across."""
    rng = np.random.default_rng(seed)
    noise = 0.6 * _blobs(image.size, 10, rng) + 0.4 * _blobs(image.size, 3, rng)
    pixels = np.asarray(image, dtype=np.float64) * (1.0 + strength * noise[..., None])
    return Image.fromarray(np.clip(np.round(pixels), 0, 255).astype(np.uint8))


def _finished(image: Image.Image, size: tuple[int, int], colors: int) -> Image.Image:
    soft = image.filter(ImageFilter.GaussianBlur(0.8)).resize(size, Image.Resampling.LANCZOS)
    return soft.quantize(colors, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)


def harbor(size: tuple[int, int] = (480, 330)) -> Image.Image:
    """Paint a harbor at low water: a pale sky, gray-green water, wet sand, one rust-red hull."""
    w, h = size[0] * TWICE, size[1] * TWICE
    image = Image.new("RGB", (w, h), (226, 221, 206))
    draw = ImageDraw.Draw(image)
    bands: list[tuple[float, Color]] = [
        (0.00, (222, 220, 209)), (0.16, (229, 221, 202)), (0.34, (208, 205, 190)), (0.43, (118, 137, 133)),
        (0.50, (93, 117, 119)), (0.58, (132, 146, 136)), (0.64, (183, 170, 141)), (0.76, (166, 146, 113)), (0.88, (141, 120, 92)),
    ]  # fmt: skip
    for start, color in bands:
        edge = [(x, start * h + 5.0 * np.sin(x / w * 9.0 + 40.0 * start)) for x in range(0, w + 8, 8)]
        draw.polygon([*edge, (w, h), (0, h)], fill=color)
    hills = [(0, 0.43), (0.12, 0.385), (0.25, 0.40), (0.42, 0.36), (0.58, 0.405), (0.75, 0.39), (1.0, 0.43)]
    draw.polygon([(x * w, y * h) for x, y in hills], fill=(96, 108, 103))
    for x, long in ((0.11, 0.22), (0.165, 0.16), (0.86, 0.2)):
        draw.line([(x * w, 0.66 * h), (x * w, (0.66 - long) * h)], fill=(62, 54, 46), width=7)
    keel, deck = 0.745 * h, 0.655 * h
    hull = [(0.42 * w, deck), (0.79 * w, deck - 12), (0.735 * w, keel), (0.475 * w, keel + 4)]
    draw.polygon(hull, fill=(150, 74, 47))
    draw.polygon([hull[0], hull[1], (0.783 * w, deck + 8), (0.43 * w, deck + 18)], fill=(226, 216, 193))
    draw.polygon(
        [(0.55 * w, deck - 6), (0.66 * w, deck - 9), (0.655 * w, deck - 62), (0.56 * w, deck - 58)],
        fill=(214, 206, 187),
    )
    draw.rectangle([0.575 * w, deck - 46, 0.6 * w, deck - 26], fill=(74, 82, 80))
    draw.line([(0.52 * w, deck), (0.535 * w, 0.2 * h)], fill=(58, 48, 40), width=6)
    draw.ellipse([0.43 * w, keel - 2, 0.80 * w, keel + 26], fill=(110, 84, 62))
    draw.polygon(hull, fill=(150, 74, 47))
    draw.polygon([hull[0], hull[1], (0.783 * w, deck + 8), (0.43 * w, deck + 18)], fill=(226, 216, 193))
    draw.line([(0.08 * w, 0.83 * h), (0.44 * w, deck + 14)], fill=(70, 60, 50), width=3)
    return _finished(_brushed(image, 0.075, 11), size, 64)


def carnival(size: tuple[int, int] = (374, 476)) -> Image.Image:
    """Paint a carnival at night: violet sky, magenta and lime tents, paper lanterns, confetti."""
    w, h = size[0] * TWICE, size[1] * TWICE
    image = Image.new("RGB", (w, h), (66, 26, 112))
    draw = ImageDraw.Draw(image)
    draw.polygon([(0, 0.62 * h), (w, 0.54 * h), (w, h), (0, h)], fill=(38, 20, 74))
    for k, (x, wide, colors) in enumerate((
        (0.02, 0.42, ((226, 22, 128), (250, 222, 60))),
        (0.36, 0.40, ((142, 214, 40), (238, 240, 236))),
        (0.66, 0.36, ((16, 168, 214), (226, 22, 128))),
    )):  # fmt: skip
        top, eaves, foot = (0.34 + 0.05 * k) * h, (0.55 + 0.02 * k) * h, 0.9 * h
        left, right = x * w, (x + wide) * w
        peak = ((left + right) / 2, top)
        for n in range(8):
            a, b = left + (right - left) * n / 8, left + (right - left) * (n + 1) / 8
            draw.polygon([peak, (a, eaves), (b, eaves)], fill=colors[n % 2])
            draw.polygon([(a, eaves), (b, eaves), (b, foot), (a, foot)], fill=colors[(n + 1) % 2])
    rng = np.random.default_rng(7)
    lanterns: tuple[Color, ...] = ((255, 122, 20), (250, 222, 60), (226, 22, 128), (142, 214, 40))
    for n in range(9):
        x, y = (n + 0.5) / 9 * w, (0.13 + 0.07 * np.sin(n / 8 * np.pi)) * h
        draw.line([(x, 0), (x, y)], fill=(120, 84, 150), width=3)
        draw.ellipse([x - 26, y - 6, x + 26, y + 58], fill=lanterns[n % 4])
    for _ in range(240):
        x, y, r = rng.uniform(0, w), rng.uniform(0.05, 1.0) * h, rng.uniform(4, 9)
        draw.ellipse([x - r, y - r, x + r, y + r], fill=lanterns[int(rng.integers(4))])
    return _finished(_brushed(image, 0.06, 13), size, 64)


def main(folder: Path = FOLDER) -> None:
    """Write both."""
    for name, picture in (("harbor", harbor()), ("carnival", carnival())):
        picture.save(folder / f"{name}.png", optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
