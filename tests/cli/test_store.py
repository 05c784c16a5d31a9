"""The commands for the store: list, back up, restore."""

from __future__ import annotations

import contextlib
from pathlib import Path

import pytest

from halfdrop.store import Store
from tests.cli.conftest import Halfdrop
from tests.store.samples import OFF, RUG, begin, change


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A store with one job, where the commands look by default."""
    path = tmp_path / "kept.db"
    monkeypatch.setenv("HALFDROP_STORE", str(path))
    with contextlib.closing(Store.open()) as store:
        change(store, begin(store).id, OFF, "4 in")
    return path


def test_jobs_lists_the_store(halfdrop: Halfdrop, kept: Path, tmp_path: Path) -> None:
    """A line a job on stdout, the store's name beside it; an empty store has none; JSON has every part."""
    answer = halfdrop("jobs")
    assert answer.code == 0
    assert answer.out.splitlines()[2].split()[:5] == ["elm-row-4-1", "Elm", "Row", "4", "2"]
    assert answer.err == f"1 job in {kept}\n"
    (entry,) = halfdrop("jobs", "--json").json["jobs"]
    assert (entry["id"], entry["revision"], entry["origin"], entry["client"]) == (
        "elm-row-4-1",
        2,
        "good.yaml",
        None,
    )
    empty = halfdrop("jobs", "--store", tmp_path / "empty.db")
    assert (empty.code, empty.out, empty.err) == (0, "", f"0 jobs in {tmp_path / 'empty.db'}\n")


def test_a_backup_is_made_and_restored(halfdrop: Halfdrop, kept: Path, tmp_path: Path) -> None:
    """The restored store lists the same; a second backup into the file, or a restore over jobs, exits with 2 and a hint."""
    file, other = tmp_path / "friday.halfdrop", tmp_path / "other.db"
    answer = halfdrop("backup", file)
    assert (answer.code, answer.err) == (0, f"{file}: 1 job from {kept}\n")
    answer = halfdrop("restore", file, "--store", other)
    assert (answer.code, answer.err) == (0, f"{other}: 1 job from {file}\n")
    assert (
        halfdrop("jobs", "--json").json["jobs"] == halfdrop("jobs", "--json", "--store", other).json["jobs"]
    )
    for args in (("backup", file), ("restore", file)):
        answer = halfdrop(*args)
        assert answer.code == 2
        assert "hint: " in answer.err


def test_what_is_no_backup_and_no_store_is_said(halfdrop: Halfdrop, kept: Path, tmp_path: Path) -> None:
    """A job file is no backup and no store: exit code 3, where it lies, what to do."""
    file = tmp_path / "job.yaml"
    file.write_text("halfdrop: 1\n")
    for args in (("restore", file), ("restore", tmp_path / "none"), ("jobs", "--store", file)):
        answer = halfdrop(*args)
        assert answer.code == 3
        assert answer.err.startswith("error: ")
        assert f"at: {args[-1]}" in answer.err


def test_an_edited_file_comes_back_as_one_revision(halfdrop: Halfdrop, kept: Path, tmp_path: Path) -> None:
    """Taken out, edited with a comment of one's own, taken in beside a colleague's change: both are there, and the comment."""
    file = tmp_path / "elm.yaml"
    assert halfdrop("jobs", "file", "elm-row-4-1", "-o", file).code == 0
    assert halfdrop("jobs", "file", "elm-row-4-1", "-o", file).code == 2, "what is there is not overwritten"
    text = file.read_text()
    assert "off: 4 in" in text
    file.write_text(text.replace("along: 3 ft", "along: 2 ft") + "# checked on site\n")
    with contextlib.closing(Store.open()) as store:
        change(store, "elm-row-4-1", RUG + "/width", "9'", author="Bob")
    dry = halfdrop("jobs", "take", "elm-row-4-1", file, "--dry-run")
    assert dry.out == "rooms/living/pieces/sofa/at/along: 3 ft → 2 ft\n"
    assert "1 change since revision 2; nothing is kept" in dry.err
    assert halfdrop("jobs", "--json").json["jobs"][0]["revision"] == 3
    done = halfdrop("jobs", "take", "elm-row-4-1", file, "--json").json
    assert (done["base"], done["revision"], done["merged"]) == (2, 4, True)
    out = halfdrop("jobs", "file", "elm-row-4-1").out
    assert "along: 2 ft" in out
    assert "9'" in out
    assert out.endswith("# checked on site\n")
    again = halfdrop("jobs", "take", "elm-row-4-1", file, "--base", "3")
    assert again.code == 3, (
        "the rug would be set back on the revision that has it, and along is changed since"
    )


def test_an_edited_file_that_meets_a_change_is_not_taken_in(
    halfdrop: Halfdrop, kept: Path, tmp_path: Path
) -> None:
    """Both changed the sofa's place: exit code 3, the other's revision named, the job and the file as they were."""
    file = tmp_path / "elm.yaml"
    halfdrop("jobs", "file", "elm-row-4-1", "-o", file)
    file.write_text(file.read_text().replace("off: 4 in", "off: 6 in"))
    with contextlib.closing(Store.open()) as store:
        change(store, "elm-row-4-1", OFF, "5 in", author="Bob")
    answer = halfdrop("jobs", "take", "elm-row-4-1", file, "--base", "2")
    assert answer.code == 3
    assert "meets revision 3 by Bob" in answer.err
    assert halfdrop("jobs", "--json").json["jobs"][0]["revision"] == 3


def test_a_file_that_says_the_same_brings_only_its_comments(
    halfdrop: Halfdrop, kept: Path, tmp_path: Path
) -> None:
    """No revision is made of a comment, and it is not lost."""
    file = tmp_path / "elm.yaml"
    halfdrop("jobs", "file", "elm-row-4-1", "-o", file)
    file.write_text("# for the trades\n" + file.read_text())
    answer = halfdrop("jobs", "take", "elm-row-4-1", file)
    assert "says what elm-row-4-1 says" in answer.err
    assert halfdrop("jobs", "--json").json["jobs"][0]["revision"] == 2
    assert halfdrop("jobs", "file", "elm-row-4-1").out.startswith("# for the trades\n")
