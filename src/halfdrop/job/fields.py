"""Field types of the document: text as typed outside, SI values inside."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from halfdrop.base.cloth import ClothWeight
from halfdrop.base.errors import InputError
from halfdrop.base.units import Angle, Area, Length, Mass, Money
from halfdrop.base.volume import Spread, Volume


class _Typed:
    """Pydantic glue for a type with `parse(text)` and `.text`."""

    def __init__(
        self, kind: type, what: str, examples: tuple[str, ...], low: float | None, *, above: bool = False
    ) -> None:
        self.kind = kind
        self.what = what
        self.examples = examples
        self.low = low
        self.above = above
        self.parse: Callable[[str], Any] = lru_cache(maxsize=65536)(kind.parse)  # type: ignore[attr-defined]

    def validate(self, value: Any) -> Any:
        if not isinstance(value, self.kind):
            if isinstance(value, bool) or not isinstance(value, str | int | float):
                raise PydanticCustomError(
                    "quantity",
                    "{what} is written as text, such as {example}; this is {got}",
                    {"what": self.what, "example": self.examples[0], "got": type(value).__name__},
                )
            try:
                value = self.parse(value if isinstance(value, str) else repr(value))
            except InputError as error:
                raise PydanticCustomError(
                    "quantity", "{message}", {"message": error.message, "hint": error.hint or ""}
                ) from None
        number = float(value.amount) if isinstance(value, Money) else float(value)
        if self.low is not None and (number < self.low or (self.above and number == self.low)):
            bound = "more than 0" if self.above else "0 or more"
            raise PydanticCustomError(
                "quantity",
                "{what} is {text}; allowed is {bound}",
                {"what": self.what, "text": value.text, "bound": bound},
            )
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self.validate,
            serialization=core_schema.plain_serializer_function_ser_schema(
                lambda v: v.text, when_used="always"
            ),
        )

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {
            "type": "string",
            "description": f"{self.what}, as typed",
            "examples": list(self.examples),
        }


_LENGTHS = ("12' 6 1/2\"", "150.5 in", "3.81 m", "381 cm")

#: Any length [m], negative ones too (a floor that falls away).
AnyLength = Annotated[Length, _Typed(Length, "a length", _LENGTHS, None)]
#: A length of 0 or more [m].
LengthField = Annotated[Length, _Typed(Length, "a length", _LENGTHS, 0.0)]
#: A length of more than 0 [m].
SizeField = Annotated[Length, _Typed(Length, "a length", _LENGTHS, 0.0, above=True)]
AngleField = Annotated[Angle, _Typed(Angle, "an angle", ("90°", "89° 30'"), None)]
AreaField = Annotated[Area, _Typed(Area, "an area", ("12 sq ft", "1.1 m²"), 0.0)]
MassField = Annotated[Mass, _Typed(Mass, "a weight", ("12 lb", "5.5 kg"), 0.0)]
VolumeField = Annotated[Volume, _Typed(Volume, "a volume", ("1 gal", "2.5 L"), 0.0, above=True)]
SpreadField = Annotated[Spread, _Typed(Spread, "a spread", ("400 sq ft/gal", "11 m²/L"), 0.0, above=True)]
ClothWeightField = Annotated[
    ClothWeight, _Typed(ClothWeight, "a cloth weight", ("320 g/m²", "9.4 oz/sq yd"), 0.0, above=True)
]
MoneyField = Annotated[Money, _Typed(Money, "a price", ("$1,250", "420 EUR"), 0.0)]
