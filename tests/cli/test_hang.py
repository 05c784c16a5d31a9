"""`halfdrop hang`: from numbers alone to the two numbers of each hook."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Halfdrop

IN = 0.0254


def test_the_worked_hook_is_at_65_and_three_eighths(halfdrop: Halfdrop) -> None:
    """24 in frame, hangers 18 in apart and 8 in down, 20 in of wire: 65.359 in, printed 65⅜; with its working and cautions."""
    args = ("hang", "--frame", "24x24 in", "--hangers", "18 in", "--hangers-down", "8 in", "--wire", "20 in",
            "--hooks", "1", "--at", "60 in")  # fmt: skip
    said = halfdrop(*args)
    assert said.code == 0, said.err
    assert "60 in                          65⅜ in" in said.out
    for words in ("1.147 × the weight", "Weight on a wall", "Drilling", "wanted 30° to 60°"):
        assert words in said.out
    found = halfdrop(*args, "--json").json["answers"][0]["works"][0]
    assert found["hooks"][0]["from_floor"] == pytest.approx(65.375 * IN)
    assert found["tension"] == pytest.approx(1.147, abs=5e-4)


def test_over_a_sofa_the_numbers_run_from_its_end_and_the_quarrel_is_said(halfdrop: Halfdrop) -> None:
    """A 24 × 30 in frame over an 84 in sofa 30 in high: middle at 57 in with a gap of 12 in, too narrow, all said."""
    said = halfdrop(
        "hang", "--frame", "24x30 in", "--wire-drop", "3 in", "--above", "30 in sofa", "--sofa", "84 in"
    )
    assert said.code == 0, said.err
    for words in ("from the left end of the sofa", "69 in", "The gap over the sofa is 12 in; wanted 6 in to 10 in.",
                  "too narrow", "Over a bed or a seat"):  # fmt: skip
        assert words in said.out


def test_a_cluster_hangs_round_a_thermostat_and_is_the_same_twice(halfdrop: Halfdrop) -> None:
    """Three ways, every frame 2 in clear of the thermostat; the same bytes twice."""
    args = ("hang", "--layout", "cluster", "--frame", "24x30 in", "--frame", "16x20 in", "--frame", "11x14 in",
            "--wall-width", "12 ft", "--clear-of", "thermostat 5x5 in at 72x57 in", "--json")  # fmt: skip
    said = halfdrop(*args)
    assert said.code == 0, said.err
    assert said.out == halfdrop(*args).out
    assert len(said.json["answers"]) == 3
    for answer in said.json["answers"]:
        for work in answer["works"]:
            f = work["frame"]
            apart = max(
                f["left"] - 74.5 * IN, 69.5 * IN - f["right"], f["bottom"] - 59.5 * IN, 54.5 * IN - f["top"]
            )
            assert apart >= 2 * IN - 1e-6


@pytest.mark.parametrize(
    ("args", "fault"),
    [
        (("--frame", "nonsense"), "`nonsense` is no frame"),
        (("--frame", "24x30 in"), "the width of the wall is not known"),
        (("--frame", "24x30 in", "--above", "30 in soaf"), "`30 in soaf` does not end in what stands below"),
        (
            ("--frame", "24x30 in", "--at", "5 ft", "--wire", "20 in"),
            "where the hangers of the wire are is not known",
        ),
    ],
)
def test_half_a_question_is_a_fault_of_the_call_with_a_hint(
    halfdrop: Halfdrop, args: tuple[str, ...], fault: str
) -> None:
    """Exit code 2, one line that stands alone, and what to write."""
    said = halfdrop("hang", *args)
    assert said.code == 2
    assert f"error: {fault}" in said.err
    assert "hint: " in said.err


def test_works_of_a_job_are_hung_and_written_into_a_scheme(halfdrop: Halfdrop, demo: Path) -> None:
    """Three that wait are shown three ways as a cluster; the second is taken, and hangs under the scheme alone."""
    args = ("hang", demo, "--room", "living", "--art", "gull,tern,heron", "--form", "cluster", "--on", "CD")
    said = halfdrop(*args)
    assert said.code == 0, said.err
    assert "Way 3 of 3" in said.out
    assert "--take 1 --scheme NAME" in said.out
    taken = halfdrop(*args, "--take", "2", "--scheme", "birds", "--json")
    assert taken.code == 0, taken.err
    assert "written: Hang 3 works as a cluster on wall CD" in taken.err
    walls = halfdrop("hang", demo, "--room", "living", "--scheme", "birds", "--json").json["walls"]
    here = next(w for w in walls if w["wall"] == "CD")
    assert {w["id"] for w in here["works"]} == {"gull", "tern", "heron"}
    assert all(w["hooks"] for w in here["works"])
    assert "CD" not in {w["wall"] for w in halfdrop("hang", demo, "--room", "living", "--json").json["walls"]}


def test_the_hanging_sheet_is_written(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """As a PDF of every wall; what hangs is also told in words, with where it is taped from."""
    out = tmp_path / "hanging.pdf"
    assert halfdrop("hang", demo, "--room", "bedroom", "-o", out).out == f"hanging sheets: {out}, 1\n"
    assert out.read_bytes()[:5] == b"%PDF-"
    told = halfdrop("hang", demo, "--room", "bedroom", "--from", "right").out
    assert "Wall FA, from the right end of wall FA (corner F)" in told or "(corner A)" in told
    assert "Over a bed or a seat" in told


@pytest.mark.parametrize(
    ("args", "fault"),
    [
        (("--art", "gull", "--on", "CD"), "of a job, `--room` says which room"),
        (
            ("--room", "living", "--art", "gull", "--on", "CD", "--take", "1"),
            "--take writes a step: name its `--scheme`",
        ),
        (("--room", "living", "--art", "gul", "--on", "CD"), "there is no work `gul` in this room"),
        (("--room", "living", "--art", "gull", "--wall", "brick"), "--wall stands in the job file"),
        (
            ("--room", "living", "--art", "gull", "--on", "CD", "-o", "x.pdf"),
            "a sheet is drawn of what hangs",
        ),
        (("--room", "bath", "-o", "x.pdf"), "nothing hangs in this room"),
    ],
)
def test_half_a_question_of_a_job_is_said(
    halfdrop: Halfdrop, demo: Path, args: tuple[str, ...], fault: str
) -> None:
    """What the job says itself is not said twice; what is missing is named."""
    said = halfdrop("hang", demo, *args)
    assert said.code in (2, 3)
    assert fault in said.err
