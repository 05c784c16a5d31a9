"""What a page shows of one wall: its elevation drawn and judged in one answer, in metres of the elevation."""

from __future__ import annotations

from typing import Any

from halfdrop.audit.case import RoomCase
from halfdrop.base.formats import format_angle
from halfdrop.drapery.fullness import fullness_for
from halfdrop.drawing.elevation import Hanging, Shown
from halfdrop.job.conflicts import touched
from halfdrop.room.face import Seen
from halfdrop.room.things import FixedFitting, HungArt, StandingPiece, WallOpening
from halfdrop.services.elevation_facts import treatment_facts
from halfdrop.services.elevation_moves import lift_patch
from halfdrop.services.elevation_snaps import lift_gaps, lift_snaps
from halfdrop.services.elevations import anchored, elevation_drawn, shown_walls, wall_runs, walls_named
from halfdrop.services.jobs import OpenJob
from halfdrop.services.sheets import default_paper
from halfdrop.services.workbench_art import art_facts, art_hooks
from halfdrop.services.workbench_bounds import check_patch
from halfdrop.services.workbench_state import State, check_resolves
from halfdrop.services.workbench_view import bare_svg, finding_json, frame_json, walls_json


def first_wall(case: RoomCase) -> str:
    """Return the elevation a page opens with: the first wall at which something hangs, else the first with an opening."""
    runs = wall_runs(case)
    shown = [(name, shown_walls(case, walls)) for name, walls in runs]
    for test in (lambda s: s.hangings or s.face.art, lambda s: s.face.openings, lambda s: True):
        for name, state in shown:
            if test(state):
                return name
    return runs[0][0]


def elevation_json(
    found: State,
    state: State,
    job: OpenJob,
    room: str,
    wall: str | None,
    scheme: str | None,
    *,
    proposed: bool | None = None,
    paper: str | None = None,
    scale: str | None = None,
    notes: bool = True,
    dark: bool = False,
    shut: bool = False,
) -> dict[str, Any]:
    """Return a wall's drawing, how metres of the elevation stand on it, its findings and its things.

    Parameters
    ----------
    found, state : State
        The job as found, and as it is to be shown.
    job : OpenJob
        For the paper where none is given.
    wall : str or None
        By its corners; the first at which something hangs where not given.
    scheme : str or None
        Under which it is shown.
    proposed : bool, optional
        Draw what differs from the room as found as proposed; where there is a scheme, without it.
    shut : bool
        Draw curtains drawn shut.

    Raises
    ------
    InputError
        Where the room does not resolve, or there is no such wall.
    """
    case = state.case(room)
    walls = walls_named(case, wall or first_wall(case))
    shown = shown_walls(case, walls)
    findings = state.findings(room)
    made = elevation_drawn(
        found.case(room),
        case,
        walls,
        findings if notes else (),
        {f.id: n for n, f in enumerate(findings, 1)},
        proposed=scheme is not None if proposed is None else proposed,
        paper=paper or default_paper(job),
        scale=scale,
        shut=shut,
    )
    face = shown.face
    return {
        "room": room,
        "view": "elevation",
        "scheme": scheme,
        "wall": face.name,
        "elevations": [name for name, _ in wall_runs(case)],
        "corners": [face.stretches[0].left_corner, face.stretches[-1].right_corner],
        "svg": bare_svg(made, dark=dark),
        "paper": {"name": made.paper.name, "width": made.paper.width, "height": made.paper.height},
        "scale": made.scale.name if made.scale else None,
        "frame": frame_json(made.views[0].frame),
        "frames": [frame_json(v.frame) for v in made.views],
        "walls": walls_json(case),
        "outline": [[round(x, 5), round(y, 5)] for x, y in list(face.outline.exterior.coords)[:-1]],
        **judged_json(state, room, shown, shut=shut),
    }


def elevation_tried(
    found: State,
    state: State,
    job: OpenJob,
    room: str,
    wall: str,
    scheme: str | None,
    *,
    patch: Any = None,
    move: dict[str, Any] | None = None,
    live: bool = False,
    paper: str | None = None,
    dark: bool = False,
    shut: bool = False,
) -> dict[str, Any]:
    """Return what a change would make of a wall; parameters as for `Workbench.tried`."""
    case = state.case(room)
    walls = walls_named(case, wall)
    handle = move.get("handle") if move else None
    path = str(move["path"]).strip("/") if move else ""
    if move is not None:
        by = (float(move["dx"]), float(move["dy"]))
        patch = lift_patch(case, shown_walls(case, walls), path, by, handle, exact=bool(move["exact"]))
    patch = check_patch(patch) if patch else []
    after = state.after(patch) if patch else state
    check_resolves(state, after, touched(patch))
    later = after.case(room)
    shown = shown_walls(later, walls)
    out: dict[str, Any] = {
        "patch": patch,
        **judged_json(after, room, shown, shut=shut),
        "clearances": lift_gaps(later, shown, path) if path else [],
        "snaps": lift_snaps(later, shown, path, handle) if path else [],
        "svg": None,
    }
    if not live:
        out |= elevation_json(
            found, after, job, room, wall, scheme, proposed=True, paper=paper, dark=dark, shut=shut
        )
    return out


def judged_json(state: State, room: str, shown: Shown, *, shut: bool = False) -> dict[str, Any]:
    """Return the findings that belong on an elevation and the things it shows, in metres of the elevation."""
    case = state.case(room)
    findings = state.findings(room)
    numbers = {f.id: n for n, f in enumerate(findings, 1)}
    told = []
    for finding, anchor in anchored(shown, findings):
        told.append(
            {
                **finding_json(finding, numbers[finding.id], case),
                "anchor": [round(v, 5) for v in anchor],
                "marks": [],
            }
        )
    return {"findings": told, "things": face_things(case, shown, state.document, shut=shut)}


def face_things(
    case: RoomCase, shown: Shown, document: dict[str, Any], *, shut: bool = False
) -> list[dict[str, Any]]:
    """Return every thing of an elevation: what it is, where it is seen [m], and what the document says of it."""
    face = shown.face
    written = document["rooms"][face.room.id]
    out = [_seen(case, s, written) for s in (*face.openings, *face.fittings, *face.pieces, *face.art)]
    return [*out, *(_hanging(case, h, written, shut=shut) for h in shown.hangings)]


def _box(left: float, right: float, bottom: float, top: float) -> dict[str, Any]:
    return {
        "center": [round((left + right) / 2, 5), round((bottom + top) / 2, 5)],
        "angle": 0.0,
        "angle_text": format_angle(0.0),
        "width": round(right - left, 5),
        "depth": round(top - bottom, 5),
        "footprint": _ring(left, right, bottom, top),
    }


def _seen(case: RoomCase, seen: Seen, written: dict[str, Any]) -> dict[str, Any]:
    thing = seen.thing
    collection = thing.path.split("/")[2]
    type_: str
    match thing:
        case WallOpening():
            kind, type_ = "opening", thing.model.kind
        case FixedFitting():
            kind, type_ = "fitting", thing.model.kind
        case HungArt():
            kind, type_ = "art", thing.model.kind
        case StandingPiece():
            kind, type_ = "piece", thing.type
    return {
        "path": thing.path,
        "id": thing.id,
        "kind": kind,
        "type": type_,
        "name": thing.name,
        "size_text": f"{case.say(seen.right - seen.left)} × {case.say(seen.top - seen.bottom)}",
        "usual": seen.usual,
        "document": written[collection][thing.id],
        **(_told(case, thing, seen) if isinstance(thing, HungArt) else {}),
        **_box(seen.left, seen.right, seen.bottom, seen.top),
    }


def _told(case: RoomCase, work: HungArt, seen: Seen) -> dict[str, Any]:
    """Return what is told of a work, and its hooks."""
    return {"facts": art_facts(case, work), "hooks": art_hooks(case, work, seen.left, seen.bottom)}


def _designed(case: RoomCase, hanging: Hanging) -> dict[str, str]:
    """Return what practice works out for what the document leaves open, by its key below the treatment."""
    hung = hanging.hung
    if hung.kind != "panels":
        return {}
    values = {
        "height": ("hardware/height", hung.height),
        "left": ("hardware/left", -hung.left),
        "right": ("hardware/right", hung.right - hung.run.width),
        "drop": ("drop", hung.top - min(hem for panel in hung.panels for hem in panel.hem)),
    }
    worked = {path: case.say(value) for key, (path, value) in values.items() if key not in hung.given}
    treatment = hung.treatment
    if treatment.fullness is None:
        cloth = case.job.fabrics[treatment.fabric].kind if treatment.fabric else "medium"
        worked["fullness"] = f"{fullness_for(treatment.heading or 'pencil', case.practice, cloth):g}"
    return worked


def _ring(left: float, right: float, bottom: float, top: float) -> list[list[float]]:
    return [
        [round(x, 5), round(y, 5)] for x, y in ((left, bottom), (right, bottom), (right, top), (left, top))
    ]


def _parts(hanging: Hanging, *, shut: bool) -> list[list[list[float]]]:
    """Return the rod and each panel as rings [m]: what a hand takes hold of."""
    a, b = hanging.rod
    thick = max(hanging.hung.diameter, 0.03)
    panels = [
        _ring(left, right, min(low, high), hanging.top)
        for left, right, low, high in hanging.panels(shut=shut)
    ]
    return [*panels, _ring(a, b, hanging.height - thick, hanging.height)]


def _hanging(case: RoomCase, hanging: Hanging, written: dict[str, Any], *, shut: bool) -> dict[str, Any]:
    hung = hanging.hung
    left, bottom, right, top = hanging.shape.bounds
    a, b = hanging.rod
    rod = [[round(a, 5), round(hanging.height, 5)], [round(b, 5), round(hanging.height, 5)]]
    return {
        "path": hung.path,
        "id": hung.id,
        "kind": "treatment",
        "type": hung.kind,
        "name": hung.name,
        "size_text": f"rod {case.say(b - a)} long, {case.say(hung.height)} up"
        if hung.kind == "panels"
        else f"{case.say(b - a)} wide",
        "parts": _parts(hanging, shut=shut),
        "rod": rod if hung.kind == "panels" and hung.treatment.mount != "inside" else None,
        "given": sorted(hung.given),
        "designed": _designed(case, hanging),
        "facts": treatment_facts(case, hung),
        "document": written["treatments"][hung.id],
        **_box(left, right, bottom, top),
    }
