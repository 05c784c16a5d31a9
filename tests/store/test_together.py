"""Several writers at once, in threads and in processes: all that is kept is in one order, nothing is lost or doubled."""

from __future__ import annotations

import contextlib
import multiprocessing
from concurrent.futures import ThreadPoolExecutor
from itertools import chain

from halfdrop.job.patch import apply
from halfdrop.store import Conflict, Missing, Store
from tests.store.conftest import Place
from tests.store.samples import ALONG, OFF, RUG, begin, change, put
from tests.store.writing import append_some

_PROCESSES = multiprocessing.get_context("forkserver")


def _replayed(store: Store, id: str) -> object:
    document = store.document(id, 1)
    for revision in store.revisions(id):
        document = apply(document, revision.patch)
    return document


def test_writers_in_processes(place: Place) -> None:
    """Two change different things: all merges, without one conflict. A third works against the first: both get through."""
    where = place()
    store = Store.open(where)
    id = begin(store).id
    for paths in ((OFF, RUG + "/width"), (OFF, OFF)):
        before = store.job(id).revision
        pipes = []
        for path in paths:
            mine, theirs = _PROCESSES.Pipe(duplex=False)
            process = _PROCESSES.Process(target=append_some, args=(where, id, path, 25, theirs))
            process.start()
            theirs.close()
            pipes.append((process, mine))
        conflicts = [mine.recv() for _, mine in pipes]
        for process, _ in pipes:
            process.join()
            assert process.exitcode == 0
        assert store.job(id).revision == before + 50
        if len(set(paths)) == 2:
            assert conflicts == [0, 0]
        assert store.document(id) == _replayed(store, id)
    store.close()


def test_writers_in_threads(store: Store) -> None:
    """Four threads on one store and one job, each with its own place: every change is kept, in its thread's order."""
    id = begin(store).id
    places = (OFF, ALONG, RUG + "/width", RUG + "/length")

    def write(path: str) -> list[int]:
        numbers = []
        for i in range(20):
            numbers.append(
                change(store, id, path, f"{i + 1} in", author=path, base=1 if not i else numbers[-1]).revision
            )
        return numbers

    with ThreadPoolExecutor(4) as threads:
        numbers = list(threads.map(write, places))
    assert sorted(chain(*numbers)) == list(range(2, 82))
    assert all(own == sorted(own) for own in numbers)
    assert store.document(id) == _replayed(store, id)
    living = store.document(id)["rooms"]["living"]
    assert living["pieces"]["sofa"]["at"]["off"] == living["rugs"]["old"]["length"] == "20 in"


def test_of_two_on_the_same_thing_one_is_refused(store: Store) -> None:
    """Sent at the same moment on the same revision, one is kept and the other is shown it; each time."""
    id = begin(store).id

    def send(who: str, base: int) -> str:
        try:
            store.append(id, put(OFF, f"{base} in"), base=base, author=who, message="off")
        except Conflict as error:
            return error.revisions[-1].author
        return "kept"

    with ThreadPoolExecutor(2) as threads:
        for base in range(1, 21):
            answers = {who: threads.submit(send, who, base) for who in ("Ann", "Bob")}
            told = {who: answer.result() for who, answer in answers.items()}
            assert told in ({"Ann": "kept", "Bob": "Ann"}, {"Ann": "Bob", "Bob": "kept"})
    assert store.job(id).revision == 21


def test_a_change_sent_twice_at_once_is_kept_once(store: Store) -> None:
    """Both senders get the same answer."""
    id = begin(store).id

    def send(mark: str) -> int:
        return store.append(id, put(OFF, mark), base=1, author="Ann", message="off", change=mark).revision

    with ThreadPoolExecutor(4) as threads:
        assert set(threads.map(send, ["4 in"] * 4)) == {2}


def test_files_put_in_and_dropped_at_once(store: Store) -> None:
    """The same picture goes into and out of two jobs at once: it is there as long as one has it, and no answer is an error."""
    ids = [begin(store).id for _ in range(2)]

    def turn(id: str) -> None:
        for _ in range(15):
            sha256 = store.put_file(id, b"picture", media_type="image/png", name="p").sha256
            assert store.file(sha256).data == b"picture"
            store.drop_file(id, sha256)

    with ThreadPoolExecutor(2) as threads:
        list(threads.map(turn, ids))
    assert [store.files(id) for id in ids] == [[], []]


def test_a_job_removed_while_it_is_changed(place: Place) -> None:
    """The writer is told that the job is missing; nothing of it stays."""
    where = place()
    with contextlib.closing(Store.open(where)) as store, contextlib.closing(Store.open(where)) as other:
        id = begin(store).id

        def write() -> int:
            i = 0
            try:
                while True:
                    i = change(store, id, OFF, f"{i} in").revision
            except Missing:
                return i

        with ThreadPoolExecutor(1) as thread:
            written = thread.submit(write)
            while other.jobs()[0].revision < 5:
                pass
            other.remove(id)
            assert written.result() >= 5
        assert store.jobs() == []
