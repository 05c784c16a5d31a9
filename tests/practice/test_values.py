"""The shipped values: each parses, says where it comes from, and agrees with itself."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest

from halfdrop.base.units import Length
from halfdrop.job.model import PieceType
from halfdrop.practice import SURENESS, Practice, PracticeValue, load_practice, piece_key

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


def test_limits_stand_in_their_order() -> None:
    """Floors lie below targets and leasts below mosts."""
    for practice in (US, METRIC):
        for low, high in (
            ("rugs.dining_extension_floor", "rugs.dining_extension_target"),
            ("rugs.bed_side_floor", "rugs.bed_side_target"),
            ("rugs.bare_floor_small_room", "rugs.bare_floor_min"),
            ("rugs.bare_floor_min", "rugs.bare_floor_target"),
            ("rugs.layer_margin_min", "rugs.layer_margin_max"),
            ("seating.person_gap_min", "seating.person_gap_max"),
            ("seating.facing_min", "seating.facing_max"),
            ("seating.coffee_gap_min", "seating.coffee_gap_target_low"),
            ("seating.coffee_gap_target_high", "seating.coffee_gap_max"),
            ("circulation.secondary", "circulation.main"),
            ("dining.push_back", "dining.walk_past"),
            ("bedroom.side_least", "bedroom.side_used"),
        ):
            assert practice.length(low) < practice.length(high), (low, high)


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
