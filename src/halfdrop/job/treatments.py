"""What hangs at the openings, and the cloth it is made of: the treatments' part of the document, version 1.

Left and right are those of a person in the room who faces the wall. Heights are above the finished floor. One
treatment at several openings (a bay, a corner, a pair of windows on a wall) reads as one: one run of hardware.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.altered import Altered
from halfdrop.job.colors import Colors
from halfdrop.job.fields import (
    AnyLength,
    ClothWeightField,
    LengthField,
    MassField,
    MoneyField,
    SizeField,
)
from halfdrop.job.part import Id, Name, Part, Text

FabricKind = Literal["sheer", "light", "medium", "heavy", "velvet", "blackout", "lining", "interlining"]
Heading = Literal[
    "pencil", "single pinch", "double pinch", "triple pinch", "goblet", "cartridge", "box",
    "eyelet", "tab", "rod pocket", "wave", "flat",
]  # fmt: skip
Draw = Literal["pair", "left", "right", "fixed"]
Mount = Literal["inside", "outside", "ceiling"]
LengthStyle = Literal["clear", "kiss", "break", "puddle", "apron", "sill"]

#: Three readings of one measure that differ by more than this are misread [m]; our choice, no source.
MISREAD = 0.15

# ---------------------------------------------------------------- cloth


class Bolt(Part):
    """Bolts of one length that can be had; bolts of one `lot` are one dyeing. Without a lot, one is ordered for all."""

    length: SizeField
    lot: Name | None = None
    count: Annotated[int, Field(ge=1, le=200)] | None = None


class Fabric(Part):
    """A cloth of the job: `width` is what can be used of it, selvages off; `price` is for one sale unit.

    `repeat` runs up the cloth, `repeat_across` over its width: where widths are joined they give whole ones of it.
    """

    name: Name
    kind: FabricKind = "medium"
    width: SizeField
    repeat: SizeField | None = None
    repeat_across: SizeField | None = None
    match: Literal["straight", "half-drop"] | None = None
    motif: Literal["hem", "heading"] = "hem"
    nap: bool = False
    railroad: bool = False
    weight: ClothWeightField | None = None
    price: MoneyField | None = None
    sale: Literal["yard", "meter", "bolt"] = "yard"
    step: SizeField | None = None
    bolts: dict[Id, Bolt] = {}
    colors: Colors | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _agrees(self) -> Fabric:
        if self.match is not None and self.repeat is None:
            raise PydanticCustomError("fabric", "a {m} match needs `repeat`, up and down", {"m": self.match})
        if self.nap and self.railroad:
            raise PydanticCustomError(
                "fabric", "a cloth with a nap is not turned on its side; leave out `nap` or `railroad`", {}
            )
        if self.sale == "bolt" and not self.bolts:
            raise PydanticCustomError(
                "fabric", "a cloth sold by the bolt needs `bolts` with their length", {}
            )
        return self


# ---------------------------------------------------------------- hardware and make


class Hardware(Part):
    """What the treatment hangs from.

    `height`: floor to its top. `left`, `right`: past the opening's edges, without finials. `projection`: wall to its
    center line. `drop`: its top down to the top of the cloth; negative where the heading stands above it. `capacity`:
    the load its maker allows on one bracket. `arrives`: it is bought, though what hangs from it may stay.
    """

    kind: Literal["rod", "pole", "track", "board"] = "rod"
    height: SizeField | None = None
    left: AnyLength | None = None
    right: AnyLength | None = None
    diameter: SizeField | None = None
    projection: SizeField | None = None
    returns: LengthField | None = None
    overlap: LengthField | None = None
    finial: LengthField | None = None
    drop: AnyLength | None = None
    brackets: Annotated[int, Field(ge=2, le=40)] | None = None
    capacity: MassField | None = None
    arrives: bool = False
    price: MoneyField | None = None


class Lining(Part):
    """What backs the cloth."""

    kind: Literal["lined", "blackout", "interlined"] = "lined"
    fabric: Id | None = None
    interlining: Id | None = None


class Hems(Part):
    """Allowances that differ from practice: whole cloth taken by the bottom hem, the heading, one side hem."""

    bottom: LengthField | None = None
    heading: LengthField | None = None
    side: LengthField | None = None


class AcrossThree(Part):
    """One measure taken at three points across the opening."""

    left: LengthField
    center: LengthField
    right: LengthField


class UpThree(Part):
    """One measure taken at three heights of the opening."""

    top: SizeField
    middle: SizeField
    bottom: SizeField


class Measured(Part):
    """What was taped at the opening: from one level line down to the floor and up to the head; the clear width inside."""

    floor: AcrossThree | None = None
    head: AcrossThree | None = None
    width: UpThree | None = None
    depth: SizeField | None = None

    @model_validator(mode="after")
    def _read_right(self) -> Measured:
        for key in ("floor", "head", "width"):
            taped = getattr(self, key)
            values = [] if taped is None else [getattr(taped, name) for name in type(taped).model_fields]
            if values and max(values) - min(values) > MISREAD:
                raise PydanticCustomError(
                    "measured",
                    "`{key}` is {low} to {high}; no opening is that far out of true: read the tape again",
                    {"key": key, "low": min(values).text, "high": max(values).text},
                )
        return self


class Ties(Part):
    """Tie-backs in the treatment's own cloth."""

    count: Annotated[int, Field(ge=1, le=24)] = 2
    length: SizeField
    width: SizeField


class Valance(Part):
    """A valance over the treatment in the same cloth: how deep, how full."""

    depth: SizeField
    fullness: Annotated[float, Field(ge=1, le=5)] | None = None


class Cushion(Part):
    """Cushions that are alike, in a cloth of the job."""

    fabric: Id
    name: Name | None = None
    width: SizeField
    height: SizeField
    count: Annotated[int, Field(ge=1, le=60)] = 1
    note: Text | None = None


# ---------------------------------------------------------------- the treatment


class Treatment(Part):
    """What hangs at an opening, or at several that read as one.

    `fullness` is a ratio: flat width over finished width. `drop` is the finished length of what hangs there now, at its
    longest. `side`: one fixed panel hangs at that end of the rod, not two. `behind` names the treatment this one hangs
    behind, as sheers do. As found: `cord`, how far its cord or loop
    hangs free; `off_match`, how far the pattern fails to meet where two panels meet; `motif`, from the floor to one motif.
    """

    kind: Literal["panels", "roman", "roller"] = "panels"
    name: Name | None = None
    openings: Annotated[list[Id], Field(min_length=1, max_length=12)]
    mount: Mount = "outside"
    heading: Heading | None = None
    draw: Draw = "pair"
    side: Literal["left", "right"] | None = None
    fullness: Annotated[float, Field(ge=1, le=5)] | None = None
    widths: Annotated[float, Field(gt=0, le=200)] | None = None
    length: LengthStyle = "clear"
    drop: SizeField | None = None
    panel: SizeField | None = None
    fabric: Id | None = None
    lining: Lining | None = None
    hems: Hems = Hems()
    hardware: Hardware = Hardware()
    measured: Measured = Measured()
    control: Literal["none", "wand", "fixed loop", "free loop", "cord", "motor"] = "none"
    cord: LengthField | None = None
    off_match: LengthField | None = None
    motif: LengthField | None = None
    behind: Id | None = None
    ties: Ties | None = None
    valance: Valance | None = None
    altered: Altered | None = None
    keep: bool = False
    arrives: bool = False
    price: MoneyField | None = None
    note: Text | None = None

    @field_validator("openings", mode="before")
    @classmethod
    def _names(cls, value: Any) -> Any:
        """Accept `bay-1 bay-2` as well as a list."""
        return value.split() if isinstance(value, str) else value

    @model_validator(mode="after")
    def _fits_kind(self) -> Treatment:
        if len(set(self.openings)) != len(self.openings):
            twice = next(i for i in self.openings if self.openings.count(i) > 1)
            raise PydanticCustomError("treatment", "opening {i} is named twice", {"i": twice})
        if self.kind == "panels" and self.heading is None:
            raise PydanticCustomError(
                "treatment", "panels need their `heading`: pencil, double pinch, eyelet …", {}
            )
        if self.kind != "panels":
            for key in ("heading", "fullness", "widths", "side", "panel", "ties"):
                if getattr(self, key) is not None:
                    raise PydanticCustomError(
                        "treatment", "a {kind} shade has no `{key}`", {"kind": self.kind, "key": key}
                    )
        if self.kind == "panels" and self.draw == "fixed" and self.control != "none":
            raise PydanticCustomError(
                "treatment", "fixed panels have no `control`; they stay where they hang", {}
            )
        if self.cord is not None and self.control not in ("fixed loop", "free loop", "cord"):
            raise PydanticCustomError(
                "treatment",
                "`cord` says how far a cord or loop hangs; `control` is {control}, which has none",
                {"control": self.control},
            )
        if self.off_match is not None and (self.kind != "panels" or self.count == 1):
            raise PydanticCustomError(
                "treatment", "`off_match` is where two panels meet; this treatment has one", {}
            )
        if self.altered is not None and (self.kind != "panels" or self.arrives):
            raise PydanticCustomError(
                "treatment", "`altered` is for panels that hang already, not for what is made anew", {}
            )
        if self.kind != "panels" and self.length == "puddle":
            raise PydanticCustomError("treatment", "a {kind} shade does not puddle", {"kind": self.kind})
        return self

    @model_validator(mode="after")
    def _fits_place(self) -> Treatment:
        if self.mount == "inside":
            for key in ("left", "right", "finial", "returns"):
                if getattr(self.hardware, key):
                    raise PydanticCustomError(
                        "treatment",
                        "inside the opening the hardware runs from jamb to jamb; leave out `{key}`, or mount it outside",
                        {"key": key},
                    )
        if self.side is not None and self.draw != "fixed":
            raise PydanticCustomError(
                "treatment",
                "`side` is where one fixed panel hangs; this treatment draws (`draw: fixed` does not)",
                {},
            )
        if self.panel is not None and self.draw != "fixed":
            raise PydanticCustomError(
                "treatment",
                "`panel` is the width of one fixed panel; this treatment draws (`draw: fixed` does not)",
                {},
            )
        if self.kind == "roller" and self.lining is not None:
            raise PydanticCustomError("treatment", "a roller shade has no `lining`", {})
        return self

    @property
    def count(self) -> int:
        """How many panels hang: one that draws one way or stays at a `side`, else two."""
        return 1 if self.draw in ("left", "right") or self.side is not None else 2

    def cloths(self) -> Iterator[tuple[str, str]]:
        """Give each cloth it is made of, with the key that names it."""
        if self.fabric is not None:
            yield "fabric", self.fabric
        if self.lining is not None and self.lining.fabric is not None:
            yield "lining/fabric", self.lining.fabric
        if self.lining is not None and self.lining.interlining is not None:
            yield "lining/interlining", self.lining.interlining
        if self.altered is not None and self.altered.fabric is not None:
            yield "altered/fabric", self.altered.fabric
