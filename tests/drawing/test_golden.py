"""Golden drawings, compared as draw verbs.

Each file in `golden/` holds one sheet, a verb to a line. To renew them after a change that was meant:

    HALFDROP_RENEW_GOLDEN=1 .venv/bin/pytest tests/drawing/test_golden.py

then look at the sheets (`halfdrop.drawing.printing.printed(sheet(name), "png")` makes a picture), and at the
difference, before it is kept.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from halfdrop.drawing import Sheet, before_after_sheet, plan_sheet, survey_sheet
from halfdrop.drawing.verbs import from_json, to_json
from tests.drawing.elevation import walls
from tests.drawing.rooms import NOTES, proposed, room, title

GOLDEN = Path(__file__).parent / "golden"
#: Two places nearer than this are one: half the finest pen's width would not show it [mm].
NEAR = 0.02


def sheet(name: str) -> Sheet:
    """Return a sheet by the name of its golden file."""
    if name in walls.NAMES:
        return walls.sheet(name)
    living = room("living")
    if name == "plan-living":
        return plan_sheet(living, title=title("Plan as found", "2"), notes=NOTES)
    if name == "plan-proposed":
        return plan_sheet(proposed(), title=title("Plan as proposed", "5"), before=living)
    if name == "plan-bedroom":
        return plan_sheet(room("bedroom"), title=title("Plan as found", "3", "Bedroom"), paper="letter")
    if name == "plan-bath":
        return plan_sheet(room("bath"), title=title("Plan", "4", "Bath"), paper="A4", units="metric")
    if name == "phone":
        return plan_sheet(living, title=title("Plan as found", "2"), notes=NOTES[:3], paper="phone")
    if name == "before-after":
        return before_after_sheet(living, proposed(), title=title("Before and after", "6"), notes=NOTES)
    return survey_sheet(living, title=title("Survey", "1"))


NAMES = (
    "plan-living",
    "plan-proposed",
    "plan-bedroom",
    "plan-bath",
    "phone",
    "before-after",
    "survey",
    *walls.NAMES,
)


@pytest.mark.parametrize("name", NAMES)
def test_the_sheet_is_as_it_was_signed(name: str) -> None:
    """The verbs of the sheet are those of its golden drawing, places within 0.02 mm."""
    file = GOLDEN / f"{name}.json"
    drawn = to_json(sheet(name).verbs)
    if os.environ.get("HALFDROP_RENEW_GOLDEN"):
        rows = ",\n".join(json.dumps(row, ensure_ascii=False, sort_keys=True) for row in drawn)
        file.write_text(f"[\n{rows}\n]\n", encoding="utf-8")
    signed = json.loads(file.read_text(encoding="utf-8"))
    assert len(drawn) == len(signed)
    different = [(k, a, b) for k, (a, b) in enumerate(zip(signed, drawn, strict=True)) if not same(a, b)]
    assert different[:3] == []


@pytest.mark.parametrize("name", NAMES)
def test_golden_drawings_are_whole(name: str) -> None:
    """A golden file reads back as verbs, and its groups open and close in pairs."""
    verbs = from_json(json.loads((GOLDEN / f"{name}.json").read_text(encoding="utf-8")))
    depth = 0
    for verb in verbs:
        depth += {"Begin": 1, "End": -1}.get(type(verb).__name__, 0)
        assert depth >= 0
    assert depth == 0


def same(a: Any, b: Any) -> bool:
    """Return whether two JSON values are the same, numbers within `NEAR`."""
    if isinstance(a, bool) or isinstance(b, bool) or isinstance(a, str) or a is None:
        return bool(a == b)
    if isinstance(a, int | float):
        return isinstance(b, int | float) and abs(a - b) <= NEAR
    if isinstance(a, list):
        return isinstance(b, list) and len(a) == len(b) and all(map(same, a, b))
    return bool(a.keys() == b.keys()) and all(same(a[k], b[k]) for k in a)


def test_a_move_of_a_twentieth_millimetre_is_seen() -> None:
    """The comparison sees a place that moved, a word that changed, and a verb of another kind."""
    row = {"verb": "line", "points": [[1.0, 2.0], [3.0, 4.0]], "pen": "hair"}
    assert same(row, {"verb": "line", "points": [[1.01, 2.0], [3.0, 4.0]], "pen": "hair"})
    assert not same(row, {"verb": "line", "points": [[1.05, 2.0], [3.0, 4.0]], "pen": "hair"})
    assert not same(row, {"verb": "line", "points": [[1.0, 2.0]], "pen": "hair"})
    assert not same(row, {"verb": "line", "points": [[1.0, 2.0], [3.0, 4.0]], "pen": "thin"})
    assert not same(row, {"verb": "line", "points": [[1.0, 2.0], [3.0, 4.0]]})
