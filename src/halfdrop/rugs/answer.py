"""What a rug calculator answers, and the search they share: the best standard that goes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words
from halfdrop.rugs.box import Box, Point
from halfdrop.rugs.sizes import Laid, MadeSize, cover, next_size_up

Standard = Literal["target", "floor", "none"]


@dataclass(frozen=True)
class RugAnswer:
    """The rug that something wants.

    Attributes
    ----------
    target, floor : Box
        What a rug has to cover as aimed for, and at the least, in the caller's frame [m].
        Where the room sets a most instead (border, runner), both are that.
    laid : Laid or None
        The made size and which way round it lies; None where no made size does it.
    lies : Box or None
        Where it lies, in the caller's frame [m].
    standard : str
        "target" where it reaches what is aimed for, "floor" where only the least, "none" where not even that.
    bare : float or None
        Bare floor that was kept to the walls [m]; None where no room was given.
    limited : tuple of str
        What the room or the made sizes do not allow, in so many words.
    working : Working
        The steps.
    """

    target: Box
    floor: Box
    laid: Laid | None
    lies: Box | None
    standard: Standard
    bare: float | None
    limited: tuple[str, ...]
    working: Working

    @property
    def wanted(self) -> Box:
        """What has to be covered under the standard reached [m]."""
        return self.target if self.standard == "target" else self.floor


_WORDS = {"target": "as aimed for", "floor": "the least", "none": ""}


@dataclass(frozen=True)
class Try:
    """One standard to try.

    Attributes
    ----------
    standard : str
        "target" or "floor".
    wanted : Box
        What has to be covered [m].
    within : Box or None
        What the rug may not leave [m].
    bare : str or None
        Practice key of the bare floor that `within` keeps.
    prefer : (x, y) or None
        Where the rug's center would best be [m].
    worth : callable or None
        What a place is worth, where more than the least is better (the floor standard).
    """

    standard: Standard
    wanted: Box
    within: Box | None = None
    bare: str | None = None
    prefer: Point | None = None
    worth: Callable[[Box], float] | None = None


def standards(
    target: Box,
    floor: Box,
    practice: Practice,
    *,
    core: Box | None = None,
    prefer: Point | None = None,
    room: Box | None = None,
    room_area: float | None = None,
) -> list[Try]:
    """Return what to try in order: the target, then the floor, each with less bare floor.

    A small room, by `rugs.small_room_area`, may go down to `rugs.bare_floor_small_room`. Where only the floor
    standard goes, the best rug shows most of the target outside the `core` (the bed, the table).
    """

    def worth(lies: Box) -> float:
        return lies.overlap(target) - (lies.overlap(core) if core else 0.0)

    first = Try("target", target, prefer=prefer)
    last = Try("floor", floor, prefer=prefer, worth=worth)
    if room is None:
        return [first, last]
    area = room.area if room_area is None else room_area
    small = area <= practice.area("rugs.small_room_area") + 1e-9
    wide, least = "rugs.bare_floor_target", "rugs.bare_floor_min"
    steps = [(first, wide), (first, least), (last, least)]
    if small:
        steps.append((last, "rugs.bare_floor_small_room"))
    return [replace(one, within=room.grown(-practice.length(key)), bare=key) for one, key in steps]


def search(
    tries: Sequence[Try], sizes: Sequence[MadeSize], practice: Practice, working: Working
) -> RugAnswer:
    """Return the answer of the first try that a made size meets, writing each try into the working."""
    say = Words(practice)
    limited: list[str] = []
    target, floor = tries[0].wanted, tries[-1].wanted
    for one in tries:
        found = cover(one.wanted, sizes, one.within, one.prefer, one.worth)
        wants = say.pair(one.wanted.across, one.wanted.along)
        title = f"made size, {_WORDS[one.standard]}"
        if one.bare:
            title += f", {say(practice.length(one.bare))} bare to the walls"
        source = say.cited(*filter(None, (one.bare, f"rugs.made_sizes_{sizes[0].made}")))
        formula = "next made size up" + (" that lies in the room" if one.within else "")
        if found is None:
            up = next_size_up(one.wanted.across, one.wanted.along, sizes)
            why = "no made size is that large"
            if up:
                why = f"{up.size.name(say.units)} does not go in the room"
            limited.append(f"{title}: {wants} wanted, {why}")
            working.step(title, formula, wants, why, source=source)
            continue
        laid, lies = found
        if one.worth:
            formula = "of the made sizes that cover it, the one that shows most of what is aimed for"
        result = f"{laid.size.name(say.units)}, lying {say.pair(laid.across, laid.along)}"
        rounding = "up to a made size, so that the rug reaches"
        working.step(title, formula, wants, result, rounding=rounding, source=source)
        _say_short(laid, one.wanted, say, working)
        bare = float(practice.length(one.bare)) if one.bare else None
        return RugAnswer(target, floor, laid, lies, one.standard, bare, tuple(limited), working)
    return RugAnswer(target, floor, None, None, "none", None, tuple(limited), working)


def _say_short(laid: Laid, wanted: Box, say: Words, working: Working) -> None:
    """Say how a rug that runs short of its name would still do."""
    key = "rugs.made_size_short"
    short = say.practice.length(key)
    spare = min(laid.across - wanted.across, laid.along - wanted.along)
    left = spare - short
    result = f"{say(left)} to spare" if left >= 0 else f"{say(-left)} too small: order by actual size"
    working.step(
        "if it runs short of its name",
        "least of (made − wanted) − short",
        f"{say(spare)} − {say(short)}",
        result,
        source=say.cited(key),
    )
