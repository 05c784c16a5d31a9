"""SVG: well formed, true millimetres, a group with its path for each thing, the same bytes each time."""

from __future__ import annotations

import base64
import io
import re
import xml.etree.ElementTree as ET

import pytest
from fontTools.ttLib import TTFont

from halfdrop.drawing import plan_sheet
from halfdrop.drawing.svg import expand, num, stylesheet, to_svg
from halfdrop.drawing.tokens import tokens
from halfdrop.drawing.verbs import Arc, Begin, Dimension, End, Line, Text
from tests.drawing.rooms import NOTES, room, title

NS = "{http://www.w3.org/2000/svg}"


def _living(**more: object) -> str:
    return plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES, **more).svg()  # type: ignore[arg-type]


def test_a_sheet_prints_at_its_true_size() -> None:
    """Width, height and view box are the paper's millimetres."""
    root = ET.fromstring(_living())
    assert (root.get("width"), root.get("height")) == ("431.8mm", "279.4mm")
    assert root.get("viewBox") == "0 0 431.8 279.4"


def test_every_thing_has_a_group_with_its_path() -> None:
    """The page can find each piece, rug, opening and fitting by its path in the job."""
    paths = {g.get("data-path") for g in ET.fromstring(_living()).iter(f"{NS}g")}
    there = room("living")
    for part in (there.pieces, there.rugs, there.openings, there.fittings):
        assert {thing.path for thing in part.values()} <= paths


def test_classes_are_the_tokens() -> None:
    """Every class that a sheet uses is in its stylesheet; no color or width is written into the drawing."""
    svg = _living()
    used = set(re.findall(r'class="([^"]*)"', svg))
    known = set(re.findall(r"\.([a-z]-[a-z-]+)\{", stylesheet("light")))
    assert {name for names in used for name in names.split()} <= known
    body = svg.split("</style>")[1]
    assert "#" not in re.sub(r"<title>.*?</title>", "", body)


def test_dark_ground_changes_only_the_stylesheet() -> None:
    """Light and dark sheets differ in their inks and nowhere else."""
    sheet = plan_sheet(room("bath"), title=title("Plan", "4"), units="metric", paper="A4")
    light, dark = sheet.svg(), sheet.svg("dark")
    assert light != dark
    assert re.sub(r"<style>.*?</style>", "", light) == re.sub(r"<style>.*?</style>", "", dark)
    assert tokens().inks["dark"]["paper"] in dark


def test_the_same_sheet_is_the_same_bytes() -> None:
    """Drawn twice from scratch a sheet does not differ by one byte."""
    assert _living() == _living()


def test_fonts_can_travel_inside() -> None:
    """With its fonts inside a sheet holds every glyph it letters, cut down, and is still the same bytes each time."""
    sheet = plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES)
    svg = sheet.svg(fonts=True)
    assert svg == sheet.svg(fonts=True)
    faces = re.findall(r"font-family:'([^']+)';font-weight:(\d+);[^}]*base64,([^)]+)\)", svg)
    assert len(faces) >= 4
    held = {}
    for family, weight, data in faces:
        font = TTFont(io.BytesIO(base64.b64decode(data)))
        held[family, int(weight)] = set(map(chr, font.getBestCmap()))
    for verb in sheet.verbs:
        if isinstance(verb, Text):
            face = tokens().fonts[verb.font]
            assert set(verb.text) <= held[face.family, face.weight]
    assert len(svg) < len(sheet.svg()) + 250_000


def test_what_a_person_typed_is_escaped() -> None:
    """A name with markup in it stays text, in the title and on the sheet."""
    verbs = [Begin("A-ANNO-TEXT", 'rooms/a"<b>'), Text((1.0, 1.0), "<script>&", 3.0), End()]
    root = ET.fromstring(to_svg(verbs, 10, 10, title="<b>&"))
    assert [t.text for t in root.iter(f"{NS}text")] == ["<script>&"]
    assert [g.get("data-path") for g in root.iter(f"{NS}g")] == ['rooms/a"<b>']
    assert [t.text for t in root.iter(f"{NS}title")] == ["<b>&"]


def test_numbers_are_short() -> None:
    """Millimetres to 0.001, no trailing zeros, no minus zero."""
    assert [num(v) for v in (1.0, -0.0001, 2.5000, 3.14159, 100.0)] == ["1", "0", "2.5", "3.142", "100"]


def test_a_bulge_becomes_an_arc() -> None:
    """A half circle of 2 mm across is one arc of radius 1 that turns the way its bulge says."""
    svg = to_svg([Line(((0.0, 0.0, 1.0), (2.0, 0.0)))], 10, 10)
    assert "M0 0A1 1 0 0 1 2 0" in svg
    assert "M0 0A1 1 0 0 0 2 0" in to_svg([Line(((0.0, 0.0, -1.0), (2.0, 0.0)))], 10, 10)


def test_circles_and_ellipses() -> None:
    """Equal radii make a circle, others an ellipse turned about its center, a part an arc."""
    assert '<circle class="s-ink p-thin" cx="5" cy="5" r="2"/>' in to_svg([Arc((5.0, 5.0), 2.0, 2.0)], 10, 10)
    turned = to_svg([Arc((5.0, 5.0), 3.0, 2.0, turn=30.0)], 10, 10)
    assert 'rx="3" ry="2" transform="rotate(30 5 5)"' in turned
    assert "M7 5A2 2 0 0 1 5 7" in to_svg([Arc((5.0, 5.0), 2.0, 2.0, sweep=90.0)], 10, 10)


@pytest.mark.parametrize("turn", [0.0, -90.0, 30.0])
def test_a_dimension_is_ticked_at_both_feet(turn: float) -> None:
    """A dimension's line ends in two ticks at 45° to it, its feet start off the thing."""
    import math

    t = math.radians(turn)
    u, v = (math.cos(t), math.sin(t)), (math.sin(t), -math.cos(t))
    a, b = (10.0, 50.0), (10.0 + 30 * u[0], 50.0 + 30 * u[1])
    base = (a[0] + 9 * v[0], a[1] + 9 * v[1])
    lines = [p for p in expand(Dimension(a, b, base, "10′", base, turn, 3.175)) if isinstance(p, Line)]
    ticks = [line for line in lines if line.pen == "medium"]
    assert len(ticks) == 2
    for tick in ticks:
        (x0, y0), (x1, y1) = tick.points[0][:2], tick.points[1][:2]
        angle = math.degrees(math.atan2(-(y1 - y0), x1 - x0)) + turn
        assert angle % 180 == pytest.approx(45.0)
    foot = next(line for line in lines if line.pen == "hair")
    assert math.dist(foot.points[0][:2], a) == pytest.approx(1.0)
