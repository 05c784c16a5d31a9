"""What of a room can be given a color, what stays as it is, and what changes together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from halfdrop.audit.case import RoomCase
from halfdrop.audit.colors import inventory
from halfdrop.color.from_art import Place
from halfdrop.color.from_art.place import Lab
from halfdrop.color.inventory import Part
from halfdrop.color.job_swatches import swatches_of
from halfdrop.job.colors import Colors

Kind = Literal["surfaces", "finishes", "pieces", "rugs", "treatments", "cushions", "fittings", "art"]

#: Standing things whose color is nobody's choice unless it is recorded.
_AS_IT_IS = frozenset({"screen", "plant", "mirror", "other"})


@dataclass(frozen=True)
class Wearer:
    """A surface or thing as a scheme takes it; what is made of one cloth is one.

    Attributes
    ----------
    part : Part
        What is seen of it and what it wears.
    stays : str
        Why a scheme leaves its color; empty where it may change.
    fabric : str
        The job's cloth it is made of, where its color is that cloth's.
    paths : tuple of str
        Everything that changes with it, itself first.
    """

    part: Part
    stays: str = ""
    fabric: str = ""
    paths: tuple[str, ...] = ()

    @property
    def path(self) -> str:
        """In the document."""
        return self.part.path

    @property
    def name(self) -> str:
        """What a person calls it."""
        return self.part.what

    @property
    def kind(self) -> Kind:
        """Where in a room it stands."""
        kind: Kind = self.part.path.split("/")[2]  # type: ignore[assignment]
        return kind


def wearers(case: RoomCase) -> tuple[Wearer, ...]:
    """Return what wears a color in a room, in the order of its inventory.

    Raises
    ------
    InputError
        As `inventory`.

    Checked by: tests/services/test_color_places.py.
    """
    return case.memo("wearers", lambda: tuple(_gathered(case)))


def places_of(case: RoomCase) -> tuple[tuple[Wearer, Place], ...]:
    """Return what a scheme colors and what it works with, works of art among it; what stays in a color not recorded is left out,
    as the inventory leaves it out."""
    labs = {key: swatch.lab for key, swatch in swatches_of(case.job.swatches).items()}
    found: list[tuple[Wearer, Place]] = []
    for wearer in wearers(case):
        part = wearer.part
        kept: tuple[tuple[Lab, float], ...] = ()
        if wearer.stays:
            total = sum(part.colors.values())
            kept = tuple((labs[key], share / total) for key, share in part.colors.items())
            if not kept:
                continue
        if part.area > 0:
            found.append((wearer, Place(part.path, part.what, part.area, part.role, kept)))
    return tuple(found)


def _gathered(case: RoomCase) -> Iterator[Wearer]:
    """Give each part; hangings of one cloth once, where the first of them stands."""
    seen: dict[tuple[Kind, str], list[Wearer]] = {}
    order: list[tuple[Kind, str]] = []
    for part in inventory(case).parts:
        one = Wearer(part, _stays(case, part), _fabric(part), (part.path,))
        key = (one.kind, one.fabric or part.path)
        if key not in seen:
            order.append(key)
        seen.setdefault(key, []).append(one)
    for key in order:
        several = seen[key]
        first = several[0]
        if len(several) == 1:
            yield first
            continue
        names = f"{case.job.fabrics[first.fabric].name} at {len(several)} windows"
        part = replace(first.part, what=names, area=sum(w.part.area for w in several))
        stays = next((w.stays for w in several if w.stays), "")
        yield Wearer(part, stays, first.fabric, tuple(w.path for w in several))


def _fabric(part: Part) -> str:
    steps = (part.fixes or "").split("/")
    return steps[1] if steps[0] == "fabrics" else ""


def _stays(case: RoomCase, part: Part) -> str:
    """Return why the color of a part is not changed by a scheme."""
    kind, key = part.path.split("/")[2:4]
    if part.kept:
        return "the client keeps it"
    if kind == "finishes" and case.room.model.finishes[key].paper is not None:
        return "the paper stays"
    if part.role == "floor":
        return "the floor stays" if part.colors else ""
    if kind == "art":
        return "a work stays as it is"
    if kind == "fittings":
        return "it is fixed"
    if kind == "treatments" and not part.fixes:
        return "its cloth is not named"
    if kind == "pieces" and case.room.model.pieces[key].type in _AS_IT_IS:
        return "it is as it is"
    return ""


def shares_of(colors: Colors) -> list[tuple[str, float]]:
    """Return swatches and shares, the largest first."""
    return sorted(colors.items(), key=lambda item: (-round(item[1], 9), item[0]))
