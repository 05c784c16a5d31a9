"""Which values lie below which: a house that lifts a floor past its target is told, not obeyed."""

from __future__ import annotations

from halfdrop.base.errors import At, InputError
from halfdrop.practice.practice import Practice

#: The first is never more than the second.
PAIRS: tuple[tuple[str, str], ...] = (
    ("rugs.front_legs_floor", "rugs.front_legs_depth"),
    ("rugs.dining_extension_floor", "rugs.dining_extension_target"),
    ("rugs.bed_side_floor", "rugs.bed_side_target"),
    ("rugs.bed_foot_floor", "rugs.bed_foot_target"),
    ("rugs.bed_headboard_start", "rugs.bed_headboard_start_most"),
    ("rugs.bare_floor_small_room", "rugs.bare_floor_min"),
    ("rugs.bare_floor_min", "rugs.bare_floor_target"),
    ("rugs.bare_floor_target", "rugs.bare_floor_large_room"),
    ("rugs.small_room_area", "rugs.large_room_area"),
    ("rugs.pad_thin", "rugs.pad_thickness"),
    ("rugs.layer_share_min", "rugs.layer_share_max"),
    ("rugs.layer_margin_min", "rugs.layer_margin_max"),
    ("rugs.round_table_extra_floor", "rugs.round_table_extra_target"),
    ("seating.person_gap_min", "seating.person_gap_max"),
    ("seating.person_gap_min_northern_europe", "seating.person_gap_max_northern_europe"),
    ("seating.person_gap_min_mediterranean", "seating.person_gap_max_mediterranean"),
    ("seating.facing_min", "seating.facing_max"),
    ("seating.coffee_gap_min", "seating.coffee_gap_target_low"),
    ("seating.coffee_gap_target_low", "seating.coffee_gap_target_high"),
    ("seating.coffee_gap_target_high", "seating.coffee_gap_max"),
    ("seating.coffee_length_low", "seating.coffee_length_high"),
    ("seating.screen_angle_min", "seating.screen_angle_target"),
    ("seating.screen_angle_target", "seating.screen_angle_max"),
    ("seating.screen_factor_near", "seating.screen_factor_target"),
    ("seating.screen_factor_target", "seating.screen_factor_far"),
    ("circulation.secondary", "circulation.secondary_target"),
    ("circulation.main", "circulation.main_target"),
    ("circulation.secondary", "circulation.main"),
    ("dining.chair_occupied", "dining.chair_pulled"),
    ("dining.push_back", "dining.edge_past"),
    ("dining.edge_past", "dining.walk_past"),
    ("dining.seat_to_top_low", "dining.seat_to_top_high"),
    ("bedroom.side_least", "bedroom.side_used"),
    ("bedroom.side_used_floor", "bedroom.side_used"),
    ("scale.sofa_to_wall_small", "scale.sofa_to_wall_low"),
    ("scale.sofa_to_wall_low", "scale.sofa_to_wall_target"),
    ("scale.sofa_to_wall_target", "scale.sofa_to_wall_high"),
    ("scale.sofa_to_room_low", "scale.sofa_to_room_high"),
    ("scale.footprint_low", "scale.footprint_high"),
    ("walls.coats_same", "walls.coats"),
    ("walls.coats", "walls.coats_strong"),
    ("walls.can_small", "walls.can_medium"),
    ("walls.can_medium", "walls.can_large"),
    ("walls.spread_textured", "walls.spread_finish"),
    ("walls.yield_to_23", "walls.yield_to_18"),
    ("walls.yield_to_18", "walls.yield_to_12"),
    ("walls.yield_to_12", "walls.yield_to_6"),
    ("color.walls_dark_quiet", "color.walls_light_quiet"),
    ("color.walls_dark_balanced", "color.walls_light_balanced"),
    ("color.walls_dark_bold", "color.walls_light_bold"),
    ("drapery.rod_above_frame", "drapery.rod_above_frame_target"),
    ("drapery.extension_least", "drapery.extension_target"),
    ("drapery.bracket_spacing_wide", "drapery.bracket_spacing"),
    ("art.center_low", "art.center_high"),
    ("art.tall_bottom_low", "art.tall_bottom_high"),
    ("art.gap_sofa_low", "art.gap_sofa_aim"),
    ("art.gap_sofa_aim", "art.gap_sofa_high"),
    ("art.gap_sofa_high", "art.gap_most"),
    ("art.gap_console_low", "art.gap_console_aim"),
    ("art.gap_console_aim", "art.gap_console_high"),
    ("art.gap_console_high", "art.gap_most"),
    ("art.gap_mantel_low", "art.gap_mantel_aim"),
    ("art.gap_mantel_aim", "art.gap_mantel_high"),
    ("art.gap_mantel_high", "art.gap_most"),
    ("art.over_width_least", "art.over_width_low"),
    ("art.over_width_low", "art.over_width_high"),
    ("art.wall_width_low", "art.wall_width_high"),
    ("art.hangers_down_low", "art.hangers_down_high"),
    ("art.wire_angle_low", "art.wire_angle_high"),
    ("art.framed_low", "art.framed_high"),
)


def check_order(practice: Practice) -> None:
    """Raise where a value of the house stands on the wrong side of another.

    Raises
    ------
    InputError
        Naming both values; the hint names the one to set as well.
    """
    ours = set(practice.house_keys())
    for low, high in PAIRS:
        if not ours & {low, high}:
            continue
        a, b = practice[low], practice[high]
        if float(a.value) > float(b.value) + 1e-9:
            key, other = (low, high) if low in ours else (high, low)
            raise InputError(
                f"practice value `{low}` is {a.text}, more than `{high}`, which is {b.text}",
                at=At(path=f"practice/values/{key}"),
                hint=f"set `{other}` too, so that it stands on the right side of `{key}`",
            )
