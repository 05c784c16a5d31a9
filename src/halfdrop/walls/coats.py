"""How many coats, and of what: by what is there now and how far the color changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.working import Working
from halfdrop.job.finishes import ColorChange, Substrate
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Ground = Literal["none", "primer", "mist"]
_CHANGE = {"same": "walls.coats_same", "near": "walls.coats", "strong": "walls.coats_strong"}
_GROUND: dict[str, tuple[Ground, str]] = {
    "new plaster": ("mist", "walls.coats_mist"),
    "new drywall": ("primer", "walls.coats_primer"),
    "bare wood": ("primer", "walls.coats_primer"),
    "patched": ("primer", "walls.coats_primer"),
    "glossy": ("primer", "walls.coats_primer"),
}


@dataclass(frozen=True)
class CoatsAnswer:
    """Coats.

    Attributes
    ----------
    finish : int
        Of the finish paint.
    ground : {"none", "primer", "mist"}
        What goes on first: a primer, or the finish paint thinned.
    ground_coats : int
        How many of it.
    """

    finish: int
    ground: Ground
    ground_coats: int
    working: Working


def coats_for(
    substrate: Substrate, change: ColorChange, practice: Practice, *, asked: int | None = None
) -> CoatsAnswer:
    """Return the coats a surface wants.

    Parameters
    ----------
    substrate : str
        What is there: painted, patched, glossy, new drywall, new plaster, bare wood. What is new has no color to
        cover: it takes its ground coat and the usual finish coats, never fewer.
    change : {"same", "near", "strong"}
        From the old color to the new one; a deep or bright paint counts as strong.
    practice : Practice
        `walls.coats…`.
    asked : int, optional
        Finish coats as the job asks for them; the ground coat stays.

    Source: common practice, from memory: 2 finish coats, 3 for a strong change.

    Checked by: tests/walls/test_paint.py.
    """
    say = Words(practice)
    working = Working("Coats")
    fresh = substrate in ("new drywall", "new plaster", "bare wood")
    key = _CHANGE["near" if fresh and change == "same" else change]
    finish = practice.count(key) if asked is None else asked
    working.step(
        "finish coats", "by the change of color" if asked is None else "as the job asks", f"{change}, on {substrate}",
        str(finish), source=say.cited(key) if asked is None else "",
    )  # fmt: skip
    ground, ground_key = _GROUND.get(substrate, ("none", ""))
    count = practice.count(ground_key) if ground_key else 0
    if ground_key:
        working.step(
            "ground coats",
            "by what is there",
            f"{substrate}: {ground}",
            str(count),
            source=say.cited(ground_key),
        )
    return CoatsAnswer(finish, ground if count else "none", count, working)
