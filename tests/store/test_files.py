"""Files of jobs: kept once by the hash of their bytes, for as long as a job has them."""

from __future__ import annotations

import hashlib

import pytest
from sqlalchemy import func, select

from halfdrop.base.errors import InputError
from halfdrop.store import Missing, Store, TooLarge, files
from halfdrop.store.tables import files as kept
from tests.store.samples import begin

PICTURE = bytes(range(256)) * 300


def count(store: Store) -> int:
    """Return how many files the database holds."""
    with store._reading() as connection:
        return connection.execute(select(func.count()).select_from(kept)).scalar_one()


def test_a_file_comes_out_as_it_went_in(store: Store) -> None:
    """Its name in the store is the SHA-256 of its bytes; name, type and place are as given."""
    head = begin(store)
    ref = store.put_file(
        head.id,
        PICTURE,
        media_type="image/jpeg",
        name=" Wall AB.jpg ",
        attached="/rooms/living/survey/walls/AB",
    )
    assert ref.sha256 == hashlib.sha256(PICTURE).hexdigest()
    assert (ref.size, ref.name, ref.attached) == (76_800, "Wall AB.jpg", "/rooms/living/survey/walls/AB")
    assert store.files(head.id) == [ref]
    out = store.file(ref.sha256)
    assert (out.data, out.media_type) == (PICTURE, "image/jpeg")


def test_the_same_bytes_are_kept_once(store: Store) -> None:
    """Put in for two places of one job and for another job, there is one copy; put in again, it is the same place."""
    a, b = begin(store), begin(store)
    for id, place in ((a.id, ""), (a.id, "/rooms/living"), (b.id, ""), (b.id, "")):
        store.put_file(id, PICTURE, media_type="image/png", name="p.png", attached=place)
    assert count(store) == 1
    assert [ref.attached for ref in store.files(a.id)] == ["", "/rooms/living"]
    assert len(store.files(b.id)) == 1


def test_a_file_goes_with_the_last_job_that_has_it(store: Store) -> None:
    """Dropped from one place it stays for the other, removed with one job it stays for the other, then it is gone."""
    a, b = begin(store), begin(store)
    sha256 = store.put_file(a.id, PICTURE, media_type="image/png", name="p.png").sha256
    store.put_file(a.id, PICTURE, media_type="image/png", name="p.png", attached="/rooms/living")
    store.put_file(b.id, PICTURE, media_type="image/png", name="p.png")
    other = store.put_file(b.id, b"other", media_type="text/plain", name="o.txt").sha256
    store.drop_file(a.id, sha256, "")
    assert len(store.files(a.id)) == 1
    with pytest.raises(Missing):
        store.drop_file(a.id, sha256, "")
    store.drop_file(a.id, sha256)
    assert store.files(a.id) == []
    assert store.file(sha256).data == PICTURE
    store.remove(b.id)
    for gone in (sha256, other):
        with pytest.raises(Missing):
            store.file(gone)
    assert count(store) == 0


@pytest.mark.parametrize(
    ("changed", "error", "says"),
    [
        ({"data": b""}, InputError, "empty"),
        ({"data": bytes(files.FILE_BYTES + 1)}, TooLarge, "at most 32 MiB"),
        ({"media_type": "image"}, InputError, "no media type"),
        ({"media_type": "text/html; charset=x"}, InputError, "no media type"),
        ({"name": " "}, InputError, "name is empty"),
        ({"name": "x" * 201}, TooLarge, "201 characters"),
        ({"attached": "rooms/living"}, InputError, "not a path"),
        ({"attached": "/" + "x" * 400}, TooLarge, "401 characters"),
    ],
)
def test_what_cannot_be_kept_is_refused(
    store: Store, changed: dict[str, object], error: type[InputError], says: str
) -> None:
    """Empty, too large, of no type, without a name, attached to no path: nothing is kept."""
    head = begin(store)
    asked = {"data": b"x", "media_type": "image/png", "name": "p.png", "attached": "", **changed}
    data = asked.pop("data")
    with pytest.raises(error, match=says):
        store.put_file(head.id, data, **asked)  # type: ignore[arg-type]
    assert count(store) == 0


def test_a_file_of_the_largest_size_is_kept(store: Store) -> None:
    """Exactly the most that is allowed goes in and comes out."""
    head = begin(store)
    data = bytes(files.FILE_BYTES)
    assert store.file(store.put_file(head.id, data, media_type="image/png", name="p").sha256).data == data
