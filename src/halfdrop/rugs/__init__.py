"""The rug trade: made sizes, the rug that seats, a table, a bed, a room or a hall wants, layers, pads."""

from halfdrop.rugs.answer import RugAnswer
from halfdrop.rugs.bed import wanted_bed
from halfdrop.rugs.border import wanted_border
from halfdrop.rugs.box import Box, lay
from halfdrop.rugs.dining import wanted_dining, wanted_round_table
from halfdrop.rugs.layer import LayerAnswer, layer_base
from halfdrop.rugs.pad import PadAnswer, pad_for
from halfdrop.rugs.runner import wanted_runner
from halfdrop.rugs.seating import SeatFront, wanted_seating
from halfdrop.rugs.sizes import Laid, MadeSize, cover, made_sizes, next_size_down, next_size_up

__all__ = [
    "Box",
    "Laid",
    "LayerAnswer",
    "MadeSize",
    "PadAnswer",
    "RugAnswer",
    "SeatFront",
    "cover",
    "lay",
    "layer_base",
    "made_sizes",
    "next_size_down",
    "next_size_up",
    "pad_for",
    "wanted_bed",
    "wanted_border",
    "wanted_dining",
    "wanted_round_table",
    "wanted_runner",
    "wanted_seating",
]
