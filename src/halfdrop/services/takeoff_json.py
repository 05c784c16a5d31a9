"""Paper and paint as JSON: setting-out, strips, rolls; areas, coats, cans. Lengths in metres, volumes in litres."""

from __future__ import annotations

from typing import Any

from halfdrop.base.volume import LITER
from halfdrop.walls import PaintAnswer, PaperAnswer, PaperRoom, SettingOut


def paper_json(answer: PaperAnswer) -> dict[str, Any]:
    """Return one paper over the job as a JSON-compatible object."""
    return {
        "rolls_used": answer.plan.count,
        "rolls_bound": answer.plan.bound,
        "proven_least": answer.plan.gap == 0,
        "held_back": _m(answer.plan.held_back),
        "spare": answer.spare,
        "batch": None if answer.batch is None else answer.batch.number,
        "finishes": [_paper_room(room) for room in answer.rooms],
        "rolls": [
            [
                {"cut": laid.cut.id, "start": _m(laid.start), "end": _m(laid.end), "turned": laid.cut.turned}
                for laid in roll
            ]
            for roll in answer.plan.rolls
        ],
    }


def _paper_room(room: PaperRoom) -> dict[str, Any]:
    return {
        "path": room.path,
        "strips": sum(cut.where == "whole" for cut in room.cuts),
        "short_lengths": sum(cut.where != "whole" for cut in room.cuts),
        "strip_method": {
            "strips": room.strip.strips,
            "rolls": room.strip.rolls,
            "cut": _m(room.strip.cut.length),
        },
        "area_method": {
            "gross_m2": _m(room.area.gross),
            "net_m2": _m(room.area.net),
            "rolls": room.area.rolls,
        },
        "runs": [_run(run) for run in room.runs],
        "cuts": [
            {
                "cut": cut.id,
                "strip": cut.column,
                "where": cut.where,
                "bottom": _m(cut.bottom),
                "top": _m(cut.top),
                "length": _m(cut.length),
                "phase": _m(cut.phase),
            }
            for cut in room.cuts
        ],
    }


def _run(run: SettingOut) -> dict[str, Any]:
    meet = run.mismatch
    return {
        "walls": [face.name for face in run.chain.faces],
        "all_round": run.chain.closed,
        "length": _m(run.chain.length),
        "focal": run.focal,
        "center": _m(run.center),
        "start": run.start,
        "ends": [_m(end) for end in run.ends],
        "mismatch": None
        if meet is None
        else {**_place(run, meet.at), "where": meet.where, "seam": _m(meet.seam)},
        "strips": [
            {"strip": c.index, "from": _place(run, c.start), "to": _place(run, c.end), "width": _m(c.width)}
            for c in run.columns
        ],
    }


def _place(run: SettingOut, at: float) -> dict[str, Any]:
    """Return a place of a run as a wall, and the distance from that wall's first corner."""
    wall, along = run.chain.locate(at)
    return {"wall": wall, "along": _m(along)}


def paint_json(key: str, answer: PaintAnswer) -> dict[str, Any]:
    """Return one paint over the job as a JSON-compatible object."""
    return {
        "wanted_l": _m(answer.wanted / LITER),
        "with_reserve_l": _m(answer.with_reserve / LITER),
        "bought_l": _m(answer.cans.volume / LITER),
        "chosen_by": answer.cans.by,
        "cans": [{"can": can.id, "size": can.size.text, "count": n} for can, n in answer.cans.cans],
        "finishes": [
            {
                "path": room.path,
                "on": room.on,
                "area_m2": _m(room.area),
                "runs": {} if room.trim is None else {k: _m(v) for k, v in room.trim.runs.items()},
                "coats": room.coats.finish,
                "ground": room.coats.ground,
                "ground_coats": room.coats.ground_coats,
                "wanted_l": _m(room.wanted[key] / LITER),
            }
            for room in answer.rooms
        ],
    }


def _m(x: float) -> float:
    return round(float(x), 4) + 0.0
