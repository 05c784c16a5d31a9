"""Lights by name: CIE illuminants, daylight and black bodies by temperature, and typical lamps of a home."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np

from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.color.arrays import Floats
from halfdrop.color.grid import WAVELENGTHS, observer, on_grid
from halfdrop.color.science import science

#: Plain names → the CIE illuminant that stands for it, and what it is. Source of all spectra: CIE 15:2018.
NAMED = {
    "daylight": ("D65", "average daylight, 6500 K"),
    "north daylight": ("D75", "light of a north sky, 7500 K"),
    "noon daylight": ("D55", "sun and sky near noon, 5500 K"),
    "horizon daylight": ("D50", "low sun with sky, 5000 K; the light prints are judged under"),
    "incandescent": ("A", "tungsten filament, 2856 K"),
    "warm LED": ("LED-B1", "blue chip with phosphor, 2733 K"),
    "soft white LED": ("LED-B2", "blue chip with phosphor, 2998 K"),
    "neutral LED": ("LED-B3", "blue chip with phosphor, 4103 K"),
    "cool LED": ("LED-B4", "blue chip with phosphor, 5109 K"),
    "daylight LED": ("LED-B5", "blue chip with phosphor, 6598 K"),
    "warm LED with red": ("LED-BH1", "blue chip with phosphor and a red chip, 2851 K"),
    "warm three-chip LED": ("LED-RGB1", "red, green and blue chips, 2840 K"),
    "warm violet LED": ("LED-V1", "violet chip with phosphors, 2724 K: full spectrum"),
    "cool white fluorescent": ("FL2", "halophosphate tube, 4230 K"),
    "warm white fluorescent": ("FL4", "halophosphate tube, 2940 K"),
    "triphosphor fluorescent": ("FL11", "three narrow bands, 4000 K"),
    "warm triphosphor fluorescent": ("FL12", "three narrow bands, 3000 K: the compact lamps of the 1990s on"),
}
_CIE = (
    "A", "C", "D50", "D55", "D65", "D75", "E", *(f"FL{n}" for n in range(1, 13)),
    *(f"LED-{n}" for n in ("B1", "B2", "B3", "B4", "B5", "BH1", "RGB1", "V1", "V2")),
)  # fmt: skip


@dataclass(frozen=True, eq=False)
class Light:
    """A light by its spectrum.

    Attributes
    ----------
    name, what : str
        As asked for, and in words.
    wavelengths : array, shape (n,)
        [nm], as published.
    power : array, shape (n,)
        Relative spectral power.
    """

    name: str
    what: str
    wavelengths: Floats
    power: Floats

    @cached_property
    def weights(self) -> Floats:
        """Weights that turn a reflectance on the grid into XYZ, Y of a perfect white = 100, shape `(81, 3)`."""
        weighted = on_grid(self.wavelengths, self.power, f"light `{self.name}`")[:, None] * observer()
        scaled: Floats = weighted * (100.0 / weighted[:, 1].sum())
        return scaled

    @cached_property
    def white(self) -> Floats:
        """XYZ of a perfect white under it, Y = 100."""
        total: Floats = self.weights.sum(axis=0)
        return total


@cache
def light(name: str) -> Light:
    """Return a light by a plain name (`NAMED`) or its CIE name.

    Parameters
    ----------
    name : str
        "north daylight", "warm LED", "D65", "FL2", "LED-B1".

    Raises
    ------
    InputError
        Where no light has this name.

    Source: CIE 15:2018, by way of colour-science. Typical lamps, not the lamp in the room.

    Checked by: tests/color/test_light.py (tests/published/color_illuminants.csv).
    """
    cie, what = NAMED.get(name, (name, f"CIE illuminant {name}"))
    if cie not in _CIE:
        raise InputError(f"no light `{name}`", hint=did_you_mean(name, [*NAMED, *_CIE]))
    spectrum = science().SDS_ILLUMINANTS[cie]
    return Light(
        name, what, np.array(spectrum.wavelengths, dtype=float), np.array(spectrum.values, dtype=float)
    )


def daylight(kelvin: float) -> Light:
    """Return daylight of a correlated color temperature [K], 4000 to 25000.

    Raises
    ------
    InputError
        Where it is outside that range.

    Source: CIE 15:2018, 4.1.2 (D series), by way of colour-science.

    Checked by: tests/color/test_light.py.
    """
    _between(kelvin, 4000.0, 25000.0, "daylight")
    package = science()
    spectrum = package.sd_CIE_illuminant_D_series(package.temperature.CCT_to_xy_CIE_D(kelvin))
    return Light(f"daylight {kelvin:g} K", f"daylight of {kelvin:g} K",
                 np.array(spectrum.wavelengths, dtype=float), np.array(spectrum.values, dtype=float))  # fmt: skip


def black_body(kelvin: float) -> Light:
    """Return a glowing body of a temperature [K], 1000 to 25000: candle 1900, filament 2700, halogen 3000.

    Raises
    ------
    InputError
        Where it is outside that range.

    Source: Planck's law, c2 = 0.014388 m K (CIE 15:2018).

    Checked by: tests/color/test_light.py.
    """
    _between(kelvin, 1000.0, 25000.0, "a glowing body")
    meters = WAVELENGTHS * 1e-9
    power = 1.0 / (meters**5 * np.expm1(0.014388 / (meters * kelvin)))
    return Light(f"{kelvin:g} K", f"glowing body of {kelvin:g} K", WAVELENGTHS, power / power.max())


def lamp(name: str, wavelengths: Sequence[float], power: Sequence[float]) -> Light:
    """Return a lamp by its measured spectrum.

    Parameters
    ----------
    wavelengths : sequence of float
        [nm], rising, at least 420 to 680, steps of 20 or less.
    power : sequence of float
        Relative, 0 or more, not all 0.

    Raises
    ------
    InputError
        Where it cannot be used as a spectrum.

    Checked by: tests/color/test_light.py.
    """
    if not on_grid(wavelengths, power, f"lamp `{name}`").any():
        raise InputError(f"lamp `{name}` gives no light between 380 and 780 nm")
    return Light(name, "measured", np.array(wavelengths, dtype=float), np.array(power, dtype=float))


def _between(kelvin: float, low: float, high: float, what: str) -> None:
    if not low <= kelvin <= high:
        raise InputError(f"{what} of {kelvin:g} K is asked for; allowed is {low:g} to {high:g} K")
