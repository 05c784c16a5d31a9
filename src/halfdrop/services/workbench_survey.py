"""The outline of a walk that is not whole yet: a sketch to look at while the tape is out, never a survey."""

from __future__ import annotations

import math
from typing import Any

from halfdrop.base.errors import HalfdropError
from halfdrop.job.model import AngleMeasure, Measure, Survey
from halfdrop.practice import Practice
from halfdrop.services.workbench_view import point
from halfdrop.survey.approximate import find_outline
from halfdrop.survey.measures import Levels, network_of


def walk_sketch(survey: Survey, practice: Practice | None = None) -> dict[str, Any]:
    """Return where the corners walked so far would lie.

    Parameters
    ----------
    survey : Survey
        As taped so far.
    practice : Practice, optional
        Standard errors of the tape.

    Returns
    -------
    dict
        `corners`: id and `at` [m] of each corner reached; `closed`: whether every wall is taped, so that the outline
        is the likeliest one; else corners without a measured angle are drawn square.

    Checked by: tests/services/test_workbench_survey.py.
    """
    order = survey.corners
    lengths = [_length(survey, a, b) for a, b in zip(order, order[1:] + order[:1], strict=True)]
    flip = -1.0 if survey.round == "clockwise" else 1.0
    if all(lengths):
        try:
            network = network_of(survey, levels := Levels.of(survey, practice))
            found = find_outline(network, levels.test.chi_limit(max(network.freedom, 1)), thorough=False)
        except (HalfdropError, ArithmeticError, ValueError):
            pass
        else:
            return {
                "closed": True,
                "corners": [
                    {"id": c, "at": point((flip * p[0], p[1]))} for c, p in zip(order, found.xy, strict=True)
                ],
            }
    x, y, azimuth = 0.0, 0.0, 0.0
    corners = [{"id": order[0], "at": [0.0, 0.0]}]
    for i, length in enumerate(lengths[:-1]):
        if length is None:
            break
        x, y = x + length * math.cos(azimuth), y + length * math.sin(azimuth)
        corners.append({"id": order[i + 1], "at": point((flip * x, y))})
        azimuth += math.pi - _angle(survey, order[i + 1])
    return {"closed": False, "corners": corners}


def _length(survey: Survey, a: str, b: str) -> float | None:
    taped = survey.walls.get(a + b, survey.walls.get(b + a))
    if taped is None:
        return None
    return float(taped.length if isinstance(taped, Measure) else taped)


def _angle(survey: Survey, corner: str) -> float:
    given = survey.angles.get(corner)
    if given is None:
        return math.pi / 2
    return float(given.angle if isinstance(given, AngleMeasure) else given)
