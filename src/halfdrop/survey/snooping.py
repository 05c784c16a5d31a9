"""Is there a blunder, and which measure is it: the global test, Baarda's w-test, and where they stop.

An adjustment can show that *some* measure is wrong long before it can show *which*. Two measures whose tests
run together (with one redundant measure: all of them) cannot be told apart, and then the answer is a set of
suspects, not a name.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.special import chdtri, ndtr, ndtri

from halfdrop.base.errors import InputError
from halfdrop.survey.approximate import find_outline
from halfdrop.survey.network import Adjustment, Floats, Network, UnsettledError, adjust, linear
from halfdrop.survey.outline import crossings, signed_area

#: A redundancy number below this means that nothing checks the measure.
CHECKED = 1e-6
#: Beyond this standard error of unit weight a misfit is gross: outlines are searched anew for each suspect.
_GROSS = 40.0
#: Of a gross misfit, the share that a measure must explain on the outline found to be looked at as its cause.
_SHARE = 0.3


@dataclass(frozen=True)
class BlunderTest:
    """Levels of the tests: `alpha` of one measure, two-sided, and the `power` for the least size found."""

    alpha: float = 0.001
    power: float = 0.80

    @property
    def critical(self) -> float:
        """The largest |w| that passes.

        Source: normal quantile. Checked by: tests/published/survey_critical.csv.
        """
        return float(-ndtri(self.alpha / 2))

    @property
    def noncentrality(self) -> float:
        """The shift of w that is found with the stated power: delta0 of the minimal detectable bias.

        Source: Baarda, A Testing Procedure for Use in Geodetic Networks (1968).
        Checked by: tests/published/survey_critical.csv.
        """
        return self.critical + float(ndtri(self.power))

    def chi_limit(self, freedom: int) -> float:
        """Return the largest weighted square sum of residuals that passes; 0 where nothing is redundant."""
        return float(chdtri(freedom, self.alpha)) if freedom > 0 else 0.0

    def chance_beyond(self, shift: float) -> float:
        """Return the chance that a statistic shifted by `shift` passes the critical value."""
        return float(ndtr(shift - self.critical))


def w_statistics(adjustment: Adjustment) -> Floats:
    """Return Baarda's w of each observation: residual over its own standard error; 0 where unchecked.

    Source: Baarda (1968). Checked by: tests/published/survey_rooms.csv.
    """
    r = adjustment.redundancy
    scale = adjustment.network.sigmas * np.sqrt(np.maximum(r, CHECKED))
    out: Floats = np.where(r > CHECKED, adjustment.v / scale, 0.0)
    return out


def minimal_detectable_bias(sigma: float, redundancy: float, test: BlunderTest) -> float | None:
    """Return the least error [unit of sigma] the test finds with its power; None where none would show.

    Source: Baarda (1968): delta0 sigma / sqrt(r).
    """
    return test.noncentrality * sigma / math.sqrt(redundancy) if redundancy > CHECKED else None


def correlations(adjustment: Adjustment) -> Floats:
    """Return the correlation of every two w: at 1 or -1 the two cannot be told apart; shape (m, m)."""
    cofactor = adjustment.residual_cofactor
    scale = np.sqrt(np.maximum(np.diag(cofactor), 0.0))
    checked = adjustment.redundancy > CHECKED
    both = np.outer(checked, checked)
    out: Floats = np.where(both, cofactor / np.where(both, np.outer(scale, scale), 1.0), 0.0)
    return np.clip(out, -1.0, 1.0)


def passes(adjustment: Adjustment, test: BlunderTest) -> bool:
    """Return whether neither the square sum of all residuals nor any single w is too large."""
    if adjustment.freedom == 0:
        return adjustment.chi_square < 1e-6
    sound = adjustment.chi_square <= test.chi_limit(adjustment.freedom)
    return sound and float(np.abs(w_statistics(adjustment)).max()) <= test.critical


@dataclass(frozen=True)
class Explanation:
    """What follows if one observation is the wrong one.

    Attributes
    ----------
    row : int
        The observation's place in the whole network.
    without : Adjustment
        The adjustment without it.
    error : float
        By how much it would be wrong: observed minus what the others say [m, rad].
    w : float
        That error as a test statistic, with the sign of the residual (adjusted minus observed).
    """

    row: int
    without: Adjustment
    error: float
    w: float


@dataclass(frozen=True)
class Snooped:
    """The outcome of the search for blunders.

    Attributes
    ----------
    adjustment : Adjustment
        Of all observations that were kept.
    excluded : tuple of Explanation
        Located blunders, set aside, in the order found.
    suspects : tuple of Explanation
        Where a blunder shows but cannot be located: everything that alone could be it.
    """

    adjustment: Adjustment
    excluded: tuple[Explanation, ...]
    suspects: tuple[Explanation, ...]


def snoop(network: Network, start: Floats, test: BlunderTest) -> Snooped:
    """Adjust, test, and set located blunders aside one at a time; then try each again.

    A blunder counts as located where setting it aside explains the misfit better than setting aside any other
    measure does, by at least the critical value squared in the weighted square sum: the other measure, being
    the only blunder, is then refused at the test's own level.

    Parameters
    ----------
    network : Network
        All observations, points in walking order.
    start : array, shape (n, 2)
        Approximate coordinates [m].
    test : BlunderTest
        Levels of the tests.

    Returns
    -------
    Snooped
        The adjustment of what is kept, what was set aside, and who is suspect.

    Raises
    ------
    InputError
        Where the points are not determined.

    Source: Baarda (1968), iterated, with re-admission (common practice of network adjustment).
    """
    out: list[int] = []
    while True:
        adjustment, explained = _round(network, start, out, test)
        if not explained:
            if adjustment is None:
                raise UnsettledError(
                    "the measures contradict each other: no outline can be found, whichever one is left out",
                    hint="tape the room again, walls first; then the ties",
                )
            break
        best = explained[0]
        near = [e for e in explained if _left(e) - _left(best) < test.critical**2]
        if len(near) > 1:
            if adjustment is None:
                names = " ".join(network.observations[e.row].id for e in near)
                raise UnsettledError(
                    f"the measures contradict each other: no outline can be found; suspects: {names}",
                    hint=f"tape {network.observations[near[0].row].id} again",
                )
            return Snooped(adjustment, _explain_all(network, out, adjustment), tuple(near))
        out.append(best.row)
        start = best.without.xy
    assert adjustment is not None
    for row in list(out[:-1]):
        fewer = [k for k in out if k != row]
        try:
            again = adjust(network.without(fewer), adjustment.xy)
        except UnsettledError:
            continue
        if passes(again, test):
            out, adjustment = fewer, again
    return Snooped(adjustment, _explain_all(network, out, adjustment), ())


def _left(explanation: Explanation) -> float:
    return explanation.without.chi_square


def _round(
    network: Network, start: Floats, out: list[int], test: BlunderTest
) -> tuple[Adjustment | None, list[Explanation]]:
    """Adjust without what is out; where that fails, explain it by each observation, the best first."""
    kept = network.without(out)
    rows = [k for k in range(len(network.observations)) if k not in out]
    adjustment: Adjustment | None = None
    try:
        adjustment = adjust(kept, start)
    except UnsettledError:
        if kept.freedom == 0:
            raise
    if adjustment is not None and (passes(adjustment, test) or adjustment.freedom == 0):
        return adjustment, []
    gross = adjustment is None or adjustment.s0 > _GROSS
    likely = w_statistics(linear(kept, start) if gross or adjustment is None else adjustment) ** 2
    explained = []
    for place, row in enumerate(rows):
        if likely[place] <= (_SHARE * likely.max() if gross else 0.0):
            continue
        without = _without(kept, place, start if adjustment is None else adjustment.xy, test, anew=gross)
        if without is not None:
            explained.append(explain(network, row, without))
    explained.sort(key=lambda e: (round(_left(e), 6), e.row))
    return adjustment, explained


def _without(network: Network, place: int, xy: Floats, test: BlunderTest, *, anew: bool) -> Adjustment | None:
    """Adjust without one observation; None where the rest does not determine a simple outline."""
    fewer = network.without([place])
    try:
        if anew:
            xy = find_outline(fewer, test.chi_limit(fewer.freedom) + 1e-6, thorough=False).xy
        found = adjust(fewer, xy)
    except InputError:
        return None
    return None if crossings(found.xy) or signed_area(found.xy) <= 0 else found


def explain(network: Network, row: int, without: Adjustment) -> Explanation:
    """Compare one observation with an adjustment that it took no part in."""
    alone = Network(network.count, [network.observations[row]], network.fixed)
    error = -float(alone.residuals(without.xy)[0])
    line = alone.jacobian(without.xy)[0]
    spread = math.sqrt(alone.sigmas[0] ** 2 + float(line @ without.cofactor @ line))
    return Explanation(row, without, error, -error / spread)


def _explain_all(network: Network, out: list[int], adjustment: Adjustment) -> tuple[Explanation, ...]:
    return tuple(explain(network, row, adjustment) for row in out)
