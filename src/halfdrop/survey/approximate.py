"""The outline that the measures mean, found without being told: the start of the adjustment."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from halfdrop.survey.network import Floats, Network, settle, wrap
from halfdrop.survey.outline import crossings, interior_angles, signed_area
from halfdrop.survey.starts import Measures, legs, misfit, walk

#: Partial outlines carried along at first, and where that finds none that fits.
NARROW, WIDE = 24, 160
#: Outlines looked at closely.
_CLOSE_LOOKS = 5
#: Where no measure misfits by more standard errors than this, the outline is right though a measure is not.
_NEAR = 25.0
#: Two outlines differ where a corner lies farther apart than this [m].
DIFFERENT = 0.05
#: A rival outline with so many more corners that are not square is passed over, and said so.
_LESS_PLAUSIBLE = 1.75


@dataclass(frozen=True)
class Found:
    """An outline found.

    Attributes
    ----------
    xy : array, shape (n, 2)
        Corners, counterclockwise, the first at the origin, the second on +x [m].
    fits : bool
        Whether every measure agrees with it within its error, whether or not its walls cross.
    crosses : tuple of (int, int)
        Walls that cross each other.
    rival : array or None
        A different outline that fits as well and is as plausible.
    passed_over : array or None
        A different outline that fits as well, and has at least two more corners that are not square.
    """

    xy: Floats
    fits: bool
    crosses: tuple[tuple[int, int], ...]
    rival: Floats | None
    passed_over: Floats | None = None


def find_outline(network: Network, limit: float, *, thorough: bool = True) -> Found:
    """Return the simple outline that fits the measures best.

    Parameters
    ----------
    network : Network
        Points in walking order, counterclockwise, with the default datum.
    limit : float
        The largest weighted square sum of residuals that still counts as a fit.
    thorough : bool
        False leaves out the wide search where nothing fits at first.

    Returns
    -------
    Found
        The best outline, whether it fits, and what else would.

    Notes
    -----
    Plain fits are tried first. Where none holds, a search with a wider beam and a robust fit looks for the
    outline that the most measures agree with, so that one gross mistake does not bend the start.
    """
    measures = Measures.of(network)
    squared = legs(measures)
    all_square = bool((measures.square | _near_right(measures.angles)).all()) and len(squared) > 0
    if not len(squared):
        squared = walk(measures.squared(), WIDE)
    starts = squared if all_square else np.concatenate((squared, walk(measures, NARROW)))
    fitting = [_look(network, xy, limit, robust=False) for xy in _ranked(measures, starts)]
    good = sorted((c for c in fitting if c.fits and not c.found.crosses), key=lambda c: c.oddness)
    if good:
        return good[0].with_rival(good[1:], network)
    near = [c for c in fitting if c.near and not c.found.crosses]
    if near:
        return min(near, key=lambda c: c.cost).found
    if not thorough:
        return min(fitting, key=lambda c: (not c.fits, c.cost)).found
    if not all_square:
        firsts = sorted({0, network.count // 3, 2 * network.count // 3})
        starts = np.concatenate((starts, *(walk(measures, WIDE, first) for first in firsts)))
    robust = [_look(network, xy, limit, robust=True) for xy in _ranked(measures, starts)]
    every = sorted(fitting + robust, key=lambda c: (not c.fits, c.cost))
    simple_fit = [c for c in every if c.fits and not c.found.crosses]
    return (simple_fit or every)[0].found


@dataclass(frozen=True)
class _Candidate:
    found: Found
    fits: bool
    near: bool
    cost: float
    oddness: float

    def with_rival(self, others: list[_Candidate], network: Network) -> Found:
        """Add the first other outline that fits, is as plausible, and does not settle to the same corners."""
        passed: Floats | None = None
        for other in sorted(others, key=lambda c: c.oddness):
            if not _apart(other.found.xy, self.found.xy):
                continue
            settled = settle(network, other.found.xy)
            if _apart(settled, settle(network, self.found.xy)):
                if other.oddness < self.oddness + _LESS_PLAUSIBLE:
                    return Found(self.found.xy, True, (), settled)
                passed = settled if passed is None else passed
        return Found(self.found.xy, True, (), None, passed)


def _apart(one: Floats, two: Floats) -> bool:
    return float(np.abs(one - two).max()) > DIFFERENT


def _near_right(angles: Floats) -> NDArray[np.bool_]:
    out: NDArray[np.bool_] = np.abs(wrap(angles - np.pi / 2, np.pi)) < np.radians(10)
    return out


def _ranked(measures: Measures, starts: Floats) -> list[Floats]:
    """Return the few starts worth a close look: the best of each way of turning."""
    order = np.argsort(misfit(measures, starts), kind="stable")[:60]
    seen: set[bytes] = set()
    out: list[Floats] = []
    turns = np.round(interior_angles(starts) / (np.pi / 6)).astype(np.int8)
    for k in order:
        mark = turns[k].tobytes()
        if mark not in seen:
            seen.add(mark)
            out.append(starts[k])
            if len(out) == _CLOSE_LOOKS:
                break
    return out


def _look(network: Network, start: Floats, limit: float, *, robust: bool) -> _Candidate:
    xy = settle(network, start, scales=(40.0, 3.0) if robust else (None,), steps=25)
    if xy[1, 0] < 0:
        xy = -xy  # the datum holds the first wall on the x axis, not which way it runs
    pulls = network.residuals(xy) / network.sigmas
    hits = tuple(crossings(xy))
    right_way = float(signed_area(xy)) > 0
    fits = (right_way or len(hits) > 0) and float(pulls @ pulls) <= limit
    cost = float(np.log1p((pulls / 3.0) ** 2).sum()) + 4.0 * len(hits) + (0.0 if right_way else 100.0)
    odd = np.abs(wrap(interior_angles(xy) - np.pi / 2, np.pi)) / np.radians(12)
    oddness = float(np.minimum(odd, 1.0).sum()) + 0.25 * float((interior_angles(xy) > np.pi).sum())
    near = right_way and float(np.abs(pulls).max()) <= _NEAR
    return _Candidate(Found(xy, fits, hits, None), fits, near, cost + 0.3 * oddness, oddness)
