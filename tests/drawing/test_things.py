"""What stands and what is fixed: every kind is drawn, where it is, by how it is made."""

from __future__ import annotations

import copy
import math
from typing import Any, get_args

import numpy as np
import pytest
from shapely.geometry import Polygon

from halfdrop.drawing import plan_sheet
from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.fittings import draw_fitting
from halfdrop.drawing.furniture import MAKERS, draw_piece
from halfdrop.drawing.openings import AJAR, draw_opening, extent
from halfdrop.drawing.rugs import draw_rug
from halfdrop.drawing.verbs import Arc, Area, Dimension, Line, Verb, bulge_points
from halfdrop.drawing.walls import THICK, wall_shapes
from halfdrop.job.model import Fitting, PieceType
from halfdrop.room import ResolvedRoom
from tests.drawing.rooms import BEDROOM, resolved, room, title

FRAME = Frame((0.0, 0.0), 20.0)
TYPES = get_args(PieceType)
KINDS = get_args(Fitting.model_fields["kind"].annotation)


def with_things(**parts: dict[str, Any]) -> ResolvedRoom:
    """Return the bedroom with other things in it."""
    data = copy.deepcopy(BEDROOM)
    data |= {"openings": {}, "pieces": {}, "rugs": {}, **parts}
    return resolved("bedroom", data)


def points_of(verbs: list[Verb]) -> list[tuple[float, float]]:
    """Return points of everything drawn, in plan metres."""
    out: list[tuple[float, float]] = []
    for verb in verbs:
        if isinstance(verb, Line):
            out += bulge_points(verb.points, verb.closed, 0.1)
        elif isinstance(verb, Area):
            out += [p for ring in verb.rings for p in bulge_points(ring, True, 0.1)]
        elif isinstance(verb, Arc):
            t = np.linspace(0, math.tau, 24)
            turn = math.radians(verb.turn)
            u, v = verb.rx * np.cos(t), verb.ry * np.sin(t)
            x = verb.center[0] + u * math.cos(turn) - v * math.sin(turn)
            y = verb.center[1] + u * math.sin(turn) + v * math.cos(turn)
            out += list(zip(x.tolist(), y.tolist(), strict=True))
    return [FRAME.inverse(p) for p in out]


def piece(kind: str, **more: Any) -> dict[str, Any]:
    """Return a piece of a kind, in the middle of the room, turned aslant."""
    size = {"width": "40 in", "depth": "30 in", "height": "30 in"}
    return {"type": kind, **size, "at": {"x": "6 ft", "y": "5 ft"}, "turn": "30 deg", **more}


def test_every_type_has_a_maker() -> None:
    """No piece of the document is left undrawn, and no maker is for a type that does not exist."""
    assert set(MAKERS) == set(TYPES)


@pytest.mark.parametrize("kind", TYPES)
def test_a_piece_is_drawn_within_its_footprint(kind: str) -> None:
    """A piece's lines stay within its footprint and reach its edges (a lamp's pool alone runs past)."""
    drawn = with_things(pieces={"it": piece(kind)})
    thing = drawn.pieces["it"]
    board = Board(FRAME)
    draw_piece(board, thing)
    points = points_of([v for v in board.verbs if not (isinstance(v, Arc) and v.dash)])
    edge = thing.footprint.buffer(0.02)
    assert all(edge.covers(Polygon([p, p, p]).centroid) for p in points)
    hull = Polygon(points).convex_hull if len(points) > 2 else Polygon()
    assert hull.area >= (0.45 if kind == "plant" else 0.6) * thing.footprint.area
    assert len(board.verbs) >= 4


@pytest.mark.parametrize("kind", ["coffee table", "armchair", "ottoman", "stool", "dining table", "other"])
@pytest.mark.parametrize("shape", ["round", "oval"])
def test_round_pieces_are_drawn_round(kind: str, shape: str) -> None:
    """A round or oval piece has an ellipse of its width and depth."""
    drawn = with_things(pieces={"it": piece(kind, shape=shape)})
    board = Board(FRAME)
    draw_piece(board, drawn.pieces["it"])
    arcs = [v for v in board.verbs if isinstance(v, Arc)]
    assert (arcs[0].rx, arcs[0].ry) == pytest.approx((20 * 0.0254 * 20, 15 * 0.0254 * 20))


@pytest.mark.parametrize("hand", ["left", "right"])
def test_a_sectional_turns_on_its_hand(hand: str) -> None:
    """The long seat of a sectional is drawn on the hand it has, as seated."""
    ret = {"hand": hand, "length": "60 in", "width": "30 in"}
    sofa = piece("sectional", width="100 in", depth="36 in", turn="0 deg", **{"return": ret})
    drawn = with_things(pieces={"it": sofa})
    board = Board(FRAME)
    draw_piece(board, drawn.pieces["it"])
    body = next(v for v in board.verbs if isinstance(v, Area))
    shape = Polygon([FRAME.inverse((p[0], p[1])) for p in body.rings[0]])
    assert shape.symmetric_difference(drawn.pieces["it"].footprint).area < 1e-6


def test_a_sofa_has_as_many_cushions_as_seats() -> None:
    """A sofa for three shows three seat cushions and three at the back."""
    drawn = with_things(pieces={"it": piece("sofa", width="84 in", depth="36 in", seats=3)})
    board = Board(FRAME)
    draw_piece(board, drawn.pieces["it"])
    assert sum(isinstance(v, Area) and v.pen == "hair" for v in board.verbs) == 6


@pytest.mark.parametrize(("width", "pillows"), [("38 in", 1), ("60 in", 2), ("76 in", 2)])
def test_a_bed_has_its_pillows(width: str, pillows: int) -> None:
    """A single bed has one pillow, a wider one two, unless the job says otherwise."""
    for given, wanted in ((None, pillows), (3, 3)):
        more = {} if given is None else {"pillows": given}
        drawn = with_things(pieces={"it": piece("bed", width=width, depth="80 in", turn="0 deg", **more)})
        board = Board(FRAME)
        draw_piece(board, drawn.pieces["it"])
        assert sum(isinstance(v, Area) and v.pen == "hair" for v in board.verbs) == wanted


@pytest.mark.parametrize("kind", KINDS)
def test_every_fitting_is_drawn_where_it_is(kind: str) -> None:
    """Each kind of fitting has lines at its place."""
    fitting = {"kind": kind, "wall": "AB", "along": "3 ft", "width": "24 in", "depth": "16 in"}
    drawn = with_things(fittings={"it": fitting})
    board = Board(FRAME)
    draw_fitting(board, drawn.fittings["it"])
    points = points_of(board.verbs)
    near = drawn.fittings["it"].footprint.buffer(0.2)
    assert points
    assert all(near.covers(Polygon([p, p, p]).centroid) for p in points)


@pytest.mark.parametrize("leaf", ["hinged", "double", "sliding", "pocket", "bifold"])
@pytest.mark.parametrize("opens", ["in", "out"])
def test_doors_are_drawn_as_they_open(leaf: str, opens: str) -> None:
    """A leaf that opens in stands in the room, one that opens out beyond the wall, one that slides in it."""
    door = {
        "kind": "door",
        "wall": "AB",
        "along": "4 ft",
        "width": "36 in",
        "height": "80 in",
        "leaf": leaf,
        "hinge": "A",
        "opens": opens,
    }
    drawn = with_things(openings={"it": door})
    board = Board(FRAME)
    draw_opening(board, drawn.openings["it"])
    ys = [p[1] for p in points_of(board.verbs)]
    reach = {"hinged": 0.9144, "double": 0.4572, "bifold": 0.45}.get(leaf, 0.0)
    if leaf in ("sliding", "pocket"):
        assert max(ys) <= 1e-6
        assert min(ys) >= -THICK - 0.1
    elif opens == "in":
        assert max(ys) == pytest.approx(reach, abs=0.01)
    else:
        wanted = -reach if leaf == "bifold" else -THICK - reach * math.sin(AJAR)
        assert min(ys) == pytest.approx(wanted, abs=0.04)
        assert max(ys) <= 1e-6


@pytest.mark.parametrize("hinge", ["A", "B"])
def test_a_swing_runs_about_its_hinge(hinge: str) -> None:
    """The arc of a swing keeps the leaf's width from the hinge all along, whichever side it hangs on."""
    door = {
        "kind": "door",
        "wall": "AB",
        "along": "4 ft",
        "width": "32 in",
        "height": "80 in",
        "hinge": hinge,
        "opens": "in",
    }
    drawn = with_things(openings={"it": door})
    board = Board(FRAME)
    draw_opening(board, drawn.openings["it"])
    arc = next(v for v in board.verbs if isinstance(v, Line) and len(v.points[0]) > 2)
    pivot = drawn.openings["it"].leaves[0][0]
    for x, y in bulge_points(arc.points, False, 0.2):
        px, py = FRAME.inverse((x, y))
        assert math.hypot(px - pivot[0], py - pivot[1]) == pytest.approx(32 * 0.0254, abs=1e-6)


def test_what_stands_through_a_wall_is_on_the_sheet() -> None:
    """A desk placed 1 m through wall AB is drawn whole, walls and sheet making way; one a mile off is not followed."""
    desk = {"type": "desk", "width": "1.4 m", "depth": "1.2 m", "height": "75 cm"}
    through = with_things(pieces={"desk": desk | {"at": {"x": "2 m", "y": "-0.4 m"}}})
    assert extent(through)[1] == pytest.approx(-1.0, abs=0.01)
    astray = with_things(pieces={"desk": desk | {"at": {"x": "2 m", "y": "-20 m"}}})
    assert extent(astray)[1] == pytest.approx(-THICK, abs=0.01)


def test_a_leaf_that_opens_out_counts_as_part_of_the_drawing() -> None:
    """Chains and paper make way for a leaf that stands outside the room."""
    door = {"kind": "door", "wall": "AB", "along": "4 ft", "width": "36 in", "height": "80 in", "hinge": "A"}
    inward = with_things(openings={"it": door | {"opens": "in"}})
    outward = with_things(openings={"it": door | {"opens": "out"}})
    assert extent(inward)[1] == pytest.approx(-THICK, abs=0.01)
    assert extent(outward)[1] == pytest.approx(-THICK - 0.4572, abs=0.04)
    sheet = plan_sheet(outward, title=title("Plan", "3"))
    frame = sheet.views[0].frame
    leaf = frame(0.0, extent(outward)[1])[1]
    south = [
        v for v in sheet.views[0].verbs if isinstance(v, Dimension) and v.turn == 0.0 and v.base[1] > leaf - 1
    ]
    assert south
    assert all(v.base[1] > leaf + 4.0 for v in south)


def test_walls_are_cut_at_their_openings() -> None:
    """The cut walls have the band's area less every opening's hole, and no wall stands in an opening."""
    there = room("living")
    shapes = wall_shapes(there)
    band = there.outline.buffer(THICK, join_style="mitre", mitre_limit=2.5).difference(there.outline)
    holes = sum(float(o.model.width) * THICK for o in there.openings.values())
    assert sum(s.area for s in shapes) == pytest.approx(band.area - holes, rel=1e-3)
    for opening in there.openings.values():
        middle = opening.center - opening.wall.inward * THICK / 2
        assert not any(s.buffer(-1e-6).contains(Polygon([middle, middle, middle]).centroid) for s in shapes)


@pytest.mark.parametrize("shape", ["rectangle", "round", "oval"])
@pytest.mark.parametrize("pattern", ["plain", "patterned"])
def test_rugs_have_edge_wash_and_border(shape: str, pattern: str) -> None:
    """Every rug has a wash; a patterned one has one border line more than a plain one."""
    rug = {
        "width": "5 ft",
        "length": "7 ft",
        "at": {"x": "6 ft", "y": "5 ft"},
        "shape": shape,
        "pattern": pattern,
    }
    drawn = with_things(rugs={"it": rug})
    board = Board(FRAME)
    draw_rug(board, drawn.rugs["it"])
    shapes = [v for v in board.verbs if isinstance(v, Area | Arc)]
    assert shapes[0].fill == "wash"
    assert len(shapes) == (3 if pattern == "patterned" else 2)


def test_a_clockwise_survey_is_not_mirrored() -> None:
    """A room walked clockwise is drawn as it is seen from above: B lies left of A, and doors swing so."""
    data = copy.deepcopy(BEDROOM)
    data["survey"]["round"] = "clockwise"
    turned = resolved("bedroom", data)
    sheet = plan_sheet(turned, title=title("Plan", "3"), paper="letter")
    frame = sheet.views[0].frame
    b = turned.survey.xy[1]
    assert frame(float(b[0]), float(b[1]))[0] < frame(0.0, 0.0)[0]
    board = Board(FRAME)
    draw_opening(board, turned.openings["door"])
    arc = next(v for v in board.verbs if isinstance(v, Line) and len(v.points[0]) > 2)
    pivot = turned.openings["door"].leaves[0][0]
    middle = FRAME.inverse(bulge_points(arc.points, False, 0.2)[8])
    assert math.hypot(middle[0] - pivot[0], middle[1] - pivot[1]) == pytest.approx(30 * 0.0254, abs=1e-6)
