"""Elevations of a room's walls: which there are, what each shows, which findings belong on it."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import replace

from halfdrop.audit.case import RoomCase
from halfdrop.audit.finding import Finding
from halfdrop.audit.hung import cloths_of, hung_in
from halfdrop.base.formats import Units
from halfdrop.drawing.elevation import Hanging, Shown, compare_faces, elevation_sheet, runs_of, shown_of
from halfdrop.drawing.notes import Note
from halfdrop.drawing.sheet import Sheet, TitleInfo
from halfdrop.job.part import corners_in
from halfdrop.room.face import row_name, wall_run
from halfdrop.services.elevation_paper import strips_of


def wall_runs(case: RoomCase) -> list[tuple[str, tuple[str, ...]]]:
    """Return each elevation of a room as its name and its walls, in the survey's walking order.

    Walls that one treatment joins (a bay, a corner) are one elevation, unfolded.
    """
    runs = runs_of(case.room)
    return [(row_name(wall_run(case.room, names)), tuple(names)) for names in runs]


def shown_walls(case: RoomCase, walls: str | Sequence[str]) -> Shown:
    """Return what the elevation of a wall, or of several in a row, shows.

    Raises
    ------
    InputError
        Where a name is no wall of the room.
    """
    key = walls if isinstance(walls, str) else " ".join(walls)
    return case.memo(
        f"elevation {key}", lambda: shown_of(case.room, walls, cloths_of(case), case.practice, hung_in(case))
    )


def papered(case: RoomCase, shown: Shown) -> Shown:
    """Return an elevation with the strips of wallpaper on its walls, where the room is papered."""
    found = strips_of(case)
    strips = [
        replace(strip, left=strip.left + stretch.left, right=strip.right + stretch.left)
        for stretch in shown.face.stretches
        for strip in found.get(stretch.wall.name, ())
    ]
    return replace(shown, strips=tuple(strips)) if strips else shown


def walls_named(case: RoomCase, text: str) -> str | tuple[str, ...]:
    """Return the walls of an elevation that a person names: a wall (`CD`), or a run by its corners (`DEFG`)."""
    for name, walls in wall_runs(case):
        if text in (name, name[::-1]):
            return walls
    corners = corners_in(text)
    if len(corners) > 2:
        return tuple(a + b for a, b in itertools.pairwise(corners))
    return text


#: Families of rules that judge furniture by the wall it stands at; the others' findings of pieces alone belong on the plan.
_OF_WALLS = frozenset({"hazards", "scale", "art", "color"})


def anchored(shown: Shown, findings: Sequence[Finding]) -> list[tuple[Finding, tuple[float, float]]]:
    """Return the findings that belong on an elevation, each with the place its note points to [m].

    One belongs here where everything it is about is seen here, and is not furniture alone that a plan shows better.
    """
    boxes = shown.boxes
    hung = {h.path: h for h in shown.hangings}
    found = []
    for finding in findings:
        paths = finding.subjects
        if not paths or not all(path in boxes for path in paths):
            continue
        if all("/pieces/" in path for path in paths) and finding.rule.split(".")[0] not in _OF_WALLS:
            continue
        middle = boxes[paths[0]].centroid
        spot = (float(middle.x), float(middle.y))
        found.append((finding, _on_cloth(hung[paths[0]], finding.rule) if paths[0] in hung else spot))
    return found


def _on_cloth(hanging: Hanging, rule: str) -> tuple[float, float]:
    """Return where a note about what hangs at a window points: to the rod, to the hem, else to the cloth [m]."""
    left, right, low, high = hanging.panels()[0]
    if "rod" in rule or "heads" in rule:
        return (hanging.rod[0] if "short" in rule else sum(hanging.rod) / 2), hanging.height
    if hanging.hung.kind == "panels" and ("short" in rule or "drags" in rule):
        return (left + right) / 2, (low + high) / 2
    return (left + right) / 2, (hanging.top + (low + high) / 2) / 2


def told_of(found: RoomCase, case: RoomCase, walls: Sequence[str], *, proposed: bool) -> bool:
    """Return whether a wall is worth a sheet: something hangs there; of a proposal, whether that or the wall itself changes.

    Furniture that moves is the plan's to show.
    """
    shown = shown_walls(case, walls)
    if proposed:
        changed = compare_faces(shown_walls(found, walls), shown)
        paths = {*changed.proposed, *(s.path for s in changed.seen), *(h.path for h in changed.hangings)}
        return any("/pieces/" not in path for path in paths)
    return bool(shown.hangings or shown.face.art)


def elevation_notes(shown: Shown, findings: Sequence[Finding], numbers: Mapping[str, int]) -> list[Note]:
    """Return margin notes of an elevation; each keeps the number it has in its room."""
    return [
        Note(numbers[f.id], f.grade.value, f.message, anchor, f.within_tape, f.subjects[0])
        for f, anchor in anchored(shown, findings)
    ]


def elevation_drawn(
    found: RoomCase,
    after: RoomCase,
    walls: str | Sequence[str],
    findings: Sequence[Finding],
    numbers: Mapping[str, int],
    *,
    proposed: bool,
    paper: str,
    scale: str | None = None,
    number: str = "",
    onward: str = "",
    shut: bool = False,
) -> Sheet:
    """Return the elevation of a wall of which both states are at hand.

    Parameters
    ----------
    found, after : RoomCase
        The room as found, and as it is to be drawn.
    walls : str or sequence of str
    findings : sequence of Finding
        Of the room; those that belong on this wall become its notes.
    numbers : mapping
        Number of each finding of the room by its id; things that are keyed are numbered on from them, wherever their notes stand.
    proposed : bool
        Whether `after` is a proposal, its changes drawn as such.
    shut : bool
        Draw curtains drawn shut.

    Raises
    ------
    InputError
        Where a name is no wall of the room, the paper or scale is not known, or the wall does not fit.
    """
    shown = papered(after, shown_walls(after, walls))
    before = shown_walls(found, walls) if proposed else None
    info = found.job.job
    units: Units = info.units
    title = TitleInfo(
        job=info.name,
        room=after.room.model.name,
        view=f"Elevation {shown.face.name}" + (", proposed" if proposed else ""),
        date=info.date or "",
        revision=info.revision or "",
        number=number,
        decorator=info.decorator or "",
    )
    return elevation_sheet(
        shown,
        title=title,
        notes=elevation_notes(shown, findings, numbers),
        before=before,
        paper=paper,
        scale=scale,
        units=units,
        onward=onward,
        shut=shut,
        first=max(numbers.values(), default=0) + 1,
    )
