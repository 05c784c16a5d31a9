"""halfdrop color: on the demo's living room."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from halfdrop.cli import run

DEMO = str(Path(__file__).parents[2] / "examples" / "quince.yaml")


def test_a_table_of_the_room(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a file it prints the swatches by share and what they come to."""
    assert run(["color", DEMO, "--room", "living"]) == 0
    out = capsys.readouterr().out
    assert out.splitlines()[1].split()[0] == "1"
    assert "families:" in out
    assert "warm LED" in out
    assert "recorded:" in out


def test_json_is_one_document(capsys: pytest.CaptureFixture[str]) -> None:
    """--json prints parts, swatches, lights and workings, and nothing else on stdout."""
    assert run(["color", DEMO, "--room", "living", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert {"parts", "swatches", "families", "values", "light", "working"} <= data.keys()
    assert all(part["area"] >= 0 and part["how"] for part in data["parts"])


@pytest.mark.parametrize("ending", ["svg", "pdf", "png", "dxf"])
def test_the_page_is_written_in_each_format(ending: str, tmp_path: Path) -> None:
    """The page is written by the file's ending, the same bytes each time."""
    files = [tmp_path / f"{k}.{ending}" for k in "ab"]
    for file in files:
        assert run(["color", DEMO, "--room", "living", "-o", str(file)]) == 0
    assert files[0].stat().st_size > 3000
    if ending != "dxf":
        assert files[0].read_bytes() == files[1].read_bytes()


def test_unknown_rooms_and_rooms_without_colors_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    """A room that is not there gets the nearest one; one without colors says how to record them."""
    assert run(["color", DEMO, "--room", "livin"]) == 3
    assert "living" in capsys.readouterr().err
    assert run(["color", DEMO, "--room", "bath"]) == 3
    assert "no colors are recorded" in capsys.readouterr().err


def test_an_ending_nobody_knows_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """A page cannot be written as a word file."""
    assert run(["color", DEMO, "--room", "living", "-o", "x.docx"]) == 2
    assert "docx" in capsys.readouterr().err
