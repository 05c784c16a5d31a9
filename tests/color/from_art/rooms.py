"""An invented picture, room and library for the tests of schemes."""

from __future__ import annotations

import numpy as np

from halfdrop.color.from_art import Place
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.lab import lab_of_srgb, srgb_of_lab
from halfdrop.color.library import Library, library_of_csv
from halfdrop.color.srgb import hex_of_srgb, srgb_of_hex


def lab(code: str) -> tuple[float, float, float]:
    """Return L* a* b* of a hex code."""
    found = lab_of_srgb(srgb_of_hex(code))
    return float(found[0]), float(found[1]), float(found[2])


def picture() -> tuple[ArtColor, ...]:
    """Return a picture of a hillside: sage, bone, brick and a deep blue."""
    shares = (("#7a8b6f", 0.4), ("#e8dcc4", 0.3), ("#b5533c", 0.15), ("#2f4858", 0.15))
    return tuple(ArtColor(lab(code), share) for code, share in shares)


def living() -> tuple[Place, ...]:
    """Return a living room whose oak floor, one armchair and rug stay."""
    return (
        Place("surfaces/walls", "walls", 38.0, "walls"),
        Place("surfaces/ceiling", "ceiling", 22.0, "ceiling"),
        Place("surfaces/floor", "floor", 14.0, "floor", ((lab("#a07850"), 1.0),)),
        Place("surfaces/trim", "trim", 4.0, "trim"),
        Place("pieces/sofa", "sofa", 5.0, "large"),
        Place("pieces/armchair-east", "east armchair", 2.0, "medium", ((lab("#9a8f80"), 1.0),)),
        Place("pieces/armchair-west", "west armchair", 2.0, "medium"),
        Place("rugs/heirloom", "rug", 3.7, "medium", ((lab("#8a3030"), 0.6), (lab("#d8c8a0"), 0.4))),
        Place("treatments/pair", "curtains", 6.0, "medium"),
        Place("cushions/four", "cushions", 0.6, "small"),
        Place("pieces/lamp", "lamp", 0.3, "small"),
        Place("pieces/bookcase", "bookcase", 3.0, "large"),
    )


def library(count: int = 4000, seed: int = 11) -> Library:
    """Return invented swatches all over what a screen can show, many of them quiet as a paint maker's are."""
    draw = np.random.default_rng(seed)
    labs = np.stack(
        [draw.uniform(15, 98, count), draw.normal(0, 16, count), draw.normal(6, 18, count)], axis=1
    )
    codes = [hex_of_srgb(np.clip(srgb_of_lab(one), 0, 1)) for one in labs]
    return library_of_csv("name,code,srgb\n" + "\n".join(f"Tone {n},T{n},{c}" for n, c in enumerate(codes)))
