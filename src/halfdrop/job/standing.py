"""What is in a room of the document: openings, fittings, pieces and rugs, and where they stand."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.colors import Colors
from halfdrop.job.fields import AngleField, AnyLength, LengthField, MassField, MoneyField, SizeField
from halfdrop.job.part import Corner, Id, Name, Pair, Part, Text, corners_of


class AtWall(Part):
    """Stands at a wall: from the wall's first-named corner to the near edge, and off the wall to the nearest side."""

    wall: Pair
    along: AnyLength
    off: LengthField


class AtPoint(Part):
    """Stands free: the center of the footprint, x along AB from A, y square to AB into the room."""

    x: AnyLength
    y: AnyLength


At = AtWall | AtPoint


class Opening(Part):
    """A door, window or cased opening in a wall."""

    kind: Literal["door", "window", "cased opening"]
    name: Name | None = None
    wall: Pair
    along: LengthField
    width: SizeField
    height: SizeField
    # doors and cased openings
    leaf: Literal["hinged", "double", "sliding", "pocket", "bifold"] | None = None
    hinge: Corner | None = None
    opens: Literal["in", "out"] | None = None
    clear: SizeField | None = None
    undercut: LengthField | None = None
    to: Id | None = None
    # windows
    sill: LengthField | None = None
    trim: LengthField | None = None
    faces: (
        Literal["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"] | None
    ) = None
    sash: Literal["fixed", "casement", "double-hung", "sliding", "awning", "tilt"] | None = None
    escape: bool = False
    clear_width: SizeField | None = None
    clear_height: SizeField | None = None

    @model_validator(mode="after")
    def _fits_kind(self) -> Opening:
        if self.kind == "window":
            if self.sill is None:
                raise PydanticCustomError("opening", "a window needs its sill height above the floor", {})
            for key in ("leaf", "hinge", "opens", "undercut", "to"):
                if getattr(self, key) is not None:
                    raise PydanticCustomError("opening", "a window has no `{key}`", {"key": key})
        if (
            self.kind == "door"
            and self.leaf in (None, "hinged")
            and (self.hinge is None or self.opens is None)
        ):
            raise PydanticCustomError(
                "opening",
                "a hinged door needs `hinge` (the corner its hinges are nearer to) and `opens` (in or out)",
                {},
            )
        if self.hinge is not None and self.hinge not in corners_of(self.wall):
            raise PydanticCustomError(
                "opening",
                "`hinge` is {hinge}; on wall {wall} it is one of its two corners",
                {"hinge": self.hinge, "wall": self.wall},
            )
        return self


class Fitting(Part):
    """What is fixed: at a wall, or standing free in the room (a column, a stair head)."""

    kind: Literal[
        "radiator", "heater", "hearth", "outlet", "switch", "thermostat", "sconce", "beam", "column",
        "closet", "counter", "sink", "bath", "shower", "toilet", "stair head", "smoke alarm", "register",
    ]  # fmt: skip
    name: Name | None = None
    wall: Pair | None = None
    along: LengthField | None = None
    at: AtPoint | None = None
    turn: AngleField | None = None
    width: SizeField
    depth: LengthField | None = None
    bottom: LengthField | None = None
    height: LengthField | None = None
    clearance: LengthField | None = None
    colors: Colors | None = None

    @model_validator(mode="after")
    def _one_place(self) -> Fitting:
        at_wall = self.wall is not None and self.along is not None
        if at_wall == (self.at is not None):
            raise PydanticCustomError(
                "fitting", "a fitting has either `wall` and `along`, or `at` (x and y), not both", {}
            )
        return self


PieceType = Literal[
    "sofa", "loveseat", "sectional", "armchair", "chaise", "recliner", "ottoman", "bench", "stool",
    "dining chair", "desk chair",
    "coffee table", "side table", "console", "dining table", "desk", "nightstand",
    "bed", "crib",
    "dresser", "chest", "wardrobe", "bookcase", "cabinet", "media unit", "sideboard",
    "screen", "piano", "floor lamp", "table lamp", "plant", "mirror", "other",
]  # fmt: skip


class Opens(Part):
    """How a piece of storage opens: drawers pull or doors swing into the room, this far in front of it."""

    kind: Literal["drawer", "door", "sliding door", "flap", "recline"]
    reach: LengthField


class Return(Part):
    """The short leg of an L-shaped sectional: on which hand (as seated), how long from the back, how wide."""

    hand: Literal["left", "right"]
    length: SizeField
    width: SizeField


class Packed(Part):
    """The size a piece travels in, where that is smaller than it stands (legs off, box, largest part)."""

    width: SizeField
    depth: SizeField
    height: SizeField


class Piece(Part):
    """A free-standing piece of furniture. Width is across the front, depth from front to back."""

    type: PieceType
    name: Name | None = None
    width: SizeField
    depth: SizeField
    height: SizeField
    shape: Literal["rectangle", "round", "oval"] = "rectangle"
    ret: Return | None = Field(default=None, alias="return")
    at: At
    turn: AngleField | None = None
    on: Id | None = None
    group: Id | None = None
    seats: Annotated[int, Field(ge=0, le=40)] | None = None
    seat_height: SizeField | None = None
    leg_setback: LengthField | None = None
    pillows: Annotated[int, Field(ge=0, le=4)] | None = None
    opens: Opens | None = None
    diagonal: SizeField | None = None
    center_height: SizeField | None = None
    anchored: bool | None = None
    weight: MassField | None = None
    packed: Packed | None = None
    colors: Colors | None = None
    pattern: Literal["plain", "patterned"] | None = None
    keep: bool = False
    arrives: bool = False
    price: MoneyField | None = None
    note: Text | None = None

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class Pad(Part):
    """The pad under a rug."""

    thickness: SizeField
    inset: LengthField | None = None
    price: MoneyField | None = None


class Rug(Part):
    """A rug. Width runs along x at turn 0, length along y; a round rug has its diameter for both."""

    name: Name | None = None
    shape: Literal["rectangle", "round", "oval"] = "rectangle"
    width: SizeField
    length: SizeField
    at: At
    turn: AngleField | None = None
    pile: LengthField | None = None
    fiber: Name | None = None
    pattern: Literal["plain", "patterned"] | None = None
    pad: Pad | None = None
    over: Id | None = None
    group: Id | None = None
    colors: Colors | None = None
    keep: bool = False
    arrives: bool = False
    price: MoneyField | None = None
    note: Text | None = None
