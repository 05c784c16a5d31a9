"""Gallery height: the middle of a work, or of a group as a whole, at the height of the eye."""

from __future__ import annotations

from halfdrop.art.height import HangHeight
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

LOW, HIGH, SEATED = "art.center_low", "art.center_high", "art.seated_lower"


def eye_span(practice: Practice, seated: bool = False) -> tuple[float, float]:
    """Return the least and the most height of a work's middle [m above the floor].

    Parameters
    ----------
    practice : Practice
        `art.center_low`, `art.center_high`, `art.seated_lower`.
    seated : bool
        Whether people mostly sit in the room.

    Source: gallery practice (common practice, no source); seated: from memory. Checked by: tests/art/test_height.py.
    """
    lower = float(practice.length(SEATED)) if seated else 0.0
    return float(practice.length(LOW)) - lower, float(practice.length(HIGH)) - lower


def hang_at_eye(
    height: float, practice: Practice, *, seated: bool = False, center: float | None = None
) -> HangHeight:
    """Return the height of a work on a bare wall.

    Parameters
    ----------
    height : float
        Of the frame, or of the whole group [m].
    practice : Practice
        As `eye_span`.
    seated : bool
        Whether people mostly sit in the room.
    center : float, optional
        Where the house wants the middle [m above the floor]; the least of practice without it.

    Source: gallery practice (common practice, no source). Checked by: tests/art/test_height.py, tests/published/art_height.csv.
    """
    say = Words(practice)
    low, high = eye_span(practice, seated)
    at = low if center is None else center
    working = Working("Height on a bare wall")
    keys = (LOW, HIGH, SEATED) if seated else (LOW, HIGH)
    working.step(
        "middle wanted",
        "least and most" + (", less what is taken off where people sit" if seated else ""),
        f"{say(low)} to {say(high)}",
        f"{say(at)} is taken",
        source=say.cited(*keys) if center is None else "as asked for; " + say.cited(*keys),
    )
    working.step("bottom of the frame", "middle − half its height",
                 f"{say(at)} − {say(height / 2)}", say(at - height / 2))  # fmt: skip
    conflicts: tuple[str, ...] = ()
    if not low - 1e-9 <= at <= high + 1e-9:
        by, way = (low - at, "below") if at < low else (at - high, "above")
        conflicts = (
            f"The middle is at {say(at)}, {say(by)} {way} the {say(low)} to {say(high)} of practice.",
        )
    return HangHeight(at, height, "gallery height", None, conflicts, None, working)
