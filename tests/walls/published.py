"""Reading the published tables."""

from __future__ import annotations

import csv
from pathlib import Path

FOLDER = Path(__file__).parents[1] / "published"


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a table; its first line names the source."""
    lines = (FOLDER / name).read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:")
    return list(csv.DictReader(lines[1:]))
