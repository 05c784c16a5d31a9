"""Lengths, angles, areas and masses as typed and as printed."""

from __future__ import annotations

import copy
import json
import math
import pickle
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfdrop.base.errors import InputError
from halfdrop.base.units import (
    FOOT,
    INCH,
    Angle,
    Area,
    Length,
    Mass,
    Quantity,
    format_angle,
    format_area,
    format_length,
    format_mass,
    format_size,
    parse_size,
)

TYPED = [
    ("12' 6 1/2\"", 150.5 * INCH),
    ("12'-6 1/2\"", 150.5 * INCH),
    ("12' - 6 1/2\"", 150.5 * INCH),
    ("12′ 6½″", 150.5 * INCH),
    ("12’ 6 ½”", 150.5 * INCH),
    ("12' 6½''", 150.5 * INCH),
    ("12ft 6-1/2in", 150.5 * INCH),
    ("12 ft. 6 1/2 in.", 150.5 * INCH),
    ("12 feet 6.5 inches", 150.5 * INCH),
    ("12 ft", 144 * INCH),
    ("12 1/2 ft", 150 * INCH),
    ("6'-1/2\"", 72.5 * INCH),
    ('150 1/2"', 150.5 * INCH),
    ("150.5 in", 150.5 * INCH),
    ("150,5 in", 150.5 * INCH),
    ("6-1/2 in", 6.5 * INCH),
    ("35 15⁄16″", 35.9375 * INCH),
    ("35¹⁵⁄₁₆″", 35.9375 * INCH),
    ("¾ in", 0.75 * INCH),
    (".5 in", 0.5 * INCH),
    ("3 yd", 108 * INCH),
    ("3.81 m", 3.81),
    ("3,81 m", 3.81),
    ("0,375 m", 0.375),
    ("381 cm", 3.81),
    ("3810 mm", 3.81),
    ("3810\u202fMM", 3.81),
    ("0", 0.0),
    ("0.0", 0.0),
    ("-3 in", -3 * INCH),
    ("−12′ 6½″", -150.5 * INCH),
]


@pytest.mark.parametrize(("text", "metres"), TYPED)
def test_a_length_is_read_in_every_way_the_trade_writes_it(text: str, metres: float) -> None:
    """Each spelling gives its length to the last bit of a float, and keeps the text."""
    length = Length.parse(text)
    assert float(length) == pytest.approx(metres, rel=1e-15, abs=0)
    assert length.text == text


def test_inches_are_exact() -> None:
    """One inch is 25.4 mm, a sixteenth is a sixteenth of that, and three thirds make one inch."""
    assert Length.parse("1 in") == 0.0254
    assert Length.parse("1/16 in") == 0.0254 / 16
    assert Length.parse("3/3 in") == Length.parse("25.4 mm")


NEAR_MISSES = [
    ("12", "has no unit", "write 12' or 12 in or 3.66 m"),
    ("1.443", "has no unit", "write 1.443 m, 1.443' or 1.443 in"),
    ("12'' 6'", "has feet after inches", "feet come first"),
    ("12\"6'", "has feet after inches", "feet come first"),
    ("12 fet", "unknown unit `fet`", "did you mean `feet`?"),
    ("12 meterz", "unknown unit `meterz`", "did you mean `meter`?"),
    ("12' 14\"", "14 inches after the feet; fewer than 12", "write 13' 2\""),
    ("12' 14 1/2\"", "14 1/2 inches after the feet", "write 13' 2 1/2\""),
    ("1/0 in", "nothing below the line", "write a length as"),
    ("12' 6 1/2", "lacks the inch mark after `6 1/2`", "write 12' 6 1/2\""),
    ("12 6 in", "has no unit after `12`", "write a length as"),
    ("12.5' 6\"", "a part of a foot (`12.5`) and inches besides", "write a length as"),
    ("3 m 81 cm", "has cm after m, which are not written together", "write a length as"),
    ("3,810 mm", "can be read two ways: `3,810` is 3.810 or 3810", "write 3.810 mm or 3810 mm"),
    ("", "length is empty", "write a length as"),
    ("   ", "length is empty", "write a length as"),
    ("-", "length `-`", "write a length as"),
    ("5 in -", "ends in a dash", "write a length as"),
    ("12 @", "is not understood at `@`", "write a length as"),
    ("1e3 m", "unknown unit `e`", "write a length as"),
    ("nan", "is not understood", "write a length as"),
    ("٣ m", "is not understood", "write a length as"),
    ("5 \x00in", "\\x00", "write a length as"),
    ("9" * 90 + " in", "is 93 characters long, at most 80 are read", "write a length as"),
    ("12 sq ft", "unknown unit `sq ft`", "did you mean `ft`?"),
]


@pytest.mark.parametrize(("text", "fault", "hint"), NEAR_MISSES)
def test_a_near_miss_says_what_is_wrong_and_what_to_write(text: str, fault: str, hint: str) -> None:
    """A text that is no length is refused with its fault and with what to type instead."""
    with pytest.raises(InputError) as caught:
        Length.parse(text)
    assert fault in caught.value.message
    assert hint in (caught.value.hint or "")
    assert caught.value.message.isprintable()


@given(st.text(max_size=100))
def test_any_text_is_a_quantity_or_an_input_error(text: str) -> None:
    """No text whatever makes the readers fail in any other way."""
    for kind in (Length, Angle, Area, Mass):
        try:
            assert kind.parse(text).text == text
        except InputError:
            continue
    try:
        assert min(parse_size(text)) > 0
    except InputError:
        return


@given(st.text(alphabet="0123456789 '\"-/.,½⅞⁄ftincmyd×x", max_size=24))
def test_text_made_of_the_notation_s_own_signs_is_read_or_refused(text: str) -> None:
    """Texts near to real ones never fail otherwise, and what is read prints and reads back."""
    try:
        length = Length.parse(text)
    except InputError:
        return
    again = Length(float(length))
    assert float(Length.parse(again.text)) == pytest.approx(float(length), rel=1e-12, abs=0.5001e-4)


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("8x10 ft", 8 * FOOT, 10 * FOOT),
        ("8' x 10'", 8 * FOOT, 10 * FOOT),
        ("8' 6\" × 11'", 8.5 * FOOT, 11 * FOOT),
        ("5 1/2 x 8 ft", 5.5 * FOOT, 8 * FOOT),
        ("240 x 340 cm", 2.4, 3.4),
        ("2.4 x 3.4 m", 2.4, 3.4),
        ("2,4 X 3,4 m", 2.4, 3.4),
        ("8 ft by 10 ft", 8 * FOOT, 10 * FOOT),
        ('30x20"', 30 * INCH, 20 * INCH),
    ],
)
def test_a_size_is_two_lengths_and_a_shared_unit_counts_for_both(
    text: str, first: float, second: float
) -> None:
    """A unit written once at the end counts for both measures."""
    width, length = parse_size(text)
    assert (float(width), float(length)) == pytest.approx((first, second))


@pytest.mark.parametrize(
    "text", ["8x10", "8 x 10' 6\"", "8x10x2 ft", "8 ft", "0x10 ft", "-8x10 ft", "x", "8x", "8x10 fet"]
)
def test_a_size_that_is_not_two_lengths_is_refused(text: str) -> None:
    """One measure, three, none, a shared unit that is two units, or nothing above 0: refused with a hint."""
    with pytest.raises(InputError) as caught:
        parse_size(text)
    assert caught.value.hint


def test_angles_areas_and_masses_are_read_in_the_trade_s_spellings() -> None:
    """Degrees with minutes, square feet and yards, pounds with ounces."""
    for text in ("90°", "90 deg", "90 degrees", "90º"):
        assert Angle.parse(text) == math.pi / 2
    assert Angle.parse("89° 30'") == pytest.approx(math.radians(89.5), rel=1e-15)
    assert Angle.parse("89° 30′ 36″") == pytest.approx(math.radians(89.51), rel=1e-15)
    assert Angle.parse("1.57 rad") == 1.57
    for text in ("12 sq ft", "12 ft2", "12 ft²", "12 ft^2", "12 sq. ft.", "12 square feet", "12 sqft"):
        assert Area.parse(text) == pytest.approx(12 * FOOT**2, rel=1e-15)
    assert Area.parse("2 sq yd") == pytest.approx(18 * FOOT**2, rel=1e-15)
    assert Area.parse("1.1 m2") == Area.parse("1,1 m²") == 1.1
    assert Mass.parse("12 lb 4 oz") == pytest.approx(12.25 * 0.45359237, rel=1e-15)
    assert Mass.parse("800 g") == 0.8


@pytest.mark.parametrize(
    ("kind", "text", "fault"),
    [
        (Angle, "90", "has no unit"),
        (Angle, "89° 75'", "fewer than 60 are allowed"),
        (Area, "-1 m2", "is negative"),
        (Area, "12 ft", "unknown unit `ft`"),
        (Mass, "12 lb 16 oz", "fewer than 16 are allowed"),
        (Mass, "12 lb 4", "lacks the ounce mark"),
    ],
)
def test_other_quantities_refuse_in_the_same_voice(kind: type[Quantity], text: str, fault: str) -> None:
    """Angles, areas and masses refuse what is not theirs."""
    with pytest.raises(InputError, match=fault.replace("`", ".")):
        kind.parse(text)


def test_text_survives_copy_and_pickle_and_prints_as_typed() -> None:
    """A quantity keeps its text through copies; JSON and number formats see the number."""
    length = Length.parse("12' 6 1/2\"")
    for again in (copy.copy(length), copy.deepcopy(length), pickle.loads(pickle.dumps(length))):
        assert type(again) is Length
        assert again == length
        assert again.text == length.text
    assert f"{length}" == "12' 6 1/2\""
    assert f"{length:.3f}" == "3.823"
    assert json.dumps(length) == "3.8227"
    assert type(length + 1) is float


@pytest.mark.parametrize(
    ("kind", "value", "text"),
    [
        (Length, 3.81, "3810 mm"),
        (Length, 0.0254 / 16, "1.6 mm"),
        (Length, -0.00001, "0 mm"),
        (Angle, math.pi / 2, "90°"),
        (Area, 1.11483648, "1.1148 m²"),
        (Mass, 5.5565, "5.556 kg"),
    ],
)
def test_a_value_nobody_typed_has_a_canonical_text(kind: type[Quantity], value: float, text: str) -> None:
    """Canonical texts are metric, short, and read back by the same class."""
    assert kind(value).text == text
    assert kind.parse(text).text == text


@given(st.floats(-1e4, 1e4))
def test_the_canonical_length_reads_back_to_a_twentieth_of_a_millimetre(metres: float) -> None:
    """Printing to 0.1 mm moves a length by at most 0.05 mm."""
    assert abs(Length.parse(Length(metres).text) - metres) <= 0.05e-3 + 1e-9


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_quantity_is_finite(value: float) -> None:
    """A length that is no number cannot be made."""
    with pytest.raises(ValueError, match="finite"):
        Length(value)


PRINTED = [
    (150.5, "12′ 6½″", "12' 6 1/2\""),
    (35.9375, "2′ 11 15⁄16″", "2' 11 15/16\""),
    (6.5, "6½″", '6 1/2"'),
    (0.0625, "1⁄16″", '1/16"'),
    (144.5, "12′ 0½″", "12' 0 1/2\""),
    (144.0625, "12′ 0 1⁄16″", "12' 0 1/16\""),
    (144, "12′", "12'"),
    (0, "0″", '0"'),
    (-150.5, "−12′ 6½″", "-12' 6 1/2\""),
    (-0.001, "0″", '0"'),
    (143.99, "12′", "12'"),
    (5.99, "6″", '6"'),
]


@pytest.mark.parametrize(("inches", "typographic", "plain"), PRINTED)
def test_imperial_lengths_carry_and_never_print_a_whole_as_a_fraction(
    inches: float, typographic: str, plain: str
) -> None:
    """No `5 16/16`, no `11′ 12″`, no `-0`; under a foot only inches."""
    assert format_length(inches * INCH, "imperial") == typographic
    assert format_length(inches * INCH, "imperial", marks="plain") == plain


def test_lengths_print_in_the_habit_asked_for() -> None:
    """Inches only, whole feet with zero inches, other steps, metric units."""
    x = 150.5 * INCH
    assert format_length(x, "imperial", feet=False, marks="plain") == "150 1/2 in"
    assert format_length(x, "imperial", feet=False) == "150½ in"
    assert format_length(12 * FOOT, "imperial", zero_inches=True) == "12′ 0″"
    assert format_length(x + 0.05 * INCH, "imperial", step=Fraction(1, 8)) == "12′ 6½″"
    assert format_length(x, "imperial", step=6) == "12′ 6″"
    assert format_length(3.8227, "metric") == "3823 mm"
    assert format_length(12.3456, "metric") == "12.346 m"
    assert format_length(3.8227, "metric", unit="cm") == "382.3 cm"
    assert format_length(3.8227, "metric", unit="m", step=10) == "3.82 m"
    assert format_length(-0.0001, "metric") == "0 mm"


def test_rounding_goes_the_way_that_is_safe_and_noise_never_costs_a_step() -> None:
    """Up and down are exact on a step, even where the float is a hair beside it."""
    x = 36 * INCH
    for noisy in (x, x * (1 + 1e-15), x * (1 - 1e-15)):
        assert format_length(noisy, "imperial", round_to="up") == "3′"
        assert format_length(noisy, "imperial", round_to="down") == "3′"
    assert format_length(x + 0.001 * INCH, "imperial", round_to="up") == "3′ 0 1⁄16″"
    assert format_length(x - 0.001 * INCH, "imperial", round_to="down") == "2′ 11 15⁄16″"
    assert format_length(-(x + 0.001 * INCH), "imperial", round_to="up") == "−3′"


@given(
    st.integers(-200_000, 200_000),
    st.sampled_from([1, 2, 4, 8, 16, 32]),
    st.sampled_from(["plain", "typographic"]),
    st.booleans(),
)
def test_an_imperial_print_reads_back_exactly(
    count: int, denominator: int, marks: Literal["plain", "typographic"], feet: bool
) -> None:
    """Any multiple of the printed step reads back as itself, bit for bit."""
    exact = float(count * Fraction(254, 10000) / denominator)
    text = format_length(exact, "imperial", step=Fraction(1, denominator), marks=marks, feet=feet)
    assert float(Length.parse(text)) == exact
    assert "-0" not in text
    assert not any(f"{n}/{n}" in text for n in (2, 4, 8, 16, 32))


@given(
    st.floats(-100, 100),
    st.sampled_from(["imperial", "metric"]),
    st.sampled_from(["nearest", "up", "down"]),
    st.sampled_from([None, "mm", "cm", "m"]),
)
def test_any_print_reads_back_within_its_step_on_the_right_side(
    metres: float,
    units: Literal["imperial", "metric"],
    round_to: Literal["nearest", "up", "down"],
    unit: Literal["mm", "cm", "m"] | None,
) -> None:
    """`up` is never short, `down` never over, `nearest` within half a step."""
    step = INCH / 16 if units == "imperial" else 0.001
    off = Length.parse(format_length(metres, units, round_to=round_to, unit=unit)) - metres
    noise = 2e-5 * step
    low, high = {"nearest": (-step / 2, step / 2), "up": (0, step), "down": (-step, 0)}[round_to]
    assert low - noise <= off <= high + noise


@given(st.floats(0.01, 20), st.floats(0.01, 20), st.sampled_from(["imperial", "metric"]))
def test_a_printed_size_reads_back(width: float, length: float, units: Literal["imperial", "metric"]) -> None:
    """Sizes read back to half a printed step."""
    again = parse_size(format_size(width, length, units))
    assert again == pytest.approx((width, length), abs=INCH / 32 + 1e-9)


def test_sizes_areas_angles_and_masses_print_as_the_trade_writes_them() -> None:
    """Whole feet are written once, areas in square feet, masses in pounds and ounces."""
    assert format_size(8 * FOOT, 10 * FOOT, "imperial") == "8 × 10 ft"
    assert format_size(8.5 * FOOT, 11 * FOOT, "imperial") == "8′ 6″ × 11′"
    assert format_size(2.4, 3.4, "metric", marks="plain") == "240 x 340 cm"
    assert format_area(12.04 * FOOT**2, "imperial") == "12 sq ft"
    assert format_area(12.04 * FOOT**2, "imperial", round_to="up") == "12.1 sq ft"
    assert format_area(10.25, "metric") == "10.3 m²"
    assert format_angle(math.radians(89.5)) == "89.5°"
    assert format_angle(-1e-9) == "0°"
    assert format_mass(12.25 * 0.45359237, "imperial") == "12 lb 4 oz"
    assert format_mass(0, "imperial") == "0 lb"
    assert format_mass(5.56, "metric") == "5.6 kg"
    assert format_mass(0.8, "metric") == "800 g"


@given(st.floats(0, 1e4), st.sampled_from(["imperial", "metric"]))
def test_printed_areas_angles_and_masses_read_back(
    value: float, units: Literal["imperial", "metric"]
) -> None:
    """Each print reads back to half its step."""
    assert Area.parse(format_area(value, units)) == pytest.approx(value, abs=0.0501)
    assert Angle.parse(format_angle(value)) == pytest.approx(value, abs=0.0501 * math.pi / 180)
    assert Mass.parse(format_mass(value, units)) == pytest.approx(value, abs=0.0501)
