"""One made-up job with papers, paints and finishes, as a person types it."""

from __future__ import annotations

from typing import Any

from halfdrop.job.model import Job


def document(**finishes: Any) -> dict[str, Any]:
    """A room of 4 by 3 m, 2.5 m high, with a door in DA, a window in BC and a hearth on AB; `finishes` as given."""
    return {
        "halfdrop": 1,
        "job": {"name": "Paper and paint", "units": "metric", "currency": "EUR"},
        "practice": {"set": "metric"},
        "papers": {
            "fern": {"name": "Fern", "roll": "EN 233", "repeat": "64 cm", "match": "half-drop", "price": "€80"},
            "stripe": {"name": "Stripe", "width": "52 cm", "length": "10 m", "price": "€45"},
        },
        "paints": {
            "white": {
                "name": "White", "spread": "11 m²/L",
                "cans": {"small": {"size": "1 L", "price": "€22"}, "large": {"size": "5 L", "price": "€80"}},
            },
        },
        "rooms": {
            "snug": {
                "name": "Snug",
                "use": {"living": True},
                "survey": {
                    "corners": "A B C D",
                    "walls": {"AB": "4 m", "BC": "3 m", "CD": "4 m", "DA": "3 m"},
                    "ties": {"AC": "5 m", "BD": "5 m"},
                    "heights": {"A": "2.5 m", "B": "2.5 m", "C": "2.5 m"},
                },
                "openings": {
                    "door": {
                        "kind": "door", "wall": "DA", "along": "0.4 m", "width": "0.8 m", "height": "2 m",
                        "leaf": "hinged", "hinge": "D", "opens": "in",
                    },
                    "window": {
                        "kind": "window", "wall": "BC", "along": "0.6 m", "width": "1.8 m", "height": "1.2 m", "sill": "0.9 m",
                    },
                },
                "fittings": {"hearth": {"kind": "hearth", "wall": "BA", "along": "0.9 m", "width": "1.2 m"}},
                "wishes": {"focal": "fittings/hearth"},
                "finishes": finishes,
            }
        },
    }  # fmt: skip


def job(**finishes: Any) -> Job:
    """The same, validated."""
    return Job.model_validate(document(**finishes))
