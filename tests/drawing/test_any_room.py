"""Whatever stands in a room, wherever its notes point, a sheet comes out whole."""

from __future__ import annotations

import copy
import xml.etree.ElementTree as ET
from itertools import combinations
from typing import Any, get_args

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString

from halfdrop.drawing import Note, plan_sheet
from halfdrop.drawing.verbs import Begin, End, Line
from halfdrop.job.model import PieceType
from tests.drawing.rooms import BEDROOM, resolved, title

INCHES = st.integers(2, 130)
PIECES = st.fixed_dictionaries(
    {
        "type": st.sampled_from(get_args(PieceType)),
        "name": st.sampled_from(
            ["Sofa", "The long table by the window", "Ⅻ", "a", "Très long nom à l’ancienne"]
        ),
        "width": INCHES,
        "depth": INCHES,
        "x": st.integers(-60, 200),
        "y": st.integers(-60, 180),
        "turn": st.integers(0, 359),
        "shape": st.sampled_from(["rectangle", "round", "oval"]),
    }
)
NOTES = st.lists(
    st.tuples(
        st.sampled_from(["hazard", "fault", "taste", "plain"]),
        st.text(alphabet="ab cde′″½7\n", max_size=400),
        st.floats(-4, 40),
        st.floats(-4, 9),
        st.booleans(),
    ),
    max_size=14,
)


def _piece(row: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": row["type"],
        "name": row["name"],
        "width": f"{row['width']} in",
        "depth": f"{row['depth']} in",
        "height": "30 in",
        "at": {"x": f"{row['x']} in", "y": f"{row['y']} in"},
        "turn": f"{row['turn']} deg",
        "shape": row["shape"],
    }


@given(st.lists(PIECES, max_size=9), NOTES, st.sampled_from(["tabloid", "letter portrait", "A4", "phone"]))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_sheet_comes_out_whole(
    rows: list[dict[str, Any]], notes: list[tuple[Any, str, float, float, bool]], page: str
) -> None:
    """Groups pair, the SVG parses, every note is marked and told here or handed on, and no leaders cross."""
    data = copy.deepcopy(BEDROOM)
    data["pieces"] = {f"p{k}": _piece(row) for k, row in enumerate(rows)}
    written = tuple(Note(k + 1, g, text, (x, y), d) for k, (g, text, x, y, d) in enumerate(notes))
    sheet = plan_sheet(resolved("any", data), title=title("Plan", "1"), notes=written, paper=page)
    depth = 0
    for verb in sheet.verbs:
        depth += isinstance(verb, Begin) - isinstance(verb, End)
        assert depth >= 0
    assert depth == 0
    ET.fromstring(sheet.svg())
    assert {n.number for n in sheet.left} <= {n.number for n in written}
    lines = [
        LineString(v.points)
        for v in sheet.margin
        if isinstance(v, Line) and v.pen == "hair" and v.ink == "pencil" and len(v.points) > 1
    ]
    assert not any(a.intersects(b) for a, b in combinations(lines, 2))
