"""What is no survey of a room, and what to do about it: every refusal names corner, wall or tape."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfdrop.base.errors import At, InputError
from halfdrop.base.formats import Units, format_angle, format_length
from halfdrop.job.model import Survey
from halfdrop.survey.approximate import Found
from halfdrop.survey.extra import checking_measure, holding_measures
from halfdrop.survey.measures import Levels, pair_name, wall_name
from halfdrop.survey.network import Adjustment, Floats, Network, settle
from halfdrop.survey.outline import crossings, interior_angles, signed_area, spans_inside
from halfdrop.survey.snooping import Snooped, passes
from halfdrop.survey.words import joined, name_of, size

#: A corner less certain than this along some direction counts as not determined [m].
FLOATS = 0.5


@dataclass(frozen=True)
class Refusals:
    """One survey, asked at each stage whether it can be gone on with."""

    survey: Survey
    units: Units
    network: Network
    levels: Levels

    def refuse_loose(self, xy: Floats) -> None:
        if len(self.network.loose(xy)):
            raise self.floating(xy)

    def floating(self, xy: Floats) -> InputError:
        corner, pairs = holding_measures(self.network, xy)
        name = self.survey.corners[corner]
        if not pairs:
            hint = f"measure the angle at {name}, or add `square: {{{name}: true}}` where it is square"
        else:
            what = joined([pair_name(self.survey, *pair) for pair in pairs])
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
        names = differing(self.survey, one, two)
        both = spans_inside(one) & spans_inside(two)
        away = [np.hypot(*np.moveaxis(xy[:, None] - xy[None], -1, 0)) for xy in (one, two)]
        apart = np.where(np.triu(both, 1), np.abs(away[0] - away[1]), 0.0)
        i, j = np.unravel_index(int(np.argmax(np.round(apart, 6))), apart.shape)
        hints = []
        if apart[i, j] > 0.05:
            a, b = (format_length(float(d[i, j]), self.units) for d in away)
            pair = pair_name(self.survey, int(i), int(j))
            hints.append(f"tape {pair}, corner to corner: it reads {a} in one, {b} in the other")
        turned = np.flatnonzero(_turned(one, two))
        if len(turned):
            k = int(turned[0])
            a, b = (format_angle(round(float(interior_angles(x)[k]), 3), digits=0) for x in (one, two))
            hints.append(f"state the angle at {self.survey.corners[k]} under `angles` ({a} or {b})")
        corners = "corner" if len(names) == 1 else "corners"
        raise InputError(
            f"two outlines fit the measures: they differ at {corners} {joined(names)}",
            at=At(path="survey"),
            hint="; or ".join(hints),
        )

    def refuse_open(self, snooped: Snooped) -> None:
        """Refuse walls that cross, measures that cannot close, and corners that are all but loose."""
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
            hint = again or "look for a corner whose tapes reach the wrong side of a wall"
            raise InputError("the outline turns inside out", at=At(path="survey"), hint=hint)
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
        pair = pair_name(self.survey, *candidate.pair) if candidate else "a tie across the room"
        return f"tape {pair}, corner to corner, and add it under `ties`"

    def refuse_crossing(self, xy: Floats, hint: str | None) -> None:
        hits = crossings(xy)
        if hits:
            walls = joined([f"{wall_name(self.survey, a)} and {wall_name(self.survey, b)}" for a, b in hits])
            hint = (
                hint
                or "look whether the corners are listed in walking order, and for a tie to the wrong corner"
            )
            raise InputError(
                f"the outline crosses itself: walls {walls} cross", at=At(path="survey"), hint=hint
            )

    def contradicted(self, xy: Floats) -> InputError:
        """Return the error of measures that no outline fits: which of them the nearest outline misses, and by how much."""
        near = settle(self.network, xy, scales=(3.0,))
        missed = self.network.residuals(near)
        share = np.abs(missed / self.network.sigmas)
        far = [int(k) for k in np.argsort(-share, kind="stable")[:3] if share[k] > 5]
        said = [
            f"{name_of(o)} by {size(abs(float(missed[k])), o, self.units)}"
            for k in far
            for o in (self.network.observations[k],)
        ]
        nearest = f"; the nearest one misses {joined(said)}" if said else ""
        again = joined([name_of(self.network.observations[k]) for k in far]) if far else "the walls"
        return InputError(
            f"the measures contradict each other: no outline fits them{nearest}",
            at=At(path="survey"),
            hint=f"tape {again} again, and the tapes beside {'it' if len(far) == 1 else 'them'}; look for a figure written down wrong",
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
            f"the walls cannot close: {name_of(observation)} is {length}, the way round by other tapes {way}",
            at=At(path="survey"),
            hint=f"tape {name_of(observation)} again, and the tapes beside it",
        )


def longest_gap(network: Network) -> tuple[int, float] | None:
    """Return the distance that most exceeds a way round it by other distances.

    Returns
    -------
    tuple or None
        Its row and the length of the shortest way round it [m]; None where no distance exceeds one.
    """
    n = network.count
    worst: tuple[float, int, float] | None = None
    for row in network.distance_rows.tolist():
        ways = np.full((n, n), np.inf)
        for other in network.distance_rows.tolist():
            if other != row:
                i, j = network.observations[other].points
                ways[i, j] = ways[j, i] = min(ways[i, j], network.values[other])
        for middle in range(n):
            ways = np.minimum(ways, ways[:, middle, None] + ways[middle])
        i, j = network.observations[row].points
        over = float(network.values[row] - ways[i, j])
        if over > 5 * network.sigmas[row] and (worst is None or over > worst[0]):
            worst = (over, row, float(ways[i, j]))
    return (worst[1], worst[2]) if worst else None


def _turned(one: Floats, two: Floats) -> NDArray[np.bool_]:
    """Return the corners at which two outlines turn differently."""
    out: NDArray[np.bool_] = np.abs(interior_angles(one) - interior_angles(two)) > np.radians(20)
    return out


def differing(survey: Survey, one: Floats, two: Floats) -> list[str]:
    """Return the corners at which two outlines turn differently, or the one that lies farthest apart."""
    names = [survey.corners[k] for k in np.flatnonzero(_turned(one, two))]
    return names or [survey.corners[int(np.argmax(np.abs(one - two).max(axis=1)))]]
