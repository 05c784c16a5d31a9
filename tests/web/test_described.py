"""The OpenAPI description holds: whatever is asked by it is answered by it, and nothing makes a bug."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from starlette.testclient import TestClient

from halfdrop.store import Store
from halfdrop.web.app import Site, make_site
from tests.web.conftest import begun

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import schemathesis
    from schemathesis.checks import CHECKS, load_all_checks

    load_all_checks()

CHECKED = (
    "not_a_server_error",
    "status_code_conformance",
    "content_type_conformance",
    "response_schema_conformance",
)
#: Streams do not end; they have tests of their own.
STREAMS = ("/api/jobs/{job}/events", "/api/tasks/{task}/events")


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, TestClient, str]]:
    """A workbench with the demo in it."""
    store = Store.open(tmp_path_factory.mktemp("described") / "jobs.db")
    site = make_site(store, executor=lambda: ThreadPoolExecutor(1), hosts={"testserver"})
    client = TestClient(site.asgi, base_url="http://localhost", raise_server_exceptions=False)
    yield site, client, begun(client).job
    site.desk.tasks.close()
    store.close()


def test_the_description_names_every_route(served) -> None:
    """Every address under /api is described, with its answers and the one shape of an error."""
    _, client, _ = served
    document = client.get("/api/openapi.json").json()
    operations = [o for methods in document["paths"].values() for o in methods.values()]
    assert len(operations) >= 28
    for operation in operations:
        assert operation["summary"]
        assert {"400", "403", "404", "413", "422", "500"} <= set(operation["responses"])
        shape = operation["responses"]["422"]["content"]["application/json"]["schema"]["$ref"]
        assert shape.endswith("/ErrorBody")


@pytest.mark.filterwarnings("ignore")
def test_what_is_asked_by_the_description_is_answered_by_it(served) -> None:
    """Generated requests to every address, half of them to the demo: no bug, each answer as described."""
    site, client, job = served
    schema = schemathesis.openapi.from_asgi("/api/openapi.json", site.asgi)
    checks = [CHECKS.get_one(name) for name in CHECKED]
    asked = 0
    for found in schema.get_all_operations():
        operation = found.ok()
        if operation.path in STREAMS:
            continue

        @settings(
            max_examples=16, derandomize=True, database=None, deadline=None,
            suppress_health_check=list(HealthCheck), phases=[Phase.generate],
        )  # fmt: skip
        @given(case=operation.as_strategy())
        def ask(case: Any) -> None:
            nonlocal asked
            asked += 1
            if asked % 2 and case.path_parameters and case.method != "DELETE":
                known = {"job": job, "room": "living"}
                case.path_parameters.update({k: v for k, v in known.items() if k in case.path_parameters})
            response = case.call(base_url="http://localhost")
            case.validate_response(response, checks=checks)

        ask()
    assert asked > 250
    assert client.get(f"/api/jobs/{job}").status_code == 200
