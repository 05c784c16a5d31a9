"""Reads the case tables of the rules and turns, mirrors and judges their rooms."""

from __future__ import annotations

import copy
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import jsonpatch

from halfdrop.audit.auditor import Auditor, judge
from halfdrop.audit.finding import Finding
from halfdrop.audit.rule import Rule, all_rules, find_rule
from halfdrop.base.units import Angle, Length, format_angle
from halfdrop.job.compose import plain
from halfdrop.job.model import Job
from halfdrop.job.read import parse_tree
from halfdrop.practice import Practice
from halfdrop.survey import adjust_survey

TABLES = Path(__file__).parent / "cases"
ROLES = ("fails", "exact", "silent")


@dataclass(frozen=True)
class Case:
    """One row of a rule's table."""

    rule: str
    name: str
    role: str
    document: dict[str, Any]
    expect: tuple[dict[str, Any], ...]
    remedies: tuple[str, ...] | None
    limit: str

    def __str__(self) -> str:
        return f"{self.rule}: {self.name}"


def _document(room: dict[str, Any], job: dict[str, Any]) -> dict[str, Any]:
    base: dict[str, Any] = {"halfdrop": 1, "job": {"name": "Case", "units": "metric"}, "rooms": {"r": room}}
    base["practice"] = {"set": "us"}
    for key, value in job.items():
        base[key] = {**base[key], **value} if isinstance(base.get(key), dict) else value
    return base


@cache
def table(rule: str) -> tuple[Case, ...]:
    """Return the cases of a rule's table: `room`, changed by each case's `change`, inside a small job with the case's `job` keys."""
    name = f"{rule}.yaml"
    raw: Any = plain(parse_tree((TABLES / name).read_text(encoding="utf-8"), name=name, format="yaml"))
    cases = []
    for row in raw["cases"]:
        room = jsonpatch.JsonPatch(row.get("change", [])).apply(copy.deepcopy(row.get("room", raw["room"])))
        job = {**raw.get("job", {}), **row.get("job", {})}
        cases.append(
            Case(
                rule,
                row["name"],
                row["role"],
                _document(room, job),
                tuple(row["expect"]),
                tuple(row["remedies"]) if "remedies" in row else None,
                row.get("limit", "practice"),
            )
        )
    return tuple(cases)


def every_case() -> list[Case]:
    """Return the cases of every rule there is."""
    return [case for rule in all_rules() for case in table(rule.id)]


def found(document: dict[str, Any], rule: Rule | str, practice: Practice | None = None) -> list[Finding]:
    """Judge a document's room by one rule alone, by another practice where given."""
    rule = find_rule(rule) if isinstance(rule, str) else rule
    auditor = Auditor.of(document)
    case = auditor.case("r")
    if practice is not None:
        case = type(case)(case.job, case.room, practice)
    return judge(case, (rule,))


def mirrored(document: dict[str, Any]) -> dict[str, Any]:
    """Return the job with its room mirrored: walked the other way round, every turn and hand the other way."""
    doc = copy.deepcopy(document)
    room = doc["rooms"]["r"]
    survey = room["survey"]
    was = survey.get("round", "counterclockwise")
    survey["round"] = "clockwise" if was == "counterclockwise" else "counterclockwise"
    for kind in ("pieces", "rugs", "fittings"):
        for thing in room.get(kind, {}).values():
            if "turn" in thing:
                thing["turn"] = format_angle(-Angle.parse(thing["turn"]) % (2 * math.pi))
            if "return" in thing:
                thing["return"]["hand"] = "right" if thing["return"]["hand"] == "left" else "left"
    for hung in room.get("treatments", {}).values():
        if "side" in hung:
            hung["side"] = "right" if hung["side"] == "left" else "left"
        hung["draw"] = {"left": "right", "right": "left"}.get(
            hung.get("draw", "pair"), hung.get("draw", "pair")
        )
        floor = hung.get("measured", {}).get("floor")
        if floor is not None and "height" in hung.get("hardware", {}):  # it counts from the floor at the left
            rise = float(Length.parse(floor["left"])) - float(Length.parse(floor["right"]))
            height = float(Length.parse(hung["hardware"]["height"])) - rise
            hung["hardware"]["height"] = f"{height * 1000:.6f} mm"
        for part in (hung.get("hardware", {}), *hung.get("measured", {}).values()):
            if isinstance(part, dict) and part.keys() & {"left", "right"}:
                left, right = part.pop("left", None), part.pop("right", None)
                part.update({k: v for k, v in (("left", right), ("right", left)) if v is not None})
    return doc


def turned(document: dict[str, Any]) -> dict[str, Any]:
    """Return the job with its room surveyed from the next corner on: another origin, another direction of x."""
    doc = copy.deepcopy(document)
    room = doc["rooms"]["r"]
    survey = room["survey"]
    before = adjust_survey(Job.model_validate(document).rooms["r"].survey)
    corners = survey["corners"].split() if isinstance(survey["corners"], str) else list(survey["corners"])
    survey["corners"] = corners[1:] + corners[:1]
    origin, nxt = before.xy[1], before.xy[2 % len(corners)]
    u = (nxt - origin) / math.hypot(*(nxt - origin))
    ccw = before.round == "counterclockwise"
    v = (-u[1], u[0]) if ccw else (u[1], -u[0])
    old_u = (before.xy[1] - before.xy[0]) / math.hypot(*(before.xy[1] - before.xy[0]))
    delta = math.atan2(u[1], u[0]) - math.atan2(old_u[1], old_u[0])
    for kind in ("pieces", "rugs", "fittings"):
        for thing in room.get(kind, {}).values():
            at = thing.get("at")
            if at is None or "x" not in at:
                continue
            x = float(Length.parse(at["x"]))
            p = (x if ccw else -x, float(Length.parse(at["y"])))
            rel = (p[0] - origin[0], p[1] - origin[1])
            thing["at"] = {
                "x": f"{(rel[0] * u[0] + rel[1] * u[1]) * 1000:.6f} mm",
                "y": f"{(rel[0] * v[0] + rel[1] * v[1]) * 1000:.6f} mm",
            }
            old = float(Angle.parse(thing["turn"])) if "turn" in thing else 0.0
            thing["turn"] = f"{math.degrees(old - delta) % 360:.9f}°"
    return doc


def says(finding: Finding) -> tuple[Any, ...]:
    """Return what a finding says, independent of how the room lies."""
    measured = None if finding.measured is None else round(finding.measured, 4)
    return (finding.id, finding.grade, finding.subjects, measured, finding.wanted, finding.sense)
