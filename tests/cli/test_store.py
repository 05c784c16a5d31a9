"""The commands for the store: list, back up, restore."""

from __future__ import annotations

import contextlib
from pathlib import Path

import pytest

from halfdrop.store import Store
from tests.cli.conftest import Halfdrop
from tests.store.samples import OFF, begin, change


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
