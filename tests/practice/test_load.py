"""Asking for values, and a house's own over them."""

from __future__ import annotations

import copy
import math
import pickle
from pathlib import Path

import pytest

from halfdrop.base.errors import InputError
from halfdrop.practice import load_practice
from halfdrop.practice.reading import box_of, kind_of, read_value


@pytest.mark.parametrize(
    ("raw", "kind"),
    [
        ("8 in", "length"), ("8\"", "length"), ("12' 6 1/2\"", "length"), ("20 cm", "length"),
        ("0", "length"), ("1/8 in", "length"), ("½ in", "length"),
        ("5.7 sq ft", "area"), ("0.53 m²", "area"), ("12 ft2", "area"),
        ("1.5°", "angle"), ("15 deg", "angle"), ("89° 30'", "angle"), ("51 lb", "mass"), ("23 kg", "mass"),
        ("North America", "text"), (0.5, "number"), (3, "count"), (True, "yes or no"),
        (["8x10 ft", "9x12 ft"], "sizes"), (["3 ft", "4 ft"], "lengths"), ("84x38x34 in", "box"),
    ],
)  # fmt: skip
def test_a_value_tells_its_kind_by_its_text(raw: object, kind: str) -> None:
    """Length, angle, area, mass, list and plain number are told apart by the text alone."""
    assert kind_of(raw) == kind  # type: ignore[arg-type]


def test_shipped_sets_are_read_once() -> None:
    """Two loads of one set give the same object, so a practice is cheap to hold as a key."""
    assert load_practice("us") is load_practice()
    assert hash(load_practice("us")) == hash(load_practice("us"))
    assert load_practice("us") != load_practice("metric")


def test_an_unknown_set_names_the_near_one() -> None:
    """A misspelt set is told apart and the near one named."""
    with pytest.raises(InputError, match="no practice set `metrik`") as caught:
        load_practice("metrik")
    assert caught.value.hint == "did you mean `metric`?"


def test_an_unknown_key_names_the_near_one() -> None:
    """A misspelt key is told apart and the near one named."""
    with pytest.raises(InputError, match=r"no practice value `rugs\.dining_extension_flor`") as caught:
        load_practice()["rugs.dining_extension_flor"]
    assert caught.value.hint == "did you mean `rugs.dining_extension_floor`?"


def test_the_job_wins_over_the_file_and_the_file_over_the_set(tmp_path: Path) -> None:
    """Each value says who set it: the shipped set, the house's file, or the job."""
    file = tmp_path / "house.toml"
    file.write_text(
        '"rugs.dining_extension_floor" = "10 in"\n[rugs]\nbed_side_floor = "20 in"\nlayer_share_min = 0.55\n'
        'made_sizes_round = ["5 ft", "7 ft"]\n'
    )
    practice = load_practice("us", {"rugs.bed_side_floor": "50 cm"}, file)
    assert practice["rugs.dining_extension_floor"].origin == "house (file house.toml)"
    assert practice.length("rugs.dining_extension_floor") == 10 * 0.0254
    assert practice["rugs.bed_side_floor"].origin == "house (job)"
    assert practice.length("rugs.bed_side_floor") == 0.5
    assert practice.number("rugs.layer_share_min") == 0.55
    assert practice.length_list("rugs.made_sizes_round") == (5 * 0.3048, 7 * 0.3048)
    assert practice["rugs.bed_foot_floor"].origin == "us"
    assert load_practice()["rugs.bed_side_floor"].text == "18 in"
    assert practice.house_keys() == (
        "rugs.dining_extension_floor", "rugs.bed_side_floor", "rugs.layer_share_min", "rugs.made_sizes_round",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("key", "raw", "fault"),
    [
        ("rugs.dining_extension_floor", "10 kg", "`10 kg` is not a length"),
        ("rugs.dining_extension_floor", 10, "`10` is not a length"),
        ("rugs.dining_extension_floor", True, "`true` is not a length"),
        ("rugs.dining_extension_floor", "-10 in", "`-10 in` is less than nothing; allowed is 0 or more"),
        ("hazards.escape_area", "5 ft", "`5 ft` is not an area"),
        ("survey.alpha", "0.001", "`0.001` is not a number"),
        ("survey.alpha", -0.1, "`-0.1` is less than nothing; allowed is 0 or more"),
        ("furniture.sofa.seats", 2.5, "`2.5` is not a count"),
        ("delivery.tilt_allowed", 1, "`1` is not a yes or no"),
        (
            "furniture.sofa.size",
            "84x38 in",
            "`84x38 in` is not three lengths joined by x with their unit at the end",
        ),
    ],
)
def test_a_house_value_of_the_wrong_kind_is_refused_with_what_to_write(
    key: str, raw: object, fault: str
) -> None:
    """The message stands alone and the hint shows a line that would be taken."""
    with pytest.raises(InputError) as caught:
        load_practice("us", {key: raw})  # type: ignore[dict-item]
    assert caught.value.message == f"practice value `{key}`: {fault}"
    assert caught.value.hint is not None
    assert caught.value.hint.startswith("write it like ")
    assert str(caught.value.at) == f"practice/values/{key}"


def test_a_region_nobody_lists_is_refused() -> None:
    """A text that is one of a few words takes no other."""
    with pytest.raises(InputError, match="`the moon` is not one of North America"):
        load_practice("us", {"seating.region": "the moon"})


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("rugs = ", "is not TOML"),
        ('"rugs.bed_sid_floor" = "18 in"', "no practice value `rugs.bed_sid_floor`"),
        ("rugs.bed_side_floor = 2026-01-01", "is of a kind that no value has"),
        ("rugs.bed_side_floor = [1, 2]", "is of a kind that no value has"),
    ],
)
def test_a_bad_house_file_is_named(tmp_path: Path, text: str, fault: str) -> None:
    """The file stands in the error's place, so that a person finds it."""
    file = tmp_path / "house.toml"
    file.write_text(text)
    with pytest.raises(InputError, match=fault) as caught:
        load_practice("us", None, file)
    assert caught.value.at is not None
    assert caught.value.at.file == str(file)


def test_a_house_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    """A missing file is an input fault, not a crash."""
    with pytest.raises(InputError, match=r"house file none\.toml cannot be read: no such file"):
        load_practice("us", None, tmp_path / "none.toml")


def test_a_shifted_limit_moves_alone() -> None:
    """Moving one limit by a millimeter leaves the shipped set and every other value as they were."""
    base = load_practice()
    moved = base.shifted("rugs.dining_extension_floor", 0.001)
    assert moved.length("rugs.dining_extension_floor") == pytest.approx(0.2042)
    assert moved["rugs.dining_extension_floor"].origin == "shifted"
    assert base.length("rugs.dining_extension_floor") == 8 * 0.0254
    assert moved != base
    assert all(moved[k] is base[k] for k in base if k != "rugs.dining_extension_floor")
    assert moved.shifted("seating.screen_up_angle", math.radians(1)).angle(
        "seating.screen_up_angle"
    ) == pytest.approx(math.radians(16))


@pytest.mark.parametrize(("key", "delta"), [("seating.region", 1.0), ("rugs.bed_side_floor", -1.0)])
def test_what_cannot_be_shifted_is_refused(key: str, delta: float) -> None:
    """A text cannot be moved, and no limit falls below nothing."""
    with pytest.raises(InputError, match="practice value"):
        load_practice().shifted(key, delta)


def test_a_value_asked_for_as_another_kind_is_our_own_fault() -> None:
    """Asking for a length as a number is a bug in halfdrop, so it is no InputError."""
    with pytest.raises(TypeError, match="is a length, asked for as a number"):
        load_practice().number("rugs.bed_side_floor")


def test_keys_come_by_prefix_in_the_files_order() -> None:
    """A listing of one trade's values needs no search through the others."""
    keys = load_practice().keys("rugs.")
    assert keys[0] == "rugs.front_legs_depth"
    assert all(key.startswith("rugs.") for key in keys)
    assert len(load_practice().keys()) == len(load_practice())


def test_a_box_takes_its_unit_from_its_end() -> None:
    """`84 x 38 x 34 in` is three lengths in inches; a side with its own unit keeps it."""
    assert box_of("84 x 38 x 34 in") == (84 * 254 / 10000, 38 * 254 / 10000, 34 * 254 / 10000)
    assert box_of("2 m × 95 cm × 86 cm") == (2.0, 0.95, 0.86)


def test_lists_are_read_from_one_text() -> None:
    """A job file holds single texts only, so a list may be written with commas."""
    assert read_value("5 ft, 7 ft", "lengths")[0] == (5 * 0.3048, 7 * 0.3048)
    assert read_value("8x10 ft, 9x12 ft", "sizes")[0] == read_value(["8x10 ft", "9x12 ft"], "sizes")[0]
    with pytest.raises(InputError, match="is not a list of lengths above 0"):
        read_value([], "lengths")


@pytest.mark.parametrize(
    ("key", "raw", "fault"),
    [
        ("survey.alpha", 5, "is 5; allowed is 1e-06 to 0.5"),
        ("survey.tape_sigma", "0 mm", "is 0 mm; allowed is 0.1 mm to 4 in"),
        ("rugs.layer_share_max", 1.5, "is 1.5; allowed is 0.05 to 1"),
        ("survey.alpha", float("nan"), "`nan` is not a number"),
        ("furniture.sofa.seats", float("inf"), "`inf` is not a count"),
        ("furniture.sofa.size", "0 x 38 x 34 in", "has a side of 0 or less"),
    ],
)
def test_a_value_that_makes_no_sense_is_refused(key: str, raw: object, fault: str) -> None:
    """A standard error of nothing, a chance above one: each names what is allowed."""
    with pytest.raises(InputError) as caught:
        load_practice("us", {key: raw})  # type: ignore[dict-item]
    assert fault in caught.value.message


def test_a_floor_above_its_target_is_refused() -> None:
    """A house that lifts a floor past its target is told which other value to set."""
    with pytest.raises(InputError) as caught:
        load_practice("us", {"rugs.dining_extension_floor": "30 in"})
    assert caught.value.message == (
        "practice value `rugs.dining_extension_floor` is 30 in, more than `rugs.dining_extension_target`, "
        "which is 24 in"
    )
    assert caught.value.hint is not None
    assert "set `rugs.dining_extension_target` too" in caught.value.hint
    both = {"rugs.dining_extension_floor": "30 in", "rugs.dining_extension_target": "30 in"}
    assert load_practice("us", both).length("rugs.dining_extension_floor") == 30 * 0.0254


def test_a_house_file_nested_without_end_is_refused(tmp_path: Path) -> None:
    """Tables a thousand deep are a fault of the file, not a crash."""
    file = tmp_path / "house.toml"
    file.write_text(".".join(["a"] * 3000) + " = 1\n")
    with pytest.raises(InputError):
        load_practice("us", None, file)


def test_a_practice_is_copied_and_pickled_whole() -> None:
    """A copy is the practice itself; a pickle gives an equal one, the house's values in it."""
    practice = load_practice("us", {"rugs.bed_side_floor": "20 in"})
    assert copy.deepcopy(practice) is practice
    again = pickle.loads(pickle.dumps(practice))
    assert again == practice
    assert again["rugs.bed_side_floor"].origin == "house (job)"
