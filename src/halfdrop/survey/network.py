"""Weighted least squares of a plane network of distances and angles, by Gauss-Newton.

Pure numbers: points are indices, observations are a value with a standard error. What a wall, a tie or a
"blunder" is, the modules above know.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from halfdrop.base.errors import InputError

Floats = NDArray[np.float64]
Kind = Literal["distance", "angle", "square"]

#: An adjustment has settled when no coordinate moves farther than this in one step [m].
SETTLED = 1e-9
#: A singular value below this share of the largest one counts as a missing measure.
RANK_SHARE = 1e-8
_STEPS = 60


class UnsettledError(InputError):
    """The adjustment wanders: the measures contradict each other grossly."""


class LooseError(InputError):
    """Some point is not determined by the measures."""


@dataclass(frozen=True)
class Observation:
    """One observed distance or angle of a network.

    Attributes
    ----------
    id : str
        What a person calls it (`walls/AB`).
    kind : "distance", "angle" or "square"
        `distance`: between the two points. `angle`: at the second point, counterclockwise from the third
        point (the next corner) to the first (the previous corner): the interior angle of a
        counterclockwise outline. `square`: the same angle, assumed 90° or 270°, whichever is nearer.
    points : tuple of int
        (i, j) of a distance, (previous, at, next) of an angle.
    value : float
        As observed [m] or [rad]; of a square, pi/2.
    sigma : float
        Standard error, a priori [m] or [rad], more than 0.
    """

    id: str
    kind: Kind
    points: tuple[int, ...]
    value: float
    sigma: float


def wrap(angle: Floats, period: float | Floats) -> Floats:
    """Return an angle brought into -period/2 … +period/2 [rad]."""
    out: Floats = angle - period * np.round(angle / period)
    return out


class Network:
    """The observation equations of one set of observations.

    Parameters
    ----------
    count : int
        How many points there are.
    observations : sequence of Observation
        In any order; every result keeps it.
    fixed : bool array, shape (count, 2), optional
        Coordinates held as they stand (the datum). By default x and y of the first point and y of the
        second: the two shifts and the turn that no tape can know.
    """

    def __init__(
        self, count: int, observations: Sequence[Observation], fixed: NDArray[np.bool_] | None = None
    ) -> None:
        self.count = count
        self.observations = tuple(observations)
        if fixed is None:
            fixed = np.zeros((count, 2), dtype=bool)
            fixed[0] = True
            fixed[1, 1] = True
        self.fixed = fixed
        self.free = np.flatnonzero(~fixed.ravel())
        self.values = np.array([o.value for o in self.observations], dtype=float)
        self.sigmas = np.array([o.sigma for o in self.observations], dtype=float)
        is_distance = np.array([o.kind == "distance" for o in self.observations], dtype=bool)
        self.distance_rows = np.flatnonzero(is_distance)
        self.angle_rows = np.flatnonzero(~is_distance)
        pairs = [self.observations[k].points for k in self.distance_rows]
        threes = [self.observations[k].points for k in self.angle_rows]
        self._i, self._j = np.array(pairs, dtype=int).reshape(-1, 2).T
        self._before, self._at, self._after = np.array(threes, dtype=int).reshape(-1, 3).T
        self._period = np.array(
            [np.pi if self.observations[k].kind == "square" else 2 * np.pi for k in self.angle_rows]
        )

    @property
    def freedom(self) -> int:
        """Observations less unknowns."""
        return len(self.observations) - len(self.free)

    def without(self, rows: Iterable[int]) -> Network:
        """Return the network with some observations left out."""
        out = set(rows)
        return Network(self.count, [o for k, o in enumerate(self.observations) if k not in out], self.fixed)

    def computed(self, xy: Floats) -> Floats:
        """Return what each observation would read at these coordinates [m, rad]; shape (m,)."""
        out = np.empty(len(self.observations))
        span = xy[self._j] - xy[self._i]
        out[self.distance_rows] = np.hypot(span[:, 0], span[:, 1])
        before, after = xy[self._before] - xy[self._at], xy[self._after] - xy[self._at]
        turned = np.arctan2(before[:, 1], before[:, 0]) - np.arctan2(after[:, 1], after[:, 0])
        out[self.angle_rows] = turned % (2 * np.pi)
        return out

    def residuals(self, xy: Floats) -> Floats:
        """Return computed minus observed at these coordinates [m, rad]; shape (m,)."""
        out: Floats = self.computed(xy) - self.values
        out[self.angle_rows] = wrap(out[self.angle_rows], self._period)
        return out

    def jacobian(self, xy: Floats) -> Floats:
        """Return how each observation changes with each free coordinate; shape (m, u)."""
        full = np.zeros((len(self.observations), self.count, 2))
        span = xy[self._j] - xy[self._i]
        unit = span / np.maximum(np.hypot(span[:, 0], span[:, 1]), 1e-12)[:, None]
        full[self.distance_rows, self._j] = unit
        full[self.distance_rows, self._i] = -unit
        for ends, sign in ((self._before, 1.0), (self._after, -1.0)):
            ray = xy[ends] - xy[self._at]
            square = np.maximum((ray * ray).sum(axis=1), 1e-12)[:, None]
            turn = sign * np.stack((-ray[:, 1], ray[:, 0]), axis=1) / square
            full[self.angle_rows, ends] += turn
            full[self.angle_rows, self._at] -= turn
        out: Floats = full.reshape(len(self.observations), -1)[:, self.free]
        return out

    def loose(self, xy: Floats) -> Floats:
        """Return the ways the points can move that no observation feels; shape (k, count, 2)."""
        rows = self.jacobian(xy) / self.sigmas[:, None]
        _, singular, right = np.linalg.svd(rows, full_matrices=True)
        top = singular[0] if len(singular) else 1.0
        rank = int((singular > RANK_SHARE * top).sum())
        out = np.zeros((len(self.free) - rank, self.count * 2))
        out[:, self.free] = right[rank:]
        return out.reshape(-1, self.count, 2)


@dataclass(frozen=True)
class Adjustment:
    """The result of an adjustment: arrays in the observations' order, residuals adjusted minus observed."""

    network: Network
    xy: Floats
    v: Floats
    design: Floats
    cofactor: Floats

    @property
    def freedom(self) -> int:
        """Observations less unknowns."""
        return self.network.freedom

    @cached_property
    def chi_square(self) -> float:
        """The weighted square sum of the residuals."""
        return float(((self.v / self.network.sigmas) ** 2).sum())

    @property
    def s0(self) -> float:
        """Standard error of unit weight, a posteriori; 0 where nothing is checked."""
        return float(np.sqrt(self.chi_square / self.freedom)) if self.freedom > 0 else 0.0

    @cached_property
    def residual_cofactor(self) -> Floats:
        """Covariance of the residuals, a priori; shape (m, m)."""
        return np.diag(self.network.sigmas**2) - self.design @ self.cofactor @ self.design.T

    @cached_property
    def redundancy(self) -> Floats:
        """How much of each error shows in its own residual, 0 to 1; their sum is the freedom."""
        out: Floats = np.clip(np.diag(self.residual_cofactor) / self.network.sigmas**2, 0.0, 1.0)
        return out

    def covariance(self, *, scaled: bool = False) -> Floats:
        """Return the covariance of all coordinates, x and y of each point in turn [m²]; shape (2n, 2n).

        With `scaled` it is multiplied by s0² (the standard errors were guesses of one common quality).
        """
        full = np.zeros((self.network.count * 2, self.network.count * 2))
        full[np.ix_(self.network.free, self.network.free)] = self.cofactor * (self.s0**2 if scaled else 1.0)
        return full


def settle(
    network: Network, xy: Floats, *, scales: Sequence[float | None] = (None,), steps: int = _STEPS
) -> Floats:
    """Move points until the weighted residuals are least: Gauss-Newton, damped where a step overshoots.

    Parameters
    ----------
    network : Network
        The observations.
    xy : array, shape (n, 2)
        Where to start [m].
    scales : sequence of float or None
        One pass for each: None is plain least squares; a number reweights by Cauchy's function, so that
        residuals beyond that many standard errors lose their pull (to start past a gross mistake).
    steps : int
        The most steps of one pass.

    Returns
    -------
    array, shape (n, 2)
        The points, wherever the passes ended; undetermined directions stay where they started.
    """
    xy = np.array(xy, dtype=float)
    for scale in scales:
        damping = 0.0 if scale is None else 1e-3
        misfit = network.residuals(xy) / network.sigmas
        cost = _cost(misfit, scale)
        for _ in range(steps):
            rows = network.jacobian(xy) / network.sigmas[:, None]
            pull = np.ones_like(misfit) if scale is None else 1.0 / (1.0 + (misfit / scale) ** 2)
            normal = rows.T @ (rows * pull[:, None])
            right = -rows.T @ (pull * misfit)
            ridge = 1e-12 * max(float(normal.diagonal().max()), 1e-12)
            done = False
            for _ in range(12):
                step = np.linalg.solve(normal + np.diag(damping * normal.diagonal() + ridge), right)
                moved = xy.copy()
                moved.ravel()[network.free] += step
                trial = network.residuals(moved) / network.sigmas
                new = _cost(trial, scale)
                if new <= cost * (1 + 1e-12) + 1e-18:
                    done = bool(np.abs(step).max() < SETTLED)
                    xy, misfit, cost, damping = moved, trial, new, damping * 0.1 if damping > 1e-9 else 0.0
                    break
                if np.abs(step).max() < SETTLED:
                    done = True
                    break
                damping = max(damping * 10, 1e-4)
            else:
                break
            if done:
                break
    return xy


def _cost(misfit: Floats, scale: float | None) -> float:
    if scale is None:
        return float(misfit @ misfit)
    return float(scale * scale * np.log1p((misfit / scale) ** 2).sum())


def adjust(network: Network, xy: Floats) -> Adjustment:
    """Adjust a network by weighted least squares.

    Parameters
    ----------
    network : Network
        Observations and datum.
    xy : array, shape (n, 2)
        Approximate coordinates [m]; fixed ones are kept exactly.

    Returns
    -------
    Adjustment
        Coordinates, residuals, covariance, redundancy numbers.

    Raises
    ------
    LooseError
        Where some point is not determined by the observations.
    UnsettledError
        Where the iteration does not settle.

    Source: Ghilani, Adjustment Computations (5th ed., 2010), ch. 14 (distance equations), ch. 15 (angles).
    Checked by: tests/published/survey_trilateration.csv, survey_rooms.csv.
    """
    solved = settle(network, xy)
    result = linear(network, solved)
    still = result.v - network.residuals(solved)
    if float(np.abs(still / network.sigmas).max()) > 1e-3:
        raise UnsettledError(
            f"the adjustment does not settle: a measure still moves {np.abs(still).max():.3g} a step",
            hint="look for a measure that cannot be right, such as a wall longer than the way round",
        )
    return result


def linear(network: Network, xy: Floats) -> Adjustment:
    """Return the adjustment of the equations as they stand at `xy`, without moving a point.

    Its residuals are those after one linear step: near an outline that is right but for a gross mistake, they
    test the measures as the right outline would. Raises LooseError as `adjust` does.
    """
    design = network.jacobian(xy)
    rows = design / network.sigmas[:, None]
    _, singular, right = np.linalg.svd(rows, full_matrices=False)
    if len(singular) < len(network.free) or singular[-1] <= RANK_SHARE * singular[0]:
        raise LooseError("the measures do not determine every point of the network")
    cofactor: Floats = (right.T / singular**2) @ right
    misfit = network.residuals(xy)
    step = cofactor @ (rows.T @ (misfit / network.sigmas))
    return Adjustment(network, xy, misfit - design @ step, design, cofactor)
