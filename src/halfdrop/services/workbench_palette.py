"""What the color page shows of a room: its colors by day and of an evening, what wears them, and schemes from a picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any, get_args

import numpy as np

from halfdrop.audit.auditor import Auditor
from halfdrop.audit.case import RoomCase
from halfdrop.base.errors import InputError
from halfdrop.color.from_art.score import room_marks
from halfdrop.color.from_art.tones import ArtColor
from halfdrop.color.inventory import Inventory
from halfdrop.color.job_swatches import swatches_of
from halfdrop.color.lab import srgb_of_lab
from halfdrop.color.library import Library
from halfdrop.color.light import Light, light
from halfdrop.color.lrv import lrv_of_lab
from halfdrop.color.metamers import parting_pairs
from halfdrop.color.seen import day_and_evening
from halfdrop.color.srgb import hex_of_srgb
from halfdrop.color.swatch import Swatch
from halfdrop.job.colors import Lamps
from halfdrop.job.finishes import Finish
from halfdrop.job.naming import art_name
from halfdrop.job.part import corners_of
from halfdrop.services.color import lights_of
from halfdrop.services.color_places import Wearer, shares_of, wearers
from halfdrop.services.color_schemes import Proposal, art_colors, propose
from halfdrop.services.recolor import recolored, title_of
from halfdrop.services.workbench_view import finding_json, point

Lights = tuple[str, str]


def colors_json(state: Auditor, room: str, findings: Sequence[Any]) -> dict[str, Any]:
    """Return a room's colors for a page.

    Raises
    ------
    InputError
        Where a swatch cannot be used as a color.
    """
    case = state.case(room)
    known = swatches_of(case.job.swatches)
    day, day_why, evening, evening_why = lights_of(case)
    lit = {key: _lit(swatch, (day.name, evening.name)) for key, swatch in known.items()}
    worn = wearers(case)
    return {
        "lights": {
            "day": {"name": day.name, "why": day_why},
            "evening": {"name": evening.name, "why": evening_why},
            "lamps": list(get_args(Lamps)),
        },
        "outline": [point(p) for p in np.asarray(case.room.outline.exterior.coords)[:-1]],
        "library": [{"id": key, **one} for key, one in lit.items()],
        "things": [_thing(case, wearer, lit) for wearer in worn],
        "board": board(worn, lit),
        "tints": tints(case, worn, lit),
        "walls": [wall.name for wall in case.room.walls],
        "measures": [*_measures(case, worn, known), *_partings(worn, known, day, evening)],
        "art": [
            {"id": key, "path": f"{case.room.path}/art/{key}", "name": art_name(key, work), "colors": list(work.colors or {})}
            for key, work in case.room.model.art.items()
        ],
        "findings": [finding_json(f, n, case) for n, f in enumerate(findings, 1) if f.rule.startswith("color.") or f.rule == "art.reason"],
    }  # fmt: skip


def given(state: Auditor, room: str, path: str, swatch: str, *, scheme: bool) -> dict[str, Any]:
    """Return the patch that gives a thing of a room one swatch, and what it says; nothing is kept.

    Raises
    ------
    InputError
        Where there is no such thing or swatch, or its color stays.
    """
    case = state.case(room)
    wearer = next((w for w in wearers(case) if path in w.paths), None)
    if wearer is None:
        raise InputError(f"nothing at `{path[:120]}` wears a color")
    if swatch not in case.job.swatches:
        raise InputError(
            f"`{swatch[:80]}` is none of the job's swatches", hint="take it from the library first"
        )
    patch = recolored(state.document, wearer, swatch, scheme=scheme)
    name = case.job.swatches[swatch].name
    return {"patch": patch, "title": title_of(wearer, name) if scheme else f"{wearer.name}: {name}"}


def schemes_from(
    state: Auditor,
    room: str,
    *,
    art: str | None = None,
    palette: Sequence[Mapping[str, Any]] | None = None,
    name: str = "",
    library: Library | None = None,
    seed: int = 0,
) -> list[dict[str, Any]]:
    """Return three schemes of a room that start from a work of it, or from a palette just lifted.

    Raises
    ------
    InputError
        As `propose`.
    """
    if art is not None:
        colors, source = art_colors(state.job, room, art)
    else:
        found = [ArtColor((c["lab"][0], c["lab"][1], c["lab"][2]), c["share"]) for c in palette or ()]
        colors, source = tuple(sorted(found, key=lambda c: -c.share)), name or "the picture"
    return [_proposal(one, room) for one in propose(state, room, colors, source, library, seed=seed)]


def _proposal(one: Proposal, room: str) -> dict[str, Any]:
    return {**one.to_json(), **shown_in(one.after, room), "sureness": one.scheme.sureness}


def shown_in(state: Auditor, room: str) -> dict[str, Any]:
    """Return a room's board and the colors its drawing is tinted with."""
    case = state.case(room)
    day, _, evening, _ = lights_of(case)
    lights = (day.name, evening.name)
    lit = {key: _lit(swatch, lights) for key, swatch in swatches_of(case.job.swatches).items()}
    worn = wearers(case)
    return {"board": board(worn, lit), "colors": tints(case, worn, lit)}


def tints(
    case: RoomCase, worn: Sequence[Wearer], lit: Mapping[str, Mapping[str, Any]]
) -> dict[str, list[dict[str, Any]]]:
    """Return the colors each thing wears, hex codes and shares as recorded, the largest first: by its path, of `walls`, `floor`
    and `trim`, and of each wall (`wall AB`)."""
    found: dict[str, list[dict[str, Any]]] = {}
    most: dict[str, float] = {}
    for wearer in worn:
        part = wearer.part
        if not part.colors:
            continue
        shares = [{"hex": lit[key]["hex"], "share": share} for key, share in shares_of(part.colors)]
        found |= dict.fromkeys(wearer.paths, shares)
        if part.role in ("walls", "floor", "trim") and part.area > most.get(part.role, -1.0):
            most[part.role] = part.area
            found[part.role] = shares
    finishes = [(i, f) for i, f in case.room.model.finishes.items() if f.on == "walls"]
    for wall in case.room.walls:
        on = ["surfaces/walls", *(f"finishes/{i}" for i, f in finishes if _all_over(f, wall.name))]
        face = found.get(f"{case.room.path}/{on[-1]}")
        if face:
            found[f"wall {wall.name}"] = face
    return found


def _all_over(finish: Finish, wall: str) -> bool:
    """Return whether a finish covers a wall from floor to ceiling."""
    named = finish.walls is None or set(corners_of(wall)) in [set(corners_of(pair)) for pair in finish.walls]
    return named and finish.bottom is None and finish.top is None


def board(worn: Sequence[Wearer], lit: Mapping[str, Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return each swatch that is seen with its share of all that is recorded, the largest first, numbered from 1."""
    areas: dict[str, float] = {}
    for wearer in worn:
        for key, share in wearer.part.colors.items():
            areas[key] = areas.get(key, 0.0) + wearer.part.area * share
    total = sum(areas.values())
    if total <= 0:
        return []
    order = sorted(areas.items(), key=lambda item: (-round(item[1], 9), item[0]))
    return [
        {"no": n, "id": key, **lit[key], "share": area / total}
        for n, (key, area) in enumerate(order, 1)
        if area > 0
    ]


def _thing(case: RoomCase, wearer: Wearer, lit: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    part = wearer.part
    unknown = wearer.kind == "treatments" and not part.fixes
    return {
        "path": part.path,
        "paths": list(wearer.paths),
        "name": part.what,
        "role": part.role,
        "keep": part.kept,
        "area_text": case.say_area(part.area),
        "how": part.how,
        "colors": [
            {"swatch": key, "share": share, "name": lit[key]["name"], "hex": lit[key]["hex"], "evening": lit[key]["evening"]}
            for key, share in shares_of(part.colors)
        ],
        "write": not unknown,
        "why": wearer.stays if unknown else "",
    }  # fmt: skip


def _measures(case: RoomCase, worn: Sequence[Wearer], known: Mapping[str, Swatch]) -> list[dict[str, str]]:
    found = Inventory(tuple(w.part for w in worn), known, case.practice)
    if not found.areas:
        return []
    said = [
        {"name": m.name, "measured": m.measured, "wanted": m.wanted}
        for m in room_marks(found.areas, case.practice)
    ]
    warm = found.temperature
    word = "warm" if warm.mean > 0 else "cool"
    said.append({
        "name": "temperature", "wanted": "",
        "measured": f"{word}: warm {100 * warm.warm:.0f}%, cool {100 * warm.cool:.0f}%, neither {100 * warm.neutral:.0f}%",
    })  # fmt: skip
    said.append(
        {"name": "recorded", "measured": f"{100 * found.recorded:.0f}% of what is seen", "wanted": ""}
    )
    return said


def _partings(
    worn: Sequence[Wearer], known: Mapping[str, Swatch], day: Light, evening: Light
) -> list[dict[str, str]]:
    """Return the swatches seen that match by day and part of an evening, in words."""
    seen = [known[key] for key in dict.fromkeys(key for w in worn for key in w.part.colors)]
    return [
        {
            "name": "part company",
            "measured": f"{seen[p.first].name} and {seen[p.second].name}: {p.matched:.1f} apart by day, {p.parted:.1f} of an evening",
            "wanted": "alike under both" + ("" if p.how == "measured" else "; by an estimated reflectance"),
        }
        for p in parting_pairs(seen, day, evening)
    ]


def _lit(swatch: Swatch, lights: Lights) -> dict[str, Any]:
    spectrum = None if swatch.spectrum is None else tuple(float(v) for v in swatch.spectrum)
    day, evening = _shown(swatch.lab, spectrum, lights)
    return {
        "name": swatch.name,
        "code": swatch.code,
        "hex": hex_of_srgb(srgb_of_lab(swatch.lab)),
        "day": day,
        "evening": evening,
        "lrv": round(float(lrv_of_lab(swatch.lab)), 1),
        "how": swatch.how,
    }


@lru_cache(maxsize=4096)
def _shown(
    lab: tuple[float, float, float], spectrum: tuple[float, ...] | None, lights: Lights
) -> tuple[str, str]:
    """Return a color as a screen shows it by day and of an evening."""
    measured = None if spectrum is None else np.array(spectrum)
    both = day_and_evening(Swatch("", lab, "", measured), light(lights[0]), light(lights[1]))
    return hex_of_srgb(both.day.shown), hex_of_srgb(both.evening.shown)
