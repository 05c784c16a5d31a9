"""Report on the surveys of a job: do the measures close, which one is suspect, what to measure next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from halfdrop.base.units import Units, format_angle, format_area, format_length
from halfdrop.services.jobs import OpenJob
from halfdrop.survey import SurveyResult
from halfdrop.survey.words import which


@dataclass(frozen=True)
class SurveyReport:
    """One room's survey, in words and numbers.

    Attributes
    ----------
    measures : list of list of str
        Rows: measure, taped, adjusted, off by, how well others check it, w.
    advice : list of str
        What to know and what to do, most urgent first.
    """

    room: str
    verdict: str
    misclosure: str
    area: str
    things: str
    measures: list[list[str]]
    advice: list[str]
    working: list[str]
    result: SurveyResult

    def to_json(self, *, brief: bool = False) -> dict[str, Any]:
        """Return it as a JSON-compatible object, lengths in metres."""
        r = self.result
        out: dict[str, Any] = {
            "room": self.room,
            "verdict": r.verdict,
            "freedom": r.freedom,
            "s0": _n(r.s0),
            "chi_square": _n(r.chi_square),
            "chi_limit": _n(r.chi_limit),
            "advice": self.advice,
        }
        if brief:
            return out
        sigma = np.sqrt(np.clip(np.diag(r.covariance), 0, None)).reshape(-1, 2)
        out["corners"] = {
            c: {"x": _n(p[0]), "y": _n(p[1]), "sigma_x": _n(s[0]), "sigma_y": _n(s[1])}
            for c, p, s in zip(r.corners, r.xy, sigma, strict=True)
        }
        out["observations"] = [
            {
                "id": o.id,
                "kind": o.kind,
                "measured": _n(o.measured),
                "adjusted": _n(o.adjusted),
                "residual": _n(o.v),
                "sigma": _n(o.sigma),
                "redundancy": _n(o.r),
                "w": _n(o.w),
                "detectable": _n(o.mdb),
                "used": o.used,
            }
            for o in r.observations
        ]
        out["suspects"] = [{"id": s.id, "error": _n(s.error), "w": _n(s.w)} for s in r.suspects]
        out["extra"] = _extra(r)
        out["heights"] = {
            k: _n(v) if isinstance(v, float) else v for k, v in vars(r.heights).items() if _plain(v)
        }
        out["working"] = r.working.to_json()
        return out


def _plain(value: object) -> bool:
    return value is None or isinstance(value, float | str)


def _extra(r: SurveyResult) -> dict[str, Any] | None:
    extra = r.extra
    if extra is None:
        return None
    return {
        "pair": extra.pair,
        "repeat": extra.repeat,
        "purpose": extra.purpose,
        "chance": _n(extra.chance),
        "separation": _n(extra.separation),
        "readings": [
            {"suspect": e.suspect, "length": _n(e.length), "sigma": _n(e.sigma)} for e in extra.readings
        ],
        "words": extra.words,
    }


def _n(value: float | None) -> float | None:
    return None if value is None or not np.isfinite(value) else round(float(value), 6)


def report(job: OpenJob, room: str | None = None) -> list[SurveyReport]:
    """Report on one room's survey, or on all of them."""
    units = job.found.job.job.units
    return [_report(job, i, units) for i in job.room_ids(room)]


def _report(job: OpenJob, room_id: str, units: Units) -> SurveyReport:
    case = job.found.case(room_id)
    room, r = case.room, case.room.survey
    rows = []
    for o in r.observations:
        if o.kind in ("wall", "tie"):
            values = [format_length(v, units) for v in (o.measured, o.adjusted, o.v)]
        else:
            values = [format_angle(v) for v in (o.measured, o.adjusted, o.v)]
        rows.append([o.id, *values, f"{o.r:.0%}" if o.used else "set aside", f"{o.w:+.1f}"])
    m = room.model
    counts = [
        (len(m.openings), "opening", "openings"),
        (len(m.fittings), "fitting", "fittings"),
        (len(m.pieces), "piece", "pieces"),
        (len(m.rugs), "rug", "rugs"),
        (len(m.treatments), "treatment", "treatments"),
        (len(m.art), "work of art", "works of art"),
        (len(m.finishes), "finish", "finishes"),
    ]
    things = ", ".join(f"{n} {one if n == 1 else more}" for n, one, more in counts if n) or "nothing yet"
    steps = [f"{s.what}: {s.formula} = {s.values} → {s.result}" for s in r.working.steps]
    return SurveyReport(
        room_id,
        r.verdict,
        r.misclosure,
        format_area(room.area, units),
        things,
        rows,
        _advice(r, units),
        steps,
        r,
    )


def _called(measure: str) -> str:
    """Return a measure as a person calls it: `ties/AD` is tie AD."""
    kind, _, pair = measure.partition("/")
    words = {"walls": "wall", "ties": "tie", "angles": "the angle at", "square": "the square corner at"}
    return f"{words.get(kind, kind)} {pair}"


def _advice(r: SurveyResult, units: Units) -> list[str]:
    """Return what to know and what to do about a survey, most urgent first."""
    lines = []
    if r.excluded:
        lines.append(
            f"set aside as a blunder: {', '.join(map(_called, r.excluded))}; tape it again and put the reading right"
        )
    elif r.verdict == "blunder detected":
        names = [_called(s.id) for s in r.suspects]
        lines.append(f"one measure is wrong, and they cannot say {which(names, len(r.observations))}")
    elif r.verdict == "unchecked":
        lines.append("nothing checks these measures: a blunder in any of them would not show")
    if r.extra is not None:
        lines.append(r.extra.words)
    h = r.heights
    if h.least is not None and h.spread:
        lines.append(
            f"ceiling from {format_length(h.least, units)} at {h.least_at} to {format_length(h.most or 0, units)} "
            f"at {h.most_at}"
        )
    if h.fall:
        lines.append(f"the floor falls {format_length(h.fall, units)} from {h.high_at} to {h.low_at}")
    if h.lean and h.lean_wall:
        way = "into the room" if h.lean > 0 else "away from the room"
        lines.append(f"wall {h.lean_wall} leans {format_length(abs(h.lean), units)} {way} at the top")
    return lines
