"""The installer's elevation: every bracket where it stands, its two numbers beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfdrop.drawing.brackets import bracket_figure
from halfdrop.drawing.elevation import shown_of
from halfdrop.drawing.verbs import Arc, Dimension, Text
from halfdrop.services.jobs import open_job
from halfdrop.services.trade_installer import bracket_places
from halfdrop.services.trade_sheets import counts_of

JOB = """\
halfdrop: 1
job: {name: Brackets, units: metric}
practice: {set: metric}
fabrics: {wool: {name: Wool, kind: heavy, width: 137 cm}}
rooms:
  den:
    name: Den
    use: {living: true}
    survey:
      corners: A B C D
      walls: {AB: 6 m, BC: 4 m, CD: 6 m, DA: 4 m}
      ties: {AC: 7211 mm, BD: 7211 mm}
      heights: {center: 2.6 m}
      level: {A: 0, B: 0, C: 0, D: 3 cm}
    openings: {window: {kind: window, wall: CD, along: 1.5 m, width: 2.4 m, height: 1.4 m, sill: 0.8 m}}
    treatments: {pair: {openings: window, heading: triple pinch, fabric: wool, arrives: true, hardware: {kind: pole, finial: 5 cm}}}
"""


def test_brackets_on_a_floor_that_falls(tmp_path: Path) -> None:
    """Running dimensions start at one corner; the rod is level, so that each height differs by what the floor falls."""
    path = tmp_path / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    counts = counts_of(open_job(path))
    room = counts.rooms["den"]
    shown = shown_of(room, "CD", counts.cloths, counts.practice)
    (hanging,) = shown.hangings
    brackets = bracket_places(counts, shown, hanging, counts.hung(room, "pair").brackets.at)
    drawn = [b for b, _ in brackets]
    assert [corner for _, corner in brackets] == ["D"] * len(brackets)  # one wall: one fixed edge
    figure = bracket_figure(shown, hanging, drawn, "metric")
    assert figure.scale is not None
    mm = 1000 * figure.scale.ratio
    numbers = {
        v.text: v.at[0]
        for v in figure.verbs
        if isinstance(v, Text) and v.font == "strong" and v.ink == "slate"
    }
    assert list(numbers) == [str(n) for n in range(1, len(drawn) + 1)]
    origin = next(
        v.center[0] for v in figure.verbs if isinstance(v, Arc) and v.ink == "graphite" and v.rx == 1.0
    )
    for bracket in drawn:
        off = int(bracket.off.removesuffix(" mm"))
        assert (numbers[str(bracket.number)] - origin) / mm * 1000 == pytest.approx(off, abs=0.6)
        assert bracket.off in [v.text for v in figure.verbs if isinstance(v, Text)]
    heights = [int(b.up.removesuffix(" mm")) for b in drawn]
    fall = (drawn[-1].x - drawn[0].x) / 6.0 * 30
    assert heights[-1] - heights[0] == pytest.approx(fall, abs=1.01)
    ups = [v for v in figure.verbs if isinstance(v, Dimension) and v.turn == -90.0]
    assert {v.text for v in ups} <= {b.up for b in drawn}
    assert ups
