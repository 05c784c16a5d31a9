"""The command line, called in this process, on a copy of the demo job."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from halfdrop.cli import run

DEMO = Path(__file__).parents[2] / "examples" / "quince.yaml"


class Answer:
    """What a command gave: exit code, stdout, stderr."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err

    @property
    def json(self) -> Any:
        """Stdout as the one JSON document it must be."""
        return json.loads(self.out)


Halfdrop = Callable[..., Answer]


@pytest.fixture
def halfdrop(capsys: pytest.CaptureFixture[str]) -> Halfdrop:
    """Call the command line."""

    def call(*args: str | Path) -> Answer:
        capsys.readouterr()
        code = run([str(a) for a in args])
        said = capsys.readouterr()
        return Answer(code, said.out, said.err)

    return call


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo job."""
    return Path(shutil.copy(DEMO, tmp_path / "quince.yaml"))
