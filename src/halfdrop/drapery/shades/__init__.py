"""Roller and flat roman shades: what is ordered, what is cut."""

from halfdrop.drapery.shades.inside import InsideWidth, inside_width
from halfdrop.drapery.shades.roller import RollerAnswer, roller_inside, roller_outside
from halfdrop.drapery.shades.roman import RomanAnswer, roman_cut, roman_flat

__all__ = [
    "InsideWidth",
    "RollerAnswer",
    "RomanAnswer",
    "inside_width",
    "roller_inside",
    "roller_outside",
    "roman_cut",
    "roman_flat",
]
