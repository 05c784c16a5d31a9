"""Patches from nowhere: never a bug, never half a document, and what is acknowledged is what is read back."""

from __future__ import annotations

import copy
from typing import Any

import jsonpatch
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from halfdrop.store import Store
from halfdrop.web.app import make_site
from tests.web.conftest import Page, begun

POINTERS = [
    "", "/", "/job", "/job/name", "/job/units", "/halfdrop", "/rooms", "/rooms/living", "/rooms/living/survey",
    "/rooms/living/survey/walls/AB", "/rooms/living/survey/corners", "/rooms/living/pieces",
    "/rooms/living/pieces/sofa", "/rooms/living/pieces/sofa/at", "/rooms/living/pieces/sofa/at/along",
    "/rooms/living/pieces/sofa/width", "/rooms/living/pieces/new", "/rooms/living/rugs/heirloom",
    "/rooms/living/openings/door/along", "/rooms/living/wishes/focal", "/rooms/nowhere/pieces/x", "/delivery/0",
    "/delivery/-", "/schemes", "/schemes/first", "/practice/set", "/practice/file", "/practice/values", "/stock",
    "/schemes/first/steps", "/schemes/first/steps/-", "/schemes/shared/steps/0", "/people/~0~1", "/rooms/living/note", "no pointer", "/~2",
]  # fmt: skip

scalars = st.one_of(
    st.none(), st.booleans(), st.integers(-(10**12), 10**12), st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=12),
    st.sampled_from(["12'", "3.81 m", "84 in", "", "AB", "metric", "../../etc/passwd", "1e400 m", "\ud800", "\0", "9" * 400]),
)  # fmt: skip
values = st.recursive(
    scalars,
    lambda v: st.one_of(st.lists(v, max_size=3), st.dictionaries(st.text(max_size=6), v, max_size=3)),
    max_leaves=8,
)
ops = st.fixed_dictionaries(
    {
        "op": st.sampled_from(["add", "replace", "remove", "move", "copy", "test", "frob", 3]),
        "path": st.sampled_from(POINTERS),
    },
    optional={"value": values, "from": st.sampled_from(POINTERS), "before": st.text(max_size=4)},
)
good = st.sampled_from(
    [
        {"op": "replace", "path": "/rooms/living/pieces/sofa/at/along", "value": "61 in"},
        {"op": "add", "path": "/rooms/living/note", "value": "ask again"},
        {"op": "copy", "from": "/rooms/living/pieces/floor-lamp", "path": "/rooms/living/pieces/lamp-2"},
        {"op": "remove", "path": "/rooms/dining/pieces/chair-1"},
        {"op": "move", "from": "/rooms/dining/pieces/chair-2", "path": "/rooms/dining/pieces/chair-9"},
        {"op": "add", "path": "/delivery/-", "value": "hall"},
        *[
            {
                "op": "add",
                "path": "/schemes/shared/steps/-",
                "value": {
                    "title": f"step {n}",
                    "patch": [{"op": "add", "path": f"/rooms/{room}/note", "value": f"{n}"}],
                },
            }
            for n, room in enumerate(("living", "dining", "living", "hall"))
        ],
    ]
)
patches = st.one_of(st.lists(st.one_of(ops, good), min_size=1, max_size=4), values)


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Page:
    store = Store.open(tmp_path_factory.mktemp("fuzz") / "jobs.db")
    site = make_site(store, executor=lambda: pytest.fail("no work is due"))
    made = begun(TestClient(site.asgi, base_url="http://localhost", raise_server_exceptions=False))
    schemes = {**made.get("")["document"].get("schemes", {}), "shared": {"name": "Shared", "steps": []}}
    assert made.patch([{"op": "add", "path": "/schemes", "value": schemes}], 1).status_code == 200
    return made


def body(value: Any) -> bytes:
    import json

    return json.dumps(value).encode("utf-8", "surrogatepass")


@settings(max_examples=250, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(patch=patches, scheme=st.sampled_from([None, None, "first", "second"]))
def test_any_patch_is_kept_whole_or_refused_whole(page: Page, patch: Any, scheme: str | None) -> None:
    """An answer of success leaves what an independent library makes of the patch; any other leaves the job as it was."""
    before = page.get("")
    headers = {"if-match": f'"{before["revision"]}"', "content-type": "application/json-patch+json"}
    params = {"scheme": scheme} if scheme else {}
    kept = copy.deepcopy(before["document"])
    answer = page.client.request(
        "PATCH", f"/api/jobs/{page.job}", content=body(patch), headers=headers, params=params
    )
    assert answer.status_code in (200, 400, 409, 413, 422), answer.text
    after = page.get("")
    if answer.status_code != 200:
        assert answer.json()["error"]["message"]
        assert (after["revision"], after["document"]) == (before["revision"], kept)
        return
    assert after["revision"] == answer.json()["revision"] == before["revision"] + 1
    assert after["document"] == jsonpatch.apply_patch(kept, answer.json()["patch"])
    undone = page.post("/undo", {"revision": after["revision"]})
    assert undone.status_code == 200, undone.text
    assert page.get("")["document"] == kept


lists = st.lists(good, min_size=1, max_size=2)


@settings(max_examples=120, suppress_health_check=[HealthCheck.too_slow])
@given(mine=lists, theirs=lists, first=st.booleans())
def test_two_on_one_revision_are_both_kept_whole_or_one_is_refused(
    page: Page, mine: Any, theirs: Any, first: bool
) -> None:
    """What merges is what both patches make one after the other; taken back, the last first, nothing of them is left.

    The first taken back first may meet the second (several places of a list in one change); then it stays whole.
    """
    before = page.get("")
    kept, base = copy.deepcopy(before["document"]), before["revision"]
    answers = [page.patch(mine, base, author="ines"), page.patch(theirs, base, author="bram")]
    done = [a.json() for a in answers if a.status_code == 200]
    assert all(a.status_code in (200, 409, 422) for a in answers), [a.text for a in answers]
    wanted = kept
    for answer in done:
        wanted = jsonpatch.apply_patch(wanted, answer["patch"])
    assert page.get("")["document"] == wanted
    stays = []
    for answer in done if first else reversed(done):
        undone = page.post("/undo", {"revision": answer["revision"]})
        assert undone.status_code == 200 or (first and undone.status_code == 409), undone.text
        stays += [answer] if undone.status_code == 409 else []
    for answer in stays:
        undone = page.post("/undo", {"revision": answer["revision"]})
        if undone.status_code == 409:
            again = page.post("/redo", {"revision": page.get("")["revision"]})
            assert again.status_code == 200, again.text
            for one in reversed(done):
                assert page.post("/undo", {"revision": one["revision"]}).status_code == 200
    assert page.get("")["document"] == kept


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(patch=patches, live=st.booleans())
def test_any_try_is_answered(page: Page, patch: Any, live: bool) -> None:
    """A change tried is answered or refused, never a bug, and keeps nothing."""
    before = page.get("")["revision"]
    content = body({"patch": patch, "live": live})
    answer = page.client.post(
        f"/api/jobs/{page.job}/rooms/living/try",
        content=content,
        headers={"content-type": "application/json"},
    )
    assert answer.status_code in (200, 400, 404, 413, 422), answer.text
    assert page.get("")["revision"] == before


def test_copies_that_double_do_not_fill_the_machine(page: Page) -> None:
    """Forty copies, each of which would double the document, are refused at once."""
    patch = [{"op": "add", "path": "/stock/a", "value": {}}]
    patch += [{"op": "copy", "from": "/stock", "path": f"/stock/a{n}"} for n in range(40)]
    answer = page.patch(patch, page.get("")["revision"])
    assert answer.status_code == 422
    assert "copies more than" in answer.json()["error"]["message"]
