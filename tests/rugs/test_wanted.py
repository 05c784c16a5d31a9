"""The rug that a table, a bed, a room, a hall or a group of seats wants."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.base.tolerance import SAME
from halfdrop.practice import Practice, load_practice
from halfdrop.rugs import (
    Box,
    RugAnswer,
    SeatFront,
    wanted_bed,
    wanted_border,
    wanted_dining,
    wanted_round_table,
    wanted_runner,
    wanted_seating,
)

IN, FT = 0.0254, 0.3048
US = load_practice("us")
METRIC = load_practice("metric")
TABLE = Path(__file__).parents[1] / "published" / "rugs_wanted.csv"


def _rows() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:")
    return list(csv.DictReader(lines[1:]))


def _answer(row: dict[str, str]) -> RugAnswer:
    width, length = float(row["width"]) * IN, float(row["length"]) * IN
    room = (float(row["room_width"]) * IN, float(row["room_length"]) * IN) if row["room_width"] else None
    if row["case"] in ("queen", "king"):
        box = Box(-room[0] / 2, 0.0, room[0] / 2, room[1]) if room else None
        return wanted_bed(width, length, US, room=box)
    if row["case"] == "dining":
        return wanted_dining(Box.sized(width, length), US)
    if row["case"] == "round table":
        return wanted_round_table(width, US)
    return wanted_border(Box.sized(width, length), US)


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['case']} {row['room_width']}".strip())
def test_the_worked_examples_come_out(row: dict[str, str]) -> None:
    """A queen takes an 8 × 10, in a small room a 6 × 9, a king a 9 × 12: from sizes and practice alone."""
    answer = _answer(row)
    assert answer.laid is not None
    assert answer.lies is not None
    assert answer.standard == row["standard"]
    assert answer.wanted.across == pytest.approx(float(row["wanted_across"]) * IN, abs=SAME)
    assert answer.wanted.along == pytest.approx(float(row["wanted_along"]) * IN, abs=SAME)
    assert answer.laid.size.width == pytest.approx(float(row["made_short"]) * FT)
    assert answer.laid.size.length == pytest.approx(float(row["made_long"]) * FT)
    if "long side lies across" in row["formula"]:
        assert answer.laid.across > answer.laid.along


def test_no_size_is_typed_in() -> None:
    """A queen takes a 9 × 12 where the house aims for 31 in beside the bed and 36 past its foot."""
    roomy = load_practice("us", {"rugs.bed_side_target": "31 in", "rugs.bed_foot_target": "36 in"})
    answer = wanted_bed(60 * IN, 80 * IN, roomy)
    assert answer.laid is not None
    assert answer.laid.size.name("imperial") == "9 × 12 ft"


def test_a_millimeter_decides_between_two_made_sizes() -> None:
    """A 72 in table wants exactly an 8 × 10; one millimeter more of extension wants the 9 × 12."""
    table = Box.sized(72 * IN, 38 * IN)
    wider = US.shifted("rugs.dining_extension_target", 0.001)
    assert wanted_dining(table, US).laid.size.name("imperial") == "8 × 10 ft"  # type: ignore[union-attr]
    assert wanted_dining(table, wider).laid.size.name("imperial") == "9 × 12 ft"  # type: ignore[union-attr]


def test_the_working_of_the_dining_rug_can_be_followed_by_hand() -> None:
    """Formula, numbers and result of each step stand in it, and the rug that runs short is warned of."""
    answer = wanted_dining(Box.sized(72 * IN, 38 * IN), US)
    first, *_, made, short = answer.working.steps
    assert (first.values, first.result) == ("72 in × 38 in + 2 × 24 in", "120 in × 86 in")
    assert "rugs.dining_extension_target 24 in (us): common practice, no source" in first.source
    assert made.result == "8 × 10 ft, lying 120 in × 96 in"
    assert short.result == "2 in too small: order by actual size"


def test_pulled_out_chairs_widen_the_dining_rug() -> None:
    """A chair whose back legs stand 32 in out makes the rug larger on that side."""
    table = Box.sized(72 * IN, 38 * IN)
    answer = wanted_dining(table, US, pulled_out=[(0.0, 19 * IN + 32 * IN)])
    assert answer.target.along == pytest.approx((38 + 24 + 32) * IN)
    assert answer.lies is not None
    assert answer.lies.y1 >= 51 * IN - SAME


def test_a_dining_room_too_small_for_the_target_gets_the_most_that_goes() -> None:
    """In an 11 by 10 ft room an 8 × 10 leaves 6 in of bare floor, so a 6 × 9 has to do."""
    answer = wanted_dining(Box.sized(72 * IN, 38 * IN), US, room=Box.sized(132 * IN, 120 * IN))
    assert answer.standard == "floor"
    assert answer.laid is not None
    assert answer.laid.size.name("imperial") == "6 × 9 ft"
    first = "made size, as aimed for, 18 in bare to the walls: 120 in × 86 in wanted, "
    assert answer.limited[0] == first + "8 × 10 ft does not go in the room"


def test_a_room_that_takes_no_rug_says_so() -> None:
    """Where not even the floor standard lies in the room, there is no size and each reason is given."""
    answer = wanted_bed(76 * IN, 80 * IN, US, room=Box(-50 * IN, 0.0, 50 * IN, 120 * IN))
    assert (answer.standard, answer.laid, answer.lies) == ("none", None, None)
    assert len(answer.limited) == 4


def test_the_bed_rug_begins_clear_of_the_nightstands() -> None:
    """18 in deep nightstands push the rug's beginning to 24 in from the head."""
    answer = wanted_bed(60 * IN, 80 * IN, US, nightstand_depth=18 * IN)
    assert answer.lies is not None
    assert answer.lies.y0 == pytest.approx(24 * IN)
    assert answer.lies.covers(answer.wanted)


@pytest.mark.parametrize(
    ("bed", "wanted", "made"),
    [
        ((0.9, 2.0), (2.1, 2.15), "240 × 340 cm"),
        ((1.8, 2.0), (3.0, 2.15), "240 × 340 cm"),
        ((2.0, 2.3), (3.2, 2.45), "250 × 350 cm"),
    ],
)
def test_european_beds_take_european_sizes(
    bed: tuple[float, float], wanted: tuple[float, float], made: str
) -> None:
    """60 cm past sides and foot, begun 45 cm down: the 200 × 290 is too short along a 2 m bed."""
    answer = wanted_bed(*bed, METRIC)
    assert (answer.wanted.across, answer.wanted.along) == pytest.approx(wanted)
    assert answer.laid is not None
    assert answer.laid.size.name("metric") == made


def test_what_a_made_size_has_to_spare_goes_to_the_foot() -> None:
    """A queen's 8 × 10 begins 18 in from the head and runs 34 in past the foot."""
    answer = wanted_bed(60 * IN, 80 * IN, US)
    assert answer.lies is not None
    assert answer.lies.y0 == pytest.approx(18 * IN)
    assert answer.lies.y1 - 80 * IN == pytest.approx(34 * IN)


def test_the_room_border_is_even() -> None:
    """The 8 × 10 in a 14 by 12 ft room leaves 24 in on all four sides."""
    answer = wanted_border(Box.sized(168 * IN, 144 * IN), US)
    assert answer.bare == pytest.approx(24 * IN)
    assert answer.working.steps[-1].result == "24 in at the sides, 24 in at the ends"


def test_a_closet_takes_no_bordered_rug() -> None:
    """A 3 by 3 ft room less its borders holds no made size."""
    answer = wanted_border(Box.sized(36 * IN, 36 * IN), US)
    assert answer.standard == "none"
    assert answer.limited == ("no made size lies in 12 in × 12 in",)


def test_the_hall_takes_the_longest_runner_that_leaves_its_bare_floor() -> None:
    """A hall 40 in wide and 14 ft long takes a 2 ft 6 in by 12 ft runner with 5 in bare on each side."""
    answer = wanted_runner(40 * IN, 168 * IN, US)
    assert answer.laid is not None
    assert (answer.laid.across, answer.laid.along) == pytest.approx((30 * IN, 144 * IN))
    assert answer.bare == pytest.approx(5 * IN)
    assert wanted_runner(28 * IN, 168 * IN, US).standard == "none"


def _group() -> list[SeatFront]:
    """Return a sofa that looks along +y and an armchair across from it."""
    sofa = SeatFront(
        legs=((-39 * IN, 0.0), (39 * IN, 0.0)), facing=(0.0, 1.0), ends=((-42 * IN, 0.0), (42 * IN, 0.0))
    )
    chair = SeatFront(legs=((10 * IN, 70 * IN), (40 * IN, 70 * IN)), facing=(0.0, -1.0))
    return [sofa, chair]


def test_the_seating_rug_lies_under_all_front_legs_and_past_the_sofa() -> None:
    """6 in behind all legs and 6 in past the sofa's ends make 96 by 82 in, so an 8 × 10."""
    answer = wanted_seating(_group(), US)
    assert (answer.target.across, answer.target.along) == pytest.approx((96 * IN, 82 * IN))
    assert answer.laid is not None
    assert answer.lies is not None
    assert answer.laid.size.name("imperial") == "8 × 10 ft"
    for seat in _group():
        assert all(answer.lies.covers(Box(x, y, x, y)) for x, y in seat.legs)


def test_the_seating_rug_turns_with_the_group() -> None:
    """The same group turned a quarter wants the same rug, lying the other way."""
    turned = [
        SeatFront(
            legs=tuple((-y, x) for x, y in s.legs),
            facing=(-s.facing[1], s.facing[0]),
            ends=tuple((-y, x) for x, y in s.ends),
        )
        for s in _group()
    ]
    straight, quarter = wanted_seating(_group(), US), wanted_seating(turned, US)
    assert quarter.target.across == pytest.approx(straight.target.along)
    assert quarter.target.along == pytest.approx(straight.target.across)
    assert straight.laid is not None
    assert quarter.laid is not None
    assert quarter.laid.size == straight.laid.size


def test_a_seating_group_in_a_narrow_room_falls_back_to_legs_just_on_the_rug() -> None:
    """A 6 × 9 past a loveseat's ends leaves 8 in of bare floor in a room 88 in wide, so a 5 × 8 has to do."""
    loveseat = SeatFront(((-27 * IN, 0), (27 * IN, 0)), (0, 1), ((-30 * IN, 0), (30 * IN, 0)))
    chair = SeatFront(((-10 * IN, 50 * IN), (10 * IN, 50 * IN)), (0, -1))
    answer = wanted_seating([loveseat, chair], US, room=Box(-44 * IN, -36 * IN, 44 * IN, 88 * IN))
    assert answer.target.across == pytest.approx(72 * IN)
    assert answer.standard == "floor"
    assert answer.laid is not None
    assert answer.laid.size.name("imperial") == "5 × 8 ft"
    assert answer.bare == pytest.approx(12 * IN)
    assert len(answer.limited) == 2


def test_a_seating_group_without_seats_is_refused() -> None:
    """There is nothing to lay a rug under."""
    with pytest.raises(InputError, match="without a seat"):
        wanted_seating([], US)


sizes = st.floats(0.5, 3.0)


@given(sizes, sizes, st.floats(0.0, 1.5), st.sampled_from([US, METRIC]))
def test_a_laid_rug_covers_what_it_wants_and_stays_in_the_room(
    width: float, length: float, spare: float, practice: Practice
) -> None:
    """Whatever the table and the room: an answer covers its standard and keeps its bare floor."""
    table = Box.sized(width, length)
    room = table.grown(0.6 + spare)
    answer = wanted_dining(table, practice, room=room)
    assert (answer.lies is None) == (answer.standard == "none")
    if answer.lies is not None and answer.bare is not None:
        assert answer.lies.covers(answer.wanted)
        assert room.grown(-answer.bare).covers(answer.lies)
        assert answer.lies.covers(table.grown(practice.length("rugs.dining_extension_floor")))


@given(sizes, sizes, st.floats(0.0, 0.5))
def test_a_larger_table_never_wants_a_smaller_rug(width: float, length: float, more: float) -> None:
    """The made size grows with the table, or there is none left."""
    small = wanted_dining(Box.sized(width, length), US)
    large = wanted_dining(Box.sized(width + more, length), US)
    if large.laid is not None and large.standard == "target":
        assert small.laid is not None
        assert small.laid.size.area <= large.laid.size.area + 1e-9


@given(st.floats(-3, 3), st.floats(-3, 3))
def test_where_a_table_stands_changes_nothing_but_the_place(x: float, y: float) -> None:
    """The rug goes with the table."""
    at_origin = wanted_dining(Box.sized(1.8, 0.9), METRIC)
    moved = wanted_dining(Box.sized(1.8, 0.9, (x, y)), METRIC)
    assert moved.laid is not None
    assert moved.lies is not None
    assert at_origin.laid is not None
    assert moved.laid.size == at_origin.laid.size
    assert moved.lies.center == pytest.approx((x, y), abs=1e-9)
