"""The published tables of drapery, read for tests."""

from __future__ import annotations

import csv
from pathlib import Path

from halfdrop.practice import load_practice

IN, CM, YARD = 0.0254, 0.01, 0.9144
UNIT = {"in": IN, "cm": CM}
US = load_practice("us")
METRIC = load_practice("metric")


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of `tests/published/drapery_<name>.csv`; its first line names the source."""
    path = Path(__file__).parents[1] / "published" / f"drapery_{name}.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# source:")
    return list(csv.DictReader(lines[1:]))
