"""Flat width of one hand-made curtain of a pair: half the pole and an ease that grows with it."""

from __future__ import annotations

from halfdrop.drapery.answer import LengthAnswer, one_step
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

_FIXED, _SHARE = "drapery.uk_ease_fixed", "drapery.uk_ease_share"


def uk_ease(pole: float, practice: Practice) -> float:
    """Return ease and overlap of one curtain [m]: 4 cm + 0.025 × pole, as a published table from 120 to 320 cm has it.

    Source: a curtain-making tutorial's table, fitted. Checked by: tests/published/drapery_uk_ease.csv.
    """
    return float(practice.length(_FIXED)) + practice.number(_SHARE) * pole


def flat_uk(pole: float, fullness: float, practice: Practice) -> LengthAnswer:
    """Return the flat width of both curtains: 2 × (pole ÷ 2 + ease) × fullness.

    Source: common practice (UK). Checked by: tests/published/drapery_uk_ease.csv.
    """
    say = Words(practice)
    ease = uk_ease(pole, practice)
    flat = 2 * (pole / 2 + ease) * fullness
    return one_step("Flat width", "uk", flat, "2 × (pole ÷ 2 + ease) × fullness",
                    f"2 × ({say(pole / 2)} + {say(ease)}) × {fullness:g}", say.cited(_FIXED, _SHARE), practice)  # fmt: skip
