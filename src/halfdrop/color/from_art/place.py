"""Where a color goes: a surface or piece of a room, how much of it is seen, and whether its color stays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Role = Literal["walls", "ceiling", "trim", "floor", "large", "medium", "small", "art"]
ROLES: tuple[Role, ...] = get_args(Role)
#: Roles that are no things.
SURFACES = frozenset({"walls", "ceiling", "trim", "floor"})
Style = Literal["quiet", "balanced", "bold"]
STYLES: tuple[Style, ...] = get_args(Style)
Lab = tuple[float, float, float]


@dataclass(frozen=True)
class Place:
    """A surface or piece that wears one color in a scheme.

    Attributes
    ----------
    key : str
        Its path in the document; equal for no two.
    what : str
        What a person calls it.
    area : float
        What is seen of it [m²], 0 or more.
    role : str
        "large" is what is bought for decades and wears a neutral; "medium" rugs, curtains, chairs; "small" what is cheap to
        change; "art" a work, which keeps its color.
    kept : tuple of (Lab, share)
        The colors it has and keeps; empty where a scheme may give it another.
    """

    key: str
    what: str
    area: float
    role: Role
    kept: tuple[tuple[Lab, float], ...] = ()
