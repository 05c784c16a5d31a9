"""Headings to the millimeter: pleats and spaces, eyelets."""

from halfdrop.drapery.pleats.equal import EqualAnswer, pleats_equal
from halfdrop.drapery.pleats.eyelets import EyeletsAnswer, eyelets
from halfdrop.drapery.pleats.spaced import PLEATED, PleatsAnswer, pleats_spaced

__all__ = [
    "PLEATED",
    "EqualAnswer",
    "EyeletsAnswer",
    "PleatsAnswer",
    "eyelets",
    "pleats_equal",
    "pleats_spaced",
]
