"""The page's own files: what is vendored is what it says it is, and nothing in them is what the policy forbids."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from halfdrop.web.pages import STATIC

VENDORS = [STATIC / "vendor", Path(__file__).parents[1] / "vendor"]
ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("folder", VENDORS, ids=["page", "tests"])
def test_vendored_files_match_their_manifest(folder: Path) -> None:
    """Each file has the hash written down for it, none is missing, none is there that is not written down."""
    manifest = json.loads((folder / "manifest.json").read_text("utf-8"))
    known = {name: digest for package in manifest.values() for name, digest in package["files"].items()}
    found = {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for name in manifest
        for path in (folder / name).rglob("*")
        if path.is_file()
    }
    assert found == known
    assert all(package["version"] and package["licence"] for package in manifest.values())


def test_the_page_carries_no_inline_style_or_handler() -> None:
    """The policy forbids them: no `style=` and no `on…=` in any markup, of the page or of its templates."""
    ours = [p for p in STATIC.rglob("*") if p.suffix in (".html", ".js") and "vendor" not in p.parts]
    for path in ours:
        text = path.read_text("utf-8")
        assert not re.search(r"<[a-z][^>]*\sstyle=", text), path
        assert not re.search(r"<[a-z][^>]*\son[a-z]+=", text), path


def test_every_view_in_its_folder_is_on_the_list() -> None:
    """A folder of `views` is a sheet in the drawer, and every sheet has a folder."""
    listed = set(
        re.findall(r'from "\./([a-z-]+)/view\.js"', (STATIC / "views" / "index.js").read_text("utf-8"))
    )
    assert listed == {p.parent.name for p in STATIC.glob("views/*/view.js")}


def test_modules_are_short() -> None:
    """No module of the page is longer than 300 lines."""
    for path in STATIC.rglob("*.js"):
        if "vendor" not in path.parts:
            assert len(path.read_text("utf-8").splitlines()) <= 300, path


def test_types_of_the_page_hold() -> None:
    """The JSDoc types are checked strictly; in CI only, since a user needs no Node."""
    own = ROOT / "tools" / "page" / "node_modules" / ".bin" / "tsc"
    tsc = str(own) if own.exists() else shutil.which("tsc")
    if tsc is None:
        if os.environ.get("CI") == "true":
            pytest.fail("the TypeScript compiler is missing: tools/setup_tests.sh installs it in CI")
        pytest.skip("TYPES OF THE PAGE NOT CHECKED: tsc is not installed (CI=true tools/setup_tests.sh)")
    done = subprocess.run(
        [tsc, "-p", str(ROOT / "tools" / "page" / "tsconfig.json")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout


def test_what_the_page_needs_without_its_server_is_served(client: TestClient) -> None:
    """Every address the service worker keeps answers, the page's own modules are all among them, and it is asked for anew each time."""
    answer = client.get("/sw.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert answer.headers["cache-control"] == "no-cache"
    shell = json.loads(answer.text.split("self.SHELL = ", 1)[1].split(";\n", 1)[0])
    for address in shell["files"]:
        assert client.get(address).status_code == 200, address
    modules = {f"/{p.relative_to(STATIC).as_posix()}" for p in STATIC.rglob("*.js")} - {"/sw.js"}
    assert modules <= set(shell["files"])
