"""Errors: place, hint, near matches."""

from __future__ import annotations

from halfdrop.base.errors import At, InputError, InputErrors, UsageError, did_you_mean, near


def test_a_place_prints_file_line_and_path_as_far_as_known() -> None:
    """`quince.yaml:41 rooms/hall`, and less where less is known."""
    assert str(At("quince.yaml", 41, "rooms/hall")) == "quince.yaml:41 rooms/hall"
    assert str(At("quince.yaml")) == "quince.yaml"
    assert str(At(path="rooms/hall")) == "rooms/hall"


def test_placing_fills_in_only_what_was_unknown() -> None:
    """An error that knows its line keeps it; kind, message and hint stay."""
    error = InputError("x is 3; allowed is 2", at=At(line=4), hint="write 2")
    placed = error.placed(At("a.yaml", 9, "rooms"))
    assert placed.at == At("a.yaml", 4, "rooms")
    assert type(placed) is InputError
    assert (placed.message, placed.hint) == (error.message, error.hint)


def test_exit_codes_keep_usage_and_input_apart() -> None:
    """A wrong call exits with 2, a wrong file with 3."""
    assert UsageError("x").exit_code == 2
    assert InputError("x").exit_code == 3


def test_several_errors_count_themselves() -> None:
    """The headline of many faults is their number."""
    assert InputErrors([InputError("a")]).message == "1 fault"
    assert InputErrors([InputError("a"), InputError("b")]).message == "2 faults"


def test_a_near_word_is_suggested_and_otherwise_all_are_listed() -> None:
    """`sofx` is near to `sofa`; nothing is near to `zzz`."""
    assert near("sofx", ["sofa", "bed"]) == "sofa"
    assert near("zzz", ["sofa", "bed"]) is None
    assert did_you_mean("sofx", ["sofa", "bed"]) == "did you mean `sofa`?"
    assert did_you_mean("zzz", ["sofa", "bed"]) == "known: bed, sofa"
