"""How a trade prints the numbers of a working: in inches or centimeters, never in feet and inches."""

from __future__ import annotations

from halfdrop.base.formats import Units, format_area, format_length
from halfdrop.base.volume import format_spread, format_volume
from halfdrop.practice.practice import Practice
from halfdrop.practice.value import PracticeValue


class Words:
    """The printer of one working: `say(1.524)` is `60 in` or `152.4 cm`.

    Parameters
    ----------
    practice : Practice
        Told in its units: the job's, which need not be those of its set.
    """

    def __init__(self, practice: Practice) -> None:
        self.practice = practice
        self.units: Units = practice.units

    def __call__(self, x: float) -> str:
        """Print one length [m]."""
        if self.units == "metric":
            return format_length(x, "metric", unit="cm")
        return format_length(x, "imperial", feet=False)

    def pair(self, across: float, along: float) -> str:
        """Print two lengths [m] as `120 in × 86 in`."""
        return f"{self(across)} × {self(along)}"

    def area(self, x: float, digits: int = 1) -> str:
        """Print an area [m²]."""
        return format_area(x, self.units, digits=digits)

    def volume(self, x: float) -> str:
        """Print a volume [m³] as `1.73 gal` or `7.64 L`."""
        return format_volume(x, self.units)

    def spread(self, x: float) -> str:
        """Print how far paint goes [m²/m³]."""
        return format_spread(x, self.units)

    def cited(self, *keys: str) -> str:
        """Return the keys, values and sources that a step of a working rests on."""
        return "; ".join(self._cited(self.practice[key]) for key in keys)

    def _cited(self, value: PracticeValue) -> str:
        """Cite one value; a list of made sizes by its name alone."""
        text = "" if value.kind in ("sizes", "lengths") else f" {value.text}"
        return f"{value.key}{text} ({value.origin}): {value.source}"
