"""How truly a lamp shows colors, and how warm it is."""

from __future__ import annotations

from dataclasses import dataclass

from halfdrop.color.light import Light
from halfdrop.color.science import aligned


@dataclass(frozen=True)
class Rendering:
    """What is said of a lamp's color.

    Attributes
    ----------
    ra, r9 : float
        General color rendering index, and that of strong red (may be below 0).
    rf : float
        Color fidelity index over 99 samples, 0 to 100.
    kelvin : float
        Correlated color temperature [K].
    duv : float
        Distance above (+, greenish) or below (−, pinkish) the black-body line, in u v of 1960.
    """

    ra: float
    r9: float
    rf: float
    kelvin: float
    duv: float


def rendering(lamp: Light) -> Rendering:
    """Return how truly a lamp shows colors.

    Source: CIE 13.3-1995 (Ra, R9), CIE 224:2017 (Rf), Ohno (2013), LEUKOS 10 (temperature and Duv), by way of colour-science.

    Checked by: tests/color/test_rendering.py (tests/published/color_illuminants.csv).
    """
    with aligned() as package:
        spectrum = package.SpectralDistribution(dict(zip(lamp.wavelengths, lamp.power, strict=True)))
        index = package.colour_rendering_index(spectrum, additional_data=True)
        fidelity = float(package.colour_fidelity_index(spectrum))
        uv = package.UCS_to_uv(package.XYZ_to_UCS(lamp.white / 100.0))
        kelvin, duv = package.temperature.uv_to_CCT_Ohno2013(uv)
    return Rendering(
        float(index.Q_a), float(index.Q_as[9].Q_a), min(fidelity, 100.0), float(kelvin), float(duv)
    )
