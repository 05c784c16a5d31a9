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
    weighed = "The mass is estimated from the size." if estimated else "The mass is as given, glass and all."
    weight = next(c for c in load_cautions() if c.id == "weight")
    hangs = f"{format_mass(mass, say.units, round_to='up')} hangs from these fixings. {weighed}"
    said = [f"{weight.title}: {hangs} {weight.text}"]
    if below in OVER_PEOPLE:
        said.append(known["over-people"])
    if glass:
        said.append(known["glass"])
    return (*said, *(known[i] for i in _ALWAYS))
