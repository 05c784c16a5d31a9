"""The adjustment itself: published networks, derivatives, covariance."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.survey.network import LooseError, Network, Observation, UnsettledError, adjust, settle
from halfdrop.survey.outline import interior_angles
from halfdrop.survey.snooping import w_statistics

from .rooms import on_datum, outlines, table


def _printed(row: dict[str, str]) -> float:
    return 0.5 * 10.0 ** -int(row["places"]) * 1.0001


def test_the_published_trilateration_comes_out_to_every_printed_digit() -> None:
    """Two fixed points, two new ones, five distances: coordinates, s0, deviations, residuals, redundancy."""
    rows = table("survey_trilateration.csv")
    of = {
        what: {r["name"]: float(r["value"]) for r in rows if r["what"] == what}
        for what in {r["what"] for r in rows}
    }
    names = ["1", "2", "3", "4"]
    start = {**of["fixed"], **of["approximate"]}
    xy = np.array([(start[f"x{p}"], start[f"y{p}"]) for p in names])
    observations = [
        Observation(k, "distance", (names.index(k[0]), names.index(k[2])), d, of["sigma"]["all"])
        for k, d in of["distance"].items()
    ]
    fixed = np.array([(f"x{p}" in of["fixed"],) * 2 for p in names])
    result = adjust(Network(4, observations, fixed), xy)
    spread = np.sqrt(np.diag(result.covariance(scaled=True))).reshape(-1, 2) * 100
    got: dict[tuple[str, str], float] = {("freedom", "f"): result.freedom, ("s0_mm", "s0"): result.s0 * 10}
    for k, p in enumerate(names):
        for axis, letter in enumerate("xy"):
            got["coordinate", letter + p] = result.xy[k, axis]
            got["sd_cm", letter + p] = spread[k, axis]
    for k, o in enumerate(observations):
        got["residual_cm", o.id] = result.v[k] * 100
        got["redundancy", o.id] = result.redundancy[k]
        got["w_abs", o.id] = abs(w_statistics(result)[k])
    checked = [r for r in rows if r["places"]]
    assert len(checked) == 25
    for row in checked:
        assert got[row["what"], row["name"]] == pytest.approx(float(row["value"]), abs=_printed(row)), row


@settings(deadline=None, max_examples=40)
@given(outlines(), st.integers(0, 2**32 - 1))
def test_every_derivative_agrees_with_a_difference_quotient(xy: np.ndarray, seed: int) -> None:
    """The Jacobian of distances, angles and squares is the slope of what they read."""
    n = len(xy)
    xy = xy + np.random.default_rng(seed).normal(0, 0.02, xy.shape)
    observations = [
        Observation(f"d{i}{j}", "distance", (i, j), 1.0, 1.0) for i in range(n) for j in range(i + 1, n)
    ]
    observations += [Observation(f"a{k}", "angle", ((k - 1) % n, k, (k + 1) % n), 1.0, 1.0) for k in range(n)]
    observations += [
        Observation(f"s{k}", "square", ((k - 1) % n, k, (k + 1) % n), np.pi / 2, 1.0) for k in range(n)
    ]
    network = Network(n, observations)
    slope = network.jacobian(xy)
    step = 1e-6
    for column, free in enumerate(network.free):
        ahead, behind = xy.copy(), xy.copy()
        ahead.ravel()[free] += step
        behind.ravel()[free] -= step
        quotient = (network.computed(ahead) - network.computed(behind)) / (2 * step)
        np.testing.assert_allclose(slope[:, column], quotient, atol=1e-7)


def test_the_covariance_is_that_of_repeated_taping() -> None:
    """4,000 noisy surveys of one room scatter as the covariance says, within four standard errors."""
    rng = np.random.default_rng(20)
    xy = on_datum(np.array([(0, 0), (5.2, 0), (5.2, 2.4), (3.1, 2.4), (3.1, 4.3), (0, 4.3)]))
    pairs = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 0), (0, 2), (0, 3), (0, 4), (1, 3), (1, 5), (3, 5)]
    angle = float(interior_angles(xy)[1])

    def network(noise: np.ndarray) -> Network:
        taped = [
            Observation(
                str(p), "distance", p, float(np.hypot(*(xy[p[0]] - xy[p[1]]))) + 0.003 * noise[k], 0.003
            )
            for k, p in enumerate(pairs)
        ]
        return Network(6, [*taped, Observation("B", "angle", (0, 1, 2), angle + 0.002 * noise[-1], 0.002)])

    stated = adjust(network(np.zeros(13)), xy).covariance()
    times = 4000
    found = np.array([settle(network(rng.standard_normal(13)), xy).ravel() for _ in range(times)])
    seen = np.cov(found.T)
    sd = np.sqrt(np.diag(stated))
    allowed = 4 * np.sqrt((stated**2 + np.outer(sd**2, sd**2)) / times) + 1e-12
    assert (np.abs(seen - stated) <= allowed).all()
    assert np.abs(found.mean(axis=0) - xy.ravel()).max() <= 4 * sd.max() / np.sqrt(times) + 1e-5


def test_a_network_without_its_diagonal_is_refused() -> None:
    """Four walls alone determine no rectangle; the network says so instead of returning a shape."""
    xy = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)])
    walls = [Observation(str(k), "distance", (k, (k + 1) % 4), (4.0, 3.0)[k % 2], 0.003) for k in range(4)]
    with pytest.raises(LooseError, match="do not determine"):
        adjust(Network(4, walls), xy)
    assert Network(4, walls).loose(xy).shape == (1, 4, 2)


def test_measures_that_leave_no_shape_do_not_settle() -> None:
    """A triangle whose one side is longer than the other two has no solution to settle at."""
    xy = np.array([(0.0, 0.0), (3.0, 0.0), (1.0, 2.0)])
    sides = [((0, 1), 3.0), ((1, 2), 4.0), ((2, 0), 8.0)]
    network = Network(3, [Observation(str(p), "distance", p, d, 0.003) for p, d in sides])
    with pytest.raises((UnsettledError, LooseError)):
        adjust(network, xy)


def test_scaling_multiplies_the_covariance_by_the_reference_variance() -> None:
    """On request the standard errors are taken as guesses of one quality."""
    xy = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)])
    taped = {(0, 1): 4.0, (1, 2): 3.0, (2, 3): 4.002, (3, 0): 3.0, (0, 2): 5.004, (1, 3): 5.0}
    result = adjust(Network(4, [Observation(str(p), "distance", p, d, 0.003) for p, d in taped.items()]), xy)
    np.testing.assert_allclose(result.covariance(scaled=True), result.covariance() * result.s0**2)
    assert result.redundancy.sum() == pytest.approx(result.freedom)
