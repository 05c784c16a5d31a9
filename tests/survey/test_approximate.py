"""The outline is found without being told where any corner is."""

from __future__ import annotations

import random
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.job.model import Survey
from halfdrop.survey import adjust_survey
from halfdrop.survey.outline import interior_angles

from .rooms import LETTERS, on_datum, outlines, survey_of, ties_inside

GENERATED = settings(deadline=None, max_examples=60)


def _error(survey: Survey) -> InputError | None:
    try:
        adjust_survey(survey)
    except InputError as error:
        return error
    return None


def _off(survey: Survey, xy: np.ndarray) -> float:
    return float(np.abs(adjust_survey(survey).xy - xy).max())


@GENERATED
@given(outlines())
def test_exact_ties_give_back_any_outline(xy: np.ndarray) -> None:
    """Walls and every tie that lies inside: L-shapes, alcoves, chimney breasts and bays come back.

    A corner that sees none but its neighbors can lie on either side of the line between them: then a refusal
    names it.
    """
    n, ties = len(xy), ties_inside(xy)
    survey = survey_of(xy, ties)
    lonely = [k for k in range(n) if not any(k in t and {(k - 1) % n, (k + 1) % n} - set(t) for t in ties)]
    if lonely and (error := _error(survey)) is not None:
        assert error.message.startswith("two outlines fit")
        assert any(LETTERS[k] in error.message.split("corner")[1] for k in lonely)
    else:
        assert _off(survey, xy) < 1e-6


@GENERATED
@given(outlines())
def test_walls_with_stated_angles_give_back_any_outline(xy: np.ndarray) -> None:
    """Every wall and every angle, no tie."""
    assert _off(survey_of(xy, angles=range(len(xy))), xy) < 1e-6


def _asked(survey: Survey) -> str | None:
    """Return the tie or corner that a refusal for two outlines asks for; None where there is no refusal."""
    error = _error(survey)
    if error is None:
        return None
    assert error.message.startswith("two outlines fit the measures")
    found = re.match(r"tape ([A-Z]+),|state the angle at ([A-Z]) ", error.hint or "")
    assert found is not None
    return found[1] or found[2]


@GENERATED
@given(outlines(square=True))
def test_walls_and_assumed_squares_give_back_the_outline_or_say_that_two_fit(xy: np.ndarray) -> None:
    """Walls at right angles only: the outline comes back, or a refusal asks for what tells two apart.

    A chimney breast and an alcove of the same size have the same walls; no adjustment can tell them apart.
    The tie that is asked for does (an angle where no tie can), and so do the angles of all corners that turn
    into the room.
    """
    square = range(len(xy))
    ties: list[tuple[int, int]] = []
    angles: list[int] = []
    while (asked := _asked(survey_of(xy, ties, square=square, angles=angles))) is not None:
        assert len(ties) + len(angles) < 4
        places = [LETTERS.index(c) for c in asked]
        if len(places) == 2:
            ties.append((places[0], places[1]))
        else:
            angles.append(places[0])
    assert _off(survey_of(xy, ties, square=square, angles=angles), xy) < 1e-6
    if ties or angles:
        stated = [k for k, a in enumerate(interior_angles(xy)) if a > np.pi]
        assert _off(survey_of(xy, square=square, angles=stated), xy) < 1e-6


T_ROOM = [(0, 0), (6, 0), (6, 2.1), (4.2, 2.1), (4.2, 5), (1.9, 5), (1.9, 2.3), (0, 2.3)]
U_ROOM = [(0, 0), (6, 0), (6, 4), (4.3, 4), (4.3, 1.8), (1.5, 1.8), (1.5, 4.4), (0, 4.4)]
BAY = [(0, 0), (4.6, 0), (4.6, 3.9), (3.6, 3.9), (2.9, 4.6), (1.7, 4.6), (1.0, 3.9), (0, 3.9)]
BREAST = [(0, 0), (4.1, 0), (4.1, 3.6), (2.8, 3.6), (2.8, 3.2), (1.3, 3.2), (1.3, 3.6), (0, 3.6)]
KITE = [(0, 0), (4.0, 0.4), (5.1, 3.0), (2.0, 4.6), (-1.2, 2.2)]


@pytest.mark.parametrize(
    "points", [T_ROOM, U_ROOM, BAY, BREAST, KITE], ids=["T", "U", "bay", "breast", "five walls"]
)
@pytest.mark.parametrize("first", [0, 3])
def test_named_shapes_come_back_from_walls_and_ties(points: list[tuple[float, float]], first: int) -> None:
    """T, U, bay, chimney breast and a room without a right angle, from whichever corner one starts."""
    xy = on_datum(np.array(points[first:] + points[:first], dtype=float))
    assert _off(survey_of(xy, ties_inside(xy)), xy) < 1e-6


def test_a_long_rectilinear_outline_comes_back() -> None:
    """Twenty corners, walls and squares only: the sign patterns of both axes are searched, not guessed."""
    points, x = [(0.0, 0.0), (12.0, 0.0), (12.0, 3.0)], 12.0
    for k in range(4):
        a, b, d = x - 1.0 - 0.07 * k, x - 2.0 - 0.19 * k, 3.4 + 0.31 * k
        points += [(a, 3.0 + 0.11 * k), (a, d), (b, d), (b, 3.0 + 0.11 * (k + 1))]
        x = b
    points += [(0.0, 3.44)]
    xy = np.array(points)
    stated = [k for k, a in enumerate(interior_angles(xy)) if a > np.pi]
    assert len(points) == 20
    assert _off(survey_of(xy, square=range(20), angles=stated), xy) < 1e-6


def test_the_walls_that_cross_are_named() -> None:
    """Corners listed out of walking order make a bow tie; the refusal names the two walls."""
    survey = Survey.model_validate(
        {
            "corners": "A B C D",
            "walls": {"AB": "4 m", "BC": "5 m", "CD": "4 m", "DA": "5 m"},
            "ties": {"AC": "3 m", "BD": "3 m"},
        }
    )
    with pytest.raises(InputError, match="walls BC and DA cross"):
        adjust_survey(survey)


@GENERATED
@given(outlines(), st.integers(0, 2**32 - 1))
def test_taped_as_well_as_a_tape_can_the_outline_is_right_within_its_error(xy: np.ndarray, seed: int) -> None:
    """Noise on every measure: each corner lies within 7 of its standard errors, or the survey says more.

    A coordinate beyond 7 standard errors has a chance of 3 in 10^12; verdicts other than closed (a false
    alarm in two surveys of a hundred) and refusals for two outlines are answers too.
    """
    rng = np.random.default_rng(seed)
    n, ties = len(xy), ties_inside(xy)
    pairs = [("walls", k, (k + 1) % n) for k in range(n)] + [("ties", i, j) for i, j in ties]
    errors = {f"{where}/{LETTERS[i]}{LETTERS[j]}": float(rng.normal(0, 0.003)) for where, i, j in pairs}
    try:
        result = adjust_survey(survey_of(xy, ties, errors=errors))
    except InputError as error:
        result = None
        text = error.message
    if result is None:
        assert text.startswith(("two outlines fit", "corner"))
    elif result.verdict == "closed":
        spread = np.sqrt(np.diag(result.covariance)).reshape(-1, 2)
        assert (np.abs(result.xy - xy) <= 7 * spread + 1e-9).all()


def test_no_survey_however_wrong_ends_in_anything_but_a_result_or_a_refusal() -> None:
    """Random walls, ties, angles and squares that fit nothing: a result or an InputError, each time."""
    rnd = random.Random(11)
    outcomes = set()
    for _ in range(40):
        n = rnd.randint(3, 7)
        corners = list(LETTERS[:n])

        def length() -> str:
            return f"{rnd.choice([rnd.uniform(0.5, 8), rnd.uniform(0.5, 8), 3, 4, 5, 0.001, 1e6]):.9f} m"

        some = [a + b for a in corners for b in corners if a != b and rnd.random() < 0.25]
        survey = {
            "corners": corners,
            "walls": {corners[k] + corners[(k + 1) % n]: length() for k in range(n) if rnd.random() < 0.93},
            "ties": {pair: length() for pair in some},
            "angles": {
                c: f"{rnd.choice([90, 270, 0, 360, -90, 720, 33])}°" for c in corners if rnd.random() < 0.2
            },
            "square": {c: rnd.random() < 0.9 for c in corners if rnd.random() < 0.5},
        }
        error = _error(Survey.model_validate(survey))
        outcomes.add("result" if error is None else error.message.split()[0])
        assert error is None or error.hint
    assert {"result", "the", "corner"} <= outcomes
