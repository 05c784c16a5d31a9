"""Above furniture: the gap to the piece and the height of the eye, and which gives way where they quarrel."""

from __future__ import annotations

from typing import Literal, get_args

from halfdrop.art.eye_height import HIGH, LOW, eye_span
from halfdrop.art.height import HangHeight
from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Below = Literal["sofa", "headboard", "bed", "cot", "console", "sideboard", "chest", "mantel"]
_GAPS: dict[str, str] = {
    "sofa": "sofa", "headboard": "sofa", "bed": "sofa", "cot": "sofa", "console": "console", "sideboard": "console",
    "chest": "console", "mantel": "mantel",
}  # fmt: skip
MOST = "art.gap_most"


def gap_keys(below: str) -> tuple[str, str, str]:
    """Return the keys of the gap over a piece: least, aim, most wanted.

    Raises
    ------
    InputError
        For a piece that has none.
    """
    if below not in _GAPS:
        raise InputError(f"no gap is known over a `{below}`", hint=did_you_mean(below, get_args(Below)))
    name = _GAPS[below]
    return f"art.gap_{name}_low", f"art.gap_{name}_aim", f"art.gap_{name}_high"


def hang_above(
    height: float,
    top: float,
    practice: Practice,
    *,
    below: str = "sofa",
    gap: float | None = None,
    seated: bool = False,
) -> HangHeight:
    """Return the height of a work above a piece.

    The gap leads, since piece and work are read together. It starts at its aim, moves within what is wanted to bring the
    middle to the height of the eye, and opens to `art.gap_most` where the middle would hang too low otherwise. What is then
    still missing is said, with the heights of a work that would meet both.

    Parameters
    ----------
    height : float
        Of the frame, or of the whole group [m].
    top : float
        Top of the piece [m above the floor].
    practice : Practice
        `art.gap_…_low`, `_aim` and `_high` of the piece, `art.gap_most`, and as `eye_span`.
    below : str
        "sofa", "headboard", "bed", "cot", "console", "sideboard", "chest" or "mantel".
    gap : float, optional
        The gap the house wants [m]; then that is kept, and only the eye's height gives way.
    seated : bool
        Whether people mostly sit in the room.

    Raises
    ------
    InputError
        For a piece that no gap is known over, or a gap below 0.

    Source: common practice, from memory; which gives way: our choice. Checked by: tests/art/test_height.py, tests/published/art_height.csv.
    """
    say = Words(practice)
    keys = gap_keys(below)
    least, aim, high_gap = (float(practice.length(k)) for k in keys)
    most = max(float(practice.length(MOST)), high_gap)
    low, high = eye_span(practice, seated)
    half = height / 2
    working = Working(f"Height above the {below}")
    if gap is not None:
        if gap < 0:
            raise InputError(
                f"the gap over the {below} is {say(gap)}; allowed is 0 or more",
                hint="give the gap from the top of the piece up to the frame",
            )
        taken = gap
        working.step("gap", "as asked for", "", say(taken))
    else:
        to_eye = min(max(aim, low - half - top), high - half - top)
        taken = min(max(to_eye, least), high_gap)
        working.step("gap at its aim", "top of the piece + aim + half the height",
                     f"{say(top)} + {say(aim)} + {say(half)}", f"middle at {say(top + aim + half)}",
                     source=say.cited(*keys))  # fmt: skip
        if abs(taken - aim) > 1e-9:
            working.step("gap moved", "within least and most wanted, to bring the middle nearer to the eye",
                         f"{say(least)} to {say(high_gap)}; middle wanted {say(low)} to {say(high)}",
                         f"{say(taken)}", source=say.cited(keys[0], keys[2], LOW, HIGH))  # fmt: skip
        if top + taken + half < low - 1e-9:
            taken = min(max(taken, low - half - top), most)
            working.step("gap opened", "to the most, where the middle hangs too low otherwise",
                         f"at most {say(most)}", say(taken), source=say.cited(MOST))  # fmt: skip
    center = top + taken + half
    working.step("middle", "top of the piece + gap + half the height",
                 f"{say(top)} + {say(taken)} + {say(half)}", say(center))  # fmt: skip
    said, meet = _quarrel(height, top, taken, (least, high_gap), (low, high), below, say)
    return HangHeight(center, height, "above a piece", taken, said, meet, working)


def _quarrel(
    height: float,
    top: float,
    gap: float,
    gaps: tuple[float, float],
    eye: tuple[float, float],
    below: str,
    say: Words,
) -> tuple[tuple[str, ...], tuple[float, float] | None]:
    """Say which wish gave way, and which heights of a work would meet both."""
    center = top + gap + height / 2
    said: list[str] = []
    if gap < gaps[0] - 1e-9 or gap > gaps[1] + 1e-9:
        said.append(f"The gap over the {below} is {say(gap)}; wanted {say(gaps[0])} to {say(gaps[1])}.")
    if center < eye[0] - 1e-9 or center > eye[1] + 1e-9:
        by, way = (eye[0] - center, "below") if center < eye[0] else (center - eye[1], "above")
        said.append(
            f"The middle is at {say(center)}, {say(by)} {way} the {say(eye[0])} to {say(eye[1])} of practice; "
            f"the gap over the {below} goes first, since piece and work are read together."
        )
    shortest, tallest = 2 * (eye[0] - top - gaps[1]), 2 * (eye[1] - top - gaps[0])
    if not said or tallest <= 0:
        return tuple(said), None
    span = max(shortest, 0.0), tallest
    least = f"{say(span[0])} to " if span[0] > 0 else "up to "
    said.append(f"A work or group {least}{say(span[1])} high would meet both.")
    return tuple(said), span
