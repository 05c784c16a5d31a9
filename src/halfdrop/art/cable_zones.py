"""Hooks and hidden cables: straight up, down and across from outlets and switches nobody drills unlooked."""

from __future__ import annotations

from collections.abc import Sequence

from halfdrop.art.rect import Rect
from halfdrop.art.setting_out import HookPoint
from halfdrop.base.tolerance import SAME
from halfdrop.practice import Practice
from halfdrop.practice.words import Words

ZONE = "art.cable_zone"


def in_cable_zone(x: float, y: float, plate: Rect, practice: Practice) -> bool:
    """Return whether a point is in the upright or the level zone of an outlet or a switch.

    Parameters
    ----------
    x, y : float
        On the wall [m].
    plate : Rect
        The cover plate [m].
    practice : Practice
        `art.cable_zone`.

    Source: BS 7671 zones, from memory; US practice: above and below boxes. Checked by: tests/art/test_fixings.py.
    """
    by = float(practice.length(ZONE)) - SAME
    across = plate.x0 - by < x < plate.x1 + by
    up = plate.y0 - by < y < plate.y1 + by
    return across or up


def zone_notes(
    points: Sequence[HookPoint], plates: Sequence[tuple[str, Rect]], practice: Practice
) -> tuple[str, ...]:
    """Say which hooks lie in whose zone.

    Parameters
    ----------
    points : sequence of HookPoint
        The hooks.
    plates : sequence of (str, Rect)
        Outlets, switches and whatever else is wired, each with its name.
    practice : Practice
        `art.cable_zone`.
    """
    say = Words(practice)
    return tuple(
        f"The hook of `{point.name}` is in the zone of the {name}, within {say(practice.length(ZONE))} of its line up, "
        "down or across: a cable may run there. Look with a detector first."
        for point in points
        for name, plate in plates
        if in_cable_zone(point.x, point.y, plate, practice)
    )
