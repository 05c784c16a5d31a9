"""The working of an adjusted survey: what was counted, weighed, tested, set aside."""

from __future__ import annotations

import math

import numpy as np

from halfdrop.base.formats import Units, format_length
from halfdrop.base.working import Working
from halfdrop.job.model import Survey
from halfdrop.survey.height import HeightResult
from halfdrop.survey.measures import Levels
from halfdrop.survey.network import Floats, Network
from halfdrop.survey.result import ExtraMeasure
from halfdrop.survey.snooping import Snooped, correlations, w_statistics
from halfdrop.survey.traverse import Closure
from halfdrop.survey.words import error_of, joined, name_of, size, small

_LEAST_SQUARES = "Ghilani, Adjustment Computations (2010), ch. 14"
_BAARDA = "Baarda, A Testing Procedure for Use in Geodetic Networks (1968)"


def working_of(
    survey: Survey,
    levels: Levels,
    units: Units,
    network: Network,
    snooped: Snooped,
    xy: Floats,
    passed_over: list[str],
    closure: Closure | None,
    extra: ExtraMeasure | None,
    heights: HeightResult,
) -> Working:
    """Return the steps of one survey's adjustment, in the order a person would check them."""
    out = Working("Survey, adjusted")
    _count(out, survey, levels, network)
    if passed_over:
        out.step(
            "outline",
            "of two that fit the measures, the one with more square corners",
            f"the other differs at {joined(passed_over)}",
            "passed over; one more tie there would exclude it",
        )
    if closure is not None:
        _loop(out, closure, units)
    _tests(out, levels, network, snooped, units)
    if extra is not None:
        why = "the span that tells most suspects apart, or checks the most"
        out.step("the one more measure", why, extra.words, extra.pair, source=_BAARDA)
    _corners(out, survey, snooped, xy, units)
    _heights(out, heights, units)
    return out


def _count(out: Working, survey: Survey, levels: Levels, network: Network) -> None:
    first, second = survey.corners[0], survey.corners[1]
    out.step("datum", "one corner and one direction held", f"{first} at 0, 0; wall {first}{second} along x",
             "2 shifts and 1 turn fixed", source=_LEAST_SQUARES)  # fmt: skip
    kinds = [o.id.partition("/")[0] for o in network.observations]
    parts = [f"{kinds.count(k)} {word}" for k, word in
             (("walls", "walls"), ("ties", "ties"), ("angles", "angles"), ("square", "square corners"))
             if k in kinds]  # fmt: skip
    n, m = network.count, len(network.observations)
    values = f"{' + '.join(parts)} − (2 × {n} − 3) = {m} − {2 * n - 3}"
    out.step("freedom", "measures − (2 × corners − 3)", values, str(m - 2 * n + 3), source="count")
    out.step(
        "standard errors",
        "weight = 1/σ²",
        f"tape {levels.tape * 1000:.2f} mm, angle {math.degrees(levels.angle):.2f}°,"
        f" square {math.degrees(levels.square):.2f}°, unless a measure has its own",
        "as stated",
        source=levels.source,
    )


def _loop(out: Working, closure: Closure, units: Units) -> None:
    out.step(
        "misclosure of the walls alone",
        "e = √(ex² + ey²), the walls laid off with their stated angles",
        f"ex = {small(closure.ex)}, ey = {small(closure.ey)}",
        f"{closure.error * 1000:.1f} mm in {format_length(closure.perimeter, units)}",
        rounding="to 0.1 mm, nearest",
        source="surveying textbooks (from memory, unverified)",
    )


def _tests(out: Working, levels: Levels, network: Network, snooped: Snooped, units: Units) -> None:
    named, test = network.observations, levels.test
    for gone in snooped.excluded:
        observation = named[gone.row]
        out.step(
            f"set aside: {name_of(observation)}",
            "error = measured − what the other measures say; |w| = |error| / its standard error",
            f"{size(observation.value, observation, units)} measured, {error_of(gone, observation, units)}",
            f"|w| = {abs(gone.w):.2f}, more than {test.critical:.2f}",
            source=_BAARDA,
        )
    adjustment = snooped.adjustment
    if not adjustment.freedom:
        out.step("tests", "freedom = 0", "no measure is redundant", "nothing checks these measures")
        return
    limit = test.chi_limit(adjustment.freedom)
    sound = "at most" if adjustment.chi_square <= limit else "more than"
    out.step("global test", "Σ (v/σ)² against χ²(freedom, α)",
             f"freedom {adjustment.freedom}, α {test.alpha:g}, s0 = {adjustment.s0:.3f}",
             f"{adjustment.chi_square:.2f}, {sound} {limit:.2f}", source="χ² test, textbooks")  # fmt: skip
    w = w_statistics(adjustment)
    worst = int(np.argmax(np.round(np.abs(w), 9)))
    observation = adjustment.network.observations[worst]
    sound = "at most" if abs(w[worst]) <= test.critical else "more than"
    out.step(
        f"largest w: {name_of(observation)}",
        "w = v / (σ √r)",
        f"v = {small(float(adjustment.v[worst]), observation)}, r = {adjustment.redundancy[worst]:.4f}",
        f"|w| = {abs(w[worst]):.2f}, {sound} {test.critical:.2f}",
        source=_BAARDA,
    )
    if snooped.suspects:
        _suspects(out, network, snooped, units)


def _suspects(out: Working, network: Network, snooped: Snooped, units: Units) -> None:
    named = network.observations
    place = {o.id: k for k, o in enumerate(snooped.adjustment.network.observations)}
    rows = [place[named[s.row].id] for s in snooped.suspects]
    alike = np.abs(correlations(snooped.adjustment)[np.ix_(rows, rows)])
    least = float(alike[np.triu_indices(len(rows), 1)].min())
    sizes = [f"{name_of(named[s.row])}: {error_of(s, named[s.row], units)}" for s in snooped.suspects]
    out.step(
        "suspects",
        "each alone explains the misfit; their tests run together (correlation of w near 1)",
        "; ".join(sizes),
        f"not located: {joined([name_of(named[s.row]) for s in snooped.suspects], 'or')};"
        f" least |ρ| = {least:.2f}",
        source=_BAARDA,
    )


def _corners(out: Working, survey: Survey, snooped: Snooped, xy: Floats, units: Units) -> None:
    variance = np.diag(snooped.adjustment.covariance()).reshape(-1, 2)
    spread = np.sqrt(np.maximum(variance, 0.0)) * 1000
    for corner, (x, y), (sx, sy) in zip(survey.corners, xy, spread, strict=True):
        out.step(
            f"corner {corner}",
            "(AᵀWA) dx = AᵀW l, repeated until nothing moves",
            f"x = {_place(x)} ± {sx:.1f}, y = {_place(y)} ± {sy:.1f}",
            f"{format_length(float(x), units)}, {format_length(float(y), units)}",
            rounding="nearest",
            source=_LEAST_SQUARES,
        )


def _place(value: float) -> str:
    return small(float(value)).lstrip("+")


def _heights(out: Working, heights: HeightResult, units: Units) -> None:
    if heights.mean is not None and heights.least is not None and heights.spread is not None:
        out.step(
            "ceiling height",
            "mean, least, spread of the heights taped",
            f"mean {format_length(heights.mean, units)}, spread {format_length(heights.spread, units)}",
            f"{format_length(heights.least, units)} at {heights.least_at}, the least",
            rounding="nearest",
        )
    if heights.fall is not None:
        out.step("floor", "highest − lowest", f"high at {heights.high_at}, low at {heights.low_at}",
                 f"falls {format_length(heights.fall, units)}", rounding="nearest")  # fmt: skip
    if heights.lean is not None:
        way = "into the room" if heights.lean > 0 else "away from the room"
        out.step("plumb", "the wall that leans most over its height", f"wall {heights.lean_wall}",
                 f"{format_length(abs(heights.lean), units)} {way}", rounding="nearest")  # fmt: skip
