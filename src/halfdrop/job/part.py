"""What every part of the document is made of: ids, names, corners, and a base that knows its keys."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import BaseModel, ConfigDict, StringConstraints

Id = Annotated[str, StringConstraints(pattern=r"^[a-z0-9][a-z0-9_-]{0,39}$")]
Corner = Annotated[str, StringConstraints(pattern=r"^[A-Z][0-9]{0,2}$")]
#: Two corners, the first being the one measured from: `AB`, `BA`, `A1B`.
Pair = Annotated[str, StringConstraints(pattern=r"^[A-Z][0-9]{0,2}[A-Z][0-9]{0,2}$")]
Text = Annotated[str, StringConstraints(max_length=4000)]
Name = Annotated[str, StringConstraints(min_length=1, max_length=120)]

_CORNER = re.compile(r"[A-Z][0-9]{0,2}")


def corners_of(pair: str) -> tuple[str, str]:
    """Split a pair such as `AB` or `A1B2` into its two corners."""
    first, second = _CORNER.findall(pair)
    return first, second


def corners_in(row: str) -> list[str]:
    """Return the corners that a row of them such as `DEFG` names, in its order; none where it is no such row."""
    found: list[str] = _CORNER.findall(row)
    return found if "".join(found) == row else []


class Part(BaseModel):
    """Base of every part: unknown keys are faults, values never change in place."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=False)
