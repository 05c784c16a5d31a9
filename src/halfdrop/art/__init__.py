"""The art trade: heights, widths, groups, wire and hooks, fixings, mass, and the two numbers of each hook."""

from halfdrop.art.above_piece import Below, hang_above
from halfdrop.art.cable_zones import in_cable_zone, zone_notes
from halfdrop.art.cautions import hanging_cautions
from halfdrop.art.cluster import Candidate, cluster
from halfdrop.art.eye_height import eye_span, hang_at_eye
from halfdrop.art.fixings import Fixing, FixingAnswer, fixings_for, working_load
from halfdrop.art.grid import grid
from halfdrop.art.group import Group, Hung, facing_gaps, weight_center
from halfdrop.art.height import HangHeight
from halfdrop.art.hook_count import hooks_wanted, spacing_wanted
from halfdrop.art.mass import MassAnswer, built_up, framed_all_in, sheet_per_area
from halfdrop.art.place_clear import place_clear, shortest_move
from halfdrop.art.rect import Rect
from halfdrop.art.rings import two_rings
from halfdrop.art.row import row
from halfdrop.art.setting_out import HookPoint, TwoNumbers, hook_points, two_numbers
from halfdrop.art.stack import stack
from halfdrop.art.tall_work import hang_tall, is_tall
from halfdrop.art.width_share import WidthShare, width_share
from halfdrop.art.wire import Hang, length_for, tension_of
from halfdrop.art.wire_one_hook import one_hook
from halfdrop.art.wire_taut import taut_wire
from halfdrop.art.wire_two_hooks import two_hooks
from halfdrop.art.work import Work

__all__ = [
    "Below", "Candidate", "Fixing", "FixingAnswer", "Group", "Hang", "HangHeight", "HookPoint", "Hung",
    "MassAnswer", "Rect", "TwoNumbers", "WidthShare", "Work", "built_up", "cluster", "eye_span", "facing_gaps",
    "fixings_for", "framed_all_in", "grid", "hang_above", "hang_at_eye", "hang_tall", "hanging_cautions",
    "hook_points", "hooks_wanted", "in_cable_zone", "is_tall", "length_for", "one_hook", "place_clear", "row",
    "sheet_per_area", "shortest_move", "spacing_wanted", "stack", "taut_wire", "tension_of", "two_hooks",
    "two_numbers", "two_rings", "weight_center", "width_share", "working_load", "zone_notes",
]  # fmt: skip
