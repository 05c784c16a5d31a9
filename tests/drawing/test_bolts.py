"""Bolts drawn to scale: cuts where the plan has them, rows broken between cuts, ticks at the repeat."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from halfdrop.drawing.bolts import DrawnBolt, DrawnCut, bolt_figures
from halfdrop.drawing.figure import Figure
from halfdrop.drawing.verbs import Area, Begin, Line


def _bolt(lengths: list[float], gaps: list[float], *, repeat: float = 0.0, width: float = 1.37) -> DrawnBolt:
    at, cuts = 0.0, []
    for n, (gap, length) in enumerate(zip(gaps, lengths, strict=True), 1):
        at += gap
        cuts.append(
            DrawnCut(
                n,
                f"rooms/r/treatments/t{n}",
                ("Pair, 1",),
                at,
                at + length,
                f"{at:.2f}",
                ((0.0, width),),
                at + 0.1,
            )
        )
        at += length
    return DrawnBolt(
        "Print, bolt", "fabrics/print", width, at + 0.05, "all", tuple(cuts), repeat, 0.2, bool(repeat)
    )


def _boxes(figure: Figure) -> list[tuple[float, float, float, float]]:
    """Return left, right, top, bottom of each piece, in order [mm]."""
    found, inside = [], False
    for verb in figure.verbs:
        if isinstance(verb, Begin):
            inside = verb.layer == "I-CLTH-CUTS"
        elif isinstance(verb, Area) and inside and verb.fill == "paper":
            xs, ys = [p[0] for p in verb.rings[0]], [p[1] for p in verb.rings[0]]
            found.append((min(xs), max(xs), min(ys), max(ys)))
    return found


@given(
    st.lists(st.tuples(st.floats(0.0, 0.6), st.floats(0.3, 3.4)), min_size=1, max_size=24),
    st.sampled_from(["imperial", "metric"]),
)
@settings(max_examples=60, deadline=None)
def test_every_cut_is_drawn_once_and_whole_to_scale(pieces: list[tuple[float, float]], units: str) -> None:
    """Each cut stands in one row of one figure, as long as it is at that scale, inside the page."""
    bolt = _bolt([p[1] for p in pieces], [p[0] for p in pieces])
    figures = bolt_figures(bolt, units)  # type: ignore[arg-type]
    boxes = [(b, f) for f in figures for b in _boxes(f)]
    assert len(boxes) == len(pieces)
    for ((left, right, top, bottom), figure), cut in zip(boxes, bolt.cuts, strict=True):
        assert figure.scale is not None
        assert right - left == pytest.approx((cut.end - cut.start) * 1000 * figure.scale.ratio, abs=1e-6)
        assert left >= -1e-6
        assert right <= figure.width + 1e-6
        assert 0 <= top < bottom <= figure.height


def test_a_half_drop_cloth_has_a_short_tick_between_two_long_ones() -> None:
    """The pattern's ticks stand a half repeat apart, long at the motif line and short between."""
    (figure,) = bolt_figures(_bolt([2.0], [0.0], repeat=0.64), "metric")
    ticks = [v for v in figure.verbs if isinstance(v, Line) and v.pen == "medium" and v.ink == "slate"]
    assert figure.scale is not None
    tops = sorted(
        (v.points[0][0], abs(v.points[1][1] - v.points[0][1]))
        for v in ticks
        if v.points[0][1] < v.points[1][1]
    )
    steps = [b[0] - a[0] for a, b in itertools.pairwise(tops)]
    assert steps == pytest.approx([0.32 * 1000 * figure.scale.ratio] * len(steps))
    longs = [long for _, long in tops]
    assert all(a != b for a, b in itertools.pairwise(longs))


def test_pieces_parted_across_the_cloth_lie_side_by_side() -> None:
    """A width that is split between two panels is drawn as two pieces that share the cloth."""
    cut = DrawnCut(1, "rooms/r/treatments/t", ("Pair, 3",), 0.0, 2.0, "0", ((0.0, 0.685), (0.685, 1.37)))
    (figure,) = bolt_figures(DrawnBolt("Print", "fabrics/p", 1.37, 2.0, "2", (cut,)), "metric")
    first, second = _boxes(figure)
    assert first[3] == pytest.approx(second[2])
    assert first[:2] == second[:2]


def test_the_drawing_says_what_each_cut_is_for() -> None:
    """Groups carry the path of the thing, so that a page finds it; no name runs out of its piece."""
    bolt = _bolt([2.7, 0.12], [0.0, 0.0])
    text = bolt_figures(bolt, "imperial")[0].svg()
    assert re.findall(r'data-path="(rooms[^"]+)"', text) == ["rooms/r/treatments/t1", "rooms/r/treatments/t2"]
    assert (
        text.count("Pair, 1") == 1
    )  # the second is too narrow for its name: its number and the list have it
