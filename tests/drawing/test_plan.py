"""Plan sheets: true scale, nothing clashes, what is proposed shows."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from shapely.geometry import LineString, Polygon, box

from halfdrop.drawing import TitleInfo, before_after_sheet, plan_sheet
from halfdrop.drawing.annotate import annotate, mark_shapes
from halfdrop.drawing.board import Board
from halfdrop.drawing.changes import changes
from halfdrop.drawing.dimensions import reach
from halfdrop.drawing.labels import block, extent, place_labels
from halfdrop.drawing.metrics import cap_height, text_width
from halfdrop.drawing.paper import paper
from halfdrop.drawing.plan import fit
from halfdrop.drawing.scene import draw_room, rug_order
from halfdrop.drawing.sheet import Sheet, divide
from halfdrop.drawing.verbs import Arc, Area, Begin, Dimension, End, Line, Text, Verb, bulge_points
from tests.drawing.rooms import LIVING, NOTES, proposed, resolved, room, title


def group(sheet: Sheet, path: str, layer: str | None = None) -> list[Verb]:
    """Return what is drawn under a path of the job, on a layer where one is named."""
    found: list[Verb] = []
    stack: list[bool] = []
    for verb in sheet.verbs:
        if isinstance(verb, Begin):
            stack.append(verb.path == path and layer in (None, verb.layer))
        elif isinstance(verb, End):
            stack.pop()
        elif any(stack):
            found.append(verb)
    return found


def _text_box(text: Text) -> Polygon:
    wide, high = text_width(text.text, text.size, text.font), cap_height(text.size, text.font)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
    x, y = text.at
    if abs(text.turn) < 1e-6:
        return box(x + left, y - high, x + left + wide, y)
    assert text.turn == -90.0
    return box(x - high, y - left - wide, x, y - left)


def test_a_plan_is_drawn_to_scale() -> None:
    """At 3/8 in to the foot an 84 × 38 in sofa covers 2 5/8 × 1 3/16 in of paper."""
    sheet = plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES)
    assert sheet.scale is not None
    assert sheet.scale.ratio == pytest.approx(1 / 32)
    body = group(sheet, "rooms/living/pieces/sofa", "I-FURN-E")[0]
    assert isinstance(body, Area)
    points = bulge_points(body.rings[0], closed=True, step=0.02)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    assert max(xs) - min(xs) == pytest.approx(38 / 32 * 25.4, abs=0.01)
    assert max(ys) - min(ys) == pytest.approx(84 / 32 * 25.4, abs=0.01)


@pytest.mark.parametrize(
    ("name", "page", "units"),
    [
        ("living", "tabloid", "imperial"),
        ("bedroom", "letter", "imperial"),
        ("bath", "A4", "metric"),
        ("living", "A3 portrait", "metric"),
    ],
)
def test_the_sheet_keeps_within_its_paper(name: str, page: str, units: str) -> None:
    """Every line and letter of a sheet lies on the paper."""
    sheet = plan_sheet(room(name), title=title("Plan", "2"), paper=page, units=units)  # type: ignore[arg-type]
    whole = box(0, 0, sheet.paper.width, sheet.paper.height)
    for verb in sheet.verbs:
        if isinstance(verb, Text):
            assert whole.contains(_text_box(verb)), verb
        if isinstance(verb, Line):
            assert whole.contains(LineString([p[:2] for p in verb.points]))


@pytest.mark.parametrize("name", ["living", "bedroom", "bath"])
def test_no_lettering_touches_other_lettering(name: str) -> None:
    """Names, values, notes and the strip: no text on the sheet overlaps another."""
    notes = NOTES if name == "living" else ()
    sheet = plan_sheet(room(name), title=title("Plan", "2"), notes=notes)
    dims = [v for view in sheet.views for v in view.verbs if isinstance(v, Dimension)]
    texts = [v for v in sheet.verbs if isinstance(v, Text)]
    boxes = [(t.text, _text_box(t)) for t in texts]
    values = [Text(d.text_at, d.text, d.size, anchor="middle", turn=d.turn) for d in dims]
    boxes += [(t.text, _text_box(t)) for t in values]
    clashes = [(a, b) for (a, p), (b, q) in combinations(boxes, 2) if p.intersection(q).area > 1e-6]
    assert clashes == []


@pytest.mark.parametrize("name", ["living", "bedroom", "bath"])
def test_names_stay_off_walls_marks_and_leaders(name: str) -> None:
    """A name stands in its thing or beside it on free floor, clear of walls, marks, leaders and values."""
    notes = NOTES if name == "living" else ()
    resolved_room = room(name)
    parts = divide(paper("tabloid"))
    scale, frame = fit(resolved_room, parts.field, reach(resolved_room), None, "imperial")
    scene = draw_room(Board(frame), resolved_room, "imperial", scale=scale.ratio)
    margin = annotate(scene, resolved_room, notes, frame, parts, "imperial").margin
    obstacles = [*scene.blocks, *mark_shapes(margin)]
    assert scene.floor is not None
    lettered = place_labels(scene.labels, scene.floor, obstacles, scene.edges)
    assert len(lettered.stood) + len(lettered.keyed) == len(scene.labels)
    assert len(lettered.stood) >= 2
    for stood in lettered.stood:
        area = block(stood.middle, extent(stood.lines), stood.turned)
        assert not any(area.intersects(o) for o in obstacles)
        assert stood.label.home.contains(area) if stood.inside else scene.floor.contains(area)


def test_leaders_of_a_sheet_do_not_cross() -> None:
    """Every note of the sheet has its leader, level at the note, and no two touch."""
    sheet = plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES)
    leaders = [v for v in sheet.margin if isinstance(v, Line) and v.pen == "hair" and v.ink == "pencil"]
    assert len(leaders) == len(NOTES)
    lines = [LineString(v.points) for v in leaders]
    assert not any(a.intersects(b) for a, b in combinations(lines, 2))
    assert all(v.points[0][1] == v.points[1][1] for v in leaders)


def test_rugs_lie_under_the_furniture() -> None:
    """Rugs are drawn before every piece; one laid over another after it."""
    data = {**LIVING, "rugs": {**LIVING["rugs"]}}
    at = {"x": "6 ft", "y": "9 ft"}
    data["rugs"]["small"] = {"width": "12 ft", "length": "14 ft", "at": at, "over": "wool"}
    layered = resolved("living", data)
    order = [rug.id for rug in rug_order(layered)]
    assert order.index("small") > order.index("wool")
    layers = [v.layer for v in plan_sheet(layered, title=title("Plan", "2")).verbs if isinstance(v, Begin)]
    last_rug = max(k for k, layer in enumerate(layers) if layer.startswith("I-FURN-RUGS"))
    first_piece = min(k for k, layer in enumerate(layers) if layer == "I-FURN-E")
    assert last_rug < first_piece


def test_a_proposal_shows_in_slate_with_its_ghost() -> None:
    """What moved is solid slate, where it stood a dashed graphite edge; what stays is in ink."""
    sheet = plan_sheet(proposed(), title=title("Plan", "5"), before=room("living"))
    sofa = group(sheet, "rooms/living/pieces/sofa", "I-FURN-N")
    assert {v.ink for v in sofa if isinstance(v, Area) and v.pen} == {"slate"}
    ghost = group(sheet, "rooms/living/pieces/sofa", "I-FURN-M")
    assert [(v.ink, v.dash, v.fill) for v in ghost if isinstance(v, Area)] == [("graphite", "ghost", None)]
    assert group(sheet, "rooms/living/pieces/table", "I-FURN-M") == []
    table = group(sheet, "rooms/living/pieces/table", "I-FURN-E")
    assert {v.ink for v in table if isinstance(v, Area)} == {"ink"}
    assert group(sheet, "rooms/living/pieces/bench", "I-FURN-N")
    assert group(sheet, "rooms/living/pieces/bench", "I-FURN-M") == []


def test_an_arrow_tells_how_far() -> None:
    """The sofa's arrow says 1 ft, and is as long on the paper as the sofa moved."""
    sheet = plan_sheet(proposed(), title=title("Plan", "5"), before=room("living"))
    verbs = group(sheet, "rooms/living/pieces/sofa", "I-FURN-N")
    assert "1′" in [v.text for v in verbs if isinstance(v, Text)]
    shafts = [v for v in verbs if isinstance(v, Line) and v.ink == "slate" and v.pen == "thin"]
    lengths = [LineString(v.points).length for v in shafts]
    assert any(length == pytest.approx(12 * 25.4 / 32, abs=0.01) for length in lengths)


def test_a_rug_of_another_size_has_a_ghost_but_no_arrow() -> None:
    """A larger rug is another rug: its place before shows, and no distance is told."""
    found = changes(room("living"), proposed())
    assert "rooms/living/rugs/wool" in {after.path for _, after in found.moved}
    sheet = plan_sheet(proposed(), title=title("Plan", "5"), before=room("living"))
    verbs = group(sheet, "rooms/living/rugs/wool", "I-FURN-N")
    assert [v for v in verbs if isinstance(v, Text)] == []


def test_before_and_after_share_one_scale() -> None:
    """The two views stand side by side at one scale and do not overlap."""
    sheet = before_after_sheet(room("living"), proposed(), title=title("Before and after", "6"), notes=NOTES)
    left, right = sheet.views
    assert left.frame.scale == right.frame.scale
    assert left.frame.origin[1] == pytest.approx(right.frame.origin[1])
    edge = left.frame(room("living").outline.bounds[2], 0)[0]
    assert edge < right.frame(0, 0)[0]
    assert {"As found", "As proposed"} <= {v.text for v in sheet.margin if isinstance(v, Text)}
    marks = [v for v in sheet.margin if isinstance(v, Arc) and v.pen]
    assert len(marks) == 2 * 2 + 2  # two hazards, two faults


def test_a_phone_sheet_grows_with_its_notes() -> None:
    """On a narrow sheet the notes stand below, by number, without leaders, and none is left out."""
    sheet = plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES, paper="phone")
    short = plan_sheet(room("living"), title=title("Plan", "2"), notes=NOTES[:1], paper="phone")
    assert sheet.paper.width == 90.0
    assert sheet.paper.height > short.paper.height
    assert sheet.left == ()
    numbers = [v for v in sheet.margin if isinstance(v, Text) and v.font == "strong" and v.ink == "pencil"]
    below = [v for v in numbers if v.at[0] < 9.0]
    assert [v.text for v in below] == [str(n.number) for n in NOTES]
    assert all(a.at[1] < b.at[1] for a, b in pairwise(below))


@pytest.mark.parametrize("page", ["letter portrait", "A4", "tabloid", "phone"])
def test_long_names_do_not_burst_the_strip(page: str) -> None:
    """However long job, room and view are called, the strip's words stand apart and within the paper."""
    long = TitleInfo(
        "A house of many rooms on a hill above the river, second commission",
        "Drawing room with the bay and the chimney breast",
        "Plan as found, after the second visit",
        "2026-11-24",
        "C",
        "12",
    )
    sheet = plan_sheet(room("bath"), title=long, paper=page)
    boxes = [_text_box(v) for v in sheet.strip if isinstance(v, Text)]
    assert not any(a.intersection(b).area > 1e-6 for a, b in combinations(boxes, 2))
    assert all(box(0, 0, sheet.paper.width, sheet.paper.height).contains(b) for b in boxes)


def test_a_name_without_a_place_becomes_a_number() -> None:
    """On a drawing too small for its names each thing is still told: in place or in the key."""
    sheet = plan_sheet(room("bedroom"), title=title("Plan", "3"), scale="1:200", units="metric", paper="A4")
    words = [v.text for v in sheet.verbs if isinstance(v, Text)]
    assert "Key" in words
    for piece in room("bedroom").pieces.values():
        if piece.model.name:
            assert piece.name in words or any(w.startswith(piece.name.split(" ")[0]) for w in words)
