"""Which one more measure would locate the blunder best, and what it should read for each culprit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from halfdrop.survey.network import Adjustment, Floats, Network, Observation
from halfdrop.survey.outline import spans_inside
from halfdrop.survey.snooping import CHECKED, BlunderTest, Explanation

#: A measure counts as checked by a new one when at least this share of its error would show.
_SHOWN = 0.05


@dataclass(frozen=True)
class Reading:
    """What the new measure reads if a suspect (a row) is the blunder: `length` and its `sigma` [m]."""

    suspect: int
    length: float
    sigma: float


@dataclass(frozen=True)
class Candidate:
    """One more measure worth taking.

    Attributes
    ----------
    pair : tuple of int
        The two corners.
    repeat : bool
        Whether that span was taped before.
    purpose : "locate" or "check"
        To tell suspects apart, or to check measures that nothing checks.
    chance : float
        Chance that it tells which measure is the blunder (locate); share of the measures it checks (check).
    separation : float
        The least distance between two suspects' tests after it, in standard errors (locate); the least
        redundancy number that it brings (check).
    readings : tuple of Reading
        What it should read, for each suspect.
    """

    pair: tuple[int, int]
    repeat: bool
    purpose: Literal["locate", "check"]
    chance: float
    separation: float
    readings: tuple[Reading, ...]


def locating_measure(
    network: Network, adjustment: Adjustment, suspects: Sequence[Explanation], sigma: float, test: BlunderTest
) -> Candidate | None:
    """Return the corner-to-corner measure that most likely tells the suspects apart.

    Parameters
    ----------
    network : Network
        All observations; the suspects' rows count in it.
    adjustment : Adjustment
        Of the observations that are kept (suspects among them).
    suspects : sequence of Explanation
        Two or more.
    sigma : float
        Standard error of the new measure [m].
    test : BlunderTest
        Levels of the tests.

    Returns
    -------
    Candidate or None
        None where no span can be taped inside the outline.

    Notes
    -----
    For a new measure c the covariance of the suspects' residuals follows by one row more. If suspect k is
    the blunder, of its estimated size e_k, a rival l is refused when |e_k| sqrt(r_k (1 - rho_kl^2)) / sigma_k
    passes the critical value; the least of these over all l gives the chance that k is located. The chances
    are weighed by how likely each suspect is: by how well it explains the misfit, and a taped span by its
    length (a long tape sags and is misread more often: common practice, no source).
    """
    kept_ids = {o.id: place for place, o in enumerate(adjustment.network.observations)}
    rows = [kept_ids[network.observations[s.row].id] for s in suspects]
    weight = np.array([_likely(network.observations[s.row], s, suspects) for s in suspects])
    weight /= weight.sum()
    error = np.array([abs(s.error) for s in suspects])
    sigmas = adjustment.network.sigmas[rows]
    design = adjustment.design[rows]
    best: tuple[tuple[float, float, float], Candidate] | None = None
    for pair, line in _spans(adjustment):
        gain = adjustment.cofactor @ line
        cofactor = adjustment.cofactor - np.outer(gain, gain) / (sigma**2 + line @ gain)
        spread = np.diag(sigmas**2) - design @ cofactor @ design.T
        apart = _separations(spread, error, sigmas)
        chances = np.array([test.chance_beyond(value) for value in apart])
        chance, separation = float(weight @ chances), float(apart.min())
        length = float(np.hypot(*(adjustment.xy[pair[1]] - adjustment.xy[pair[0]])))
        rank = (round(chance, 9), round(float(weight @ apart), 9), -length)
        if best is None or rank > best[0]:
            readings = tuple(_reading(s, pair, sigma) for s in suspects)
            repeat = pair in _taped(network)
            best = (rank, Candidate(pair, repeat, "locate", chance, separation, readings))
    return best[1] if best else None


def _likely(observation: Observation, suspect: Explanation, all_suspects: Sequence[Explanation]) -> float:
    least = min(s.without.chi_square for s in all_suspects)
    fit = math.exp(-0.5 * (suspect.without.chi_square - least))
    return fit * (observation.value if observation.kind == "distance" else 1.0)


def _separations(spread: Floats, error: Floats, sigmas: Floats) -> Floats:
    """Return, for each suspect as the culprit, how far its best rival is refused [standard errors]."""
    own = np.maximum(np.diag(spread), 0.0)
    both = np.maximum(np.outer(own, own), 1e-30)
    apart = 1.0 - np.clip(spread**2 / both, 0.0, 1.0)
    np.fill_diagonal(apart, np.inf)
    shift = error * np.sqrt(own) / sigmas**2
    out: Floats = shift * np.sqrt(apart.min(axis=1))
    return out


def _spans(adjustment: Adjustment) -> list[tuple[tuple[int, int], Floats]]:
    """Return every span that can be taped, each with its row of the design."""
    inside = spans_inside(adjustment.xy)
    first, second = np.nonzero(np.triu(inside, 1))
    pairs = [(int(i), int(j)) for i, j in zip(first, second, strict=True)]
    rows = Network(
        adjustment.network.count,
        [Observation("", "distance", pair, 1.0, 1.0) for pair in pairs],
        adjustment.network.fixed,
    ).jacobian(adjustment.xy)
    return list(zip(pairs, rows, strict=True))


def _taped(network: Network) -> set[tuple[int, ...]]:
    return {tuple(sorted(o.points)) for o in network.observations if o.kind == "distance"}


def _reading(suspect: Explanation, pair: tuple[int, int], sigma: float) -> Reading:
    without = suspect.without
    probe = Network(
        without.network.count, [Observation("", "distance", pair, 1.0, 1.0)], without.network.fixed
    )
    line = probe.jacobian(without.xy)[0]
    length = float(probe.computed(without.xy)[0])
    return Reading(suspect.row, length, math.sqrt(sigma**2 + float(line @ without.cofactor @ line)))


def checking_measure(adjustment: Adjustment, sigma: float) -> Candidate | None:
    """Return the corner-to-corner measure that checks the most, where nothing is redundant.

    New spans come before repeats: a repeat checks only itself. None where no span can be taped inside.
    """
    network = adjustment.network
    taped = _taped(network)
    best: tuple[tuple[float, ...], Candidate] | None = None
    for pair, line in _spans(adjustment):
        seen = adjustment.design @ (adjustment.cofactor @ line)
        r = seen**2 / (sigma**2 + float(line @ adjustment.cofactor @ line)) / network.sigmas**2
        checked = r > _SHOWN
        share, least = float(checked.mean()), float(r[r > CHECKED].min()) if (r > CHECKED).any() else 0.0
        length = float(np.hypot(*(adjustment.xy[pair[1]] - adjustment.xy[pair[0]])))
        rank = (float(pair not in taped), round(share, 9), round(least, 9), -length)
        if best is None or rank > best[0]:
            best = (rank, Candidate(pair, pair in taped, "check", share, least, ()))
    return best[1] if best else None


def holding_measures(network: Network, xy: Floats) -> tuple[int, list[tuple[int, int]]]:
    """Return the corner that moves most where nothing holds it, and the spans that would hold the outline.

    Parameters
    ----------
    network : Network
        A network that does not determine every point.
    xy : array, shape (n, 2)
        Its outline, as far as it is known [m].

    Returns
    -------
    tuple
        The floating corner, and the pairs to tape, one for each measure missing; fewer where no span inside
        the outline helps further.
    """
    loose = network.loose(xy)
    first = _floating(loose, xy)
    pairs: list[tuple[int, int]] = []
    while len(loose):
        pair = _holding(network, xy, loose)
        if pair is None:
            break
        pairs.append(pair)
        length = float(np.hypot(*(xy[pair[1]] - xy[pair[0]])))
        held = Observation("", "distance", pair, length, float(network.sigmas.min()))
        network = Network(network.count, [*network.observations, held], network.fixed)
        loose = network.loose(xy)
    return first, pairs


def _floating(loose: Floats, xy: Floats) -> int:
    """Return the corner that moves most against all others; of equals, the one most against the datum."""
    off = xy - xy.mean(axis=0)
    turn = np.stack((-off[:, 1], off[:, 0]), axis=1) / np.sqrt((off**2).sum())
    own = loose - loose.mean(axis=1, keepdims=True)
    own = own - (own * turn).sum(axis=(1, 2))[:, None, None] * turn
    moves, against = (np.sqrt((way**2).sum(axis=(0, 2))) for way in (own, loose))
    return int(np.argmax(np.where(moves > 0.9 * moves.max(), 1.0, 0.0) + 1e-3 * np.round(against, 6)))


def _holding(network: Network, xy: Floats, loose: Floats) -> tuple[int, int] | None:
    """Return the span not yet taped that stretches most as the loose corners move."""
    floating = _floating(loose, xy)
    inside = spans_inside(xy)
    best: tuple[int, int] | None = None
    pull = 1e-3
    first, second = np.nonzero(np.triu(inside, 1))
    taped = _taped(network)
    for i, j in zip(first.tolist(), second.tolist(), strict=True):
        if (i, j) in taped:
            continue
        unit = (xy[j] - xy[i]) / max(float(np.hypot(*(xy[j] - xy[i]))), 1e-9)
        stretch = float(np.abs((loose[:, j] - loose[:, i]) @ unit).max()) * (
            1.0 if floating in (i, j) else 0.999
        )
        if stretch > pull * (1 + 1e-9):
            best, pull = (i, j), stretch
    return best
