"""`halfdrop plan --view elevation`: one wall, or each in a file of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Halfdrop


def test_every_wall_has_a_file_of_its_own(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Without `--wall` each elevation of the room is written beside the name that was given, the bay as one."""
    answer = halfdrop("plan", demo, "--room", "study", "--view", "elevation", "-o", tmp_path / "w.svg")
    assert answer.code == 0, answer.err
    assert "w-DEFG.svg" in {p.name for p in tmp_path.glob("*.svg")}
    assert len(answer.out.splitlines()) == len(list(tmp_path.glob("w-*.svg")))
    assert not (tmp_path / "w.svg").exists()


@pytest.mark.parametrize("wall", ["CD", "DC", "BCD"])
def test_a_wall_is_named_either_way_round_or_a_row_by_its_corners(
    halfdrop: Halfdrop, demo: Path, tmp_path: Path, wall: str
) -> None:
    """`DC` is the wall `CD`; `BCD` unfolds two walls round corner C."""
    out = tmp_path / "w.svg"
    answer = halfdrop("plan", demo, "--room", "living", "--view", "elevation", "--wall", wall, "-o", out)
    assert answer.code == 0, answer.err
    assert f"Elevation {'BCD' if len(wall) == 3 else 'CD'}" in out.read_text(encoding="utf-8")


def test_the_same_wall_is_the_same_bytes(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Written twice, a PDF of a wall is alike to the byte."""
    files = [tmp_path / f"{k}.pdf" for k in (1, 2)]
    for out in files:
        answer = halfdrop("plan", demo, "--room", "living", "--view", "elevation", "--wall", "CD", "-o", out)
        assert answer.code == 0, answer.err
    assert files[0].read_bytes() == files[1].read_bytes()


@pytest.mark.parametrize(
    ("more", "code", "said"),
    [
        (("--view", "elevation", "--wall", "AC"), 3, "its walls: AB BC CD DA"),
        (("--view", "elevation", "--wall", "x"), 3, "its walls: AB BC CD DA"),
        (("--wall", "CD"), 2, "--view elevation"),
    ],
)
def test_a_wall_that_is_none_is_told(
    halfdrop: Halfdrop, demo: Path, tmp_path: Path, more: tuple[str, ...], code: int, said: str
) -> None:
    """What is no wall of the room is refused with those there are; a wall without an elevation is a wrong call."""
    answer = halfdrop("plan", demo, "--room", "living", *more, "-o", tmp_path / "w.svg")
    assert answer.code == code
    assert said in answer.err
    assert not list(tmp_path.glob("*.svg"))
