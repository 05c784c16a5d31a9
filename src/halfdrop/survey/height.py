"""Ceiling heights at several points, the floor's level and the walls' plumb, as taped."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from halfdrop.base.tolerance import SAME
from halfdrop.survey.network import Floats

#: Three points span a plane when they are at least this far off one line [m].
_SPREAD = 0.3


@dataclass(frozen=True)
class Slope:
    """A plane through heights: how steeply it rises, towards where, and how far the heights lie off it.

    Attributes
    ----------
    rise : float
        Rise over run, 0 or more.
    towards : float
        Direction of the steepest rise, counterclockwise from the x axis of the plan [rad].
    rms : float
        Root mean square distance of the heights from the plane [m]; 0 where there are just three.
    """

    rise: float
    towards: float
    rms: float


@dataclass(frozen=True)
class HeightResult:
    """Heights, level and plumb of a room. Lengths in [m]; None where nothing was taped.

    Attributes
    ----------
    mean, least, most, spread : float or None
        Of the ceiling heights; `spread` is the most less the least.
    least_at, most_at : str or None
        Where.
    ceiling : Slope or None
        The plane fitted to three or more heights at known points.
    fall : float or None
        How much lower the lowest floor point is than the highest.
    high_at, low_at : str or None
        Where the floor is highest and lowest.
    floor : Slope or None
        The plane fitted to the floor.
    lean : float or None
        The worst lean of a wall over its height, positive into the room at the top.
    lean_wall : str or None
        Which wall.
    lean_angle : float or None
        Its lean [rad], where a height was taped.
    """

    mean: float | None = None
    least: float | None = None
    most: float | None = None
    spread: float | None = None
    least_at: str | None = None
    most_at: str | None = None
    ceiling: Slope | None = None
    fall: float | None = None
    high_at: str | None = None
    low_at: str | None = None
    floor: Slope | None = None
    lean: float | None = None
    lean_wall: str | None = None
    lean_angle: float | None = None


def heights(
    ceiling: Mapping[str, float],
    level: Mapping[str, float],
    plumb: Mapping[str, float],
    places: Mapping[str, tuple[float, float]],
) -> HeightResult:
    """Sum up heights, level and plumb.

    Parameters
    ----------
    ceiling : mapping of place to height
        Floor to ceiling [m].
    level : mapping of place to height
        The floor above (+) or below (-) one reference level [m].
    plumb : mapping of wall to lean
        How far the wall's top stands into the room (+) or away (-) [m].
    places : mapping of place to (x, y)
        Where the places are on the plan, as far as known [m]. A place without a position (a free
        name) counts for the mean and the extremes, not for a plane.

    Returns
    -------
    HeightResult
        The least height is the one that must be planned with.
    """
    found: dict[str, object] = {}
    if ceiling:
        low, high = _extremes(ceiling)
        mean = math.fsum(ceiling.values()) / len(ceiling)
        found |= {
            "mean": mean,
            "least": ceiling[low],
            "most": ceiling[high],
            "least_at": low,
            "most_at": high,
        }
        found |= {"spread": ceiling[high] - ceiling[low], "ceiling": fit_plane(ceiling, places)}
    if level:
        low, high = _extremes(level)
        found |= {"fall": level[high] - level[low], "floor": fit_plane(level, places)}
        found |= {"low_at": low, "high_at": high}
    if plumb:
        wall = max(plumb, key=lambda w: (abs(plumb[w]), w))
        found |= {"lean": plumb[wall], "lean_wall": wall}
        if ceiling:
            found["lean_angle"] = math.atan2(plumb[wall], min(ceiling.values()))
    return HeightResult(**found)  # type: ignore[arg-type]


def _extremes(values: Mapping[str, float]) -> tuple[str, str]:
    """Return the places of the least and the greatest value; the first by name where several are the same."""
    low, high = min(values.values()), max(values.values())
    lows = [k for k in sorted(values) if values[k] - low < SAME]
    highs = [k for k in sorted(values) if high - values[k] < SAME]
    return lows[0], highs[0]


def fit_plane(values: Mapping[str, float], places: Mapping[str, tuple[float, float]]) -> Slope | None:
    """Fit a plane to heights at known places; None under three places, or where they lie on a line."""
    known = [k for k in sorted(values) if k in places]
    if len(known) < 3:
        return None
    xy: Floats = np.array([places[k] for k in known])
    off = xy - xy.mean(axis=0)
    if float(np.linalg.svd(off, compute_uv=False)[-1]) < _SPREAD:
        return None
    z = np.array([values[k] for k in known])
    design = np.column_stack((off, np.ones(len(known))))
    plane, *_ = np.linalg.lstsq(design, z, rcond=None)
    left = design @ plane - z
    rms = float(np.sqrt((left**2).mean())) if len(known) > 3 else 0.0
    rise = float(np.hypot(plane[0], plane[1]))
    return Slope(rise, math.atan2(plane[1], plane[0]) if rise > 1e-9 else 0.0, rms)
