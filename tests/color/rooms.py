"""A room's colors for the tests."""

from __future__ import annotations

from halfdrop.color.areas import ColorArea
from halfdrop.practice import load_practice

US = load_practice("us")
ROOM = (
    ColorArea("walls", (88, 1, 6), 36),
    ColorArea("rug", (84, 2, 8), 12),
    ColorArea("sofa", (40, -4, -20), 16),
    ColorArea("curtains", (43, -3, -18), 8),
    ColorArea("cushions", (48, 40, 40), 8),
)
