"""A swatch: one color of paint, cloth, tile or picture, with what is known of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from halfdrop.base.errors import InputError
from halfdrop.base.money import Money
from halfdrop.color.arrays import Floats, one
from halfdrop.color.estimate import daylight_weights, estimate
from halfdrop.color.grid import on_grid
from halfdrop.color.lab import lab_of_xyz

How = Literal["measured", "estimated"]


@dataclass(frozen=True, eq=False)
class Swatch:
    """One color.

    Attributes
    ----------
    name, code : str
        As its maker or the house calls it.
    lab : (float, float, float)
        L* a* b*, D65, 2°.
    spectrum : array, shape (81,), optional
        Measured reflectance on the grid, 0 to 1.
    price : Money, optional
        Of one unit, whatever its maker sells.
    """

    name: str
    lab: tuple[float, float, float]
    code: str = ""
    spectrum: Floats | None = None
    price: Money | None = None

    @classmethod
    def of_spectrum(
        cls,
        name: str,
        wavelengths: Floats,
        reflectance: Floats,
        *,
        code: str = "",
        price: Money | None = None,
    ) -> Swatch:
        """Return a swatch of a measured reflectance, 0 to 1 (a little over for a fluorescent white: 1.2).

        Raises
        ------
        InputError
            Where it cannot be used as a reflectance.

        Checked by: tests/color/test_seen.py.
        """
        spectrum = on_grid(wavelengths, reflectance, f"spectrum of `{name}`")
        if spectrum.max() > 1.2:
            raise InputError(
                f"spectrum of `{name}` reaches {spectrum.max():g}; allowed is 1.2",
                hint="give reflectance as a fraction, 0 to 1, not in percent",
            )
        return cls(name, one(lab_of_xyz(spectrum @ daylight_weights()), "Lab"), code, spectrum, price)

    @property
    def how(self) -> How:
        """Whether its reflectance is measured, or has to be estimated from its coordinates."""
        return "estimated" if self.spectrum is None else "measured"

    def reflectance(self) -> Floats:
        """Return its reflectance on the grid, shape `(81,)`: as measured, else the smoothest with its coordinates."""
        return estimate(self.lab).reflectance if self.spectrum is None else self.spectrum
