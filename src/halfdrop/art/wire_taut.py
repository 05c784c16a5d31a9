"""The wire pulled up taut and measured: the frame itself gives the drop, whatever the wire is."""

from __future__ import annotations

from halfdrop.art.wire import Hang, check_drop
from halfdrop.base.errors import InputError
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words


def taut_wire(width: float, height: float, drop: float, practice: Practice, *, spacing: float = 0.0) -> Hang:
    """Return how a frame hangs whose wire was pulled up and measured.

    Parameters
    ----------
    width, height : float
        Of the frame [m].
    drop : float
        From the top of the frame down to the wire, pulled up taut: by one finger at the middle for one hook, by two fingers as
        far apart as the hooks for two [m].
    practice : Practice
        `art.hook_below_top`.
    spacing : float
        Between two hooks [m]; 0 for one.

    Raises
    ------
    InputError
        Where a hook would stand outside the frame.

    Source: gallery practice (common practice, no source). Checked by: tests/art/test_wire.py.
    """
    say = Words(practice)
    if not 0 <= spacing < width:
        raise InputError(
            f"the hooks are {say(spacing)} apart behind a frame {say(width)} wide; they have to be behind it"
        )
    offsets = (-spacing / 2, spacing / 2) if spacing else (0.0,)
    notes = check_drop(drop, height, practice)
    fingers = "two fingers as far apart as the hooks" if spacing else "one finger at the middle"
    working = Working("Wire as measured")
    working.step("top of the frame to the hook", f"as measured, pulled up taut by {fingers}", say(drop), say(drop),
                 source="gallery practice: common practice, no source")  # fmt: skip
    unknown = "The pull in the wire is not known; give the hangers and the length of the wire for it."
    return Hang(
        "wire, pulled up and measured",
        drop,
        offsets,
        None,
        None,
        1.0 / len(offsets),
        (*notes, unknown),
        working,
    )
