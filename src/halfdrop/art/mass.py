"""Mass of a work from its size: sheet of glass, frame and backing; or all in, where the build is not known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from halfdrop.base.errors import InputError, did_you_mean
from halfdrop.base.formats import format_mass
from halfdrop.base.working import Working
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

Glazing = Literal["none", "glass", "acrylic", "mirror"]
_SHEETS: dict[str, tuple[str, str]] = {
    "glass": ("art.glass_density", "art.glass_thick"),
    "acrylic": ("art.acrylic_density", "art.acrylic_thick"),
    "mirror": ("art.glass_density", "art.mirror_thick"),
}
WOOD, BACKING = "art.wood_density", "art.backing_per_area"
LOW, HIGH = "art.framed_low", "art.framed_high"


@dataclass(frozen=True)
class MassAnswer:
    """What a work weighs.

    Attributes
    ----------
    mass : float
        As taken for its fixings [kg].
    least : float
        What it weighs at the least [kg].
    working : Working
        The steps.
    """

    mass: float
    least: float
    working: Working


def sheet_per_area(material: str, practice: Practice, thick: float | None = None) -> float:
    """Return the mass of a sheet [kg/m²]: density × thickness.

    Parameters
    ----------
    material : str
        "glass", "acrylic" or "mirror".
    practice : Practice
        Its density, and its thickness where none is given.
    thick : float, optional
        Thickness [m].

    Raises
    ------
    InputError
        For another material.

    Source: densities, from memory. Checked by: tests/art/test_fixings.py, tests/published/art_mass.csv.
    """
    if material not in _SHEETS:
        raise InputError(f"no sheet is called `{material}`", hint=did_you_mean(material, _SHEETS))
    density, thickness = _SHEETS[material]
    return practice.number(density) * (float(practice.length(thickness)) if thick is None else thick)


def framed_all_in(width: float, height: float, practice: Practice) -> MassAnswer:
    """Return what a framed, glazed print weighs by its size alone; the most of practice is taken.

    Parameters
    ----------
    width, height : float
        Of the frame [m].
    practice : Practice
        `art.framed_low`, `art.framed_high`.

    Source: common practice, from memory. Checked by: tests/art/test_fixings.py, tests/published/art_mass.csv.
    """
    say = Words(practice)
    area = width * height
    least, most = practice.number(LOW) * area, practice.number(HIGH) * area
    working = Working("Mass by size alone")
    working.step("mass", "width × height × least to most of a framed print",
                 f"{area:.3f} m² × {practice.number(LOW):g} to {practice.number(HIGH):g} kg/m²",
                 f"{format_mass(least, say.units)} to {format_mass(most, say.units, round_to='up')}; the most is taken",
                 rounding="up, so that the fixing holds", source=say.cited(LOW, HIGH))  # fmt: skip
    return MassAnswer(most, least, working)


def built_up(
    width: float,
    height: float,
    practice: Practice,
    *,
    glazing: str = "glass",
    moulding: tuple[float, float] = (0.03, 0.02),
    thick: float | None = None,
) -> MassAnswer:
    """Return what a work weighs from its parts: sheet, frame of wood, mat and backing.

    Parameters
    ----------
    width, height : float
        Outer size of the frame [m].
    practice : Practice
        Densities and thicknesses of `art`.
    glazing : str
        "none", "glass", "acrylic" or "mirror".
    moulding : (float, float)
        Width and depth of the frame's molding [m]; it is taken as solid, the rabbet too.
    thick : float, optional
        Thickness of the sheet [m]; of practice without it.

    Raises
    ------
    InputError
        For another glazing, or a molding wider than half the frame.

    Source: volumes and densities. Checked by: tests/art/test_fixings.py.
    """
    if glazing not in get_args(Glazing):
        raise InputError(f"no glazing is called `{glazing}`", hint=did_you_mean(glazing, get_args(Glazing)))
    face, deep = moulding
    if min(face, deep) < 0 or 2 * face > min(width, height):
        raise InputError(
            f"a molding {face * 1000:g} mm wide does not go round a frame {width * 1000:g} × {height * 1000:g} mm"
        )
    say = Words(practice)
    area = width * height
    inner = (width - 2 * face) * (height - 2 * face)
    working = Working("Mass from its parts")
    frame = (area - inner) * deep * practice.number(WOOD)
    working.step("frame", "(whole − inside the molding) × depth × density of wood",
                 f"({area:.3f} m² − {inner:.3f} m²) × {deep * 1000:g} mm × {practice.number(WOOD):g} kg/m³",
                 format_mass(frame, say.units), source=say.cited(WOOD))  # fmt: skip
    sheet = 0.0
    if glazing != "none":
        per_area = sheet_per_area(glazing, practice, thick)
        sheet = per_area * area
        working.step(glazing, "width × height × mass of a square, under the molding too",
                     f"{area:.3f} m² × {per_area:.2f} kg/m²", format_mass(sheet, say.units),
                     source=say.cited(*_SHEETS[glazing]))  # fmt: skip
    backing = practice.number(BACKING) * area
    working.step("mat and backing", "width × height × mass of a square",
                 f"{area:.3f} m² × {practice.number(BACKING):g} kg/m²", format_mass(backing, say.units),
                 source=say.cited(BACKING))  # fmt: skip
    total = frame + sheet + backing
    working.step(
        "mass",
        "sum",
        "",
        format_mass(total, say.units, round_to="up"),
        rounding="up, so that the fixing holds",
    )
    return MassAnswer(total, total, working)
