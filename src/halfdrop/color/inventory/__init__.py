"""The room's color inventory: how much is seen of each surface and thing, and which swatches it wears.

`surfaces` and `shapes` take the areas off the model; `parts` says what wears which swatch; `inventory` measures the whole.
"""

from halfdrop.color.inventory.inventory import Inventory, SwatchShare, inventory_of
from halfdrop.color.inventory.part import Cover, Part
from halfdrop.color.inventory.parts import parts_of

__all__ = ["Cover", "Inventory", "Part", "SwatchShare", "inventory_of", "parts_of"]
