"""From a room's survey as taped to its adjusted corners: the one way in for the rest of halfdrop."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely

from halfdrop.base.errors import At, InputError
from halfdrop.base.formats import Units
from halfdrop.job.model import Survey
from halfdrop.practice import Practice
from halfdrop.survey.approximate import Found, find_outline
from halfdrop.survey.extra import Candidate, checking_measure, locating_measure
from halfdrop.survey.height import HeightResult, heights
from halfdrop.survey.measures import Levels, kind_of, network_of, pair_name, units_of, wall_name
from halfdrop.survey.network import Adjustment, Floats, LooseError, Network, UnsettledError
from halfdrop.survey.outline import interior_angles
from halfdrop.survey.refusals import Refusals, differing
from halfdrop.survey.result import (
    ExpectedReading,
    ExtraMeasure,
    ObservationResult,
    SurveyResult,
    Suspect,
    Verdict,
)
from halfdrop.survey.snooping import Snooped, explain, minimal_detectable_bias, snoop, w_statistics
from halfdrop.survey.traverse import Closure, Leg, close_traverse
from halfdrop.survey.words import extra_words, misclosure_words
from halfdrop.survey.workings import working_of

_CENTER = ("center", "centre", "middle")


def adjust_survey(survey: Survey, practice: Practice | None = None) -> SurveyResult:
    """Adjust a room's survey.

    Parameters
    ----------
    survey : Survey
        As taped.
    practice : Practice, optional
        Standard errors and test levels; the module's defaults stand in.

    Returns
    -------
    SurveyResult
        Corners, covariance, every measure with its tests, the verdict, and the one more measure that helps.

    Raises
    ------
    InputError
        Where a corner floats (the message names it, the hint the measure that holds it), two different
        outlines fit the measures, the walls cross each other, or the measures cannot close at all.

    Source: Ghilani, Adjustment Computations (2010); Baarda, A Testing Procedure (1968).
    Checked by: tests/published/survey_rooms.csv.
    """
    levels, units = Levels.of(survey, practice), units_of(survey)
    network = network_of(survey, levels)
    if not network.observations:
        a, b = survey.corners[:2]
        raise InputError(
            "nothing is measured yet", at=At(path="survey"), hint=f"tape the first wall, {a} to {b}"
        )
    refusals = Refusals(survey, units, network, levels)
    found = find_outline(network, levels.test.chi_limit(max(network.freedom, 1)))
    refusals.refuse_loose(found.xy)
    refusals.refuse_rival(found)
    if found.fits:
        refusals.refuse_crossing(found.xy, None)
    try:
        snooped = snoop(network, found.xy, levels.test)
    except UnsettledError as error:
        raise refusals.gaping() or refusals.contradicted(found.xy) from error
    except LooseError as error:
        raise refusals.floating(found.xy) from error
    refusals.refuse_open(snooped)
    return _Report(survey, units, network, levels, found).result(snooped)


@dataclass(frozen=True)
class _Report:
    """Says what an adjustment found in the survey's own words."""

    survey: Survey
    units: Units
    network: Network
    levels: Levels
    found: Found

    def result(self, snooped: Snooped) -> SurveyResult:
        adjustment, survey = snooped.adjustment, self.survey
        verdict = _verdict(snooped)
        candidate: Candidate | None = None
        if snooped.suspects:
            candidate = locating_measure(
                self.network, adjustment, snooped.suspects, self.levels.tape, self.levels.test
            )
        elif adjustment.freedom == 0:
            candidate = checking_measure(adjustment, self.levels.tape)
        flip = np.array((-1.0 if survey.round == "clockwise" else 1.0, 1.0))
        xy = adjustment.xy * flip + 0.0
        both = np.tile(flip, len(xy))
        closure = self.closure(adjustment)
        measured = self.heights(xy)
        named = self.network.observations
        suspects = tuple(Suspect(named[e.row].id, e.error, e.w) for e in snooped.suspects or snooped.excluded)
        extra = self.extra(candidate, snooped)
        return SurveyResult(
            corners=tuple(survey.corners),
            xy=xy,
            covariance=adjustment.covariance() * np.outer(both, both),
            observations=self.observations(snooped),
            freedom=adjustment.freedom,
            s0=adjustment.s0,
            chi_square=adjustment.chi_square,
            chi_limit=self.levels.test.chi_limit(adjustment.freedom),
            verdict=verdict,
            suspects=suspects,
            excluded=tuple(named[e.row].id for e in snooped.excluded),
            extra=extra,
            heights=measured,
            closure=closure,
            misclosure=misclosure_words(snooped, verdict, closure, self.levels.ratio, named, self.units),
            working=working_of(
                survey,
                self.levels,
                self.units,
                self.network,
                snooped,
                xy,
                self.passed_over(),
                closure,
                extra,
                measured,
            ),
            round=survey.round,
        )

    def passed_over(self) -> list[str]:
        """Return the corners at which a second outline differs that fits too but is far less square."""
        if self.found.passed_over is None:
            return []
        return differing(self.survey, self.found.xy, self.found.passed_over)

    def observations(self, snooped: Snooped) -> tuple[ObservationResult, ...]:
        adjustment = snooped.adjustment
        place = {o.id: k for k, o in enumerate(adjustment.network.observations)}
        w, r = w_statistics(adjustment), adjustment.redundancy
        out = []
        for row, o in enumerate(self.network.observations):
            k = place.get(o.id)
            if k is None:
                away = explain(self.network, row, adjustment)
                v, red, stat, used = -away.error, 0.0, away.w, False
            else:
                v, red, stat, used = float(adjustment.v[k]), float(r[k]), float(w[k]), True
            measured = o.value
            if o.kind == "square":
                turned = float(interior_angles(adjustment.xy)[o.points[1]])
                measured = math.pi / 2 if turned < math.pi else 1.5 * math.pi
            least = minimal_detectable_bias(o.sigma, red, self.levels.test)
            out.append(
                ObservationResult(
                    o.id, kind_of(o), measured, measured + v, v, o.sigma, red, stat, least, used
                )
            )
        return tuple(out)

    def extra(self, candidate: Candidate | None, snooped: Snooped) -> ExtraMeasure | None:
        if candidate is None:
            return None
        named, pair = self.network.observations, pair_name(self.survey, *candidate.pair)
        readings = tuple(ExpectedReading(named[r.suspect].id, r.length, r.sigma) for r in candidate.readings)
        words = extra_words(candidate, pair, named, snooped.suspects, self.units)
        return ExtraMeasure(
            pair, candidate.repeat, candidate.purpose, candidate.chance, candidate.separation, readings, words
        )

    def closure(self, adjustment: Adjustment) -> Closure | None:
        """Return how the walls alone close with the stated angles; None where these are not all known."""
        used = {o.id for o in adjustment.network.observations}
        n = len(self.survey.corners)
        lengths: dict[int, float] = {}
        angles: dict[int, float] = {}
        for o in self.network.observations:
            if o.id not in used:
                continue
            if o.kind == "distance":
                i, j = o.points
                if abs(i - j) in (1, n - 1):
                    lengths.setdefault(i if (i + 1) % n == j else j, o.value)
            elif o.kind == "angle":
                angles[o.points[1]] = o.value
            else:
                turned = float(interior_angles(adjustment.xy)[o.points[1]])
                angles.setdefault(o.points[1], math.pi / 2 if turned < math.pi else 1.5 * math.pi)
        if len(lengths) < n or len(angles) < n - 1:
            return None
        over = math.fsum(angles.values()) - (n - 2) * math.pi
        angles = {k: a - over / n for k, a in angles.items()} if len(angles) == n else angles
        azimuth, legs = math.pi / 2, []
        for k in range(n):
            if k:
                azimuth -= math.pi - angles.get(k, (n - 2) * math.pi - math.fsum(angles.values()))
            legs.append(Leg(wall_name(self.survey, k), azimuth, lengths[k]))
        return close_traverse(legs)

    def heights(self, xy: Floats) -> HeightResult:
        survey = self.survey
        places = {corner: (float(p[0]), float(p[1])) for corner, p in zip(survey.corners, xy, strict=True)}
        middle = shapely.Polygon(xy).centroid
        places |= dict.fromkeys(_CENTER, (middle.x, middle.y))
        return heights(
            {k: float(v) for k, v in survey.heights.items()},
            {k: float(v) for k, v in survey.level.items()},
            {k: float(v) for k, v in survey.plumb.items()},
            places,
        )


def _verdict(snooped: Snooped) -> Verdict:
    if snooped.suspects:
        return "blunder detected"
    if snooped.excluded:
        return "blunder located"
    return "closed" if snooped.adjustment.freedom else "unchecked"
