"""A wall with its hooks: each where it is dimensioned, each value once, from either end."""

from __future__ import annotations

import pytest

from halfdrop.audit.art_case import wall_with_art
from halfdrop.drawing.elevation import shown_of
from halfdrop.drawing.figure import Figure
from halfdrop.drawing.hanging import DrawnFrame, DrawnHook, hook_figure
from halfdrop.drawing.verbs import Line, Text
from halfdrop.services.hanging_job import hung_on
from halfdrop.services.trade_art import figure_of
from halfdrop.services.trade_words import Say
from tests.art.walls import FACE, US, at, case_of

HOOKS = [
    DrawnHook("1", 1.0, 1.5, "1000", "1500"),
    DrawnHook("2a", 2.0, 1.5, "2000", "1500"),
    DrawnHook("2b", 2.4, 1.7, "2400", "1700"),
]


def _figure(edge: str = "left", bare: tuple[DrawnFrame, ...] = ()) -> Figure:
    case = case_of({"heron": {**FACE, "at": at("2.2 m")}})
    shown = shown_of(case.room, "CD", {}, US)
    return hook_figure(shown, HOOKS, "metric", edge="right" if edge == "right" else "left", bare=bare)


def _texts(figure: Figure) -> list[str]:
    return [v.text for v in figure.verbs if isinstance(v, Text)]


def test_each_number_stands_once() -> None:
    """Three hooks at two heights: three distances, two heights, three marks."""
    texts = _texts(_figure())
    assert [texts.count(t) for t in ("1000", "2000", "2400", "1500", "1700", "1", "2a", "2b")] == [1] * 8


def test_a_cross_stands_at_each_hook_to_scale() -> None:
    """The crosses of the first two hooks are a meter apart at the figure's scale."""
    figure = _figure()
    assert figure.scale is not None
    crosses = [
        v
        for v in figure.verbs
        if isinstance(v, Line) and v.ink == "slate" and v.points[0][1] == v.points[1][1]
    ]
    xs = sorted((v.points[0][0] + v.points[1][0]) / 2 for v in crosses)
    assert len(xs) == 3
    assert xs[1] - xs[0] == pytest.approx(1000 * figure.scale.ratio, abs=1e-6)


def test_nothing_leaves_the_figure() -> None:
    """Lettering and lines stay on the page, from either end of the wall."""
    for edge in ("left", "right"):
        figure = _figure(edge, (DrawnFrame("3", 4.0, 1.9),))
        assert "3" in _texts(figure)
        for verb in figure.verbs:
            points = verb.points if isinstance(verb, Line) else [verb.at] if isinstance(verb, Text) else []
            assert all(
                -1e-6 <= p[0] <= figure.width + 1e-6 and -1e-6 <= p[1] <= figure.height + 1e-6 for p in points
            )


def test_a_hook_is_drawn_where_its_numbers_say() -> None:
    """Off the corner and over the floor, the drawn hook is the one of the table."""
    case = case_of({"heron": {**FACE, "at": at("2.2 m")}})
    hung = hung_on(case, wall_with_art(case, "CD"))
    figure, rows, tops = figure_of(shown_of(case.room, "CD", {}, US), hung, Say("metric"))
    assert not tops
    assert [(row[2], row[3]) for row in rows] == [("2380 mm", "1790 mm"), ("2620 mm", "1790 mm")]
    assert {"2380 mm", "2620 mm", "1790 mm"} <= set(_texts(figure))
