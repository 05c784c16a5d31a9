"""Colors of the document: the job's own swatches, and which of them each surface and thing wears.

A thing's `colors` are shares of the job's swatches: `pewter`, or `{pewter: 70%, rust: 30%}`. What shares leave to 1 is not
recorded. `surfaces` are a room's as found; a finish covers them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    GetJsonSchemaHandler,
    StringConstraints,
    WithJsonSchema,
    model_validator,
)
from pydantic_core import CoreSchema, PydanticCustomError

from halfdrop.job.fields import MoneyField
from halfdrop.job.part import Id, Name, Part, Text

HexColor = Annotated[str, StringConstraints(pattern=r"^#[0-9a-fA-F]{6}$")]
Wavelength = Annotated[str, StringConstraints(pattern=r"^[3-8][0-9]{2}$")]
_OVER = 1.005


class Swatch(Part):
    """One color of the job: paint, cloth, tile, or one lifted from a picture.

    Its color is one of: `color`, a hex code in sRGB; `lab`, L* a* b* under `white`; `spectrum`, reflectance (a fraction) by
    wavelength [nm]. `price` is of one unit, whatever its maker sells.
    """

    name: Name
    code: Name | None = None
    collection: Name | None = None
    color: HexColor | None = None
    lab: Annotated[list[float], Field(min_length=3, max_length=3)] | None = None
    white: Literal["D65", "D50", "C", "A"] = "D65"
    spectrum: dict[Wavelength, Annotated[float, Field(ge=0.0, le=1.2)]] | None = None
    price: MoneyField | None = None
    note: Text | None = None

    @model_validator(mode="after")
    def _one(self) -> Swatch:
        given = [key for key in ("color", "lab", "spectrum") if getattr(self, key) is not None]
        if len(given) != 1:
            raise PydanticCustomError(
                "swatch",
                "a swatch has one of `color`, `lab` and `spectrum`; this one has {given}",
                {"given": " and ".join(given) or "none"},
            )
        if self.lab is not None:
            L, a, b = self.lab
            if not (0.0 <= L <= 100.0 and abs(a) <= 200.0 and abs(b) <= 200.0):
                raise PydanticCustomError(
                    "swatch",
                    "`lab` is {lab}; allowed is L* 0 to 100, a* and b* −200 to 200",
                    {"lab": f"{L:g}, {a:g}, {b:g}"},
                )
        elif self.white != "D65":
            raise PydanticCustomError("swatch", "`white` belongs to `lab`, which this swatch has not", {})
        return self


def _share(value: Any) -> float:
    """Read a share: 0.3, or `30%`."""
    number: float | None = None
    if isinstance(value, str):
        text = value.strip().replace(",", ".")
        try:
            number = float(text[:-1]) / 100.0 if text.endswith("%") else float(text)
        except ValueError:
            number = None
    elif isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value)
    if number is None or not 0.0 < number <= 1.0:
        raise PydanticCustomError(
            "quantity",
            "a share is {value}; allowed is above 0, to 1 or 100%",
            {"value": str(value)[:40], "hint": "write it like 0.3 or 30%"},
        )
    return number


def _one_or_shares(value: Any) -> Any:
    """Take a plain `pewter` for all of it."""
    return {value: 1.0} if isinstance(value, str) else value


def _whole(shares: dict[str, float]) -> dict[str, float]:
    total = sum(shares.values())
    if total > _OVER:
        raise PydanticCustomError(
            "colors", "the shares add to {total}; allowed is 1", {"total": f"{total:.2f}"}
        )
    return shares


Share = Annotated[
    float,
    BeforeValidator(_share),
    WithJsonSchema(
        {
            "description": "a share, as a fraction or in percent",
            "anyOf": [
                {"type": "number", "exclusiveMinimum": 0, "maximum": 1},
                {"type": "string", "examples": ["30%"]},
            ],
        }
    ),
]


class _OrName:
    """Says in the published schema that a plain name stands for all of it."""

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"anyOf": [handler(schema), {"type": "string", "pattern": r"^[a-z0-9][a-z0-9_-]{0,39}$"}]}


#: Swatches of the job with their shares; a plain name means all of it.
Colors = Annotated[
    dict[Id, Share],
    Field(min_length=1, max_length=24),
    AfterValidator(_whole),
    BeforeValidator(_one_or_shares),
    _OrName(),
]


#: What lights a room of an evening, by the names of `halfdrop.color.light`.
Lamps = Literal[
    "incandescent", "warm LED", "soft white LED", "neutral LED", "cool LED", "daylight LED", "warm LED with red",
    "warm three-chip LED", "warm violet LED", "cool white fluorescent", "warm white fluorescent",
    "triphosphor fluorescent", "warm triphosphor fluorescent",
]  # fmt: skip


class Surfaces(Part):
    """What the surfaces of a room wear as found; a finish covers its own."""

    walls: Colors | None = None
    ceiling: Colors | None = None
    trim: Colors | None = None
    floor: Colors | None = None

    def named(self) -> Iterator[tuple[str, Colors]]:
        """Give each surface whose colors are recorded."""
        for key in ("walls", "ceiling", "trim", "floor"):
            colors = getattr(self, key)
            if colors is not None:
                yield key, colors
