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


def painted(path: Path) -> Path:
    """Write a picture of three flat bands: a brick one of half its width, a sage and a bone one."""
    import numpy as np
    from PIL import Image

    bands = [(181, 83, 60)] * 100 + [(122, 139, 111)] * 60 + [(232, 220, 196)] * 40
    Image.fromarray(np.array([bands] * 80, dtype=np.uint8)).save(path)
    return path


def hung(job: Path) -> Path:
    """Hang a work in the demo's living room, its colors not recorded."""
    text = job.read_text(encoding="utf-8")
    work = "    art:\n      hillside: {name: Hillside, width: 30 in, height: 24 in}\n"
    head, found, rest = text.partition("    art:\n")
    if found and "  dining:" not in head:
        job.write_text(head + work + rest, encoding="utf-8")
    else:
        mark = "\n  dining:\n"
        assert mark in text
        job.write_text(text.replace(mark, f"\n{work}{mark}", 1), encoding="utf-8")
    return job


def test_swatches_are_taken_into_a_job(halfdrop: Halfdrop, paints: Path, demo: Path) -> None:
    """Taken by code and by name, they stand among the job's swatches; taken twice, once; comments stay."""
    answer = halfdrop("swatches", paints, "--take", "F1", "--take", "bone", "--into", demo)
    assert answer.code == 0, answer.err
    again = halfdrop("swatches", paints, "--take", "F1", "--into", demo, "--json").json
    assert again["taken"] == ["fern"]
    text = demo.read_text(encoding="utf-8")
    assert text.count("#738c64") == 1
    assert text.startswith("# Quince Court")
    assert halfdrop("check", demo).code == 0
    assert halfdrop("swatches", paints, "--take", "teal", "--into", demo).code == 3
    assert halfdrop("swatches", paints, "--take", "F1").code == 2


def test_a_palette_goes_to_a_work_of_art(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Its colors are swatches named after the work, its shares those of the picture; nothing of the picture is in the job."""
    from halfdrop.job.read import read_job

    picture, job = painted(tmp_path / "hill.png"), hung(demo)
    answer = halfdrop(
        "palette", picture, "--as-recorded", "--into", job, "--art", "living/hillside", "--json"
    )
    assert answer.code == 0, answer.err
    read = read_job(job)
    colors = read.document["rooms"]["living"]["art"]["hillside"]["colors"]
    assert list(colors) == answer.json["taken"]
    assert [round(v, 1) for v in colors.values()] == [0.5, 0.3, 0.2]
    assert read.document["swatches"][answer.json["taken"][0]]["name"] == "Hillside 1"
    assert "hill.png" not in job.read_text(encoding="utf-8")
    wrong = halfdrop("palette", picture, "--into", job, "--art", "living/hilside")
    assert wrong.code == 3
    assert "did you mean `hillside`" in wrong.err
    assert halfdrop("palette", picture, "--art", "living/hillside").code == 2


def test_schemes_start_from_a_picture_and_are_kept(halfdrop: Halfdrop, demo: Path, tmp_path: Path) -> None:
    """Three schemes are told with where each color comes from; kept, they are the job's, and the audit takes them."""
    picture = painted(tmp_path / "hill.png")
    library = tmp_path / "many.csv"
    rows = [f"T{n},#{(n * 7919) % 0xFFFFFF:06x}" for n in range(1500)]
    library.write_text("name,srgb\n" + "\n".join(rows), encoding="utf-8")
    asked = ("scheme", "from-art", demo, "--room", "living", "--picture", picture, "--library", library)
    answer = halfdrop(*asked, "--working")
    assert answer.code == 0, answer.err
    for words in (
        "Quiet, from hill",
        "Balanced, from hill",
        "Bold, from hill",
        "of the picture",
        "proportions:",
    ):
        assert words in answer.out
    assert (
        halfdrop(*asked, "--json").json["schemes"]
        == halfdrop(*asked, "--keep", "hill", "--json").json["schemes"]
    )
    assert {"hill-quiet", "hill-balanced", "hill-bold"} <= halfdrop(
        "scheme", "list", demo, "--json"
    ).json.keys()
    assert halfdrop("audit", demo, "--scheme", "hill-quiet", "--room", "living").code in (0, 1)
    assert halfdrop(*asked, "--keep", "hill").code == 3
    assert halfdrop("scheme", "from-art", demo, "--room", "living").code == 2


def test_a_white_is_pointed_out_by_a_point_or_a_patch(halfdrop: Halfdrop, tmp_path: Path) -> None:
    """A point in the bone band takes it for white as a patch there does; words for numbers are a wrong use."""
    picture = painted(tmp_path / "hill.png")
    point = halfdrop("palette", picture, "--white", "180,40", "--json").json
    patch = halfdrop("palette", picture, "--white", "172,32,16,16", "--json").json
    assert point == patch
    assert point["white"]["how"] == "given"
    assert halfdrop("palette", picture, "--white", "left,top").code == 2
