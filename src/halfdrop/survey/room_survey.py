"""From a room's survey as taped to its adjusted corners: the one way in for the rest of halfdrop."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely

from halfdrop.base.errors import At, InputError
from halfdrop.base.formats import Units, format_angle, format_length
from halfdrop.job.model import Survey
from halfdrop.practice import Practice
from halfdrop.survey.approximate import Found, find_outline
from halfdrop.survey.extra import Candidate, checking_measure, holding_measures, locating_measure
from halfdrop.survey.height import HeightResult, heights
from halfdrop.survey.measures import Levels, kind_of, network_of, units_of
from halfdrop.survey.network import Adjustment, Floats, LooseError, Network, UnsettledError, longest_gap
from halfdrop.survey.outline import crossings, interior_angles, signed_area, spans_inside
from halfdrop.survey.result import (
    ExpectedReading,
    ExtraMeasure,
    ObservationResult,
    SurveyResult,
    Suspect,
    Verdict,
)
from halfdrop.survey.snooping import Snooped, explain, minimal_detectable_bias, passes, snoop, w_statistics
from halfdrop.survey.traverse import Closure, Leg, close_traverse
from halfdrop.survey.words import extra_words, joined, misclosure_words, name_of
from halfdrop.survey.workings import working_of

#: A corner less certain than this along some direction counts as not determined [m].
FLOATS = 0.5
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
        Corners, covariance, every measure with its tests, the verdict and, where it helps, the one more measure.

    Raises
    ------
    InputError
        Where a corner floats (the message names it, the hint the measure that holds it), two different outlines fit
        the measures, the walls cross each other, or the measures cannot close at all.

    Source: Ghilani, Adjustment Computations (2010); Baarda, A Testing Procedure (1968).
    Checked by: tests/published/survey_rooms.csv.
    """
    levels, units = Levels.of(survey, practice), units_of(survey)
    network = network_of(survey, levels)
    room = _Room(survey, units, network, levels)
    found = find_outline(network, levels.test.chi_limit(max(network.freedom, 1)))
    room.refuse_loose(found.xy)
    room.refuse_rival(found)
    if found.fits:
        room.refuse_crossing(found.xy, None)
    try:
        snooped = snoop(network, found.xy, levels.test)
    except UnsettledError as error:
        raise room.gaping() or InputError(error.message, at=At(path="survey"), hint=error.hint) from error
    except LooseError as error:
        raise room.floating(found.xy) from error
    room.refuse_open(snooped)
    return room.result(snooped)


@dataclass(frozen=True)
class _Room:
    """What is known of one survey while it is worked on."""

    survey: Survey
    units: Units
    network: Network
    levels: Levels

    def pair(self, i: int, j: int) -> str:
        return self.survey.corners[min(i, j)] + self.survey.corners[max(i, j)]

    def wall(self, k: int) -> str:
        order = self.survey.corners
        return order[k] + order[(k + 1) % len(order)]

    # ------------------------------------------------------------ refusals

    def refuse_loose(self, xy: Floats) -> None:
        if len(self.network.loose(xy)):
            raise self.floating(xy)

    def floating(self, xy: Floats) -> InputError:
        corner, pairs = holding_measures(self.network, xy)
        name = self.survey.corners[corner]
        if not pairs:
            hint = f"measure the angle at {name}, or add `square: {{{name}: true}}` where it is square"
        else:
            what = joined([self.pair(*pair) for pair in pairs])
            hint = (
                f"tape {what}, corner to corner, and add {'it' if len(pairs) == 1 else 'them'} under `ties`"
            )
            if name not in self.survey.angles and not self.survey.square.get(name):
                hint += f"; or add `square: {{{name}: true}}` where corner {name} is square"
        need = len(self.network.loose(xy))
        more = f"; {need} measures are missing" if need > 1 else ""
        return InputError(
            f"corner {name} floats: the measures fit wherever it stands{more}",
            at=At(path="survey"),
            hint=hint,
        )

    def refuse_rival(self, found: Found) -> None:
        if found.rival is None:
            return
        one, two = found.xy, found.rival
        order = self.survey.corners
        turned = np.abs(interior_angles(one) - interior_angles(two)) > np.radians(20)
        names = [order[k] for k in np.flatnonzero(turned)] or [
            order[int(np.argmax(np.abs(one - two).max(axis=1)))]
        ]
        both = spans_inside(one) & spans_inside(two)
        away = [np.hypot(*np.moveaxis(xy[:, None] - xy[None], -1, 0)) for xy in (one, two)]
        apart = np.where(np.triu(both, 1), np.abs(away[0] - away[1]), 0.0)
        i, j = np.unravel_index(int(np.argmax(np.round(apart, 6))), apart.shape)
        hints = []
        if apart[i, j] > 0.05:
            a, b = (format_length(float(d[i, j]), self.units) for d in away)
            hints.append(
                f"tape {self.pair(int(i), int(j))}, corner to corner: it reads {a} in one, {b} in the other"
            )
        if turned.any():
            k = int(np.flatnonzero(turned)[0])
            angles = " or ".join(
                format_angle(round(float(interior_angles(x)[k]), 3), digits=0) for x in (one, two)
            )
            hints.append(f"state the angle at {order[k]} under `angles` ({angles})")
        raise InputError(
            f"two outlines fit the measures: they differ at corner{'s' if len(names) > 1 else ''} {joined(names)}",
            at=At(path="survey"),
            hint="; or ".join(hints),
        )

    def refuse_open(self, snooped: Snooped) -> None:
        """Refuse an outline whose walls cross, measures that cannot close, and corners that are all but loose."""
        adjustment = snooped.adjustment
        suspects = [name_of(self.network.observations[s.row]) for s in snooped.suspects]
        again = f"tape again: {joined(suspects)}" if suspects else None
        self.refuse_crossing(adjustment.xy, again)
        if adjustment.freedom == 0 and not passes(adjustment, self.levels.test):
            gaping = self.gaping()
            if gaping is not None:
                raise gaping
            worst = int(np.argmax(np.abs(adjustment.v / adjustment.network.sigmas)))
            name = name_of(adjustment.network.observations[worst])
            gap = format_length(abs(float(adjustment.v[worst])), self.units)
            raise InputError(
                f"the walls cannot close: {name} would have to differ by {gap}",
                at=At(path="survey"),
                hint=f"tape {name} again, and the walls beside it",
            )
        if signed_area(adjustment.xy) <= 0:
            raise InputError("the outline turns inside out", at=At(path="survey"), hint=again)
        spread = adjustment.covariance().reshape(len(adjustment.xy), 2, len(adjustment.xy), 2)
        sds = [float(np.sqrt(np.linalg.eigvalsh(spread[k, :, k])[-1])) for k in range(len(adjustment.xy))]
        if max(sds) > FLOATS:
            k = int(np.argmax(sds))
            raise InputError(
                f"corner {self.survey.corners[k]} is known only to {format_length(sds[k], self.units)};"
                f" allowed is {format_length(FLOATS, self.units)}",
                at=At(path="survey"),
                hint=self.steadier(adjustment),
            )

    def steadier(self, adjustment: Adjustment) -> str:
        candidate = checking_measure(adjustment, self.levels.tape)
        pair = self.pair(*candidate.pair) if candidate else "a tie across the room"
        return f"tape {pair}, corner to corner, and add it under `ties`"

    def refuse_crossing(self, xy: Floats, hint: str | None) -> None:
        hits = crossings(xy)
        if hits:
            walls = joined([f"{self.wall(a)} and {self.wall(b)}" for a, b in hits])
            hint = (
                hint
                or "look whether the corners are listed in walking order, and for a tie to the wrong corner"
            )
            raise InputError(
                f"the outline crosses itself: walls {walls} cross", at=At(path="survey"), hint=hint
            )

    def gaping(self) -> InputError | None:
        """Return the error of a span that is longer than a way round it; None where there is none."""
        found = longest_gap(self.network)
        if found is None:
            return None
        row, round_about = found
        observation = self.network.observations[row]
        length, way = (format_length(x, self.units) for x in (observation.value, round_about))
        return InputError(
            f"the walls cannot close: {name_of(observation)} is {length}, the way round it by other tapes {way}",
            at=At(path="survey"),
            hint=f"tape {name_of(observation)} again, and the tapes beside it",
        )

    # ------------------------------------------------------------ the result

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
                survey, self.levels, self.units, self.network, snooped, xy, closure, extra, measured
            ),
            round=survey.round,
        )

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
        named, pair = self.network.observations, self.pair(*candidate.pair)
        readings = tuple(ExpectedReading(named[r.suspect].id, r.length, r.sigma) for r in candidate.readings)
        words = extra_words(candidate, pair, named, snooped.suspects, self.units)
        return ExtraMeasure(
            pair, candidate.repeat, candidate.purpose, candidate.chance, candidate.separation, readings, words
        )

    def closure(self, adjustment: Adjustment) -> Closure | None:
        """Return how the walls alone close with the stated angles; None where a wall or more than one angle is open."""
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
            legs.append(Leg(self.wall(k), azimuth, lengths[k]))
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
