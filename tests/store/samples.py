"""Jobs and changes for the tests of the store."""

from __future__ import annotations

from typing import Any

from halfdrop.job.read import parse_job
from halfdrop.store import Appended, JobHead, Store
from tests.job.documents import GOOD

OFF = "/rooms/living/pieces/sofa/at/off"
ALONG = "/rooms/living/pieces/sofa/at/along"
RUG = "/rooms/living/rugs/old"
NAME = "/job/name"


def good() -> dict[str, Any]:
    """Return the good job's document, a new one each time."""
    return parse_job(GOOD, name="good.yaml").document


def begin(store: Store) -> JobHead:
    """Keep the good job with the text it came from."""
    return store.create(good(), author="Ann", text=GOOD, format="yaml", origin="good.yaml")


def put(path: str, value: Any) -> list[dict[str, Any]]:
    """Return the patch that exchanges one value."""
    return [{"op": "replace", "path": path, "value": value}]


def change(
    store: Store, id: str, path: str, value: Any, author: str = "Ann", base: int | None = None
) -> Appended:
    """Append one exchange of a value, on the latest revision unless told otherwise."""
    base = store.job(id).revision if base is None else base
    return store.append(
        id,
        put(path, value),
        base=base,
        author=author,
        message=f"{path} is {value}"[:80] if isinstance(value, str) else path,
    )
