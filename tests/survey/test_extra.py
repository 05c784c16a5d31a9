"""The one more measure: computed, and when taken it does what it promised."""

from __future__ import annotations

import math

import numpy as np
import pytest

from halfdrop.survey import SurveyResult, adjust_survey
from halfdrop.survey.extra import checking_measure, locating_measure
from halfdrop.survey.measures import Levels, network_of
from halfdrop.survey.network import Adjustment, Network, Observation, adjust
from halfdrop.survey.outline import spans_inside
from halfdrop.survey.snooping import BlunderTest, correlations, snoop

from .rooms import LETTERS, on_datum, survey_of, ties_inside

RECTANGLE = np.array([(0, 0), (4.5, 0), (4.5, 3.6), (0, 3.6)], dtype=float)
L_ROOM = on_datum(np.array([(0, 0), (5.2, 0), (5.2, 2.4), (3.1, 2.4), (3.1, 4.3), (0, 4.3)], dtype=float))
FIVE = on_datum(np.array([(0, 0), (4.1, 0), (5.0, 2.6), (2.2, 4.5), (-0.6, 2.9)], dtype=float))

Pairs = list[tuple[int, int]]


def _until_located(xy: np.ndarray, ties: Pairs, blunder: str, size: float) -> tuple[SurveyResult, int]:
    """Tape what is asked for, without error, until the blunder is located; return result and count."""
    more: Pairs = []
    for taken in range(8):
        result = adjust_survey(survey_of(xy, ties + more, errors={blunder: size}))
        if result.verdict != "blunder detected":
            return result, taken
        assert result.extra is not None
        i, j = (LETTERS.index(c) for c in result.extra.pair)
        more.append((j, i) if result.extra.repeat else (i, j))
    raise AssertionError("never located")


def test_a_rectangle_with_two_diagonals_detects_and_asks_for_a_repeat_that_locates() -> None:
    """Freedom 1: six suspects, no name. All spans are taped, so a repeat is asked for; it names it."""
    ties = [(0, 2), (1, 3)]
    result = adjust_survey(survey_of(RECTANGLE, ties, errors={"ties/AC": 0.025}))
    assert result.verdict == "blunder detected"
    assert result.excluded == ()
    assert [s.id for s in result.suspects] == [
        "walls/AB", "walls/BC", "walls/CD", "walls/DA", "ties/AC", "ties/BD",
    ]  # fmt: skip
    assert result.extra is not None
    assert result.extra.repeat
    assert result.extra.pair == "AC"
    assert len(result.extra.readings) == 6
    located, taken = _until_located(RECTANGLE, ties, "ties/AC", 0.025)
    assert (located.verdict, located.excluded, taken) == ("blunder located", ("ties/AC",), 1)


@pytest.mark.parametrize("blunder", ["walls/AB", "walls/BC", "walls/CD", "walls/DA", "ties/AC", "ties/BD"])
def test_in_a_rectangle_each_culprit_is_found_within_six_repeats(blunder: str) -> None:
    """Whichever of the six measures is wrong, taking what is asked for one by one ends at its name."""
    located, taken = _until_located(RECTANGLE, [(0, 2), (1, 3)], blunder, 0.04)
    assert located.excluded == (blunder,)
    assert located.suspects[0].error == pytest.approx(0.04, abs=1e-4)
    assert taken <= 6


@pytest.mark.parametrize("blunder", ["walls/CD", "ties/AC", "ties/BD", "ties/DF"])
def test_in_an_l_shape_two_more_measures_are_enough(blunder: str) -> None:
    """Four suspects or fewer share the blunder's test there; two asked-for measures name it."""
    located, taken = _until_located(L_ROOM, ties_inside(L_ROOM), blunder, 0.04)
    assert located.excluded == (blunder,)
    assert taken <= 2


def test_a_new_tie_is_preferred_where_it_tells_the_suspects_apart() -> None:
    """Five walls and three of five diagonals: one of the two missing diagonals names the blunder at once."""
    ties = [(0, 2), (1, 3), (2, 4)]
    result = adjust_survey(survey_of(FIVE, ties, errors={"ties/AC": 0.06}))
    assert result.verdict == "blunder detected"
    assert result.extra is not None
    assert not result.extra.repeat
    assert result.extra.pair in ("AD", "BE")
    located, taken = _until_located(FIVE, ties, "ties/AC", 0.06)
    assert (located.excluded, taken) == (("ties/AC",), 1)


@pytest.mark.parametrize("blunder", ["walls/AB", "ties/AC", "ties/BD", "walls/CD"])
def test_the_expected_reading_of_the_true_culprit_is_what_the_tape_will_show(blunder: str) -> None:
    """Under the suspect that really is wrong, the stated reading is the true length."""
    result = adjust_survey(survey_of(FIVE, [(0, 2), (1, 3), (2, 4)], errors={blunder: 0.06}))
    assert result.extra is not None
    i, j = (LETTERS.index(c) for c in result.extra.pair)
    true = math.hypot(*(FIVE[i] - FIVE[j]))
    stated = {r.suspect: r.length for r in result.extra.readings}
    assert stated[blunder] == pytest.approx(true, abs=1e-6)
    assert all(r.sigma > 0.003 for r in result.extra.readings)


def _chance(
    network: Network, adjustment: Adjustment, suspects: list[tuple[int, float, float]], pair: tuple[int, int]
) -> float:
    """Recompute the chance of one candidate by adjusting with it as an observation."""
    xy = adjustment.xy
    length = float(np.hypot(*(xy[pair[0]] - xy[pair[1]])))
    grown = Network(
        network.count, [*network.observations, Observation("new", "distance", pair, length, 0.003)]
    )
    more = adjust(grown, xy)
    rho, test, total, weights = correlations(more), BlunderTest(), 0.0, 0.0
    for row, error, weight in suspects:
        others = [abs(rho[row, k]) for k, _, _ in suspects if k != row]
        shift = abs(error) * math.sqrt(more.redundancy[row]) / network.sigmas[row]
        total += weight * test.chance_beyond(shift * math.sqrt(max(1 - max(others) ** 2, 0)))
        weights += weight
    return total / weights


def test_no_other_span_would_locate_better() -> None:
    """The chance stated is that of a full adjustment with the new measure, and the best of all spans."""
    survey = survey_of(FIVE, [(0, 2), (1, 3), (2, 4)], errors={"ties/AC": 0.06})
    network = network_of(survey, Levels.of(survey, None))
    snooped = snoop(network, FIVE, BlunderTest())
    assert len(snooped.suspects) > 2
    best = locating_measure(network, snooped.adjustment, snooped.suspects, 0.003, BlunderTest())
    assert best is not None
    least = min(s.without.chi_square for s in snooped.suspects)
    suspects = [
        (s.row, s.error, math.exp(-0.5 * (s.without.chi_square - least)) * network.values[s.row])
        for s in snooped.suspects
    ]
    inside = spans_inside(FIVE)
    pairs = [(i, j) for i in range(5) for j in range(i + 1, 5) if inside[i, j]]
    chances = {p: _chance(network, snooped.adjustment, suspects, p) for p in pairs}
    assert best.chance == pytest.approx(max(chances.values()), abs=1e-3)
    assert chances[best.pair] == pytest.approx(best.chance, abs=1e-3)


def test_spans_that_leave_the_room_are_never_asked_for() -> None:
    """In an L no tape runs through the missing corner: C to E is not offered, whatever it would tell."""
    inside = spans_inside(L_ROOM)
    assert not inside[2, 4]
    assert not inside[2, 5]
    assert inside[0, 3]
    assert inside[1, 3]
    assert all(inside[k, (k + 1) % 6] for k in range(6))


def test_where_nothing_is_redundant_the_tie_that_checks_most_is_asked_for() -> None:
    """A rectangle with one diagonal: the other one checks all five measures."""
    survey = survey_of(RECTANGLE, [(0, 2)])
    best = checking_measure(adjust(network_of(survey, Levels.of(survey, None)), RECTANGLE), 0.003)
    assert best is not None
    assert (best.pair, best.repeat, best.purpose, best.chance) == ((1, 3), False, "check", 1.0)
    assert adjust_survey(survey_of(RECTANGLE, [(0, 2), (1, 3)])).freedom == 1
