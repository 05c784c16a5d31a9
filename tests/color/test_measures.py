"""Measures of a room's colors: proportions, values, temperature, undertones."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.color.areas import ColorArea, measured
from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.emotion import activity, heat, weight
from halfdrop.color.proportions import families_of, proportions
from halfdrop.color.temperature import temperature
from halfdrop.color.undertones import clashes, undertone_name, undertones
from halfdrop.color.value_range import value_range
from tests.color.published import numbers, rows
from tests.color.rooms import ROOM, US


def test_families_and_their_shares() -> None:
    """Walls with rug, sofa with curtains, cushions alone: 60, 30 and 10 percent, and that is within."""
    found = proportions(ROOM, US)
    assert [family.members for family in found.families] == [(0, 1), (2, 3), (4,)]
    assert (found.dominant, found.secondary, found.accent) == pytest.approx((0.6, 0.3, 0.1))
    assert found.off == pytest.approx((0, 0, 0), abs=1e-12)
    assert found.within
    assert found.dominants == (0, 1)


def test_a_share_eleven_points_off_is_not_within() -> None:
    """10 points off are within, 11 are not."""
    for points, within in ((10, True), (11, False)):
        wide = [
            ColorArea("a", (90, 0, 0), 60 + points),
            ColorArea("b", (40, 0, 0), 30),
            ColorArea("c", (50, 50, 0), 10 - points),
        ]
        if points > 10:
            wide = [ColorArea("a", (90, 0, 0), 71), ColorArea("b", (40, 0, 0), 29)]
        assert proportions(wide, US).within is within


@given(st.permutations(range(5)), st.floats(0.1, 50))
def test_order_and_unit_of_area_do_not_matter(order: list[int], unit: float) -> None:
    """Any order, any unit: the same shares."""
    turned = [replace(ROOM[n], area=ROOM[n].area * unit) for n in order]
    found, plain = proportions(turned, US), proportions(ROOM, US)
    assert found.dominant == pytest.approx(plain.dominant)
    assert found.accent == pytest.approx(plain.accent)
    assert value_range(turned, US).mean == pytest.approx(value_range(ROOM, US).mean)
    assert temperature(turned, US).mean == pytest.approx(temperature(ROOM, US).mean)


def test_a_family_never_spans_more_than_asked() -> None:
    """A chain of near greys is cut, not joined end to end."""
    chain = [ColorArea(str(n), (40 + 5 * n, 0, 0), 1) for n in range(8)]
    assert len(families_of(chain, 12)) > 2
    assert len(families_of(chain, 0.1)) == 8
    assert len(families_of(chain, 200)) == 1


def test_light_middle_and_dark() -> None:
    """The room has light walls, a dark sofa and little between; without the dark it has none."""
    found = value_range(ROOM, US)
    assert (found.lightest, found.darkest) == (88, 40)
    assert found.has_light
    assert found.has_dark
    assert found.light + found.middle + found.dark == pytest.approx(1)
    assert not value_range([r for r in ROOM if r.what != "sofa"], US).has_dark
    speck = [*ROOM[:2], ColorArea("speck", (5, 0, 0), 0.5)]
    assert not value_range(speck, US).has_dark
    assert value_range(speck, US).darkest == 84


def test_warm_and_cool() -> None:
    """Orange is warm, blue cool, grey neither; shares add to 1."""
    assert temperature([ColorArea("a", (60, 40, 45), 1)], US).mean > 0.5
    assert temperature([ColorArea("a", (50, -5, -40), 1)], US).mean < -0.5
    grey = temperature([ColorArea("a", (50, 0, 0), 1)], US)
    assert (grey.mean, grey.neutral) == pytest.approx((0, 1))
    found = temperature(ROOM, US)
    assert found.warm + found.cool + found.neutral == pytest.approx(1)
    assert found.cool == pytest.approx(0.3)


@pytest.mark.parametrize("row", rows("color_emotion.csv"), ids=lambda r: f"{r['L']} {r['a']} {r['b']}")
def test_emotions_come_out(row: dict[str, str]) -> None:
    """Activity, weight and heat to four digits."""
    lab = numbers(row, "L", "a", "b")
    found = [float(activity(lab)), float(weight(lab)), float(heat(lab))]
    assert found == pytest.approx(numbers(row, "activity", "weight", "heat"), abs=5.1e-5)


def test_undertones_are_named_and_opposite_ones_clash() -> None:
    """A pink beige beside a green grey clashes; beside an orange one not; a plain grey and a strong blue have no say."""
    areas = [
        ColorArea("pink beige", (80, 6, 1), 10), ColorArea("green grey", (70, -5, 3), 10), ColorArea("peach", (85, 5, 4), 5),
        ColorArea("grey", (60, 0.3, 0.2), 5), ColorArea("blue", (40, 5, -40), 5),
    ]  # fmt: skip
    assert [(u.of, u.name) for u in undertones(areas, US)] == [
        (0, "pink"),
        (1, "green"),
        (2, "orange"),
        (3, "none"),
    ]
    assert [(c.first, c.second) for c in clashes(areas, US)] == [(0, 1), (1, 2)]
    assert clashes(areas, US)[0].degrees == pytest.approx(139.6, abs=0.1)
    assert [undertone_name(h) for h in (0, 90, 240, 310, 359.9, -1)] == [
        "pink",
        "yellow",
        "blue",
        "violet",
        "pink",
        "pink",
    ]


def test_nothing_to_see_is_refused() -> None:
    """No areas, areas of 0, negative and endless ones."""
    for wrong in (
        [],
        [ColorArea("a", (50, 0, 0), 0)],
        [ColorArea("a", (50, 0, 0), -1)],
        [ColorArea("a", (50, 0, 0), float("inf"))],
    ):
        with pytest.raises(InputError):
            measured(wrong)


def test_families_are_those_of_plain_complete_linkage() -> None:
    """Joined by the quick table of spans or by looking at every pair of families anew: the same families, in thirty rooms."""
    draw = np.random.default_rng(2)
    for _ in range(30):
        labs = draw.uniform([20, -30, -30], [95, 30, 30], (int(draw.integers(2, 24)), 3))
        between = delta_e(labs[:, None], labs[None])
        groups = [[n] for n in range(len(labs))]
        while len(groups) > 1:
            pairs = [(i, j) for i in range(len(groups)) for j in range(i + 1, len(groups))]
            span, i, j = min((float(between[np.ix_(groups[i], groups[j])].max()), i, j) for i, j in pairs)
            if span >= 12:
                break
            groups[i] = sorted(groups[i] + groups.pop(j))
        found = families_of([ColorArea("", (float(a), float(b), float(c)), 1.0) for a, b, c in labs], 12)
        assert sorted(f.members for f in found) == sorted(map(tuple, groups))
