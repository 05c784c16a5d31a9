"""Walls drawn with their strips: numbers, plumb line and pattern where the paper has them."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfdrop.drawing.strips import common_scale, unfolded_figure, wall_figure
from halfdrop.drawing.verbs import Area, Begin, Dimension, Text
from halfdrop.services.jobs import open_job
from halfdrop.services.trade_sheets import counts_of
from halfdrop.services.trade_strips import hanging_order, paper_walls, plumb_of
from halfdrop.services.trade_words import Say

JOB = """\
halfdrop: 1
job: {name: Papered, units: metric}
practice: {set: metric}
papers: {leaf: {name: Leaf, roll: EN 233, repeat: 64 cm, match: half-drop}}
rooms:
  den:
    name: Den
    use: {living: true}
    survey:
      corners: CORNERS
      walls: {AB: 4 m, BC: 3 m, CD: 4 m, DA: 3 m}
      ties: {AC: 5 m, BD: 5 m}
      heights: {A: 2.5 m, B: 2.6 m, C: 2.6 m, D: 2.5 m}
    openings:
      door: {kind: door, wall: AB, along: 0.4 m, width: 0.9 m, height: 2 m, hinge: A, opens: in}
      window: {kind: window, wall: CD, along: 1.2 m, width: 1.2 m, height: 1.3 m, sill: 0.8 m}
    finishes: {paper: {on: walls, paper: leaf}}
"""


def _room(tmp_path: Path):  # type: ignore[no-untyped-def]
    path = tmp_path / "job.yaml"
    path.write_text(JOB.replace("CORNERS", "A B C D"), encoding="utf-8")
    counts = counts_of(open_job(path))
    finish = counts.finishes[0]["leaf"][0]
    return (
        counts,
        counts.rooms["den"],
        finish,
        paper_walls(counts.rooms["den"], counts.job.papers["leaf"], finish, Say("metric")),
    )


def test_the_strips_of_a_wall_cover_it_edge_to_edge(tmp_path: Path) -> None:
    """On each wall the strips stand side by side from corner to corner, and overlap nowhere."""
    _, _, _, walls = _room(tmp_path)
    assert {w.name for w in walls} == {"AB", "BC", "CD", "DA"}
    for wall in walls:
        assert wall.strips[0].left == pytest.approx(0.0, abs=1e-6)
        assert wall.strips[-1].right == pytest.approx(wall.length, abs=1e-6)
        for a, b in zip(wall.strips, wall.strips[1:], strict=False):
            assert a.right == pytest.approx(b.left, abs=1e-6)


def test_a_wall_is_drawn_as_one_who_faces_it_sees_it(tmp_path: Path) -> None:
    """A room walked counterclockwise: facing AB from inside, corner B is at the left, and the door near A at the right."""
    _, _, _, walls = _room(tmp_path)
    wall = next(w for w in walls if w.name == "AB")
    assert wall.corners == ("B", "A")
    (door,) = wall.holes
    assert (door.left, door.right) == pytest.approx((4.0 - 1.3, 4.0 - 0.4), abs=2e-3)
    assert wall.heights == (2.6, 2.5)


def test_neighboring_strips_of_half_drop_are_half_a_repeat_apart(tmp_path: Path) -> None:
    """The marks drawn on two strips that hang side by side differ by half a repeat, as the match wants."""
    _, _, finish, walls = _room(tmp_path)
    by_order = {n: i for i, n in hanging_order(finish.runs[0]).items()}
    for wall in walls:
        for a, b in zip(wall.strips, wall.strips[1:], strict=False):
            if a.mark is None or b.mark is None or abs(by_order[a.order] - by_order[b.order]) != 1:
                continue
            apart = (a.mark - b.mark) % 0.64
            assert min(apart, 0.64 - apart) == pytest.approx(0.32, abs=1e-6)


def test_the_plumb_line_is_the_first_strips_edge(tmp_path: Path) -> None:
    """Strip 1 begins at the plumb line; its distance from the nearer corner is on the drawing."""
    _, room, finish, walls = _room(tmp_path)
    plumb = plumb_of(room, finish.runs[0])
    wall = next(w for w in walls if w.plumb is not None)
    assert wall.name == plumb.wall
    first = next(s for s in wall.strips if s.order == 1)
    assert plumb.x == pytest.approx(first.left, abs=1e-6) or plumb.x == pytest.approx(first.right, abs=1e-6)
    figure = wall_figure(wall, common_scale(walls, "metric"))
    said = [v.text for v in figure.verbs if isinstance(v, Dimension)]
    assert f"{round(1000 * plumb.off)} mm" in said


def test_every_number_stands_on_its_strip_and_clear_of_openings(tmp_path: Path) -> None:
    """Numbers in hanging order are lettered on their strips, none on a door or a window."""
    _, _, _, walls = _room(tmp_path)
    scale = common_scale(walls, "metric")
    for wall in walls:
        figure = wall_figure(wall, scale)
        numbers = [v for v in figure.verbs if isinstance(v, Text) and v.font == "strong" and v.text.isdigit()]
        assert {v.text for v in numbers} <= {str(s.order) for s in wall.strips}
        assert len(numbers) >= len(wall.strips) - 2
        holes, inside = [], False
        for verb in figure.verbs:
            if isinstance(verb, Begin):
                inside = "/openings/" in verb.path
            elif inside and isinstance(verb, Area):
                holes.append(verb.rings[0])
        for ring in holes:
            xs, ys = [p[0] for p in ring], [p[1] for p in ring]
            assert not any(min(xs) < v.at[0] < max(xs) and min(ys) < v.at[1] - 1 < max(ys) for v in numbers)


def test_bare_walls_side_by_side_stay_on_the_page(tmp_path: Path) -> None:
    """The painter's walls are at one scale, in rows, inside the page."""
    _counts, room, _, _ = _room(tmp_path)
    from halfdrop.services.trade_strips import drawn_face
    from halfdrop.walls import faces_of

    walls = [drawn_face(room, face, "rooms/den/finishes/paint", Say("metric")) for face in faces_of(room)] * 3
    figure = unfolded_figure(walls, "metric")
    rings = [v.rings[0] for v in figure.verbs if isinstance(v, Area)]
    assert all(
        -1e-6 <= x <= figure.width + 1e-6 and 0 <= y <= figure.height for ring in rings for x, y, *_ in ring
    )
