"""The patch that gives a surface or thing of a room another color: as found, or as a step of a scheme."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from halfdrop.base.errors import InputError
from halfdrop.job.part import corners_of
from halfdrop.job.patch import pointer_of
from halfdrop.services.color_places import Wearer
from halfdrop.services.swatch_entry import free_id

Document = dict[str, Any]
Op = dict[str, Any]

#: Sheen of a paint that is new on a surface. Common practice, no source.
_SHEEN = {"walls": "eggshell", "ceiling": "flat", "trim": "semi-gloss"}


def recolored(document: Document, wearer: Wearer, swatch: str, *, scheme: bool) -> list[Op]:
    """Return the patch that gives all of a thing one swatch.

    As found, what is written is what it wears. Under a scheme a surface is painted, cloth is made anew of a cloth in that color
    (so that the same cloth elsewhere in the job stays), and a piece or rug is what it is in the new color.

    Parameters
    ----------
    document : dict
        The job as it stands; the swatch is one of its `swatches`.

    Raises
    ------
    InputError
        Where its color stays, or nothing that could wear one is recorded.
    """
    if wearer.stays and scheme:
        raise InputError(f"the {wearer.name} stays as it is: {wearer.stays}")
    parts = wearer.path.split("/")
    if wearer.kind == "surfaces":
        if wearer.part.role == "floor" or not scheme:
            return _surface(document, parts[1], parts[3], swatch)
        return _painted(document, parts[1], parts[3], swatch)
    if wearer.kind == "finishes":
        if wearer.part.fixes is None or not scheme:
            return [_set(document, (wearer.part.fixes or "").split("/"), swatch)]
        return _painted_anew(document, wearer, swatch)
    if wearer.fabric:
        if not scheme:
            return [_set(document, ("fabrics", wearer.fabric, "colors"), swatch)]
        return _made_anew(document, wearer, swatch)
    if wearer.kind == "treatments":
        raise InputError(
            f"the cloth of {wearer.name} is not named", hint="give its treatment a `fabric` of the job"
        )
    return [_set(document, (*parts, "colors"), swatch)]


def title_of(wearer: Wearer, name: str) -> str:
    """Return what a step says: "Paint the walls Bone"."""
    thing = wearer.name.removesuffix(", painted")
    if wearer.part.role == "floor":
        return f"Choose the floor in {name}"
    if wearer.kind in ("surfaces", "finishes"):
        return f"Paint {'the ' if not thing.startswith('wall ') else ''}{thing} {name}"
    verbs = {"treatments": "Make {} anew in", "cushions": "Cover the {} in", "rugs": "Choose the {} in"}
    return f"{verbs.get(wearer.kind, 'Have the {} in').format(thing)} {name}"


def _set(document: Document, steps: Iterable[str], value: Any) -> Op:
    steps = tuple(steps)
    at: Any = document
    for step in steps:
        at = at.get(step) if isinstance(at, dict) else None
    return {"op": "add" if at is None else "replace", "path": pointer_of(steps), "value": value}


def _surface(document: Document, room: str, on: str, swatch: str) -> list[Op]:
    """Write what a surface wears as found."""
    if document["rooms"][room].get("surfaces") is None:
        return [{"op": "add", "path": pointer_of(("rooms", room, "surfaces")), "value": {on: swatch}}]
    return [_set(document, ("rooms", room, "surfaces", on), swatch)]


def _painted(document: Document, room: str, on: str, swatch: str) -> list[Op]:
    """Paint what no finish covers; where bands of other finishes are on the walls, only what is seen is written."""
    finishes = document["rooms"][room].get("finishes") or {}
    finish: dict[str, Any] = {"on": on}
    if on == "walls" and any(f.get("on") == "walls" for f in finishes.values()):
        bare = _bare_walls(document["rooms"][room], finishes)
        if not bare:
            return _surface(document, room, on, swatch)
        finish["walls"] = bare
    key, patch = _paint(document, on, swatch, {"sheen": _SHEEN[on]})
    return patch + _added(
        document, ("rooms", room, "finishes"), free_id(on, finishes), finish | {"paint": key}
    )


def _painted_anew(document: Document, wearer: Wearer, swatch: str) -> list[Op]:
    """Put another paint where there is one: alike but for its color."""
    steps = tuple(wearer.path.split("/"))
    finish = document["rooms"][steps[1]]["finishes"][steps[3]]
    key, patch = _paint(document, finish["on"], swatch, document["paints"][finish["paint"]])
    return [*patch, {"op": "replace", "path": pointer_of((*steps, "paint")), "value": key}]


def _paint(document: Document, on: str, swatch: str, like: Document) -> tuple[str, list[Op]]:
    """Return the id of a paint in a color, and the patch that puts it into the job."""
    entry = document["swatches"][swatch]
    key = free_id(f"{swatch} {on}", document.get("paints") or {})
    color = " ".join(filter(None, (entry["name"], entry.get("code"))))[:120]
    paint = {"name": f"{entry['name']} for the {on}"[:120], "color": color, "swatch": swatch}
    paint |= {k: v for k, v in like.items() if k in ("sheen", "spread", "cans")}
    return key, _added(document, ("paints",), key, paint)


def _bare_walls(room: dict[str, Any], finishes: dict[str, Any]) -> list[str]:
    """Return the walls that no finish covers; none where a finish is a band, or goes all round."""
    covered: set[frozenset[str]] = set()
    for finish in finishes.values():
        if finish.get("on") != "walls":
            continue
        if "bottom" in finish or "top" in finish or not finish.get("walls"):
            return []
        covered |= {frozenset(corners_of(pair)) for pair in finish["walls"]}
    corners = room["survey"]["corners"]
    order = corners.split() if isinstance(corners, str) else list(corners)
    pairs = [a + b for a, b in zip(order, order[1:] + order[:1], strict=True)]
    return [pair for pair in pairs if frozenset(corners_of(pair)) not in covered]


def _made_anew(document: Document, wearer: Wearer, swatch: str) -> list[Op]:
    """Make what is sewn of a cloth anew in the color, of a cloth like it."""
    old = document["fabrics"][wearer.fabric]
    name = document["swatches"][swatch]["name"]
    cloth = {
        k: v
        for k, v in old.items()
        if k not in ("colors", "note") and (k != "bolts" or old.get("sale") == "bolt")
    }
    cloth |= {"name": f"{old['name']}, in {name}"[:120], "colors": swatch}
    key = free_id(f"{wearer.fabric} {swatch}", document["fabrics"])
    patch = _added(document, ("fabrics",), key, cloth)
    for path in wearer.paths:
        steps = tuple(path.split("/"))
        patch.append({"op": "replace", "path": pointer_of((*steps, "fabric")), "value": key})
        if steps[2] == "treatments":
            hung = document["rooms"][steps[1]]["treatments"][steps[3]]
            if "altered" in hung:
                patch.append({"op": "remove", "path": pointer_of((*steps, "altered"))})
            patch.append(_set(document, (*steps, "arrives"), True))
    return patch


def _added(document: Document, steps: tuple[str, ...], key: str, value: Any) -> list[Op]:
    """Put something into a map, which is begun where there is none."""
    at: Any = document
    for step in steps:
        at = at.get(step) if isinstance(at, dict) else None
    if at is None:
        return [{"op": "add", "path": pointer_of(steps), "value": {key: value}}]
    return [{"op": "add", "path": pointer_of((*steps, key)), "value": value}]
