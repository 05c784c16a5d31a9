"""Backup and restore: one file, either database, nothing lost, nothing foreign or torn taken in."""

from __future__ import annotations

import contextlib
import random
import shutil
import sqlite3
import threading
from pathlib import Path

import pytest

from halfdrop.base.errors import InputError, UsageError
from halfdrop.store import Store, StoreError
from halfdrop.store.engine import APPLICATION_ID
from tests.job.documents import GOOD
from tests.store.conftest import Clock, Place
from tests.store.samples import OFF, RUG, begin, change
from tests.store.server import Server


def filled(store: Store) -> Store:
    """Put two jobs with histories and a shared picture into a store, and remove a third."""
    a, b, c = (begin(store) for _ in range(3))
    for i in range(70):
        change(store, a.id, OFF, f"{i} in")
    store.undo(a.id, author="Ann")
    change(store, c.id, RUG + "/width", "9' 6 ½\"", author="Zoë")
    for id in (a.id, c.id):
        store.put_file(
            id, b"\x00\xffpicture", media_type="image/png", name="Fenêtre.png", attached="/rooms/living"
        )
    store.remove(b.id)
    return store


def everything(store: Store) -> object:
    """Return all that a store tells."""
    jobs = store.jobs()
    return [
        (
            entry,
            store.document(entry.id),
            store.document(entry.id, max(1, entry.revision - 3)),
            store.revisions(entry.id),
            store.export(entry.id),
            [(ref, store.file(ref.sha256)) for ref in store.files(entry.id)],
        )
        for entry in jobs
    ]


@pytest.fixture
def backup(store: Store, tmp_path: Path) -> Path:
    """A backup of a filled store."""
    path = tmp_path / "backup.db"
    filled(store).backup(path)
    return path


def test_a_backup_brings_everything_back(store: Store, backup: Path, place: Place) -> None:
    """Jobs, every revision, texts with comments and files are the same in a new store, and work goes on there."""
    other = Store.open(place(), now=Clock())
    assert other.restore(backup) == 2
    assert everything(other) == everything(store)
    first = other.jobs()[-1].id
    assert other.export(first, revision=1).text == GOOD
    assert other.redo(first, author="Ann").document == store.document(first, 71)
    assert begin(other).id not in {entry.id for entry in store.jobs()}
    other.close()
    assert [path.name for path in backup.parent.iterdir() if ".part" in path.name] == []


def test_a_backup_goes_from_one_database_to_the_other(postgres: Server, tmp_path: Path) -> None:
    """SQLite to PostgreSQL and back: all is the same."""
    first = filled(Store.open(tmp_path / "a.db", now=Clock()))
    first.backup(tmp_path / "a.backup")
    second = Store.open(postgres.new(), now=Clock())
    second.restore(tmp_path / "a.backup")
    second.backup(tmp_path / "b.backup")
    third = Store.open(tmp_path / "c.db", now=Clock())
    third.restore(tmp_path / "b.backup")
    assert everything(first) == everything(second) == everything(third)
    for store in (first, second, third):
        store.close()


def test_ids_are_never_given_again_after_a_restore(store: Store, backup: Path, place: Place) -> None:
    """A store that had jobs once, emptied and restored, gives new jobs ids that none ever had."""
    other = Store.open(place())
    used = set()
    for _ in range(3):
        used.add(begin(other).id)
        other.remove(other.jobs()[0].id)
    other.restore(backup)
    assert begin(other).id not in used | {entry.id for entry in store.jobs()}
    for entry in store.jobs():
        assert other.document(entry.id) == store.document(entry.id)
    other.close()


def test_a_backup_is_of_one_moment_while_others_write(store: Store, tmp_path: Path) -> None:
    """Made while a writer changes two jobs in turn, it holds a state that was: the jobs differ by one change at most."""
    a, b = begin(store), begin(store)
    store.put_file(a.id, random.Random(1).randbytes(3_000_000), media_type="image/png", name="large")
    stop, made = threading.Event(), 0

    def write() -> None:
        nonlocal made
        while not stop.is_set():
            for head in (a, b):
                change(store, head.id, OFF, f"{made} in")
            made += 1

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for i in range(4):
            before = made
            while made < before + 2:
                stop.wait(0.001)
            store.backup(tmp_path / f"{i}.backup")
    finally:
        stop.set()
        writer.join()
    seen = []
    for i in range(4):
        with contextlib.closing(Store.open(tmp_path / f"{i}.db")) as restored:
            restored.restore(tmp_path / f"{i}.backup")
            ahead, behind = (restored.job(head.id).revision for head in (a, b))
            assert ahead - behind in (0, 1)
            assert restored.document(a.id) == store.document(a.id, ahead)
            seen.append(ahead)
    assert seen == sorted(seen)
    assert len(set(seen)) == 4


def test_a_backup_overwrites_nothing(store: Store, backup: Path) -> None:
    """A file that is there stays as it is."""
    before = backup.read_bytes()
    with pytest.raises(UsageError, match="there already"):
        store.backup(backup)
    assert backup.read_bytes() == before


def test_only_an_empty_store_is_restored_into(store: Store, backup: Path) -> None:
    """With jobs in it, it says how many and what to do, and stays as it was."""
    before = everything(store)
    with pytest.raises(UsageError, match="has 2 jobs already") as caught:
        store.restore(backup)
    assert "halfdrop restore BACKUP --store NEW.db" in (caught.value.hint or "")
    assert everything(store) == before


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A backup of a filled SQLite store."""
    folder = tmp_path_factory.mktemp("sealed")
    with contextlib.closing(Store.open(folder / "a.db", now=Clock())) as store:
        filled(store).backup(folder / "good.backup")
    return folder / "good.backup"


def refused(path: Path) -> InputError:
    """Return the error of restoring a file, having checked that nothing came of it."""
    with contextlib.closing(Store.open(path.parent / "into.db")) as store:
        with pytest.raises(InputError) as caught:
            store.restore(path)
        assert store.jobs() == []
    assert caught.value.at is not None
    assert caught.value.at.file == str(path)
    return caught.value


def test_torn_backups_are_refused(sealed: Path, tmp_path: Path) -> None:
    """Cut short anywhere, or with any byte changed that holds something, it is told and not taken in."""
    data, path = sealed.read_bytes(), tmp_path / "torn.backup"
    for size in (20, 100, 4095, 4096, len(data) // 2, len(data) - 4096, len(data) - 1):
        path.write_bytes(data[:size])
        assert "torn" in refused(path).message or "no backup" in refused(path).message
    rng = random.Random(7)
    for word in (b"Elm Row", b"picture", b"replace", b"halfdrop_seal", b"0001"):
        places = [i for i in range(len(data)) if data.startswith(word, i)]
        changed = bytearray(data)
        changed[rng.choice(places)] ^= 1
        path.write_bytes(changed)
        assert refused(path).message


def test_foreign_files_are_refused(sealed: Path, tmp_path: Path) -> None:
    """No file, a text, an empty file, another program's database, a store itself, one with a trigger smuggled in."""
    path = tmp_path / "f.backup"
    assert "cannot be opened" in refused(path).message
    for data in (b"", b"halfdrop: 1\n", b"SQLite format 3\0", b"PK\3\4" * 999):
        path.write_bytes(data)
        assert "no backup" in refused(path).message or "torn" in refused(path).message
    path.unlink()
    with contextlib.closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE jobs (id)")
    assert "no backup" in refused(path).message
    with contextlib.closing(sqlite3.connect(path)) as other:
        other.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    assert "no backup" in refused(path).message
    shutil.copy(sealed, path)
    with contextlib.closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TRIGGER t AFTER DELETE ON files BEGIN SELECT 1; END")
    assert "was changed" in refused(path).message
    with contextlib.closing(Store.open(tmp_path / "live.db")) as store:
        begin(store)
    assert "no backup" in refused(tmp_path / "live.db").message


def test_a_backup_that_cannot_be_written_leaves_nothing(store: Store, tmp_path: Path) -> None:
    """Into a file's place instead of a folder: an error of ours, and nothing new."""
    (tmp_path / "file").write_text("x")
    names = sorted(p.name for p in tmp_path.iterdir())
    with pytest.raises(StoreError, match="cannot be written"):
        store.backup(tmp_path / "file" / "b.backup")
    assert sorted(p.name for p in tmp_path.iterdir()) == names
