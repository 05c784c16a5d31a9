"""Generated jobs to measure on: plain rooms filled with pieces on a loose grid, the same for the same numbers."""

from __future__ import annotations

import math
import random
from typing import Any

_KINDS = (
    ("sofa", 2.1, 0.95, 0.8),
    ("armchair", 0.85, 0.85, 0.85),
    ("coffee table", 1.2, 0.6, 0.4),
    ("side table", 0.45, 0.45, 0.6),
    ("bookcase", 0.9, 0.3, 1.2),
    ("dining table", 1.6, 0.9, 0.75),
    ("dining chair", 0.46, 0.53, 0.9),
    ("plant", 0.4, 0.4, 1.0),
)


def _mm(x: float) -> str:
    return f"{x * 1000:.1f} mm"


def room(pieces: int, seed: int = 1) -> dict[str, Any]:
    """Return a rectangular room with that many pieces, about 3 m² of floor for each, two doors and two windows."""
    rng = random.Random(seed)
    columns = max(2, math.ceil(math.sqrt(pieces * 1.3)))
    rows = math.ceil(pieces / columns)
    cell = 2.4
    w, d = columns * cell + 1.0, rows * cell + 1.0
    diagonal = math.hypot(w, d)
    standing = {}
    for i in range(pieces):
        kind, pw, pd, ph = _KINDS[i % len(_KINDS)]
        x = 0.5 + (i % columns + 0.5) * cell + rng.uniform(-0.05, 0.05)
        y = 0.5 + (i // columns + 0.5) * cell + rng.uniform(-0.05, 0.05)
        standing[f"p{i}"] = {
            "type": kind,
            "width": _mm(pw),
            "depth": _mm(pd),
            "height": _mm(ph),
            "at": {"x": _mm(x), "y": _mm(y)},
            "turn": f"{rng.choice((0, 90, 180, 270))}°",
            "anchored": True,
        }
    door = {"kind": "door", "along": "300 mm", "width": "900 mm", "height": "2.04 m", "leaf": "sliding"}
    window = {"kind": "window", "along": "1 m", "width": "1.2 m", "height": "1.4 m", "sill": "800 mm"}
    return {
        "name": f"Room of {pieces}",
        "use": {"living": True},
        "survey": {
            "corners": ["A", "B", "C", "D"],
            "walls": {"AB": _mm(w), "BC": _mm(d), "CD": _mm(w), "DA": _mm(d)},
            "ties": {"AC": _mm(diagonal), "BD": _mm(diagonal)},
            "heights": {"center": "2.6 m"},
        },
        "openings": {
            "d1": {**door, "wall": "AB"},
            "d2": {**door, "wall": "CD"},
            "w1": {**window, "wall": "BC"},
            "w2": {**window, "wall": "DA"},
        },
        "pieces": standing,
        "rugs": {
            "rug": {
                "width": "2.4 m",
                "length": "3 m",
                "at": {"x": _mm(w / 2), "y": _mm(d / 2)},
                "pile": "8 mm",
                "pad": {"thickness": "4 mm"},
            }
        },
    }


def job(rooms: int, pieces: int) -> dict[str, Any]:
    """Return a job of that many rooms with that many pieces each."""
    return {
        "halfdrop": 1,
        "job": {"name": "Measured", "units": "metric"},
        "practice": {"set": "metric"},
        "rooms": {f"r{i}": room(pieces, seed=i + 1) for i in range(rooms)},
    }
