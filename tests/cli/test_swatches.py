"""`halfdrop swatches` and `halfdrop palette` on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Halfdrop

LIBRARY = """name,code,srgb,price
Fern,F1,#738c64,$48.00
Deep fern,F2,#4b5f41,$52.00
Bone,B1,#e8dcc4,$44.00
Brick,R1,#b5533c,$61.00
"""


@pytest.fixture
def paints(tmp_path: Path) -> Path:
    """A small library of paints."""
    path = tmp_path / "paints.csv"
    path.write_text(LIBRARY, encoding="utf-8")
    return path


def test_the_nearest_swatches_are_told_with_what_they_are_off(halfdrop: Halfdrop, paints: Path) -> None:
    """Asked for a sage, the ferns come first; JSON says the same."""
    answer = halfdrop("swatches", paints, "--near", "#7a8b6f", "--count", "2")
    assert answer.code == 0
    lines = answer.out.splitlines()
    assert lines[2].startswith("Fern ")
    assert lines[3].startswith("Deep fern")
    told = halfdrop("swatches", paints, "--near", "#7a8b6f", "--count", "2", "--json").json
    assert [one["code"] for one in told["found"]] == ["F1", "F2"]
    assert told["swatches"] == 4


def test_swatches_are_found_by_name_and_by_coordinates(halfdrop: Halfdrop, paints: Path) -> None:
    """Words in any case and order narrow the search; L*, a*, b* do for a hex code; nothing found says so."""
    assert [
        f["code"] for f in halfdrop("swatches", paints, "--named", "FERN deep", "--json").json["found"]
    ] == ["F2"]
    near = halfdrop("swatches", paints, "--near", "88, 1, 13", "--count", "1", "--json").json["found"]
    assert near[0]["code"] == "B1"
    assert "none of 4 swatches" in halfdrop("swatches", paints, "--named", "teal").out


def test_faults_of_a_library_are_told_by_row_and_column(halfdrop: Halfdrop, paints: Path) -> None:
    """A bad price and a bad color are told at once, each with its place; a color that is none, too."""
    paints.write_text(LIBRARY.replace("#e8dcc4", "#e8dc").replace("$61.00", "61"), encoding="utf-8")
    answer = halfdrop("swatches", paints, "--near", "#fff")
    assert answer.code == 3
    assert "paints.csv:4 column srgb" in answer.err
    assert "paints.csv:5 column price" in answer.err
    assert halfdrop("swatches", paints).code == 2
    paints.write_text(LIBRARY, encoding="utf-8")
    assert "is no color" in halfdrop("swatches", paints, "--near", "greenish").err
