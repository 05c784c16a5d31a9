"""Tall works: the bottom edge decides, not the middle."""

from __future__ import annotations

from halfdrop.art.eye_height import HIGH, LOW, eye_span
from halfdrop.art.height import HangHeight
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

FROM, BOTTOM_LOW, BOTTOM_HIGH = "art.tall_from", "art.tall_bottom_low", "art.tall_bottom_high"


def is_tall(height: float, practice: Practice) -> bool:
    """Return whether a frame of this height [m] is hung by its bottom edge."""
    return height > float(practice.length(FROM)) + 1e-9


def hang_tall(height: float, practice: Practice, *, base: float = 0.0, seated: bool = False) -> HangHeight:
    """Return the height of a tall work: its bottom within its span above what is below, its middle as near the eye as that allows.

    Parameters
    ----------
    height : float
        Of the frame [m]; from `art.tall_from` on.
    practice : Practice
        `art.tall_from`, `art.tall_bottom_low`, `art.tall_bottom_high`, and as `eye_span`.
    base : float
        Top of the piece below [m above the floor]; 0 for the floor.
    seated : bool
        Whether people mostly sit in the room.

    Source: common practice, from memory. Checked by: tests/art/test_height.py.
    """
    say = Words(practice)
    low, high = eye_span(practice, seated)
    least, most = base + float(practice.length(BOTTOM_LOW)), base + float(practice.length(BOTTOM_HIGH))
    bottom = min(max(low - height / 2, least), most)
    working = Working("Height of a tall work")
    working.step("bottom of the frame", "floor or piece below + least to most", f"{say(base)} + "
                 f"{say(practice.length(BOTTOM_LOW))} to {say(practice.length(BOTTOM_HIGH))}",
                 f"{say(least)} to {say(most)}", source=say.cited(FROM, BOTTOM_LOW, BOTTOM_HIGH))  # fmt: skip
    working.step("as taken", "within that, the middle as near as can be to its least",
                 f"{say(low)} − {say(height / 2)} wanted", say(bottom), source=say.cited(LOW))  # fmt: skip
    center = bottom + height / 2
    conflicts: tuple[str, ...] = ()
    if not low - 1e-9 <= center <= high + 1e-9:
        by, way = (low - center, "below") if center < low else (center - high, "above")
        conflicts = (
            f"The middle is at {say(center)}, {say(by)} {way} the {say(low)} to {say(high)} of practice; "
            f"a work of {say(height)} hangs by its bottom edge.",
        )
        working.step("middle", "bottom + half its height", f"{say(bottom)} + {say(height / 2)}", say(center),
                     source=say.cited(LOW, HIGH))  # fmt: skip
    return HangHeight(
        center, height, "bottom edge", bottom - base if base else None, conflicts, None, working
    )
