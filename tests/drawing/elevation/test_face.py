"""A wall's elevation: what is drawn, where, in which order; what is proposed; nothing past its edges; every kind by how it is made."""

from __future__ import annotations

import copy
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise
from typing import Any, get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from halfdrop.drawing.board import Board, Frame
from halfdrop.drawing.dimensions import FOOT
from halfdrop.drawing.elevation import PaperStrip, compare_faces, draw_face, elevation_sheet, runs_of
from halfdrop.drawing.elevation.chains import _thinned, across, heights
from halfdrop.drawing.elevation.cloth import bracket_boxes
from halfdrop.drawing.elevation.pieces import MAKERS, draw_piece
from halfdrop.drawing.labels import block, extent, place_labels
from halfdrop.drawing.scene import on_paper
from halfdrop.drawing.verbs import Area, Begin, Dimension, End, Line, Text, Verb
from halfdrop.job.model import Fitting, PieceType
from halfdrop.job.treatments import Heading
from tests.drawing.elevation.walls import ATTIC, BAY, PARLOR, raised, room, shown
from tests.drawing.rooms import title
from tests.drawing.test_things import FRAME, points_of

IN = 0.0254


def _drawn(data: dict[str, Any], wall: Any, **more: Any) -> list[Verb]:
    verbs: list[Verb] = []
    draw_face(Board(FRAME, verbs), shown(data, wall), "imperial", **more)
    return verbs


def _group(verbs: list[Verb], path: str) -> list[Verb]:
    out: list[Verb] = []
    depth = 0
    for verb in verbs:
        if isinstance(verb, Begin) and (verb.path == path or depth):
            depth += 1
        elif isinstance(verb, End) and depth:
            depth -= 1
        elif depth:
            out.append(verb)
    return out


def _layers(verbs: list[Verb], path: str) -> set[str]:
    return {v.layer for v in verbs if isinstance(v, Begin) and v.path == path}


@pytest.mark.parametrize("kind", get_args(PieceType))
@pytest.mark.parametrize("turn", ["0 deg", "90 deg", "180 deg", "270 deg"])
def test_every_piece_is_drawn_within_its_own_box(kind: str, turn: str) -> None:
    """From its front, its back and both sides nothing of a piece is drawn outside its width and height."""
    data = copy.deepcopy(PARLOR)
    data["pieces"] = {
        "it": {"type": kind, "width": "40 in", "depth": "30 in", "height": "34 in", "turn": turn,
               "at": {"wall": "AB", "along": "6 ft", "off": "0"}}
    }  # fmt: skip
    seen = shown(data, "AB").face.pieces[0]
    verbs: list[Verb] = []
    draw_piece(Board(FRAME, verbs), seen)
    points = points_of(verbs)
    slack = 0.012
    assert min(p[0] for p in points) >= seen.left - slack
    assert max(p[0] for p in points) <= seen.right + slack
    assert min(p[1] for p in points) >= seen.bottom - slack
    assert max(p[1] for p in points) <= seen.top + slack


def test_there_is_a_maker_for_every_type() -> None:
    """No piece of the document lacks its silhouette."""
    assert set(MAKERS) == set(get_args(PieceType))


@pytest.mark.parametrize("kind", get_args(Fitting.model_fields["kind"].annotation))
def test_every_fitting_of_a_wall_is_drawn(kind: str) -> None:
    """Each kind is drawn on its wall; what hangs from the ceiling or opens in the floor is not."""
    data = copy.deepcopy(PARLOR)
    data["fittings"] = {
        "it": {"kind": kind, "wall": "AB", "along": "6 ft", "width": "20 in", "depth": "4 in"}
    }
    drawn = _group(_drawn(data, "AB"), "rooms/test/fittings/it")
    assert bool(drawn) == (kind not in ("beam", "smoke alarm", "stair head"))


@pytest.mark.parametrize("heading", get_args(Heading))
def test_every_heading_has_a_fold_line_to_each_pleat(heading: str) -> None:
    """Drawn shut, where the folds stand apart, the cloth has as many upright fold lines as the panel has pleats."""
    data = copy.deepcopy(PARLOR)
    data["treatments"] = {"pair": {"openings": "window", "heading": heading, "hardware": {"height": "96 in"}}}
    state = shown(data, "CD")
    verbs: list[Verb] = []
    draw_face(Board(Frame((0.0, 0.0), 100.0), verbs), state, "imperial", shut=True)
    folds = sum(max(2, panel.folds) for panel in state.hangings[0].hung.panels)
    lines = [
        v
        for v in _group(verbs, "rooms/test/treatments/pair")
        if type(v).__name__ == "Line" and len(getattr(v, "points", ())) == 3 and getattr(v, "pen", "") == "hair"
        and abs(v.points[0][1] - v.points[2][1]) > 100.0  # type: ignore[union-attr]
    ]  # fmt: skip
    assert len(lines) == folds


def test_cloth_hides_the_door_behind_it_and_the_chest_stands_before_the_wall() -> None:
    """Things are drawn from the wall outward: opening, fitting, cloth, work, piece, lamp on the piece."""
    order = [v.path.rsplit("/", 1)[-1] for v in _drawn(PARLOR, "CD") if isinstance(v, Begin) and v.path]
    wanted = ["window", "radiator", "sheer", "pair", "large", "chest", "lamp"]
    assert [name for name in order if name in wanted] == wanted


def test_a_pair_raised_is_slate_with_its_ghost_and_an_arrow() -> None:
    """The pair is on the layer of new work and on that of what was; the arrow tells how far the rod goes up."""
    before, after = shown(PARLOR, "CD"), shown(raised(), "CD")
    found = compare_faces(before, after)
    assert "rooms/test/treatments/pair" in found.proposed
    assert {h.hung.id for h in found.hangings} == {"pair", "sheer"}
    sheet = elevation_sheet(after, before=before, title=title("Elevation", "1"))
    layers = _layers(list(sheet.verbs), "rooms/test/treatments/pair")
    assert {"I-ELEV-CLTH-N", "I-ELEV-CLTH-M"} <= layers
    rise = after.hangings[0].height - before.hangings[1].height
    assert rise > 0.01
    texts = [v.text for v in _group(list(sheet.verbs), "rooms/test/treatments/pair") if isinstance(v, Text)]
    assert any("″" in t for t in texts)


def test_a_band_at_the_hem_is_seen_on_each_panel() -> None:
    """A band of 7 in on both panels: two light areas from the hem up to a seam 7 in above it, in slate since it is proposed."""
    data = copy.deepcopy(PARLOR)
    data["treatments"]["pair"] |= {"altered": {"band": "7 in"}, "drop": "94 in"}
    verbs = _group(_drawn(data, "CD"), "rooms/test/treatments/pair")
    bands = [v for v in verbs if isinstance(v, Area) and v.fill == "wash"]
    assert len(bands) == 2
    for band in bands:
        ys = [y for _, y, *_ in points_of([band])]
        assert max(ys) - min(ys) == pytest.approx(7 * IN, abs=0.01)
    assert not [
        v
        for v in _group(_drawn(PARLOR, "CD"), "rooms/test/treatments/pair")
        if isinstance(v, Area) and v.fill == "wash"
    ]
    found = compare_faces(shown(PARLOR, "CD"), shown(data, "CD"))
    new = _group(_drawn(data, "CD", found=found), "rooms/test/treatments/pair")
    assert [v.ink for v in new if isinstance(v, Area) and v.fill == "wash"] == ["slate", "slate"]


def test_supports_stand_to_each_side_of_a_bays_corners() -> None:
    """A track round a bay whose cloth is not named is drawn with a support 4 in to each side of both corners."""
    wall = shown(BAY, ["DE", "EF", "FG"])
    (bay,) = wall.hangings
    corners = [stretch.left for stretch in wall.face.stretches[1:]]
    assert len(corners) == 2
    for corner in corners:
        for side in (-4 * IN, 4 * IN):
            assert min(abs(x - corner - side) for x in bay.supports) < 1e-6


def test_a_wall_that_is_as_it_was_proposes_nothing() -> None:
    """Compared with itself no thing is new, moved or gone."""
    found = compare_faces(shown(PARLOR, "CD"), shown(PARLOR, "CD"))
    assert (found.proposed, found.seen, found.hangings, found.moved) == (frozenset(), (), (), ())


def test_a_rod_that_is_only_longer_has_no_arrow() -> None:
    """Its length is dimensioned; an arrow would say that it moved."""
    data = copy.deepcopy(PARLOR)
    data["treatments"]["pair"]["hardware"] |= {"height": "100 in", "left": "10 in", "right": "10 in"}
    longer = copy.deepcopy(data)
    longer["treatments"]["pair"]["hardware"]["right"] = "20 in"
    found = compare_faces(shown(data, "CD"), shown(longer, "CD"))
    assert found.proposed == {"rooms/test/treatments/pair"}
    assert found.moved == ()


def test_heights_stand_on_one_chain_from_the_finished_floor() -> None:
    """Sill 28 in, head 84 in and ceiling are feet of the first chain, though the floor falls: each over the floor under it."""
    chain = heights(shown(PARLOR, "CD"))[0]
    face = shown(PARLOR, "CD").face
    assert chain[0] == 0.0
    assert chain[-1] == pytest.approx(face.ceiling(0.0))
    for value in (28 * IN, 84 * IN):
        assert min(abs(value - foot) for foot in chain) < 1e-6


def test_lengths_begin_at_the_left_corner() -> None:
    """Every chain along the bottom runs from corner to corner, and each holds its feet in order."""
    for chain in across(shown(PARLOR, "CD")):
        assert chain[0] == 0.0
        assert chain[-1] == pytest.approx(18 * 12 * IN, abs=1e-3)
        assert chain == sorted(chain)


def test_fittings_and_works_are_told_from_the_corner_and_a_piece_where_a_finding_is_about_it() -> None:
    """The radiator's and the orchard's edges are feet of a chain; the chest's only when it is noted; a switch's plate is not told."""
    wall, chest = shown(PARLOR, "CD"), "rooms/test/pieces/chest"

    def told(x: float, **how: Any) -> bool:
        return any(abs(x - foot) < 1e-6 for chain in across(wall, **how) for foot in chain)

    radiator, switch = (
        next(s for s in wall.face.fittings if s.path.endswith(key)) for key in ("radiator", "switch")
    )
    (orchard,) = wall.face.art
    piece = next(s for s in wall.face.pieces if s.path == chest)
    (pair,) = (h for h in wall.hangings if h.path.endswith("pair"))
    assert all(told(x) for seen in (radiator, orchard, *wall.face.openings) for x in (seen.left, seen.right))
    assert all(told(x) for x in pair.rod)
    assert not told(switch.left)
    assert not told(piece.left)
    assert told(piece.left, noted={chest})
    assert any(abs(48 * IN - y) < FOOT for chain in heights(wall, noted={chest}) for y in chain)


def test_works_of_a_group_are_told_as_one() -> None:
    """Six frames that hang together give the chain two feet, the outer edges; six that do not would give it twelve."""
    data = copy.deepcopy(PARLOR)
    small = {"width": "6 in", "height": "8 in", "group": "six"}
    data["art"] = {
        f"f{k}": {**small, "at": {"wall": "CD", "along": f"{152 + 8 * k} in", "bottom": f"{70 + k} in"}}
        for k in range(6)
    }
    wall = shown(data, "CD")
    edges = sorted(x for s in wall.face.art for x in (s.left, s.right))
    feet = {x for chain in across(wall) for x in chain}
    assert {edges[0], edges[-1]} <= feet
    assert not feet.intersection(edges[1:-1])


def test_of_three_spans_too_narrow_for_their_values_one_gives_way() -> None:
    """Heads and rods an inch or two apart: on paper no three narrow spans follow each other, and the ends stay."""
    chain = [0.0, 2.0, 2.04, 2.08, 2.12, 2.16, 2.7]
    thin = _thinned(chain, 40.0, "imperial")
    assert (thin[0], thin[-1]) == (0.0, 2.7)
    assert set(thin) < set(chain)
    narrow = [b - a < 0.2 for a, b in pairwise(thin)]
    assert not any(all(narrow[k : k + 3]) for k in range(len(narrow) - 2))
    assert _thinned([0.0, 1.0, 1.05, 2.7], 40.0, "imperial") == [0.0, 1.0, 1.05, 2.7]


def test_a_sloping_ceiling_is_dimensioned_at_both_ends() -> None:
    """11 ft at A and 6 ft 6 in at B stand on the sheet."""
    sheet = elevation_sheet(shown(ATTIC, "AB"), title=title("Elevation AB", "1"))
    said = {v.text for v in sheet.verbs if isinstance(v, Dimension)}
    assert {"11′ 0″", "6′ 6″"} <= said


def test_wallpaper_has_a_line_at_each_seam_and_none_in_a_corner() -> None:
    """Strips of 50 cm on a wall of 18 ft: a seam between each two, ticks a repeat apart where the pattern matches."""
    state = shown(PARLOR, "AB")
    strips = tuple(
        PaperStrip(
            "rooms/test/finishes/paper", 0.5 * k, min(0.5 * k + 0.5, state.face.width), 0.0, 2.7, 0.3, 0.64
        )
        for k in range(11)
    )
    verbs: list[Verb] = []
    draw_face(Board(Frame((0.0, 0.0), 50.0), verbs), replace(state, strips=strips), "imperial")
    drawn = _group(verbs, "rooms/test/finishes/paper")
    seams = [v for v in drawn if isinstance(v, Line) and v.dash == "fine"]
    ticks = [v for v in drawn if isinstance(v, Line) and v.dash is None]
    assert len(seams) == 10
    assert len(ticks) == 11 * 2 * 4, "marks at 0.30, 0.94, 1.58 and 2.22 m on both edges of each strip"


def test_a_ceiling_that_was_not_taped_is_not_dimensioned_as_if_it_were() -> None:
    """At a corner between heights that differ the mean is told as about; where no height is known none is told."""
    data = copy.deepcopy(PARLOR)
    data["survey"]["heights"] = {"A": "9 ft", "B": "8 ft 6 in"}
    said = {
        v.text
        for v in elevation_sheet(shown(data, "CD"), title=title("", "1")).verbs
        if isinstance(v, Dimension)
    }
    assert any(text.startswith("≈ 8′ 9″") for text in said)
    data["survey"]["heights"] = {}
    bare = elevation_sheet(shown(data, "AB"), title=title("", "1"))
    assert {v.text for v in bare.verbs if isinstance(v, Dimension)} == {"18′ 0″"}


def test_a_bay_is_one_elevation() -> None:
    """The three walls that its curtains join are unfolded together; the others stay by themselves."""
    runs = runs_of(room(BAY))
    assert ["DE", "EF", "FG"] in runs
    assert sorted(w for run in runs for w in run) == sorted(w.name for w in room(BAY).walls)


def test_a_part_of_a_bay_shows_its_part_of_the_cloth() -> None:
    """On wall DE alone the curtains keep their place: nothing is drawn past the wall's ends but the cut walls."""
    face = shown(BAY, "EF").face
    points = points_of(_group(_drawn(BAY, "EF"), "rooms/test/treatments/bay"))
    assert points
    assert min(p[0] for p in points) > -0.05
    assert max(p[0] for p in points) < face.width + 0.05


@given(
    st.sampled_from(["AB", "BC", "CD", "DA"]),
    st.integers(60, 130), st.integers(60, 130),
    st.integers(0, 60), st.integers(20, 60),
    st.sampled_from(get_args(Heading)), st.sampled_from(["clear", "puddle", "break", "sill"]),
    st.sampled_from(["tabloid", "A4", "phone"]),
)  # fmt: skip
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_wall_comes_out_whole(
    wall: str, left: int, right: int, sill: int, high: int, heading: str, length: str, paper: str
) -> None:
    """Groups pair and the SVG parses, whatever the ceiling's slope, the window and the cloth."""
    data = copy.deepcopy(PARLOR)
    data["survey"]["heights"] = {"A": f"{left} in", "C": f"{right} in"}
    data["openings"] = {
        "w": {
            "kind": "window",
            "wall": wall,
            "along": "2 ft",
            "width": "5 ft",
            "height": f"{high} in",
            "sill": f"{sill} in",
        }
    }
    data["treatments"] = {"t": {"openings": "w", "heading": heading, "length": length}}
    sheet = elevation_sheet(shown(data, wall), title=title("Elevation", "1"), paper=paper)
    depth = 0
    for verb in sheet.verbs:
        depth += isinstance(verb, Begin) - isinstance(verb, End)
        assert depth >= 0
    assert depth == 0
    ET.fromstring(sheet.svg())


@pytest.mark.parametrize("to_one", [10, 16, 20, 24, 32, 40, 48, 60, 80, 100])
@pytest.mark.parametrize(("data", "wall"), [(BAY, ["DE", "EF", "FG"]), (PARLOR, "CD")])
def test_no_name_lies_on_a_bracket_at_any_scale(data: dict[str, Any], wall: Any, to_one: int) -> None:
    """Brackets are drawn no smaller than can be seen: names stay off them as they are drawn, down to 1:100."""
    on, frame = shown(data, wall), Frame((60.0, 220.0), 1000 / to_one)
    scene = draw_face(Board(frame, []), on, "imperial")
    assert scene.floor is not None
    done = place_labels(scene.labels, scene.floor, scene.blocks, scene.edges)
    brackets = [
        on_paper(frame, box(a, low, b, high))
        for h in on.hangings
        for a, b, low, high in bracket_boxes(h, on.face, frame.scale)
    ]
    assert brackets
    for s in done.stood:
        lettered = block(s.middle, extent(s.lines, s.label.font), s.turned, 0.3)
        assert not any(lettered.intersects(b) for b in brackets), s.label.lines
