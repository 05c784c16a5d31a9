"""Lengths, areas, angles and money as people type them, exact inside. (Interface; being filled in.)"""

from __future__ import annotations

from decimal import Decimal
from typing import Self


class Quantity(float):
    """A number in SI that remembers the text a person typed."""

    text: str

    def __new__(cls, value: float, text: str | None = None) -> Self:
        self = super().__new__(cls, value)
        self.text = text if text is not None else cls.print(value)
        return self

    @classmethod
    def parse(cls, text: str) -> Self:
        raise NotImplementedError

    @classmethod
    def print(cls, value: float) -> str:
        raise NotImplementedError


class Length(Quantity):
    """[m]"""


class Angle(Quantity):
    """[rad]"""


class Area(Quantity):
    """[m²]"""


class Mass(Quantity):
    """[kg]"""


class Money:
    amount: Decimal
    currency: str
    text: str
