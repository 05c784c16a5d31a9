"""Rooms to survey: random simple outlines, their exact measures, and the published tables."""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from hypothesis import strategies as st

from halfdrop.job.model import Survey
from halfdrop.survey.outline import interior_angles, spans_inside

PUBLISHED = Path(__file__).parents[1] / "published"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

Points = list[tuple[float, float]]


def table(name: str) -> list[dict[str, str]]:
    """Read a published table; its first row names the source."""
    lines = (PUBLISHED / name).read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:")
    return list(csv.DictReader(lines[1:]))


def _bulge(points: Points, wall: int, start: float, width: float, depth: float, slant: float) -> Points:
    """Push part of a wall out (depth > 0) or in: an alcove, a chimney breast, or with a slant a bay."""
    a, b = np.array(points[wall]), np.array(points[(wall + 1) % len(points)])
    along = (b - a) / np.hypot(*(b - a))
    out = np.array((along[1], -along[0]))
    inset = abs(depth) / math.tan(slant)
    spots = [a + along * start, a + along * (start + inset) + out * depth]
    spots += [a + along * (start + width - inset) + out * depth, a + along * (start + width)]
    return [*points[: wall + 1], *[(float(x), float(y)) for x, y in spots], *points[wall + 1 :]]


def _cut(points: Points, corner: int, one: float, two: float) -> Points:
    """Cut a corner out, square: an L."""
    n = len(points)
    p, q, r = (np.array(points[k % n]) for k in (corner - 1, corner, corner + 1))
    back, on = (p - q) / np.hypot(*(p - q)), (r - q) / np.hypot(*(r - q))
    spots = [q + back * one, q + back * one + on * two, q + on * two]
    return [*points[:corner], *[(float(x), float(y)) for x, y in spots], *points[corner + 1 :]]


@st.composite
def outlines(draw: st.DrawFn, *, square: bool = False) -> np.ndarray:
    """Draw a simple outline: a rectangle with corners cut, alcoves, chimney breasts, bays."""
    wide, deep = draw(st.integers(30, 70)) / 10, draw(st.integers(28, 60)) / 10
    points: Points = [(0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep)]
    for _ in range(draw(st.integers(0, 2))):
        if draw(st.booleans()):
            corner = draw(st.integers(1, len(points) - 1))
            trial = _cut(points, corner, draw(st.integers(6, 16)) / 10, draw(st.integers(5, 17)) / 10)
        else:
            slant = math.pi / 2 if square else math.radians(draw(st.sampled_from((90, 90, 45, 60, 38))))
            wall = draw(st.integers(0, len(points) - 1))
            start, depth = draw(st.integers(5, 14)) / 10, draw(st.integers(3, 7)) / 10
            width = draw(st.integers(11, 21)) / 10 + 2 * depth / math.tan(slant)
            trial = _bulge(points, wall, start, width, depth * draw(st.sampled_from((1, -1))), slant)
        if sound(trial):
            points = trial
    first = draw(st.integers(0, len(points) - 1))
    return on_datum(np.array(points[first:] + points[:first]))


def sound(points: Points) -> bool:
    """Return whether an outline is simple, counterclockwise, and nowhere narrower than a tape needs."""
    room = shapely.Polygon(points)
    if not room.is_valid or room.exterior.is_ccw is False:
        return False
    walls = [shapely.LineString(p) for p in zip(points, points[1:] + points[:1], strict=True)]
    if min(wall.length for wall in walls) < 0.25:
        return False
    n = len(walls)
    gaps = [walls[i].distance(walls[j]) for i in range(n) for j in range(i + 2, n) if (i, j) != (0, n - 1)]
    return min(gaps) > 0.25


def on_datum(xy: np.ndarray) -> np.ndarray:
    """Shift and turn an outline so that its first corner is the origin and its second on +x."""
    away = xy - xy[0]
    angle = math.atan2(away[1, 1], away[1, 0])
    turn = np.array(((math.cos(angle), -math.sin(angle)), (math.sin(angle), math.cos(angle))))
    return away @ turn


def ties_inside(xy: np.ndarray) -> list[tuple[int, int]]:
    """Return every span inside the outline that is not a wall."""
    n = len(xy)
    inside = spans_inside(xy)
    return [(i, j) for i in range(n) for j in range(i + 2, n) if (i, j) != (0, n - 1) and inside[i, j]]


def survey_of(
    xy: np.ndarray,
    ties: Sequence[tuple[int, int]] = (),
    *,
    square: Sequence[int] = (),
    angles: Sequence[int] = (),
    errors: Mapping[str, float] | None = None,
    sigma: str = "3 mm",
    around: str = "counterclockwise",
    **more: Any,
) -> Survey:
    """Return the exact survey of an outline, with errors [m] added to `walls/AB` or `ties/AC` where given."""
    n = len(xy)
    errors = errors or {}
    turned = interior_angles(xy)

    def taped(where: str, pairs: Sequence[tuple[int, int]]) -> dict[str, str]:
        out = {}
        for i, j in pairs:
            pair = LETTERS[i] + LETTERS[j]
            length = math.hypot(*(xy[i] - xy[j])) + errors.get(f"{where}/{pair}", 0.0)
            out[pair] = f"{length:.12f} m"
        return out

    return Survey.model_validate(
        {
            "corners": list(LETTERS[:n]),
            "round": around,
            "tape": {"sigma": sigma},
            "walls": taped("walls", [(k, (k + 1) % n) for k in range(n)]),
            "ties": taped("ties", ties),
            "square": {LETTERS[k]: True for k in square},
            "angles": {LETTERS[k]: f"{math.degrees(turned[k]):.12f}°" for k in angles},
            **more,
        }
    )
