"""Numbers out of the published tables."""

from __future__ import annotations

from tests.walls.published import rows

__all__ = ["numbers", "rows"]


def numbers(row: dict[str, str], *names: str) -> list[float]:
    """Return some cells of a row as numbers."""
    return [float(row[name]) for name in names]
