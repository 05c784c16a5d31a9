"""A wall with its art: what reads as one, what stands below, where it is bare."""

from __future__ import annotations

import pytest

from tests.art.walls import FACE, SOFA, at, wall_of

ROBE = {
    **SOFA,
    "type": "wardrobe",
    "width": "1 m",
    "height": "2 m",
    "at": {"wall": "CD", "along": "4 m", "off": "0"},
}


def test_a_frame_is_where_a_person_in_the_room_sees_it() -> None:
    """1 m from C along CD, C at the right hand: its right edge is 1 m from the wall's right end."""
    wall = wall_of({"heron": {**FACE, "at": at("1 m")}})
    (unit,) = wall.units
    assert (unit.box.x0, unit.box.x1) == pytest.approx((3.4, 4.0), abs=1e-3)
    assert (unit.box.y0, unit.box.y1) == pytest.approx((1.05, 1.85))
    other = wall_of({"heron": {**FACE, "at": {**at("3.4 m"), "wall": "DC"}}})
    assert other.units[0].box.x0 == pytest.approx(3.4, abs=1e-3)


def test_a_group_is_one_and_hangs_over_what_it_shares_most_with() -> None:
    """Two of a group over a sofa are one unit with the sofa below; a work beside the sofa has nothing below."""
    art = {
        "one": {**FACE, "group": "pair", "at": at("1.8 m")}, "two": {**FACE, "group": "pair", "at": at("2.5 m")},
        "far": {**FACE, "at": at("4.2 m")},
    }  # fmt: skip
    wall = wall_of(art, pieces={"sofa": SOFA})
    by_id = {u.id: u for u in wall.units}
    assert by_id["pair"].box.width == pytest.approx(1.3, abs=1e-6)
    assert by_id["pair"].below is not None
    assert by_id["pair"].below_kind == "sofa"
    assert by_id["far"].below is None
    assert by_id["pair"].name == "group of one painting and two painting"


def test_what_a_work_is_said_to_hang_over_goes_before_what_it_shares() -> None:
    """A narrow work at the sofa's very end still hangs over it where the job says so."""
    art = {"far": {**FACE, "above": "sofa", "at": at("3.4 m")}}
    below = wall_of(art, pieces={"sofa": SOFA}).units[0].below
    assert below is not None
    assert below.thing.id == "sofa"


def test_bare_stretches_end_at_openings_and_tall_pieces_not_at_switches() -> None:
    """A window and a wardrobe cut a wall of 5 m in two; a thermostat does not."""
    wall = wall_of(
        {},
        openings={"w": {"kind": "window", "wall": "CD", "along": "1 m", "width": "1 m", "height": "1.2 m", "sill": "90 cm"}},
        pieces={"robe": ROBE},
        fittings={"t": {"kind": "thermostat", "wall": "CD", "along": "3 m", "width": "8 cm", "bottom": "1.4 m", "height": "8 cm"}},
    )  # fmt: skip
    spans = wall.bare(1.2, 1.8)
    assert [v for span in spans for v in span] == pytest.approx([1.0, 3.0, 4.0, 5.0], abs=2e-3)
    assert [v for span in wall.bare(2.2, 2.5) for v in span] == pytest.approx([0.0, 5.0], abs=2e-3)
    hit = wall.hits(wall.marks[1].rect, 0.05)
    assert [m.kind for m, gap in hit if gap == 0.0] == ["thermostat"]
