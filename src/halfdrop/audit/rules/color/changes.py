"""Patches that give a color to what is there: paint, another cloth, another rug, cushions, from the job's own swatches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Patch, Proposal
from halfdrop.audit.rules.color.shared import the
from halfdrop.color.inventory import Inventory, Part
from halfdrop.room.things import BEDS, LIGHT_SEATING, SEATING

#: What is covered in cloth, and so can be covered in another.
UPHOLSTERED = SEATING | LIGHT_SEATING | {"dining chair", "desk chair"}
#: Candidates of one kind at most.
MOST = 6
#: Cushions of a set, and their side.
CUSHIONS, SIDE = 4, {"imperial": "18 in", "metric": "45 cm"}
_CLOTH = {"imperial": "54 in", "metric": "137 cm"}


def swatches(case: RoomCase, wanted: Iterable[str]) -> list[str]:
    """Return the first few of the job's swatches, in the order given."""
    return list(islice((key for key in wanted if key in case.job.swatches), MOST))


def named(case: RoomCase, swatch: str) -> str:
    """Return a swatch as a title calls it: its name and its code."""
    found = case.job.swatches[swatch]
    return f"{found.name} ({found.code})" if found.code else found.name


def in_color(case: RoomCase, part: Part, swatch: str) -> Iterator[Proposal]:
    """Yield the ways to give a part another color; none for what the client keeps, or what takes no color."""
    kind = part.path.split("/")[2]
    if part.kept or (part.colors == {swatch: 1.0} and not part.patterned):
        return
    if part.role in ("walls", "ceiling", "trim"):
        patch = painted(case, part, swatch)
        if patch:
            yield Proposal("paint", f"Paint {the(part.what.split(',')[0])} {named(case, swatch)}.", patch)
    elif kind == "pieces":
        yield from _piece(case, part, swatch)
    elif kind == "rugs":
        patch = [_set(part.path, "colors", swatch), _set(part.path, "arrives", True)]
        rug = case.room.rugs[part.path.split("/")[3]].model
        if rug.pattern == "patterned":
            patch.append(_set(part.path, "pattern", "plain"))
        yield Proposal("rug", f"Lay a rug in {named(case, swatch)} in place of {the(part.what)}.", patch,
                       unpriced=(f"rug in {named(case, swatch)}",))  # fmt: skip
    elif kind == "treatments":
        key, cloth = cloth_for(case, swatch)
        patch = [*cloth, _set(part.path, "fabric", key), _set(part.path, "arrives", True)]
        yield Proposal("curtains", f"Make {the(part.what)} anew in {named(case, swatch)}.", patch,
                       unpriced=(f"cloth in {named(case, swatch)}",))  # fmt: skip
    elif kind == "cushions":
        key, cloth = cloth_for(case, swatch)
        yield Proposal("cushions", f"Cover {the(part.what)} in {named(case, swatch)}.",
                       [*cloth, _set(part.path, "fabric", key)],
                       unpriced=(f"cloth in {named(case, swatch)}",))  # fmt: skip


def _piece(case: RoomCase, part: Part, swatch: str) -> Iterator[Proposal]:
    piece = case.room.pieces[part.path.split("/")[3]]
    name = named(case, swatch)
    patch = [_set(part.path, "colors", swatch)]
    if piece.model.pattern == "patterned":
        patch.append(_set(part.path, "pattern", "plain"))
    if piece.model.arrives:
        yield Proposal("order", f"Order {the(part.what)} in {name}.", patch)
    elif piece.type in UPHOLSTERED:
        yield Proposal("re-cover", f"Re-cover {the(part.what)} in {name}.", patch,
                       unpriced=(f"cover for {the(part.what)}, {name}",))  # fmt: skip


def painted(case: RoomCase, part: Part, swatch: str, wall: str | None = None) -> Patch:
    """Return the patch that paints walls, ceiling or trim, or one wall alone; empty over paper.

    Parameters
    ----------
    wall : str, optional
        The only wall that is painted; else all that the part covers.
    """
    room, key = case.room, part.path.split("/")[3]
    paint, ops = paint_for(case, swatch)
    finishes = room.model.finishes
    if part.path.split("/")[2] == "finishes" and wall is None:
        if finishes[key].paper is not None:
            return []
        return [*ops, _set(part.path, "paint", paint), _set(part.path, "change", "strong")]
    value: dict[str, Any] = {"on": part.role, "paint": paint, "change": "strong"}
    if wall is not None:
        if any(f.paper and (f.walls is None or wall in f.walls) for f in finishes.values()):
            return []
        value["walls"] = [wall]
    elif part.role == "walls" and any(f.on == "walls" for f in finishes.values()):
        covered = {frozenset(p) for f in finishes.values() if f.on == "walls" for p in f.walls or ()}
        value["walls"] = [w.name for w in room.walls if frozenset(w.name) not in covered]
        if not value["walls"]:
            return []
    return [*ops, *added(case, "finishes", fresh(f"{swatch}-{part.role}", finishes), value)]


def cushioned(case: RoomCase, swatch: str, count: int = CUSHIONS) -> Proposal | None:
    """Return the proposal to add cushions in a swatch; None where there is no seat or bed to lay them on."""
    if not any(p.type in SEATING | BEDS for p in case.room.pieces.values()):
        return None
    name, (key, cloth), side = named(case, swatch), cloth_for(case, swatch), SIDE[case.units]
    value = {"fabric": key, "width": side, "height": side, "count": count}
    patch = [*cloth, *added(case, "cushions", fresh(swatch, case.room.model.cushions), value)]
    return Proposal("cushions", f"Add {count} cushions in {name}, {side} square.", patch,
                    unpriced=(f"{count} cushions in {name}",))  # fmt: skip


def brought_in(
    case: RoomCase, found: Inventory, swatch: str, roles: Iterable[str], counts: Iterable[int] = (CUSHIONS,)
) -> Iterator[Proposal]:
    """Yield the ways to bring a swatch into a room: cushions, so many; then on what is there of some roles, the largest first."""
    for count in counts:
        added_cushions = cushioned(case, swatch, count)
        if added_cushions is not None:
            yield added_cushions
    for part in by_size(found, roles)[:5]:
        yield from in_color(case, part, swatch)


def cloth_for(case: RoomCase, swatch: str) -> tuple[str, Patch]:
    """Return the id of a plain cloth in a swatch, and the patch that adds it where the job has none."""
    for key, fabric in sorted(case.job.fabrics.items()):
        if (
            fabric.colors == {swatch: 1.0}
            and fabric.repeat is None
            and fabric.kind in ("medium", "heavy", "velvet")
        ):
            return key, []
    value = {"name": f"{case.job.swatches[swatch].name} cloth", "width": _CLOTH[case.units], "colors": swatch}
    key = fresh(swatch, case.job.fabrics)
    return key, _to_job(case, "fabrics", key, value)


def paint_for(case: RoomCase, swatch: str) -> tuple[str, Patch]:
    """Return the id of a paint in a swatch, and the patch that adds it where the job has none."""
    for key, paint in sorted(case.job.paints.items()):
        if paint.swatch == swatch and not paint.primer:
            return key, []
    key = fresh(swatch, case.job.paints)
    return key, _to_job(case, "paints", key, {"name": case.job.swatches[swatch].name, "swatch": swatch})


def fresh(stem: str, taken: Iterable[str]) -> str:
    """Return an id that none of the others has."""
    stem, known = stem[:34], set(taken)
    return (
        stem
        if stem not in known
        else next(f"{stem}-{n}" for n in range(2, 999) if f"{stem}-{n}" not in known)
    )


def added(case: RoomCase, kind: str, key: str, value: dict[str, Any]) -> Patch:
    """Return the patch that adds a thing to the room."""
    path = f"/{case.room.path}/{kind}"
    if kind not in case.room.model.model_fields_set:
        return [{"op": "add", "path": path, "value": {key: value}}]
    return [{"op": "add", "path": f"{path}/{key}", "value": value}]


def _to_job(case: RoomCase, kind: str, key: str, value: dict[str, Any]) -> Patch:
    if kind not in case.job.model_fields_set:
        return [{"op": "add", "path": f"/{kind}", "value": {key: value}}]
    return [{"op": "add", "path": f"/{kind}/{key}", "value": value}]


def _set(path: str, key: str, value: Any) -> dict[str, Any]:
    return {"op": "add", "path": f"/{path}/{key}", "value": value}


def by_size(found: Inventory, roles: Iterable[str]) -> list[Part]:
    """Return the parts of some roles that have a color, the largest first."""
    wanted = set(roles)
    parts = [p for p in found.parts if p.role in wanted and p.colors]
    return sorted(parts, key=lambda p: (-round(p.area, 6), p.path))
