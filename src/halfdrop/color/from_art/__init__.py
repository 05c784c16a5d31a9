"""Schemes that start from a picture: quiet, balanced and bold, each a color for every surface and piece of a room.

`tones` lifts from the art's colors what walls, large pieces and accents may wear; `offers` matches them to swatches at hand;
`program` gives each place one of them by CP-SAT; `score` measures what came out, as a room is measured; `schemes` makes three.
"""

from halfdrop.color.from_art.place import ROLES, STYLES, Place, Role, Style
from halfdrop.color.from_art.schemes import ColorScheme, color_schemes

__all__ = ["ROLES", "STYLES", "ColorScheme", "Place", "Role", "Style", "color_schemes"]
