"""The wall trade: paper counted by strips and laid on rolls, paint by area, coats and cans."""

from halfdrop.walls.area_method import AreaMethodAnswer, area_method
from halfdrop.walls.cans import CansAnswer, CanSize, cheapest_cans
from halfdrop.walls.ceiling import ceiling_area
from halfdrop.walls.chain import Chain, chains_of
from halfdrop.walls.coats import CoatsAnswer, coats_for
from halfdrop.walls.cut_length import CutLength, half_drop_cut, straight_cut
from halfdrop.walls.cuts import Cut, cuts_of
from halfdrop.walls.faces import Face, Hole, chosen, faces_of
from halfdrop.walls.flat_deductions import flat_deductions
from halfdrop.walls.flat_trim import flat_trim
from halfdrop.walls.focal import focal_of
from halfdrop.walls.paint import UNNAMED, PaintAnswer, PaintRoom, paint_job, paint_room
from halfdrop.walls.paper import PaperAnswer, PaperRoom, batch_for, paper_job, paper_room, roll_of
from halfdrop.walls.rolls import Laid, RollPlan, plan_rolls
from halfdrop.walls.setting_out import Column, Mismatch, SettingOut, set_out
from halfdrop.walls.spread import paint_volume
from halfdrop.walls.strip_method import StripAnswer, strip_method, strips_round
from halfdrop.walls.trim_run import TrimAnswer, trim_run
from halfdrop.walls.wall_areas import AreaAnswer, WallArea, wall_areas

__all__ = [
    "UNNAMED",
    "AreaAnswer",
    "AreaMethodAnswer",
    "CanSize",
    "CansAnswer",
    "Chain",
    "CoatsAnswer",
    "Column",
    "Cut",
    "CutLength",
    "Face",
    "Hole",
    "Laid",
    "Mismatch",
    "PaintAnswer",
    "PaintRoom",
    "PaperAnswer",
    "PaperRoom",
    "RollPlan",
    "SettingOut",
    "StripAnswer",
    "TrimAnswer",
    "WallArea",
    "area_method",
    "batch_for",
    "ceiling_area",
    "chains_of",
    "cheapest_cans",
    "chosen",
    "coats_for",
    "cuts_of",
    "faces_of",
    "flat_deductions",
    "flat_trim",
    "focal_of",
    "half_drop_cut",
    "paint_job",
    "paint_room",
    "paint_volume",
    "paper_job",
    "paper_room",
    "plan_rolls",
    "roll_of",
    "set_out",
    "straight_cut",
    "strip_method",
    "strips_round",
    "trim_run",
    "wall_areas",
]
