"""The ways of a room against an independent answer: the floor eroded by half a way's width, walked from each door."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from halfdrop.audit.auditor import Auditor
from halfdrop.room import ResolvedRoom, WallOpening
from halfdrop.room.places import GRAZE, places_of
from halfdrop.room.way_floor import DOORWAY, way_floor
from halfdrop.room.ways import WIDTHS, ways_of

INCH = 0.0254
WAY = 24 * INCH
#: What the erosion's drawn arcs and both tolerances may differ by [m].
HAIR = 4e-3


def _room(seed: int) -> tuple[ResolvedRoom, Auditor]:
    """Return a room of 4 × 3.5 m with two doors, a window and pieces strewn about, turned anyhow."""
    rng = np.random.default_rng(seed)
    kinds = ("armchair", "bookcase", "plant", "coffee table", "other", "dresser")
    pieces = {}
    for i in range(int(rng.integers(2, 8))):
        w, d = rng.integers(30, 150, 2)
        pieces[f"p{i}"] = {
            "type": str(rng.choice(kinds)), "width": f"{w} cm", "depth": f"{d} cm", "height": "80 cm",
            "shape": str(rng.choice(("rectangle", "rectangle", "round"))),
            "at": {"x": f"{rng.integers(20, 380)} cm", "y": f"{rng.integers(20, 330)} cm"},
            "turn": f"{rng.choice((0, 90, 180, 270, int(rng.integers(0, 360))))}°",
        }  # fmt: skip
        if pieces[f"p{i}"]["shape"] == "round":
            pieces[f"p{i}"]["depth"] = pieces[f"p{i}"]["width"]
    door = {"kind": "door", "along": "40 cm", "width": "90 cm", "height": "2 m", "leaf": "sliding"}
    window = {
        "kind": "window",
        "wall": "BC",
        "along": "1 m",
        "width": "1 m",
        "height": "1 m",
        "sill": "90 cm",
    }
    room = {
        "name": "Room",
        "use": {"living": True},
        "survey": {
            "corners": "A B C D",
            "walls": {"AB": "4 m", "BC": "3.5 m", "CD": "4 m", "DA": "3.5 m"},
            "square": {"A": True, "B": True, "C": True, "D": True},
        },
        "openings": {"a": {**door, "wall": "AB"}, "c": {**door, "wall": "CD"}, "w": window},
        "pieces": pieces,
    }
    auditor = Auditor.of({"halfdrop": 1, "job": {"name": "Case"}, "rooms": {"r": room}})
    return auditor.case("r").room, auditor


def _walkable(room: ResolvedRoom, width: float) -> list[BaseGeometry]:
    """Return the parts in which a disk's center moves, doorways going on a long way out."""
    floor: BaseGeometry = room.outline
    for door in (o for o in room.openings.values() if o.is_way):
        u, out = door.wall.direction * door.clear / 2, -2.0 * door.wall.inward
        c = door.center + 1e-6 * door.wall.inward
        floor = floor.union(Polygon([c - u, c + u, c + u + out, c - u + out]))
    free = floor.difference(shapely.union_all([p.footprint for p in room.floor_pieces.values()]))
    return list(shapely.get_parts(free.buffer(-width / 2, quad_segs=64)))


def _comes(
    room: ResolvedRoom, door: WallOpening, zone: BaseGeometry, own: BaseGeometry, width: float
) -> bool:
    """Return whether a disk that comes in by a door touches the floor of a zone next to its thing."""
    things = shapely.union_all([p.footprint for p in room.floor_pieces.values()])
    parts = shapely.get_parts(zone.intersection(room.outline).difference(things))
    near = shapely.union_all([part for part in parts if part.distance(own) < 1e-6]).buffer(
        -GRAZE, join_style="mitre"
    )
    out = door.center - 1.0 * door.wall.inward
    start = shapely.points(out)
    reached = [part for part in _walkable(room, width) if part.distance(start) < 1e-3]
    # Who stands in the doorway has come; who reaches in from beyond it has not.
    inside = shapely.union_all(reached).intersection(room.outline.buffer(DOORWAY))
    return not inside.is_empty and not near.is_empty and inside.distance(near) <= width / 2 + 1e-4


def _crowded(room: ResolvedRoom, door: WallOpening) -> bool:
    """Return whether a piece stands in a doorway or so near that one comes to it while still in the doorway."""
    sill = shapely.linestrings([door.start, door.end])
    return door.is_way and any(
        p.footprint.distance(sill) < WAY / 2 + 0.05 for p in room.floor_pieces.values()
    )


@given(st.integers(0, 100_000))
@settings(max_examples=120, deadline=None)
def test_a_way_is_told_too_narrow_just_when_no_disk_comes(seed: int) -> None:
    """A seat or a front has a finding from a door just when a 24 in disk, eroded anew, cannot come there."""
    room, auditor = _room(seed)
    practice = auditor.practice
    ways = ways_of(room, practice, way_floor(room, practice, 1.2))
    shut = {s.place.name for s in ways.shut}
    told = {(door.name, place.name) for p in ways.pinches for door, place in p.leads if p.width < WAY - 1e-4}
    if any(_crowded(room, door) for door in room.openings.values()):
        return  # circulation.main-way and circulation.outside tell that; here it would be a matter of a hair
    if shut & {f"the {o.name}" for o in room.openings.values()}:
        return  # the doors themselves are parted: that is what is told
    for place in places_of(room, practice):
        if place.kind not in ("seat", "storage"):
            continue
        own = place.things[0].footprint  # type: ignore[union-attr]
        assert place.zone is not None
        for door in (o for o in room.openings.values() if o.is_way):
            if place.name in shut or (f"the {door.name}", place.name) in told:
                assert not _comes(room, door, place.zone, own, WAY + HAIR)
            else:
                assert _comes(room, door, place.zone, own, WAY - HAIR)


def test_every_width_wanted_is_under_the_cap() -> None:
    """No value by which ways are judged is wider than the gates that are looked for."""
    _, auditor = _room(1)
    assert all(auditor.practice.length(key) < 1.2 for key in WIDTHS)


@pytest.mark.parametrize("clear", ["70 cm", "80 cm"])
def test_doorway_wants_no_more_than_its_clear_width(clear: str) -> None:
    """A piece that leaves just the doorway's clear width at its jamb is no pinch; 2 cm more of it is."""
    for over, pinched in ((0.0, False), (0.02, True)):
        door = {
            "kind": "door",
            "along": "1 m",
            "width": "90 cm",
            "height": "2 m",
            "leaf": "sliding",
            "clear": clear,
        }
        x = 1.45 - float(clear[:2]) / 200 + over  # the jamb's corner, and how far the chest hides it
        chest = {"type": "other", "width": "50 cm", "depth": "30 cm", "height": "1 m"}
        room = {
            "name": "Room",
            "use": {"hall": True},
            "survey": {
                "corners": "A B C D",
                "walls": {"AB": "4 m", "BC": "4 m", "CD": "4 m", "DA": "4 m"},
                "square": {"A": True, "B": True, "C": True, "D": True},
            },
            "openings": {"a": {**door, "wall": "AB"}, "c": {**door, "wall": "CD"}},
            "pieces": {
                "chest": {**chest, "at": {"wall": "AB", "along": f"{(x - 0.5) * 1000:.1f} mm", "off": "0"}}
            },
        }
        auditor = Auditor.of({"halfdrop": 1, "job": {"name": "Case"}, "rooms": {"r": room}})
        resolved = auditor.case("r").room
        ways = ways_of(resolved, auditor.practice, way_floor(resolved, auditor.practice, 1.2))
        assert bool(ways.pinches) is pinched
