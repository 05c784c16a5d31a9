"""A room's survey from tape to result."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings

from halfdrop.base.errors import InputError
from halfdrop.job.model import Survey
from halfdrop.practice import load_practice
from halfdrop.survey import SurveyResult, adjust_survey
from halfdrop.survey.words import which

from .rooms import LETTERS, on_datum, outlines, survey_of, table, ties_inside

ROWS = table("survey_rooms.csv")
VERDICTS = {"four corners": "closed", "four corners and 20 mm": "blunder detected", "L": "closed"}
RECTANGLE = np.array([(0, 0), (4.5, 0), (4.5, 3.6), (0, 3.6)], dtype=float)
L_ROOM = on_datum(np.array([(0, 0), (5.2, 0), (5.2, 2.4), (3.1, 2.4), (3.1, 4.3), (0, 4.3)], dtype=float))


def _published(room: str) -> SurveyResult:
    taped = {r["name"]: f"{r['value']} mm" for r in ROWS if r["room"] == room and r["what"] == "taped"}
    corners = [r["name"] for r in ROWS if r["room"] == room and r["what"] == "x"]
    sides = {a + b for a, b in zip(corners, corners[1:] + corners[:1], strict=True)}
    return adjust_survey(
        Survey.model_validate(
            {
                "corners": corners,
                "walls": {k: v for k, v in taped.items() if k in sides},
                "ties": {k: v for k, v in taped.items() if k not in sides},
            }
        )
    )


@pytest.mark.parametrize("room", sorted(VERDICTS))
def test_the_worked_rooms_come_out_to_every_printed_digit(room: str) -> None:
    """Coordinates, residuals, redundancy numbers, w, s0 and freedom, without being told where a corner is."""
    result = _published(room)
    got: dict[tuple[str, str], float] = {("freedom", "f"): result.freedom, ("s0", "s0"): result.s0}
    for corner, (x, y) in zip(result.corners, result.xy, strict=True):
        got["x", corner], got["y", corner] = x * 1000, y * 1000
    for o in result.observations:
        pair = o.id.partition("/")[2]
        got["v_mm", pair], got["r", pair], got["w", pair] = o.v * 1000, o.r, o.w
    checked = [r for r in ROWS if r["room"] == room and r["places"]]
    assert len(checked) >= 28
    for row in checked:
        printed = 0.5001 * 10.0 ** -int(row["places"])
        assert got[row["what"], row["name"]] == pytest.approx(float(row["value"]), abs=printed), row
    assert result.verdict == VERDICTS[room]


def test_the_worked_blunder_is_detected_and_not_located() -> None:
    """+20 mm on a diagonal of a rectangle: six equal |w| of 3.436, six suspects, nothing set aside."""
    result = _published("four corners and 20 mm")
    assert len(result.suspects) == 6
    assert all(abs(s.w) == pytest.approx(3.436, abs=0.02) for s in result.suspects)
    assert {s.id: round(s.error * 1000) for s in result.suspects}["ties/AC"] == 21
    assert result.excluded == ()
    assert "cannot say which" in result.misclosure


@settings(deadline=None, max_examples=30)
@given(outlines())
def test_redundancy_numbers_add_up_to_the_freedom(xy: np.ndarray) -> None:
    """Over every measure used, whatever kinds there are."""
    result = adjust_survey(survey_of(xy, ties_inside(xy), angles=range(len(xy))))
    assert math.fsum(o.r for o in result.observations) == pytest.approx(result.freedom, abs=1e-6)
    assert result.freedom == len(result.observations) - (2 * len(xy) - 3)


@settings(deadline=None, max_examples=30)
@given(outlines())
def test_walking_the_other_way_round_gives_the_mirror_image(xy: np.ndarray) -> None:
    """A clockwise survey of the mirrored room: the same corners, x turned over, still at y > 0."""
    angles = range(len(xy))
    there = adjust_survey(survey_of(xy, ties_inside(xy), angles=angles))
    back = adjust_survey(survey_of(xy, ties_inside(xy), angles=angles, around="clockwise"))
    np.testing.assert_allclose(back.xy, there.xy * (-1, 1), atol=1e-12)
    turn = np.tile((-1.0, 1.0), len(xy))
    np.testing.assert_allclose(back.covariance, there.covariance * np.outer(turn, turn), atol=1e-15)
    assert back.xy[1, 0] < 0
    assert back.round == "clockwise"


@pytest.mark.parametrize("first", range(6))
def test_another_first_corner_gives_a_congruent_outline(first: int) -> None:
    """The datum moves the plan, not the room: every corner-to-corner distance and its error stay."""
    rng = np.random.default_rng(8)
    noise = {frozenset(p): float(e) for p, e in zip(_pairs(6), rng.normal(0, 0.003, 15), strict=True)}
    base, moved = _noisy(noise, 0), _noisy(noise, first)
    for i, j in _pairs(6):
        a, b = (i - first) % 6, (j - first) % 6
        assert math.dist(base.xy[i], base.xy[j]) == pytest.approx(
            math.dist(moved.xy[a], moved.xy[b]), abs=1e-9
        )
        assert _span_error(base, i, j) == pytest.approx(_span_error(moved, a, b), rel=1e-6)


def _pairs(n: int) -> list[tuple[int, int]]:
    return [(i, j) for i in range(n) for j in range(i + 1, n)]


def _noisy(noise: dict[frozenset[int], float], first: int) -> SurveyResult:
    xy = on_datum(np.roll(L_ROOM, -first, axis=0))
    errors = {}
    for where, pairs in (("walls", [(k, (k + 1) % 6) for k in range(6)]), ("ties", ties_inside(xy))):
        for i, j in pairs:
            errors[f"{where}/{LETTERS[i]}{LETTERS[j]}"] = noise[frozenset(((i + first) % 6, (j + first) % 6))]
    return adjust_survey(survey_of(xy, ties_inside(xy), errors=errors))


def _span_error(result: SurveyResult, i: int, j: int) -> float:
    line = np.zeros_like(result.xy)
    unit = (result.xy[j] - result.xy[i]) / math.dist(result.xy[i], result.xy[j])
    line[j], line[i] = unit, -unit
    return float(np.sqrt(line.ravel() @ result.covariance @ line.ravel()))


def test_freedom_zero_says_that_nothing_is_checked() -> None:
    """Four walls and one diagonal fix the room and check nothing; the other diagonal is asked for."""
    result = adjust_survey(survey_of(RECTANGLE, [(0, 2)]))
    assert (result.verdict, result.freedom, result.s0) == ("unchecked", 0, 0.0)
    assert "Nothing checks these measures" in result.misclosure
    assert result.extra is not None
    assert (result.extra.pair, result.extra.purpose) == ("BD", "check")
    assert all(o.mdb is None and o.w == 0.0 for o in result.observations)


def test_a_located_blunder_is_set_aside_loudly() -> None:
    """The verdict, the words, the list and the working name it; its measure stays listed, as not used."""
    result = adjust_survey(survey_of(L_ROOM, ties_inside(L_ROOM), errors={"ties/AD": 0.05}))
    assert (result.verdict, result.excluded) == ("blunder located", ("ties/AD",))
    assert "Set aside: tie AD, 50 mm too long" in result.misclosure
    assert any(step.what == "set aside: tie AD" for step in result.working.steps)
    row = next(o for o in result.observations if o.id == "ties/AD")
    assert (row.used, row.r, row.mdb) == (False, 0.0, None)
    assert row.measured - row.adjusted == pytest.approx(0.05, abs=1e-6)
    assert row.w < -3.29


def test_walls_only_report_their_misclosure() -> None:
    """The loop of the worked compass-rule example, as a survey with assumed squares: 7.6 mm in 16.218 m."""
    result = adjust_survey(
        Survey.model_validate(
            {
                "corners": "A B C D",
                "walls": {"AB": "4510 mm", "BC": "3604 mm", "CD": "4503 mm", "DA": "3601 mm"},
                "square": dict.fromkeys("ABCD", True),
            }
        )
    )
    assert result.closure is not None
    assert result.closure.error * 1000 == pytest.approx(7.616, abs=5e-4)
    assert result.misclosure.startswith(
        "The walls with their stated angles close to 8 mm in 16.218 m (1:2130), within 1:500."
    )


def _refused(**survey: Any) -> InputError:
    with pytest.raises(InputError) as caught:
        adjust_survey(Survey.model_validate(survey))
    return caught.value


WALLS = {"AB": "4.5 m", "BC": "3.6 m", "CD": "4.5 m", "DA": "3.6 m"}


def test_a_floating_corner_is_named_with_the_tape_that_holds_it() -> None:
    """Walls alone: a corner floats; the tie that the hint asks for makes the survey whole."""
    error = _refused(corners="A B C D", walls=WALLS)
    assert error.message == "corner C floats: the measures fit wherever it stands"
    assert error.hint is not None
    assert error.hint.startswith("tape AC, corner to corner")
    assert adjust_survey(survey_of(RECTANGLE, [(0, 2)])).freedom == 0


def test_every_missing_measure_is_asked_for_at_once() -> None:
    """An L of walls alone lacks three measures; the three ties of the hint are enough."""
    error = _refused(corners="A B C D E F", walls={k: f"{v} m" for k, v in
                     {"AB": 5.2, "BC": 2.4, "CD": 2.1, "DE": 1.9, "EF": 3.1, "FA": 4.3}.items()})  # fmt: skip
    assert "3 measures are missing" in error.message
    assert error.hint is not None
    pairs = error.hint.partition("tape ")[2].partition(", corner")[0].replace(" and ", ", ").split(", ")
    assert len(pairs) == 3
    ties = [(LETTERS.index(p[0]), LETTERS.index(p[1])) for p in pairs]
    assert np.abs(adjust_survey(survey_of(L_ROOM, ties)).xy - L_ROOM).max() < 1e-6


def test_a_wall_longer_than_the_way_round_cannot_close() -> None:
    """8 m against 7 m by the other two walls of a triangle."""
    error = _refused(corners="A B C", walls={"AB": "3 m", "BC": "4 m", "CA": "8 m"})
    assert error.message == "the walls cannot close: wall CA is 8000 mm, the way round by other tapes 7000 mm"


def test_a_tie_along_a_straight_wall_leaves_its_corner_loose() -> None:
    """A corner on a straight line, held only by tapes along it, is loose sideways: refused."""
    walls = {"AB": "2 m", "BC": "2 m", "CD": "3 m", "DE": "4 m", "EA": "3 m"}
    error = _refused(corners="A B C D E", walls=walls, ties={"AC": "4 m", "AD": "5 m", "CE": "5 m"})
    assert "corner B" in error.message


def test_own_standard_errors_override_the_tape_and_the_practice() -> None:
    """A measure's own sigma first, then the survey's tape, then the practice, then the module's default."""
    measures = {
        "corners": "A B C D",
        "walls": WALLS,
        "ties": {"AC": "5.763 m", "BD": {"length": "5.763 m", "sigma": "9 mm"}},
    }
    us = load_practice("us")

    def sigmas(**more: Any) -> set[float]:
        result = adjust_survey(
            Survey.model_validate({**measures, **more}), us if more.get("tape") is None else None
        )
        return {round(o.sigma * 1000, 4) for o in result.observations}

    assert sigmas() == {3.175, 9.0}
    assert sigmas(tape={"sigma": "2 mm"}) == {2.0, 9.0}
    result = adjust_survey(Survey.model_validate(measures))
    assert {round(o.sigma * 1000, 4) for o in result.observations} == {3.0, 9.0}


def test_a_wall_may_be_missing_where_ties_stand_in() -> None:
    """Behind the wardrobe no tape goes: wall CD left out, both diagonals and two squares hold the room."""
    survey = survey_of(RECTANGLE, [(0, 2), (1, 3)], square=[0, 1])
    walls = {k: v for k, v in survey.walls.items() if k != "CD"}
    result = adjust_survey(survey.model_copy(update={"walls": walls}))
    assert np.abs(result.xy - RECTANGLE).max() < 1e-6


def test_the_same_survey_gives_the_same_result_to_the_last_bit() -> None:
    """No clock, no random start."""
    survey = survey_of(L_ROOM, ties_inside(L_ROOM), errors={"ties/AC": 0.04})
    one, two = adjust_survey(survey), adjust_survey(survey)
    assert one.xy.tobytes() == two.xy.tobytes()
    assert one.covariance.tobytes() == two.covariance.tobytes()
    assert one.working.to_json() == two.working.to_json()
    assert one.extra == two.extra


def test_an_inch_survey_speaks_in_inches() -> None:
    """A survey typed in feet and inches gets its words in feet and inches, millimeters beside them."""
    result = adjust_survey(
        Survey.model_validate(
            {
                "corners": "A B C D",
                "walls": {"AB": "14' 9 3/8\"", "BC": "11' 10\"", "CD": "14' 9 3/4\"", "DA": "11' 9 13/16\""},
                "ties": {"AC": "19' 0 5/16\"", "BD": "18' 11 3/16\""},
                "heights": {"A": "8'", "B": "8' 0 1/4\"", "C": "7' 11 3/4\"", "center": "7' 11 1/2\""},
            }
        )
    )
    assert result.extra is not None
    assert "″" in result.extra.words
    assert "⅞″ too long (+0.90 in)" in result.extra.words
    assert result.heights.least_at == "center"
    assert any(step.result == "7′ 11½″ at center, the least" for step in result.working.steps)


def test_a_second_outline_that_was_passed_over_is_in_the_working() -> None:
    """Three ties also fit an L with corner E folded over DF; the square one is kept, the working says so."""
    result = adjust_survey(survey_of(L_ROOM, [(3, 5), (0, 3), (1, 3)]))
    step = next(step for step in result.working.steps if step.what == "outline")
    assert step.values == "the other differs at D, E and F"
    assert "passed over" in step.result
    assert np.abs(result.xy - L_ROOM).max() < 1e-6


def test_a_survey_without_a_measure_says_what_to_tape_first() -> None:
    """Corners alone are no fault of ours: the refusal names the first wall."""
    with pytest.raises(InputError, match="nothing is measured yet") as refused:
        adjust_survey(Survey.model_validate({"corners": ["A", "B", "C", "D"], "walls": {}}))
    assert refused.value.hint == "tape the first wall, A to B"


def test_measures_that_no_outline_fits_are_told_with_the_worst_of_them() -> None:
    """A bay whose three sides are shorter than the wall they stand before: the refusal names a side and by how much."""
    survey = Survey.model_validate(
        {
            "corners": "A B C D E F",
            "walls": {
                "AB": "15' 3\"",
                "BC": "11' 6\"",
                "CD": "4'",
                "DE": "5' 8\"",
                "EF": "4'",
                "FA": "11' 6\"",
            },
            "ties": {"AC": "19' 1\"", "BF": "19' 1\"", "BD": "12' 9\""},
        }
    )
    with pytest.raises(InputError, match="no outline fits them; the nearest one misses wall CD by") as caught:
        adjust_survey(survey)
    assert caught.value.hint is not None
    assert caught.value.hint.startswith("tape wall CD again, and the tapes beside it")


def test_many_suspects_are_counted_and_few_are_named() -> None:
    """All of fourteen measures are `all 14`; of a few, or of some of them, each is named."""
    names = [f"wall {k}" for k in range(14)]
    assert which(names, 14) == "which of all 14"
    assert which(names[:3], 14) == "which: wall 0, wall 1 or wall 2"
    assert which(names[:8], 14).endswith("wall 6 or wall 7")
