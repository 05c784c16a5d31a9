"""What is said whenever something is hung on a wall; local codes and licensed practice go before."""

from __future__ import annotations

from halfdrop.base.formats import format_mass
from halfdrop.practice import Practice
from halfdrop.practice.cautions import load_cautions
from halfdrop.practice.words import Words

#: General cautions that belong to fixing anything to a wall.
_ALWAYS = ("drilling", "lead", "asbestos", "ladders")
#: Below these people sleep or sit with their heads under the work.
OVER_PEOPLE = frozenset({"headboard", "bed", "cot", "sofa"})


def hanging_cautions(
    mass: float, practice: Practice, *, below: str | None = None, glass: bool = False, estimated: bool = False
) -> tuple[str, ...]:
    """Return the cautions of one work on a wall.

    Parameters
    ----------
    mass : float
        Of the work [kg].
    practice : Practice
        Its set decides the units.
    below : str, optional
        What stands below it: "sofa", "headboard", "bed", "cot" …
    glass : bool
        Whether it has glass in it, or is a mirror.
    estimated : bool
        Whether the mass was estimated from the size.

    Source: common practice, no source; general cautions as `practice.cautions`. Checked by: tests/art/test_fixings.py.
    """
    say = Words(practice)
    known = {c.id: f"{c.title}: {c.text}" for c in load_cautions()}
    weighed = (
        "The mass is estimated from the size; weigh the work before the fixing is bought."
        if estimated
        else "The mass is as given, glass and all."
    )
    said = [
        f"Weight on a wall: {format_mass(mass, say.units, round_to='up')} hangs from these fixings. {weighed} Loads are for a "
        "sound wall; the maker's figure goes before, and where the wall is doubtful a builder looks at it. "
        "Pull down on each fixing before the work hangs on it."
    ]
    if below in OVER_PEOPLE:
        said.append(
            "Over a bed or a seat: nothing heavy and no glass hangs where people sleep or sit with their heads under it, and "
            "nothing at all within reach of a cot or a crib. What does hang there hangs from two fixings, each able to carry the "
            "whole, with the frame locked at its bottom; acrylic instead of glass."
        )
    if glass:
        said.append(known["glass"])
    return (*said, *(known[i] for i in _ALWAYS))
