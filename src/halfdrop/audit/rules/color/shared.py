"""What the color rules share: the inventory where enough is recorded, the art's colors, subjects that are surfaces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from halfdrop.audit.case import RoomCase
from halfdrop.audit.colors import inventory_in
from halfdrop.base.errors import InputError
from halfdrop.color.arrays import Floats
from halfdrop.color.inventory import Inventory, Part
from halfdrop.color.job_swatches import swatch_of
from halfdrop.color.kin import chromatic, kin
from halfdrop.color.lab import lch_of_lab
from halfdrop.color.swatch import Swatch
from halfdrop.geometry.plane import Array
from halfdrop.room.things import BEDS, SEATING

#: Hues of wood and leather, h_ab [degrees]; our choice, no source.
WOOD = (40.0, 95.0)
Lab = tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class Surface:
    """A part of the inventory as a finding's subject."""

    id: str
    path: str
    center: Array
    name: str


@dataclass(frozen=True)
class Picture:
    """A work that hangs, with the colors it has: id, share of the work, L* a* b*, the near-neutrals and traces left out."""

    part: Part
    colors: tuple[tuple[str, float, Lab], ...]

    @property
    def labs(self) -> Floats:
        """The colors, shape `(n, 3)`."""
        return np.array([lab for *_, lab in self.colors], dtype=np.float64).reshape(-1, 3)


def judged(case: RoomCase) -> Inventory | None:
    """Return the inventory where enough of the room is recorded to judge its shares."""
    found = inventory_in(case)
    least = case.practice.number("color.recorded_from") - 1e-9
    return found if found is not None and found.areas and found.recorded >= least else None


def subject(case: RoomCase, part: Part) -> Surface:
    """Return a part as a finding's subject, where it stands on the plan."""
    _, _, kind, key = part.path.split("/")
    room = case.room
    middle = room.outline.representative_point()
    center: Array = np.array([middle.x, middle.y])
    things: dict[str, Mapping[str, Any]] = {
        "pieces": room.pieces, "rugs": room.rugs, "art": room.art, "fittings": room.fittings, "treatments": room.treatments,
    }  # fmt: skip
    if kind in things and key in things[kind]:
        center = things[kind][key].center
    elif part.role == "walls":
        finish = room.model.finishes.get(key) if kind == "finishes" else None
        walls = [room.wall(pair) for pair in finish.walls] if finish and finish.walls else list(room.walls)
        wall = max(walls, key=lambda w: (round(w.length, 4), w.name))
        center = (wall.start + wall.end) / 2
    return Surface(key, part.path, center, part.what)


def pictures(case: RoomCase, found: Inventory) -> list[Picture]:
    """Return the works that hang and have a color to speak of."""
    least = case.practice.number("color.art_color_from") - 1e-9
    made = []
    for part in found.parts:
        if part.role != "art":
            continue
        labs = {key: found.swatches[key].lab for key in part.colors}
        worn = [
            (key, share, labs[key])
            for key, share in sorted(part.colors.items(), key=lambda item: (-round(item[1], 9), item[0]))
            if share >= least and bool(chromatic(labs[key], case.practice))
        ]
        if worn:
            made.append(Picture(part, tuple(worn)))
    return made


def taken_up(case: RoomCase, found: Inventory, picture: Picture) -> float:
    """Return the share of a picture's colors that the room round it takes up, 0 to 1; bare wood takes up none."""
    total = sum(area for part, _, area in found.worn if part.role != "art")
    by_key: dict[str, float] = {}
    for part, key, area in found.worn:
        if part.role != "art" and not wooden(case, part, found):
            by_key[key] = by_key.get(key, 0.0) + area
    least = float(case.practice.number("color.echo_from")) - 1e-9
    labs = [found.swatches[key].lab for key, area in by_key.items() if area >= least * total]
    if not labs:
        return 0.0
    near = kin(picture.labs[:, None, :], np.array(labs)[None, :, :], case.practice).any(axis=1)
    shares = np.array([share for _, share, _ in picture.colors])
    return float(shares[near].sum() / shares.sum())


def inventory_swatches(case: RoomCase) -> dict[str, Swatch]:
    """Return all of the job's swatches as colors, by id; those that cannot be read left out."""

    def read() -> dict[str, Swatch]:
        found = {}
        for key, swatch in sorted(case.job.swatches.items()):
            try:
                found[key] = swatch_of(swatch)
            except InputError:
                continue
        return found

    return case.memo("job's swatches", read)


def wooden(case: RoomCase, part: Part, found: Inventory) -> bool:
    """Return whether a part is a floor or a piece that is not upholstered, in a hue of wood: nobody chose that as a color."""
    kind, key = part.path.split("/")[2:4]
    if part.role != "floor" and (kind != "pieces" or case.room.pieces[key].type in SEATING | BEDS):
        return False
    main = main_swatch(part)
    return main is None or WOOD[0] <= float(lch_of_lab(found.swatches[main].lab)[2]) <= WOOD[1]


def main_swatch(part: Part) -> str | None:
    """Return the swatch that a part wears most of."""
    if not part.colors:
        return None
    return min(part.colors, key=lambda key: (-round(part.colors[key], 9), key))


def the(what: str) -> str:
    """Return a name with its article: `the walls`; what is named after someone keeps its own."""
    return what if "'s " in what.split(",")[0] else f"the {what}"
