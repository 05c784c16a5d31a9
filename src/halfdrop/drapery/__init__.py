"""The drapery trade: fullness and widths, cuts and repeats, stack-back, rods, lengths, headings, shades, cloth on bolts."""

from halfdrop.drapery.alter import altered_strips, flat_of
from halfdrop.drapery.as_hung import AsHung, HungPanel, as_hung, floors_of
from halfdrop.drapery.bolts import BoltKind, BoltPlan, BoltRules, Cut, LaidBolt, LaidCut, plan_bolts
from halfdrop.drapery.brackets import BracketsAnswer, brackets_for
from halfdrop.drapery.cloth import Cloth, cloth_of
from halfdrop.drapery.cut_length import Allowances, CutLength, allowances, cut_length
from halfdrop.drapery.fullness import fullness_for, fullness_key
from halfdrop.drapery.hang import ends_of, hang
from halfdrop.drapery.hung import Hung, Place
from halfdrop.drapery.lengths import LengthsAnswer, PanelLength, drop_at, finished_lengths
from halfdrop.drapery.lining import LiningAnswer, lining_for
from halfdrop.drapery.made import is_made
from halfdrop.drapery.place import place_of, span_of
from halfdrop.drapery.price import price_of_units, units_of
from halfdrop.drapery.rod import RodAnswer, rod_for
from halfdrop.drapery.rod_height import RodHeight, one_line, rod_height
from halfdrop.drapery.rods import RodToBuy, rod_of, rod_price, rods_to_buy
from halfdrop.drapery.run import Run, run_of
from halfdrop.drapery.shade import Shade, shade_of
from halfdrop.drapery.takeoff import ClothTakeoff, Line, cloth_takeoff
from halfdrop.drapery.weight import Layer, WeightAnswer, weigh

__all__ = [
    "Allowances",
    "AsHung",
    "BoltKind",
    "BoltPlan",
    "BoltRules",
    "BracketsAnswer",
    "Cloth",
    "ClothTakeoff",
    "Cut",
    "CutLength",
    "Hung",
    "HungPanel",
    "LaidBolt",
    "LaidCut",
    "Layer",
    "LengthsAnswer",
    "Line",
    "LiningAnswer",
    "PanelLength",
    "Place",
    "RodAnswer",
    "RodHeight",
    "RodToBuy",
    "Run",
    "Shade",
    "WeightAnswer",
    "allowances",
    "altered_strips",
    "as_hung",
    "brackets_for",
    "cloth_of",
    "cloth_takeoff",
    "cut_length",
    "drop_at",
    "ends_of",
    "finished_lengths",
    "flat_of",
    "floors_of",
    "fullness_for",
    "fullness_key",
    "hang",
    "is_made",
    "lining_for",
    "one_line",
    "place_of",
    "plan_bolts",
    "price_of_units",
    "rod_for",
    "rod_height",
    "rod_of",
    "rod_price",
    "rods_to_buy",
    "run_of",
    "shade_of",
    "span_of",
    "units_of",
    "weigh",
]
