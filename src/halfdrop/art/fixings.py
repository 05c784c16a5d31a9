"""Fixings: what one hook pulls, what each fixing may carry in this wall, and the safety factor between."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.base.formats import format_mass
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Wall = Literal["plasterboard", "stud", "brick", "plaster on lath", "tile"]
Rating = Literal["working", "printed", "ultimate"]
PRINTED, ULTIMATE = "art.factor_printed", "art.factor_ultimate"
_HOOKS = tuple(f"art.picture_hook_{lb}" for lb in (10, 20, 30, 50, 75, 100))

#: The fixings of each wall: practice key, how its load is given, and its name.
_BOARD = (
    ("art.plug_board", "plastic plug"),
    ("art.anchor_threaded", "self-drilling threaded anchor"),
    ("art.anchor_hollow", "expanding hollow-wall anchor"),
    ("art.toggle", "toggle bolt"),
)
_STUD = (("art.screw_stud", "wood screw in the stud"),)
_BRICK = (("art.plug_masonry_6", "6 mm plug and screw"), ("art.plug_masonry_8", "8 mm plug and screw"))

_WALL_NOTES: dict[str, tuple[str, ...]] = {
    "plaster on lath": (
        "Old plaster takes no hammered hook: pre-drill into a stud, or hang from the picture rail where there is one.",
    ),
    "tile": (
        "In tile, drill in a joint or with a diamond bit, without hammer; the plug holds in the wall behind, not in the tile. "
        "The loads are those of solid brick behind the tile.",
    ),
    "plasterboard": ("The loads are for 1/2 in (12.5 mm) board, sound and dry.",),
}


@dataclass(frozen=True)
class Fixing:
    """One fixing and what it may carry.

    Attributes
    ----------
    name : str
        What it is called.
    working : float
        What one may carry [kg].
    factor : float
        What it may carry ÷ what it has to; below 1 it is too weak.
    key : str
        Of the practice value.
    """

    name: str
    working: float
    factor: float
    key: str

    @property
    def holds(self) -> bool:
        """Whether it may carry what it has to."""
        return self.factor >= 1 - 1e-9

    @property
    def said(self) -> str:
        """The factor, rounded down to one digit."""
        return f"{math.floor(self.factor * 10 + 1e-6) / 10:.1f}"


@dataclass(frozen=True)
class FixingAnswer:
    """The fixings of one work.

    Attributes
    ----------
    load : float
        Pull on one hook [kg].
    wall : str
        What it goes into.
    choice : Fixing or None
        The lightest that holds; None where none does.
    all : tuple of Fixing
        Every fixing for that wall, the lightest first.
    notes : tuple of str
        What to know.
    working : Working
        The steps.
    """

    load: float
    wall: str
    choice: Fixing | None
    all: tuple[Fixing, ...]
    notes: tuple[str, ...]
    working: Working


def working_load(rated: float, rating: Rating, practice: Practice) -> float:
    """Return what a fixing may carry [kg].

    Parameters
    ----------
    rated : float
        What is known of it [kg]; above 0.
    rating : {"working", "printed", "ultimate"}
        Whether that is a working load, the figure on a packet of hooks, or the load at which it fails.
    practice : Practice
        `art.factor_printed`, `art.factor_ultimate`.

    Raises
    ------
    InputError
        For a load of 0 or less.

    Source: common practice, from memory. Checked by: tests/art/test_fixings.py, tests/published/art_fixings.csv.
    """
    if rated <= 0:
        raise InputError(f"a fixing rated for {rated:g} kg holds nothing; allowed is above 0")
    factors = {"working": 1.0, "printed": practice.number(PRINTED), "ultimate": practice.number(ULTIMATE)}
    return rated / factors[rating]


def fixings_for(
    mass: float,
    wall: str,
    practice: Practice,
    *,
    pull: float = 1.0,
    rated: tuple[float, Rating] | None = None,
    over_people: bool = False,
) -> FixingAnswer:
    """Return the fixings that hold a work in a wall.

    Parameters
    ----------
    mass : float
        Of the work, frame, glass and all [kg]; above 0.
    wall : str
        "plasterboard", "stud", "brick", "plaster on lath" or "tile".
    practice : Practice
        The loads of its fixings and the factors.
    pull : float
        Pull on one hook ÷ weight, from `Hang.pull`.
    rated : (float, str), optional
        The load of the fixing at hand [kg] and what that figure is; then only that one is judged.
    over_people : bool
        Whether people sleep or sit under it; then each fixing has to carry the whole.

    Raises
    ------
    InputError
        For an unknown wall, or a mass of 0 or less.

    Caution: loads are for sound walls. What hangs over people is worth a person who knows the wall; local codes go before.

    Source: loads are common practice, from memory. Checked by: tests/art/test_fixings.py.
    """
    if wall not in get_args(Wall):
        raise InputError(f"no wall is called `{wall}`", hint=did_you_mean(wall, get_args(Wall)))
    if mass <= 0:
        raise InputError(
            f"the work weighs {mass:g} kg; allowed is above 0", hint="weigh it, or leave the mass out"
        )
    say = Words(practice)
    if over_people:
        pull = max(pull, 1.0)
    load = mass * pull
    if rated is not None:
        one = working_load(*rated, practice)
        found = [Fixing("fixing at hand", one, one / load, "")]
    else:
        found = sorted(_known(wall, load, practice), key=lambda f: (f.working, f.name))
    choice = next((f for f in found if f.holds), None)
    working = Working("Fixing")
    what = "the whole, since people are under it" if over_people else "pull on one hook ÷ weight"
    working.step("pull on one hook", f"mass × {what}",
                 f"{format_mass(mass, say.units)} × {pull:.3f}", format_mass(load, say.units))  # fmt: skip
    for fixing in found:
        working.step(fixing.name, "what it may carry ÷ pull", f"{format_mass(fixing.working, say.units)} ÷ "
                     f"{format_mass(load, say.units)}", fixing.said + ("" if fixing.holds else ": too weak"),
                     rounding="down, to one digit", source=_source(fixing, rated, say))  # fmt: skip
    notes = _WALL_NOTES.get(wall, ())
    if choice is None:
        most = f"{format_mass(found[-1].working, say.units, round_to='down')} at most"
        notes = (
            f"One hook pulls with {format_mass(load, say.units)}; a fixing in {wall} carries {most}. "
            "Hang it on more hooks, or fix into stud or brick.",
            *notes,
        )
    return FixingAnswer(load, wall, choice, tuple(found), notes, working)


def _known(wall: str, load: float, practice: Practice) -> list[Fixing]:
    """Return the fixings that go into a wall."""
    rows = {"plasterboard": _BOARD, "stud": _STUD, "brick": _BRICK, "plaster on lath": _STUD, "tile": _BRICK}
    found = []
    for key, name in rows[wall]:
        may = working_load(float(practice.mass(key)), "working", practice)
        found.append(Fixing(name, may, may / load, key))
    if wall in ("plasterboard", "stud"):
        for key in _HOOKS:
            may = working_load(float(practice.mass(key)), "printed", practice)
            found.append(Fixing(f"picture hook printed {practice.mass(key).text}", may, may / load, key))
    return found


def _source(fixing: Fixing, rated: tuple[float, Rating] | None, say: Words) -> str:
    if rated is not None:
        keys = {"working": (), "printed": (PRINTED,), "ultimate": (ULTIMATE,)}[rated[1]]
        return f"{rated[1]} load as given" + (f"; {say.cited(*keys)}" if keys else "")
    return say.cited(fixing.key, PRINTED) if fixing.key in _HOOKS else say.cited(fixing.key)
