"""Walking the schema along a path of the document: which keys a part knows, where a union branches."""

from __future__ import annotations

import types
import typing
from typing import Annotated, Any, Union

from pydantic import BaseModel

from halfdrop.job.model import Job


def members(kind: Any) -> list[Any]:
    """Return what a type may be: the members of a union but None, else the type alone."""
    while typing.get_origin(kind) is Annotated:
        kind = typing.get_args(kind)[0]
    if typing.get_origin(kind) in (Union, types.UnionType):
        return [member for member in typing.get_args(kind) if member is not type(None)]
    return [kind]


def branches(kind: Any) -> bool:
    """Return whether a value of this type may be several things."""
    return len(members(kind)) > 1


def keys_of(kind: Any) -> list[str]:
    """Return the keys of a part as they are written; none where it has no fixed keys."""
    models = [m for m in members(kind) if isinstance(m, type) and issubclass(m, BaseModel)]
    return list({field.alias or name: None for model in models for name, field in model.model_fields.items()})


def below(kind: Any, key: str | int) -> Any:
    """Return the type under a key of a part, under any key of a map, or of an item of a list; else None."""
    for member in members(kind):
        if isinstance(member, type) and issubclass(member, BaseModel):
            for name, field in member.model_fields.items():
                if key in (name, field.alias):
                    return field.annotation
        elif typing.get_origin(member) is dict:
            return typing.get_args(member)[1]
        elif typing.get_origin(member) is list:
            return typing.get_args(member)[0]
    return None


def branch(kind: Any, tag: str) -> Any:
    """Return the member of a union that the validator calls `tag`, else None."""
    return next((m for m in members(kind) if getattr(m, "__name__", "") == tag), None)


def kind_at(path: tuple[str | int, ...]) -> Any:
    """Return the type at a path of the document, else None."""
    kind: Any = Job
    for key in path:
        kind = below(kind, key)
    return kind
