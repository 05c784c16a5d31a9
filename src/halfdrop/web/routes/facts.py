"""What halfdrop knows: types to put in, rules with their stories, practice values with their sources; measures read."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query

from halfdrop import __version__
from halfdrop.audit.rule import all_rules
from halfdrop.practice import load_practice
from halfdrop.services.workbench_types import parsed, types

router = APIRouter(prefix="/api", tags=["facts"])

Units = Annotated[Literal["imperial", "metric"], Query()]


@router.get("/about")
def about() -> dict[str, Any]:
    """Return which halfdrop answers."""
    return {"name": "halfdrop", "version": __version__}


@router.get("/types")
def read_types(units: Units = "imperial") -> dict[str, Any]:
    """Return what can be put into a room, each with the document to begin from."""
    return types(units)


@router.get("/rules")
def rules() -> dict[str, Any]:
    """Return every rule with its story."""
    return {
        "rules": [
            {
                "id": r.id,
                "title": r.title,
                "grade": str(r.grade),
                "practice": list(r.practice),
                "story": r.story,
            }
            for r in all_rules()
        ]
    }


@router.get("/practice")
def practice(set: Annotated[Literal["us", "metric"], Query()] = "us") -> dict[str, Any]:
    """Return every practice value with its source and how sure it is."""
    return {"values": [value.to_json() for value in load_practice(set).values()]}


@router.get("/parse")
def parse(
    text: Annotated[str, Query(max_length=200)],
    kind: Annotated[Literal["length", "size", "angle", "money"], Query()] = "length",
    units: Units = "imperial",
) -> dict[str, Any]:
    """Read a measure as typed, in any notation; an error's hint says how to write it."""
    return parsed(kind, text, units)
