"""The shipped values: each parses, says where it comes from, and agrees with itself."""

from __future__ import annotations

import math
from pathlib import Path
from typing import get_args

import pytest

from halfdrop.base.units import Length
from halfdrop.job.model import PieceType
from halfdrop.practice import SURENESS, Practice, PracticeValue, load_practice, piece_key
from halfdrop.practice.order import PAIRS

US = load_practice("us")
METRIC = load_practice("metric")

#: Needed by the trades and the audit; a colleague's rule reads each of these.
NEEDED = tuple(Path(__file__).with_name("needed_keys.txt").read_text().split())


def _numbers(value: PracticeValue) -> list[float]:
    """Return a value's single number or the sides of its box."""
    if value.kind in ("length", "angle", "area", "mass", "number", "count"):
        return [float(value.value)]
    return [float(side) for side in value.value] if value.kind == "box" else []


@pytest.mark.parametrize("key", NEEDED)
def test_the_keys_the_rules_read_are_there(key: str) -> None:
    """Every key that a trade or a rule reads is shipped in both sets."""
    assert US[key].key == METRIC[key].key == key


def test_every_value_says_what_how_and_where_from() -> None:
    """No value stands without what it limits, how it is measured, its source and how sure that is."""
    for practice in (US, METRIC):
        for value in practice.values():
            for words in (value.what, value.how, value.source):
                assert words.strip(), value.key
            assert value.sure in SURENESS, value.key
            assert value.origin == practice.name, value.key


def test_a_value_of_our_choice_says_so_and_no_other_does() -> None:
    """`our choice` and the words "our choice" go together, and so do common practice and its words."""
    for value in US.values():
        assert (value.sure == "our choice") == value.source.startswith("our choice"), value.key
        if value.sure == "common practice":
            assert value.source == "common practice, no source", value.key


@pytest.mark.parametrize("practice", [US, METRIC], ids=["us", "metric"])
def test_every_value_lies_within_its_published_range(practice: Practice) -> None:
    """A value is never outside its range by more than inches rounded to centimeters (3 %, or 2 mm)."""
    for value in practice.values():
        if not value.range:
            continue
        low, high = value.range
        lows, highs = ([low], [high]) if value.kind != "box" else (list(low), list(high))
        for number, least, most in zip(_numbers(value), lows, highs, strict=True):
            slack = 0.03 * max(float(most), number) + (0.002 if value.kind == "length" else 0.0)
            assert float(least) - slack <= number <= float(most) + slack, value.key


def test_the_two_sets_agree_within_a_tenth_or_say_why() -> None:
    """A metric value is the inch value in round centimeters, or its note says what else it is."""
    for us, metric in zip(US.values(), METRIC.values(), strict=True):
        assert us.kind == metric.kind, us.key
        if us.kind in ("text", "yes or no"):
            assert us.value == metric.value, us.key
        elif us.kind in ("sizes", "lengths"):
            assert "metric:" in us.note or us.value == metric.value or _lists_agree(us, metric), us.key
        elif "metric:" not in us.note:
            for a, b in zip(_numbers(us), _numbers(metric), strict=True):
                assert a == pytest.approx(b, rel=0.10, abs=0.003 if us.kind == "length" else 0.0), us.key


def _lists_agree(us: PracticeValue, metric: PracticeValue) -> bool:
    """Tell whether two lists of sizes are one list in other units."""
    pairs = zip(us.value, metric.value, strict=True)
    return all(list(map(float, a)) == pytest.approx(list(map(float, b)), rel=0.10) for a, b in pairs)


def test_every_piece_type_has_a_size_and_a_leg_setback() -> None:
    """`halfdrop new` and missing details find a default for each type of piece the document knows."""
    for piece in get_args(PieceType):
        assert all(side > 0 for side in US.box(piece_key(piece, "size"))), piece
        assert US.length(piece_key(piece, "leg_setback")) >= 0, piece


@pytest.mark.parametrize("practice", [US, METRIC], ids=["us", "metric"])
@pytest.mark.parametrize(("low", "high"), PAIRS)
def test_limits_stand_in_their_order(practice: Practice, low: str, high: str) -> None:
    """Floors lie below targets and leasts below mosts."""
    assert float(practice[low].value) <= float(practice[high].value)


def test_every_value_is_allowed_by_its_own_bounds() -> None:
    """What a house may set holds what is shipped, its published range too."""
    for practice in (US, METRIC):
        for value in practice.values():
            if value.allowed:
                least, most = value.allowed
                assert all(least <= v <= most for v in (value.value, *value.range)), value.key


@pytest.mark.parametrize(
    ("angle", "factor"),
    [
        ("seating.screen_angle_max", "seating.screen_factor_near"),
        ("seating.screen_angle_target", "seating.screen_factor_target"),
        ("seating.screen_angle_min", "seating.screen_factor_far"),
    ],
)
def test_screen_factors_follow_from_their_angles(angle: str, factor: str) -> None:
    """distance ÷ diagonal = 0.8716 ÷ (2 tan(angle ÷ 2)) for 16:9, rounded by the trade to a tenth."""
    width = 16 / math.hypot(16, 9)
    exact = width / (2 * math.tan(US.angle(angle) / 2))
    assert US.number(factor) == pytest.approx(exact, abs=0.05)


@pytest.mark.parametrize(("people", "least"), [(4, 54), (6, 79), (8, 104), (10, 129)])
def test_handbook_table_lengths_follow_from_the_place_width(people: int, least: int) -> None:
    """25 in for each place along a side and 4 in more: the handbook's least lengths."""
    place = US.length("dining.place_width_handbook")
    value = US[f"dining.table_length_{people}"]
    assert float(value.range[0]) == pytest.approx(least * 0.0254)
    assert place * people / 2 + 4 * 0.0254 == pytest.approx(least * 0.0254)
    assert value.value > value.range[0]


def test_made_sizes_are_written_shorter_side_first() -> None:
    """`size_list` gives the shorter side first, as the trade names rugs."""
    for practice in (US, METRIC):
        for key in practice.keys("rugs.made_sizes"):
            if practice[key].kind == "sizes":
                assert all(a <= b for a, b in practice.size_list(key)), key


def test_inches_are_exact() -> None:
    """A value in inches is 25.4 mm an inch to the last digit, and keeps its text."""
    floor = US.length("rugs.dining_extension_floor")
    assert isinstance(floor, Length)
    assert (float(floor), floor.text) == (8 * 0.0254, "8 in")
