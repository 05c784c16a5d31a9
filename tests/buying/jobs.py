"""A small invented job, and schemes on it."""

from __future__ import annotations

from typing import Any

from halfdrop.buying.lines import ShoppingList
from halfdrop.buying.shopping import shopping_list
from halfdrop.job.model import Job
from halfdrop.job.scheme import with_scheme
from halfdrop.practice import load_practice


def room(name: str, **things: Any) -> dict[str, Any]:
    """Return a rectangular room of 16 by 13 ft with these things in it."""
    return {
        "name": name,
        "use": {"living": True},
        "survey": {
            "corners": "A B C D",
            "walls": {"AB": "16'", "BC": "13'", "CD": "16'", "DA": "13'"},
            "square": {"A": True, "B": True, "C": True, "D": True},
        },
        **things,
    }


def document() -> dict[str, Any]:
    """Return a job of two rooms, with a stock list and a budget."""
    return {
        "halfdrop": 1,
        "job": {"name": "Two rooms", "units": "imperial", "currency": "USD", "budget": "$3,000"},
        "stock": {
            "wool": {
                "kind": "rug",
                "name": "Wool",
                "width": "9'",
                "length": "12'",
                "fiber": "wool",
                "price": "$1,200",
            },
            "jute": {
                "kind": "rug",
                "name": "Jute",
                "width": "9'",
                "length": "12'",
                "fiber": "jute",
                "price": "$500",
            },
            "felt": {
                "kind": "pad",
                "name": "Felt",
                "thickness": "1/4 in",
                "price": "$2",
                "per_area": "1 sq ft",
            },
            "straps": {"kind": "anchor", "name": "Two straps", "price": "$18"},
        },
        "rooms": {
            "living": room(
                "Living room",
                pieces={
                    "sofa": {
                        "type": "sofa",
                        "width": "84 in",
                        "depth": "36 in",
                        "height": "32 in",
                        "at": {"wall": "AB", "along": "54 in", "off": "0"},
                        "keep": True,
                        "price": "$2,000",
                    },
                    "bookcase": {
                        "type": "bookcase",
                        "width": "36 in",
                        "depth": "12 in",
                        "height": "80 in",
                        "at": {"wall": "CD", "along": "12 in", "off": "0"},
                    },
                },
                rugs={
                    "rug": {
                        "width": "8'",
                        "length": "10'",
                        "at": {"x": "8'", "y": "6'"},
                        "fiber": "wool",
                        "price": "$700",
                        "pad": {"thickness": "1/4 in", "price": "$60"},
                    }
                },
            ),
            "study": room("Study"),
        },
        "schemes": {},
    }


def step(title: str, *ops: dict[str, Any], finding: str | None = None) -> dict[str, Any]:
    """Return a step of a scheme."""
    made: dict[str, Any] = {"title": title, "patch": list(ops)}
    return made if finding is None else {**made, "finding": finding}


def put(path: str, value: Any, op: str = "replace") -> dict[str, Any]:
    """Return one operation."""
    return {"op": op, "path": path, "value": value}


def listed(
    *steps: dict[str, Any], job: dict[str, Any] | None = None, only: str | None = None
) -> ShoppingList:
    """Return the shopping list of a scheme of these steps."""
    doc = document() if job is None else job
    doc["schemes"]["s"] = {"name": "S", "steps": list(steps)}
    found = Job.model_validate(doc)
    proposed = Job.model_validate(with_scheme(doc, "s"))
    return shopping_list(found, proposed, load_practice("us"), found.schemes["s"].steps, only=only)
