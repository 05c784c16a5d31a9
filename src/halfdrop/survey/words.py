"""A survey in words: measures, suspects, what the extra reading means, how the room closes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from halfdrop.base.formats import Units, format_angle, format_length
from halfdrop.survey.extra import Candidate
from halfdrop.survey.network import Adjustment, Observation
from halfdrop.survey.snooping import Explanation, Snooped
from halfdrop.survey.traverse import Closure

#: Two expected readings nearer than this many of their standard errors cannot be told apart.
_TELLABLE = 3.0
#: More measures than these are counted, not named.
MANY = 6


def name_of(observation: Observation) -> str:
    """Return an observation as a person calls it: `wall AB`, `tie AC`, `the angle at B`."""
    where, _, what = observation.id.partition("/")
    return {
        "walls": f"wall {what}",
        "ties": f"tie {what}",
        "angles": f"the angle at {what}",
        "square": f"the corner {what} taken as square",
    }[where]


def joined(names: Sequence[str], last: str = "and") -> str:
    """Return names as a person lists them."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"


def small(value: float, observation: Observation | None = None, units: Units = "metric") -> str:
    """Return a small length [m] with its sign, to 0.1 mm or 0.01 in; an angle [rad] in degrees to 0.01."""
    if observation is not None and observation.kind != "distance":
        return f"{_signed(math.degrees(value), 2)}°"
    if units == "imperial":
        return f"{_signed(value / 0.0254, 2)} in"
    return f"{_signed(value * 1000, 1)} mm"


def _signed(value: float, digits: int) -> str:
    text = f"{abs(value):.{digits}f}"
    return text if not float(text) else f"{'−' if value < 0 else '+'}{text}"


def size(value: float, observation: Observation, units: Units) -> str:
    """Return a measured length or angle."""
    return format_length(value, units) if observation.kind == "distance" else format_angle(value)


def error_of(explanation: Explanation, observation: Observation, units: Units) -> str:
    """Return by how much a measure is out: `3/4″ too long (+0.79 in)`, `6.2° off square`."""
    if observation.kind == "square":
        return f"{math.degrees(abs(explanation.error)):.1f}° off square"
    if observation.kind == "angle":
        return f"{small(explanation.error, observation)} out"
    way = "too long" if explanation.error > 0 else "too short"
    printed = format_length(abs(explanation.error), units)
    return f"{printed} {way}" + (f" ({small(explanation.error, units=units)})" if units == "imperial" else "")


def extra_words(
    candidate: Candidate,
    pair: str,
    observations: Sequence[Observation],
    suspects: Sequence[Explanation],
    units: Units,
) -> str:
    """Return what to tape and what each reading would mean."""
    verb = "Tape {0} again" if candidate.repeat else "Tape {0}, corner to corner"
    if candidate.purpose == "check":
        return (
            verb.format(pair)
            + f": it checks {candidate.chance:.0%} of the measures, which nothing checks now."
        )
    by_row = {s.row: s for s in suspects}
    groups: list[list[int]] = []
    order = sorted(range(len(candidate.readings)), key=lambda k: (candidate.readings[k].length, k))
    for k in order:
        here = candidate.readings[k]
        if groups:
            last = candidate.readings[groups[-1][-1]]
            if here.length - last.length < _TELLABLE * max(here.sigma, last.sigma):
                groups[-1].append(k)
                continue
        groups.append([k])
    parts = []
    for group in groups:
        lengths = [candidate.readings[k].length for k in group]
        near = format_length(sum(lengths) / len(lengths), units)
        rows = [candidate.readings[k].suspect for k in group]
        if len(rows) == 1:
            suspect = by_row[rows[0]]
            observation = observations[rows[0]]
            fault = f"{name_of(observation)}, {error_of(suspect, observation, units)}"
            parts.append(f"near {near}, the fault is in {fault}")
        else:
            parts.append(
                f"near {near}, it is in {_any_of([name_of(observations[r]) for r in rows], suspects)}"
            )
    doubt = "" if candidate.chance >= 0.5 else " One more measure alone may not settle it."
    return f"{verb.format(pair)}. If it reads {'; '.join(parts)}.{doubt}"


def _any_of(names: Sequence[str], suspects: Sequence[Explanation]) -> str:
    """Return which of the suspects are meant: by name, or as the others where they are most of many."""
    if len(names) > MANY and len(names) < len(suspects):
        return f"one of the other {len(names)}"
    return joined(names, "or")


def which(names: Sequence[str], count: int) -> str:
    """Return which measures one of is wrong: `which of all 14`, or `which: wall AB or tie AC`.

    Parameters
    ----------
    names : sequence of str
        The suspects.
    count : int
        How many measures there are.
    """
    if len(names) > MANY and len(names) == count:
        return f"which of all {count}"
    return f"which: {joined(names, 'or')}"


def misclosure_words(
    snooped: Snooped,
    verdict: str,
    closure: Closure | None,
    allowed: float,
    names: Sequence[Observation],
    units: Units,
) -> str:
    """Return how the survey closes; `allowed` is the share of the perimeter that passes."""
    adjustment = snooped.adjustment
    out = []
    if closure is not None:
        gap = format_length(closure.error, units)
        within = "within" if closure.error <= allowed * closure.perimeter else "outside"
        around = format_length(closure.perimeter, units)
        if closure.ratio < 1e5:
            around += f" (1:{closure.ratio:.0f})"
        out.append(
            f"The walls with their stated angles close to {gap} in {around}, {within} 1:{1 / allowed:.0f}."
        )
    if verdict == "unchecked":
        out.append("Nothing checks these measures: a wrong one would not show.")
    elif verdict == "closed":
        out.append(_agree(adjustment, units))
    elif verdict == "blunder located":
        gone = joined([_gone(e, names, units) for e in snooped.excluded])
        rest = (
            _agree(adjustment, units) if adjustment.freedom else "Nothing checks the measures that are left."
        )
        out.append(f"Set aside: {gone}. {rest}")
    else:
        sure = which([name_of(names[e.row]) for e in snooped.suspects], len(names))
        out.append(
            f"The measures disagree by {adjustment.s0:.1f} times their standard error."
            f" One is wrong, and they cannot say {sure}."
        )
        if snooped.excluded:
            out.append(f"Set aside: {joined([_gone(e, names, units) for e in snooped.excluded])}.")
    return " ".join(out)


def _gone(explanation: Explanation, names: Sequence[Observation], units: Units) -> str:
    observation = names[explanation.row]
    return f"{name_of(observation)}, {error_of(explanation, observation, units)}"


def _agree(adjustment: Adjustment, units: Units) -> str:
    spans = [k for k, o in enumerate(adjustment.network.observations) if o.kind == "distance"]
    worst = max(spans, key=lambda k: (abs(adjustment.v[k]), -k))
    if abs(adjustment.v[worst]) < (127e-6 if units == "imperial" else 5e-5):
        least = "0.01 in" if units == "imperial" else "0.1 mm"
        return f"The measures agree: no length is corrected by {least}."
    name = name_of(adjustment.network.observations[worst])
    worst_said = small(float(adjustment.v[worst]), units=units)
    return f"The measures agree: the largest correction is {worst_said}, to {name}."
