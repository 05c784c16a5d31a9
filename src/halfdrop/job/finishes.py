"""Finishes of the document: papers and paints at job level, and which of them covers what in a room."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.colors import Colors
from halfdrop.job.fields import LengthField, MoneyField, SizeField, SpreadField, VolumeField
from halfdrop.job.part import Corner, Id, Name, Pair, Part, Text

Match = Literal["free", "straight", "half-drop", "reverse-hung"]
RollKind = Literal["EN 233", "US 20.5 in", "US 27 in"]
Substrate = Literal["painted", "patched", "glossy", "new drywall", "new plaster", "bare wood"]
ColorChange = Literal["same", "near", "strong"]
TrimPart = Literal["baseboard", "casings", "doors", "crown"]


class Batch(Part):
    """Rolls of one paper that are at hand or held by the dealer under one batch number."""

    number: Name
    rolls: Annotated[int, Field(ge=0, le=500)]


class Paper(Part):
    """A wallpaper as its label reads: the roll as sold, the vertical repeat, the match.

    `roll` names a made roll whose width and length practice knows; `width` and `length` given here win over it.
    A half-drop paper drops half its repeat from strip to strip (a label of 64/32 cm).
    """

    name: Name
    roll: RollKind | None = None
    width: SizeField | None = None
    length: SizeField | None = None
    repeat: SizeField | None = None
    match: Match = "free"
    batches: dict[Id, Batch] = {}
    colors: Colors | None = None
    price: MoneyField | None = None
    sold_in: Annotated[int, Field(ge=1, le=12)] = 1
    note: Text | None = None

    @model_validator(mode="after")
    def _whole(self) -> Paper:
        if self.roll is None and (self.width is None or self.length is None):
            raise PydanticCustomError(
                "paper",
                "a paper needs the width and length of its roll, or `roll`: EN 233, US 20.5 in or US 27 in",
                {},
            )
        if self.match in ("straight", "half-drop") and self.repeat is None:
            raise PydanticCustomError("paper", "a {match} match needs its `repeat`", {"match": self.match})
        if self.match == "free" and self.repeat is not None:
            raise PydanticCustomError(
                "paper", "a paper with a `repeat` needs its `match`: straight, half-drop or reverse-hung", {}
            )
        return self


class Can(Part):
    """A can of paint: what it holds, what it costs."""

    size: VolumeField
    price: MoneyField | None = None


class Paint(Part):
    """A paint or primer as its can reads; practice stands in for the spread and the sizes that are not given.

    `color` is what the can says; `swatch` is that color among the job's swatches.
    """

    name: Name
    color: Name | None = None
    swatch: Id | None = None
    sheen: Literal["flat", "matte", "eggshell", "satin", "semi-gloss", "gloss"] | None = None
    primer: bool = False
    spread: SpreadField | None = None
    cans: dict[Id, Can] = {}
    note: Text | None = None


class Finish(Part):
    """What covers walls, ceiling or trim of a room: a paper or a paint, and how.

    Walls: `walls` names them (all where left out), `bottom` and `top` bound the band above the floor that is covered.
    Paper: `focal` is the wall it is centered on, `center` where on it (from the wall's first-named corner), `set_out`
    a strip or a seam there, `mismatch` the corner where the pattern may fail to meet.
    """

    on: Literal["walls", "ceiling", "trim"]
    paper: Id | None = None
    paint: Id | None = None
    walls: Annotated[list[Pair], Field(min_length=1, max_length=80)] | None = None
    bottom: LengthField | None = None
    top: SizeField | None = None
    # paper
    focal: Pair | None = None
    center: LengthField | None = None
    set_out: Literal["strip", "seam"] | None = None
    mismatch: Corner | None = None
    # paint
    primer: Id | None = None
    coats: Annotated[int, Field(ge=1, le=6)] | None = None
    change: ColorChange = "near"
    substrate: Substrate = "painted"
    textured: bool = False
    parts: dict[TrimPart, bool] = {}
    note: Text | None = None

    @model_validator(mode="after")
    def _one(self) -> Finish:
        if (self.paper is None) == (self.paint is None):
            raise PydanticCustomError("finish", "a finish is either a `paper` or a `paint`", {})
        if self.paper is not None and self.on != "walls":
            raise PydanticCustomError(
                "finish", "paper is counted on walls only; {on} takes a paint", {"on": self.on}
            )
        only = {
            "walls": ("walls", "bottom", "top"),
            "trim": ("parts",),
            "paper": ("focal", "center", "set_out", "mismatch"),
            "paint": ("primer", "coats"),
        }
        here = {self.on, "paper" if self.paper is not None else "paint"}
        for what, keys in only.items():
            for key in keys:
                if what not in here and getattr(self, key) not in (None, {}):
                    raise PydanticCustomError(
                        "finish",
                        "`{key}` belongs to {what}, which this finish is not",
                        {"key": key, "what": what},
                    )
        if self.center is not None and self.focal is None:
            raise PydanticCustomError("finish", "`center` needs `focal`, the wall it is measured on", {})
        if self.bottom is not None and self.top is not None and self.top <= self.bottom:
            raise PydanticCustomError(
                "finish",
                "`top` is {top}, at or below `bottom`, which is {bottom}",
                {"top": self.top.text, "bottom": self.bottom.text},
            )
        return self

    def pairs(self) -> list[tuple[str, str]]:
        """Return every wall it names, each with where it stands in the finish."""
        named = [(f"walls/{n}", pair) for n, pair in enumerate(self.walls or ())]
        return [*named, *([("focal", self.focal)] if self.focal else [])]
