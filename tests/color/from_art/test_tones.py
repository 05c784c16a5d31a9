"""What a picture's colors become in each role."""

from __future__ import annotations

import pytest

from halfdrop.color.from_art import STYLES, Style
from halfdrop.color.from_art.tones import tones, walls_range
from halfdrop.color.lab import lch_of_lab
from halfdrop.practice import load_practice
from tests.color.from_art.rooms import picture

PRACTICE = load_practice("us")


@pytest.mark.parametrize("style", STYLES)
def test_each_role_keeps_to_what_it_may_have(style: Style) -> None:
    """Large pieces, ceilings and trim get near-neutrals; walls and second colors no more chroma than the style gives."""
    most = {
        "large": PRACTICE.number("color.neutral_to"),
        "ceiling": PRACTICE.number("color.neutral_to"),
        "trim": PRACTICE.number("color.neutral_to"),
        "walls": walls_range(style, PRACTICE)[2],
        "medium": PRACTICE.number(f"color.second_chroma_{style}"),
    }
    for role, chroma in most.items():
        for tone in tones(picture(), role, style, PRACTICE):  # type: ignore[arg-type]
            assert lch_of_lab(tone.lab)[1] <= chroma + 1e-9, (role, tone)


@pytest.mark.parametrize("style", STYLES)
def test_tones_keep_the_hue_of_the_color_they_come_from(style: Style) -> None:
    """Lightened, darkened or greyed, a tone keeps the hue of its color of the art."""
    for role in ("walls", "medium", "small", "large", "ceiling", "trim", "floor"):
        for tone in tones(picture(), role, style, PRACTICE):  # type: ignore[arg-type]
            hue, was = float(lch_of_lab(tone.lab)[2]), float(lch_of_lab(picture()[tone.of].lab)[2])
            assert abs((hue - was + 180) % 360 - 180) < 1e-6


def test_walls_go_from_pale_to_deep() -> None:
    """A quiet scheme's walls are lighter and greyer than a balanced one's, and these than a bold one's."""
    ranges = [walls_range(style, PRACTICE) for style in STYLES]
    assert [r[0] for r in ranges] == sorted((r[0] for r in ranges), reverse=True)
    assert [r[2] for r in ranges] == sorted(r[2] for r in ranges)
