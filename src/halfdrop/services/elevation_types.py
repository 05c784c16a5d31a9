"""What can be hung at a window: treatments with honest defaults; what is left out practice works out."""

from __future__ import annotations

from typing import Any

#: Name, and the document to begin from; hardware, lengths and fullness are left to practice.
_TREATMENTS: tuple[tuple[str, dict[str, Any]], ...] = (
    ("pair of curtains, double pinch pleats", {"heading": "double pinch", "hardware": {"kind": "pole"}}),
    ("pair of curtains, pencil pleats", {"heading": "pencil", "hardware": {"kind": "track"}}),
    ("pair of curtains, goblet pleats", {"heading": "goblet", "hardware": {"kind": "pole"}}),
    ("pair of curtains, waves on a track", {"heading": "wave", "hardware": {"kind": "track"}}),
    ("pair of curtains, eyelets", {"heading": "eyelet", "hardware": {"kind": "rod"}}),
    ("pair of curtains, rod pocket", {"heading": "rod pocket", "hardware": {"kind": "rod"}}),
    (
        "one curtain, drawn to the left",
        {"heading": "double pinch", "draw": "left", "hardware": {"kind": "pole"}},
    ),
    (
        "one curtain, drawn to the right",
        {"heading": "double pinch", "draw": "right", "hardware": {"kind": "pole"}},
    ),
    ("side panels that stay", {"heading": "double pinch", "draw": "fixed", "hardware": {"kind": "pole"}}),
    ("roman shade, inside", {"kind": "roman", "mount": "inside"}),
    ("roman shade, on the wall", {"kind": "roman", "mount": "outside"}),
    ("roller shade, inside", {"kind": "roller", "mount": "inside"}),
)


def treatment_types() -> list[dict[str, Any]]:
    """Return what a page offers to hang at an opening, each with the document to begin from."""
    return [
        {"type": name, "source": "common practice, no source", "document": {**document, "arrives": True}}
        for name, document in _TREATMENTS
    ]
