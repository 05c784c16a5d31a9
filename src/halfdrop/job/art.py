"""What hangs on the walls: the pictures, mirrors and objects of a room, version 1.

A work has its outer size, frame and all, and where it hangs now; one without `at` waits for its place. Left and right are
those of a person in the room who faces the wall. Heights are above the finished floor.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.colors import Colors
from halfdrop.job.fields import LengthField, MassField, MoneyField, SizeField
from halfdrop.job.part import Id, Name, Pair, Part, Text

ArtKind = Literal["painting", "print", "photograph", "work on paper", "textile", "mirror", "object"]
Glazing = Literal["glass", "acrylic", "none"]
FixingKind = Literal[
    "nail", "picture hook", "adhesive strip", "plug", "threaded anchor", "hollow-wall anchor", "toggle", "stud screw",
    "masonry plug", "cleat", "picture rail",
]  # fmt: skip
#: What light does harm to first.
ON_PAPER = frozenset({"print", "photograph", "work on paper", "textile"})


class OnWall(Part):
    """Where a work hangs: from the wall's first-named corner to the frame's near edge, and from the floor to its bottom."""

    wall: Pair
    along: LengthField
    bottom: LengthField


class Hangs(Part):
    """What is on the back of a work, as taped.

    `drop`: top of the frame down to the wire pulled up taut, or to where a sawtooth or a ring bears. `down`: hangers below
    the top; `apart`: from one to the other; `wire`: length of the wire between them. `hooks` and `spacing`: how many hooks
    in the wall and how far apart; practice decides where they are left out.
    """

    from_: Literal["wire", "rings", "sawtooth"] = Field(alias="from")
    drop: LengthField | None = None
    down: LengthField | None = None
    apart: SizeField | None = None
    wire: SizeField | None = None
    hooks: Annotated[int, Field(ge=1, le=2)] | None = None
    spacing: SizeField | None = None

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)

    @model_validator(mode="after")
    def _whole(self) -> Hangs:
        if self.wire is not None and (self.from_ != "wire" or self.down is None or self.apart is None):
            raise PydanticCustomError(
                "art", "a wire's length needs `from: wire`, and `down` and `apart` of its hangers", {}
            )
        if self.wire is not None and self.apart is not None and float(self.wire) < float(self.apart):
            raise PydanticCustomError(
                "art",
                "the wire is {wire} long and its hangers are {apart} apart; allowed is a wire at least as long",
                {"wire": self.wire.text, "apart": self.apart.text},
            )
        if self.from_ == "rings" and (self.down is None or self.apart is None):
            raise PydanticCustomError(
                "art", "two rings need `down` below the top and how far `apart` they are", {}
            )
        if self.from_ == "sawtooth" and self.drop is None:
            raise PydanticCustomError("art", "a sawtooth needs its `drop` below the top of the frame", {})
        return self


class Fixings(Part):
    """What a work hangs from in the wall, as found. `rated`: the load of one, and what that figure is."""

    kind: FixingKind
    count: Annotated[int, Field(ge=1, le=8)] = 1
    rated: MassField | None = None
    rating: Literal["printed", "working", "ultimate"] = "printed"


class Mat(Part):
    """The mat round a picture: how wide at the top and the sides, and below where that differs."""

    width: SizeField
    bottom: SizeField | None = None


class Art(Part):
    """A work that hangs, or waits to hang, on a wall of the room. Width and height are the outer ones, frame and all."""

    name: Name | None = None
    kind: ArtKind = "painting"
    width: SizeField
    height: SizeField
    depth: SizeField | None = None
    frame: LengthField | None = None
    mat: Mat | None = None
    glazing: Glazing | None = None
    mass: MassField | None = None
    at: OnWall | None = None
    hangs: Hangs | None = None
    fixings: Fixings | None = None
    group: Id | None = None
    above: Id | None = None
    reason: Text | None = None
    image: Annotated[str, StringConstraints(min_length=1, max_length=200)] | None = None
    colors: Colors | None = None
    keep: bool = False
    arrives: bool = False
    price: MoneyField | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _fits(self) -> Art:
        face = float(self.frame or 0.0)
        across = 2 * (face + (float(self.mat.width) if self.mat else 0.0))
        if across >= min(float(self.width), float(self.height)):
            raise PydanticCustomError(
                "art",
                "frame and mat leave no picture: the work is {width} by {height}",
                {"width": self.width.text, "height": self.height.text},
            )
        bounds = (("apart", self.width, "wide"), ("spacing", self.width, "wide"), ("drop", self.height, "high"),
                  ("down", self.height, "high"))  # fmt: skip
        for key, size, way in bounds:
            value = getattr(self.hangs, key, None)
            if value is not None and float(value) >= float(size):
                raise PydanticCustomError(
                    "art",
                    "hangs/{key} is {value}; the frame is {size} {way}",
                    {"key": key, "value": value.text, "size": size.text, "way": way},
                )
        return self

    @property
    def on_paper(self) -> bool:
        """Whether light does it harm sooner than paint."""
        return self.kind in ON_PAPER

    @property
    def glass(self) -> bool:
        """Whether there is glass in it; where the document does not say, a mirror has some and what is on paper too."""
        if self.glazing is not None:
            return self.glazing == "glass" or self.kind == "mirror"
        return self.kind == "mirror" or (self.on_paper and self.kind != "textile")
