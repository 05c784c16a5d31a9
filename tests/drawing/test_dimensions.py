"""Dimension chains: sums, places, values."""

from __future__ import annotations

import copy
from itertools import combinations, pairwise

import pytest
from shapely.geometry import LineString, Polygon

from halfdrop.drawing.board import Frame
from halfdrop.drawing.dimensions import SIDES, Lettering, chains, draw_chain, draw_dimensions, print_length
from halfdrop.drawing.svg import expand
from halfdrop.drawing.verbs import Dimension, Line
from tests.drawing.rooms import BEDROOM, resolved, room

FRAME = Frame((60.0, 220.0), 1000 / 32)


def _drawn(name: str) -> list[Dimension]:
    return [v for v in draw_dimensions(FRAME, room(name), "imperial").verbs if isinstance(v, Dimension)]


@pytest.mark.parametrize("name", ["living", "bedroom", "bath"])
def test_chains_add_up(name: str) -> None:
    """The parts of every chain along a side add up to the chain's whole span."""
    for side, found in chains(room(name)).items():
        axis = 0 if side in ("south", "north") else 1
        for chain in found:
            feet = [p[axis] for p in chain.feet]
            assert feet == sorted(feet)
            assert sum(b - a for a, b in pairwise(feet)) == pytest.approx(feet[-1] - feet[0])


def test_an_l_shape_tells_its_walls_and_the_whole() -> None:
    """The whole length and depth are told once each, the broken sides wall by wall."""
    found = chains(room("living"))
    whole_x = [c for s in ("south", "north") for c in found[s] if len(c.feet) == 2]
    whole_y = [c for s in ("west", "east") for c in found[s] if len(c.feet) == 2]
    assert len(whole_x) == 1
    assert len(whole_y) == 1
    assert [len(c.feet) for c in found["north"]] == [3]


def test_a_chimney_breast_does_not_break_the_chain_of_another_side() -> None:
    """The flanks of a breast, which face into it, add nothing to the chains of the sides they look toward."""
    data = copy.deepcopy(BEDROOM)
    data["survey"] = {
        "corners": "A B C D E F G H",
        "walls": {
            "AB": "5 m",
            "BC": "4 m",
            "CD": "5 m",
            "DE": "1 m",
            "EF": "0.4 m",
            "FG": "1.5 m",
            "GH": "0.4 m",
            "HA": "1.5 m",
        },
        "ties": {"BE": "5831 mm", "BF": "5492 mm", "BG": "4838 mm", "BH": "5220 mm", "CG": "5235 mm"},
        "square": dict.fromkeys("ABCDEFGH", True),
    }
    data |= {"openings": {}, "pieces": {}, "rugs": {}}
    found = chains(resolved("bedroom", data))
    assert [len(c.feet) for c in found["south"]] == [2]
    assert found["north"] == []
    assert [len(c.feet) for c in found["west"]] == [4, 2]


def test_a_value_is_told_once() -> None:
    """Opposite walls of one length are not both dimensioned where neither has openings."""
    found = chains(room("bedroom"))
    assert [len(c.feet) for c in found["south"]] == [2]
    assert found["east"] == []


@pytest.mark.parametrize("name", ["living", "bedroom", "bath"])
def test_no_dimension_crosses_the_floor(name: str) -> None:
    """Feet, lines and ticks stay outside the room: never through a piece."""
    floor = Polygon([FRAME(x, y) for x, y in room(name).outline.exterior.coords]).buffer(-0.5)
    for dim in _drawn(name):
        for part in expand(dim):
            if isinstance(part, Line):
                assert not LineString(part.points).intersects(floor)


@pytest.mark.parametrize("name", ["living", "bedroom", "bath"])
def test_values_do_not_touch(name: str) -> None:
    """No value of a dimension touches another."""
    boxes = draw_dimensions(FRAME, room(name), "imperial").boxes
    assert len(boxes) > 2
    assert not any(a.intersects(b) and a.intersection(b).area > 1e-9 for a, b in combinations(boxes, 2))


def test_a_value_slides_off_a_leader() -> None:
    """A leader through the middle of a chain moves the value along its line."""
    free = _drawn("bedroom")[0]
    leader = LineString([(free.text_at[0], 0), (free.text_at[0], 500)]).buffer(0.5)
    moved = draw_dimensions(FRAME, room("bedroom"), "imperial", blocks=[leader])
    first = next(v for v in moved.verbs if isinstance(v, Dimension))
    assert first.text == free.text
    assert first.text_at != free.text_at
    assert not any(box.intersects(leader) for box in moved.boxes)


def test_values_are_lettered_as_on_drawings() -> None:
    """Feet with inches, a whole foot with its zero, sixteenths; metric in bare millimetres."""
    assert print_length(3.048, "imperial") == "10′ 0″"
    assert print_length(3.8227, "imperial") == "12′ 6½″"
    assert print_length(0.2413, "imperial") == "9½″"
    assert print_length(3.8227, "metric") == "3823"
    assert print_length(12.5, "metric") == "12500"


def test_sides_are_the_four_of_the_plan() -> None:
    """Every side has one outward direction."""
    assert sorted(SIDES) == ["east", "north", "south", "west"]


@pytest.mark.parametrize("axis", [0, 1])
def test_no_extension_line_runs_through_a_nearer_chain_s_value(axis: int) -> None:
    """A corner between two windows of a bay: its line to the outer chain begins past the value that tells from jamb to jamb."""
    done, frame = Lettering(), Frame((60.0, 220.0), 1000 / 16)

    def along(*values: float) -> list[tuple[float, float]]:
        return [(v, 0.0) if axis == 0 else (0.0, v) for v in values]

    draw_chain(done, frame, along(0.0, 1.0, 1.14, 2.1), -0.14, axis, "imperial", 0.0, [])
    inner = list(done.boxes)
    draw_chain(done, frame, along(0.0, 1.07, 2.1), -0.27, axis, "imperial", 0.0, [])
    outer = [v for v in done.verbs if isinstance(v, Dimension)][3:]
    for verb in outer:
        for foot in (verb.a, verb.b):
            end = (foot[0], verb.base[1]) if axis == 0 else (verb.base[0], foot[1])
            assert not any(LineString([foot, end]).intersects(b) for b in inner)
            assert foot[axis] in {frame(*p)[axis] for p in along(0.0, 1.07, 2.1)}
    plain = frame(*along(1.07)[0])
    assert LineString([plain, outer[0].b]).intersects(inner[1]), "without the break it would run through"
