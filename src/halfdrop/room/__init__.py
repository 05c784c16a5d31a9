"""The resolved room: outline, openings, fittings, pieces, rugs and art as shapes on the plan, with their uncertainty."""

from halfdrop.room.resolved import ResolvedRoom, resolve_room
from halfdrop.room.things import (
    FixedFitting,
    HungArt,
    HungTreatment,
    LyingRug,
    StandingPiece,
    Thing,
    WallOpening,
)
from halfdrop.room.walls import Anchor, Wall, sigma_between, wall_anchor

__all__ = [
    "Anchor",
    "FixedFitting",
    "HungArt",
    "HungTreatment",
    "LyingRug",
    "ResolvedRoom",
    "StandingPiece",
    "Thing",
    "Wall",
    "WallOpening",
    "resolve_room",
    "sigma_between",
    "wall_anchor",
]
