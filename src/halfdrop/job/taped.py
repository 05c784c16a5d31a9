"""The survey of a room in the document: the measures as taped."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from halfdrop.job.fields import AngleField, AnyLength, SizeField
from halfdrop.job.part import Corner, Pair, Part, Text, corners_of


class Measure(Part):
    """One taped length with its own standard error, where it differs from the tape's."""

    length: SizeField
    sigma: SizeField | None = None
    note: Text | None = None


class AngleMeasure(Part):
    """One measured interior angle with its own standard error."""

    angle: AngleField
    sigma: AngleField | None = None


class Tape(Part):
    """Standard errors of the measuring tools of one survey; practice values stand in for what is not given."""

    sigma: SizeField | None = None
    angle_sigma: AngleField | None = None
    square_sigma: AngleField | None = None


class Survey(Part):
    """The measures as taped. The adjusted outline is computed from them."""

    corners: Annotated[list[Corner], Field(min_length=3, max_length=80)]
    round: Literal["clockwise", "counterclockwise"] = "counterclockwise"
    tape: Tape = Tape()
    walls: dict[Pair, SizeField | Measure]
    ties: dict[Pair, SizeField | Measure] = Field(default_factory=dict)
    angles: dict[Corner, AngleField | AngleMeasure] = Field(default_factory=dict)
    square: dict[Corner, bool] = Field(default_factory=dict)
    heights: dict[str, SizeField] = Field(default_factory=dict)
    plumb: dict[Pair, AnyLength] = Field(default_factory=dict)
    level: dict[str, AnyLength] = Field(default_factory=dict)

    @field_validator("corners", mode="before")
    @classmethod
    def _letters(cls, value: Any) -> Any:
        """Accept `A B C D` as well as a list."""
        return value.split() if isinstance(value, str) else value

    @model_validator(mode="after")
    def _known(self) -> Survey:
        order = self.corners
        known = set(order)
        if len(known) != len(order):
            twice = next(c for c in order if order.count(c) > 1)
            raise PydanticCustomError("survey", "corner {c} is named twice", {"c": twice})
        sides = {frozenset(p) for p in zip(order, order[1:] + order[:1], strict=True)}
        for where, pairs in (("walls", self.walls), ("ties", self.ties), ("plumb", self.plumb)):
            for pair in pairs:
                ends = corners_of(pair)
                for end in ends:
                    if end not in known:
                        raise PydanticCustomError(
                            "survey",
                            "{where}/{pair} names corner {c}; the corners are {all}",
                            {"where": where, "pair": pair, "c": end, "all": " ".join(order)},
                        )
                if where != "ties" and frozenset(ends) not in sides:
                    raise PydanticCustomError(
                        "survey",
                        "{where}/{pair} is not a wall: {a} and {b} are not neighbors; put it under ties",
                        {"where": where, "pair": pair, "a": ends[0], "b": ends[1]},
                    )
        for where, corners in (("angles", self.angles), ("square", self.square)):
            for corner in corners:
                if corner not in known:
                    raise PydanticCustomError(
                        "survey",
                        "{where}/{c} is not a corner; the corners are {all}",
                        {"where": where, "c": corner, "all": " ".join(order)},
                    )
        return self
