"""First guesses of an outline from its measures alone, many of them, the likeliest first.

Two ways, and the caller keeps the best of both:

- *legs*: every corner is taken as square; each wall runs right or left, up or down. All combinations are
  tried (within `MOST` an axis), ranked by how the loop closes and how the ties fit.
- *walk*: corners are placed one after the other, each by the angles it may plausibly have and by the circles
  of the tapes to corners already placed. The best partial outlines go on (a beam search).

Rankings saturate (a logarithm), so one gross mistake does not outweigh everything else that fits.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from halfdrop.survey.network import Floats, Network, wrap
from halfdrop.survey.outline import cross, interior_angles, signed_area

#: The most sign patterns kept for one axis, and the most walls an axis may have to be tried in full.
MOST = 96
FULL_AXIS = 12
#: How far a guess may be off before it counts as a misfit [m], [rad].
REACH = 0.12
SWING = np.radians(4.0)
#: What one crossing of two walls costs, in the same units as the misfits.
CROSSING = 5.0

#: Interior angles a corner may have where none is measured [degrees], and what each costs.
_PLAUSIBLE = (
    (90.0, 0.0), (270.0, 0.5), (135.0, 1.0), (225.0, 1.2), (120.0, 1.8), (240.0, 1.8), (150.0, 1.8),
    (210.0, 1.8), (180.0, 2.0), (60.0, 2.5), (300.0, 2.5), (45.0, 2.5), (315.0, 2.5), (105.0, 2.5),
    (165.0, 2.5), (75.0, 2.5),
)  # fmt: skip


@dataclass(frozen=True)
class Measures:
    """The observations of a network sorted by what a first guess asks of them."""

    count: int
    spans: Floats  # (n, n) taped distance, nan where none; the mean where taped twice
    angles: Floats  # (n,) measured interior angle, nan where none
    square: NDArray[np.bool_]  # (n,)
    walls: Floats  # (n,) wall k from corner k to k + 1, nan where not taped

    @classmethod
    def of(cls, network: Network) -> Measures:
        """Sort the observations of a network."""
        n = network.count
        total, times = np.zeros((n, n)), np.zeros((n, n))
        angles, square = np.full(n, np.nan), np.zeros(n, dtype=bool)
        for o in network.observations:
            if o.kind == "distance":
                i, j = o.points
                for a, b in ((i, j), (j, i)):
                    total[a, b] += o.value
                    times[a, b] += 1
            elif o.kind == "angle":
                angles[o.points[1]] = o.value
            else:
                square[o.points[1]] = True
        spans = np.where(times > 0, total / np.maximum(times, 1), np.nan)
        around = np.arange(n)
        return cls(n, spans, angles, square, spans[around, (around + 1) % n])

    def squared(self) -> Measures:
        """Return the same measures with every corner taken as square that has no measured angle."""
        return replace(self, square=np.isnan(self.angles))

    def from_corner(self, first: int) -> Measures:
        """Return the same measures counted from another corner."""
        roll = (np.arange(self.count) + first) % self.count
        return Measures(
            self.count, self.spans[np.ix_(roll, roll)], self.angles[roll], self.square[roll], self.walls[roll]
        )


def _odd(off: Floats) -> Floats:
    """Return what being off by so many standard deviations costs."""
    out: Floats = np.log1p(off * off)
    return out


def misfit(measures: Measures, xy: Floats) -> Floats:
    """Return how badly outlines (k, n, 2) fit: lengths, angles, odd corners, crossings; shape (k,)."""
    n = measures.count
    first, second = np.nonzero(np.triu(~np.isnan(measures.spans), 1))
    away = xy[:, first] - xy[:, second]
    off = np.hypot(away[..., 0], away[..., 1]) - measures.spans[first, second]
    out: Floats = _odd(off / REACH).sum(axis=1)
    angles = interior_angles(xy)
    known = np.flatnonzero(~np.isnan(measures.angles))
    out += _odd(wrap(angles[:, known] - measures.angles[known], 2 * np.pi) / SWING).sum(axis=1)
    out += _odd(wrap(angles[:, measures.square] - np.pi / 2, np.pi) / SWING).sum(axis=1)
    free = np.isnan(measures.angles) & ~measures.square
    out += 0.2 * _odd(wrap(angles[:, free] - np.pi / 2, np.pi) / SWING).sum(axis=1)
    one, two = np.triu_indices(n, 2)
    keep = ~((one == 0) & (two == n - 1))
    one, two = one[keep], two[keep]
    ends = np.roll(xy, -1, axis=1)
    out += CROSSING * cross(xy[:, one], ends[:, one], xy[:, two], ends[:, two]).sum(axis=1)
    out += np.where(signed_area(xy) > 0, 0.0, 1.2 * CROSSING)
    turned = (np.pi - angles).sum(axis=1)
    out += np.where(np.abs(turned - 2 * np.pi) < 0.5, 0.0, CROSSING)
    return out


def legs(measures: Measures) -> Floats:
    """Return the outlines of walls at right angles that close best; shape (k, n, 2), k may be 0."""
    n, walls = measures.count, measures.walls
    if n % 2 or n < 4 or np.isnan(walls).any() or n // 2 > FULL_AXIS:
        return np.empty((0, n, 2))
    across, up = _signs(walls[0::2], first=True), _signs(walls[1::2], first=False)
    a, b = np.divmod(np.arange(len(across) * len(up)), len(up))
    sign_x, sign_y = across[a], up[b]
    before = np.roll(sign_y, 1, axis=1)
    turns = (sign_x * sign_y).sum(axis=1) - (before * sign_x).sum(axis=1)
    keep = turns == 4
    sign_x, sign_y = sign_x[keep], sign_y[keep]
    steps = np.zeros((len(sign_x), n, 2))
    steps[:, 0::2, 0] = sign_x * walls[0::2]
    steps[:, 1::2, 1] = sign_y * walls[1::2]
    shift = steps.sum(axis=1, keepdims=True) / n
    points = np.cumsum(steps - shift, axis=1)
    xy = np.concatenate((np.zeros((len(points), 1, 2)), points[:, :-1]), axis=1)
    return on_datum(xy)


def on_datum(xy: Floats) -> Floats:
    """Return outlines (k, n, 2) with the first corner at the origin and the second on +x."""
    xy = xy - xy[:, :1]
    angle = np.arctan2(xy[:, 1, 1], xy[:, 1, 0])
    c, s = np.cos(angle)[:, None], np.sin(angle)[:, None]
    out: Floats = np.stack((c * xy[..., 0] + s * xy[..., 1], c * xy[..., 1] - s * xy[..., 0]), axis=-1)
    return out


def _signs(lengths: Floats, *, first: bool) -> Floats:
    """Return the sign patterns of one axis that close best; the first sign is + where `first`."""
    k = len(lengths)
    bits = (np.arange(2**k)[:, None] >> np.arange(k)) & 1
    signs: Floats = np.asarray(1.0 - 2.0 * bits, dtype=np.float64)
    if first:
        signs = signs[bits[:, 0] == 0]
    gap = np.abs(signs @ lengths)
    return signs[np.argsort(gap, kind="stable")[:MOST]]


def walk(measures: Measures, width: int, first: int = 0) -> Floats:
    """Return outlines built corner by corner from wall `first` on, `width` at a time; shape (k, n, 2)."""
    if first:
        return on_datum(np.roll(walk(measures.from_corner(first), width), first, axis=1))
    n = measures.count
    typical = float(np.nanmedian(measures.spans)) if not np.isnan(measures.spans).all() else 1.0
    base = measures.walls[0] if not np.isnan(measures.walls[0]) else typical
    xy = np.zeros((1, n, 2))
    xy[0, 1, 0] = base
    cost = np.zeros(1)
    for k in range(2, n):
        xy, cost = _place(measures, xy, cost, k, typical)
        order = np.argsort(cost, kind="stable")[: 6 * width]
        xy, cost = xy[order], cost[order]
        _, keep = np.unique(
            np.round(xy[:, 2 : k + 1].reshape(len(xy), -1) / REACH), axis=0, return_index=True
        )
        keep = np.sort(keep)[:width]
        xy, cost = xy[keep], cost[keep]
    # tapes know no left and right: what came out clockwise is the mirror image of an outline
    xy[signed_area(xy) < 0, :, 1] *= -1
    return xy


def _place(measures: Measures, xy: Floats, cost: Floats, k: int, typical: float) -> tuple[Floats, Floats]:
    """Extend every partial outline by every candidate for corner k."""
    spots, prices = _by_angle(measures, xy, k, typical)
    circles = _by_circles(measures, xy, k)
    spots = np.concatenate((spots, circles), axis=1)
    prices = np.concatenate((prices, np.zeros(circles.shape[1])))
    many = spots.shape[1]
    out = np.repeat(xy, many, axis=0)
    out[:, k] = spots.reshape(-1, 2)
    total = np.repeat(cost, many) + np.tile(prices, len(xy))
    placed = np.flatnonzero(~np.isnan(measures.spans[k, :k]))
    away = out[:, placed] - out[:, k, None]
    total += _odd((np.hypot(away[..., 0], away[..., 1]) - measures.spans[k, placed]) / REACH).sum(axis=1)
    ray, back = out[:, k] - out[:, k - 1], out[:, k - 2] - out[:, k - 1]
    angle = (np.arctan2(back[:, 1], back[:, 0]) - np.arctan2(ray[:, 1], ray[:, 0])) % (2 * np.pi)
    if not np.isnan(measures.angles[k - 1]):
        total += _odd(wrap(angle - measures.angles[k - 1], 2 * np.pi) / SWING)
    if measures.square[k - 1]:
        total += _odd(wrap(angle - np.pi / 2, np.pi) / SWING)
    elif np.isnan(measures.angles[k - 1]):
        total += 0.2 * _odd(wrap(angle - np.pi / 2, np.pi) / SWING)
    old = np.arange(k - 2)
    if len(old):
        hit = cross(out[:, k - 1, None], out[:, k, None], out[:, old], out[:, old + 1])
        total += CROSSING * hit.sum(axis=1)
    return out, total


def _by_angle(measures: Measures, xy: Floats, k: int, typical: float) -> tuple[Floats, Floats]:
    """Return candidates for corner k along plausible directions from corner k - 1, and what each costs."""
    if not np.isnan(measures.angles[k - 1]):
        options = [(float(measures.angles[k - 1]), 0.0)]
    elif measures.square[k - 1]:
        options = [(np.pi / 2, 0.0), (1.5 * np.pi, 0.5)]
    else:
        options = [(float(np.radians(a)), c) for a, c in _PLAUSIBLE]
    back = xy[:, k - 2] - xy[:, k - 1]
    heading = np.arctan2(back[:, 1], back[:, 0])[:, None] - np.array([a for a, _ in options])
    wall = measures.walls[k - 1]
    reach = wall if not np.isnan(wall) else typical
    spots = xy[:, k - 1, None] + reach * np.stack((np.cos(heading), np.sin(heading)), axis=-1)
    return spots, np.array([c for _, c in options])


def _by_circles(measures: Measures, xy: Floats, k: int) -> Floats:
    """Return both points where the tapes from corner k to corners already placed meet, two by two."""
    placed = np.flatnonzero(~np.isnan(measures.spans[k, :k]))
    if len(placed) < 2:
        return np.empty((len(xy), 0, 2))
    pairs = [(i, j) for a, i in enumerate(placed) for j in placed[a + 1 :]][-8:]
    i, j = np.array(pairs).T
    a, b = xy[:, i], xy[:, j]
    ra, rb = measures.spans[k, i], measures.spans[k, j]
    axis = b - a
    base = np.maximum(np.hypot(axis[..., 0], axis[..., 1]), 1e-6)
    unit = axis / base[..., None]
    along = (ra**2 - rb**2 + base**2) / (2 * base)
    along = np.clip(along, -ra, ra)
    height = np.sqrt(np.maximum(ra**2 - along**2, 0.0))
    foot = a + along[..., None] * unit
    side = np.stack((-unit[..., 1], unit[..., 0]), axis=-1) * height[..., None]
    return np.concatenate((foot + side, foot - side), axis=1)
