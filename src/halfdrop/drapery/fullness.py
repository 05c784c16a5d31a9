"""Fullness: flat width over finished width, always as a ratio."""

from __future__ import annotations

from halfdrop.job.treatments import FabricKind, Heading
from halfdrop.practice import Practice


def fullness_key(heading: Heading, kind: FabricKind = "medium") -> str:
    """Return the practice key of the fullness that a heading wants; a sheer has its own, whatever its heading."""
    return "drapery.fullness_sheer" if kind == "sheer" else f"drapery.fullness_{heading.replace(' ', '_')}"


def fullness_for(heading: Heading, practice: Practice, kind: FabricKind = "medium") -> float:
    """Return the fullness that a heading in such a cloth wants, as a ratio.

    Source: common practice; each value's own. Checked by: tests/drapery/test_widths.py.
    """
    return practice.number(fullness_key(heading, kind))
